"""Slips in sheets: what spreadsheets, word processors and people make of a cell or of a file.

Each rule takes the rows of a sheet (lists of cells, headings first) and yields edits
(row, column, new cell), or for a whole file a function from its text to its bytes."""

import re

CELLS, FILES = {}, {}

NUMBER = r'\d+(?:\.\d+)?'
UNIT_WORDS = {'min': 'minutes', 'h': 'hours', 'kg': 'kilos', 'g': 'grams', 'in': 'inches',
              'bf': 'board feet', 'ft': 'feet', 'cm': 'centimetres', 'ml': 'mls', 'm': 'metres'}


def money(change):
    return lambda cell: re.sub(r'^([$€])(%s)$' % NUMBER, lambda m: change(*m.groups()), cell)


def number(change):
    return lambda cell: re.sub(r'^(%s)$' % NUMBER, lambda m: change(m.group()), cell)


def anywhere(pattern, new):
    return lambda cell: re.sub(pattern, new, cell, count=1)


def hours(cell, form):
    match = re.fullmatch(r'(\d+) h (\d+) min', cell)
    return form.format(match[1], int(match[2])) if match else cell


CELL_TABLE = {
    'space behind the currency sign': money(lambda s, n: f'{s} {n}'),
    'currency sign behind': money(lambda s, n: f'{n}{s}'),
    'currency sign behind, after a space': money(lambda s, n: f'{n} {s}'),
    'code before': money(lambda s, n: ('USD ' if s == '$' else 'EUR ') + n),
    'currency in words': money(lambda s, n: n + (' dollars' if s == '$' else ' euros')),
    'currency sign left out': money(lambda s, n: n),
    'another currency': money(lambda s, n: '£' + n),
    'decimal comma in money': money(lambda s, n: s + f'{float(n):.2f}'.replace('.', ',')),
    'decimal comma, sign behind': money(lambda s, n: f'{float(n):.2f} {s}'.replace('.', ',')),
    'US$': money(lambda s, n: 'US' + s + n),
    'dash for no cents': money(lambda s, n: s + re.sub(r'(\.00)?$', '.-', n, count=1)
                               if '.' not in n or n.endswith('.00') else s + n),
    'about': lambda c: '~' + c if re.match(r'[$€\d]', c) else c,
    'about in words': lambda c: 'ca. ' + c if re.match(r'[$€\d]', c) else c,
    'question mark': lambda c: c + '?' if re.match(r'[$€\d]', c) else c,
    'bracketed': lambda c: '(' + c + ')' if re.match(r'[$€\d]', c) else c,
    'range with a dash': money(lambda s, n: f'{s}{n}-{s}{float(n) + 1:g}'),
    'range with a long dash': number(lambda n: f'{n}–{float(n) + 1:g}'),
    'decimal comma': anywhere(r'(?<=\d)\.(?=\d)', ','),
    'number in words': number(lambda n: 'six' if n == '6' else n),
    'pieces': number(lambda n: n + ' pcs' if n in ('1', '12', '30') else n),
    'formula': number(lambda n: '=' + n + '*2'),
    'apostrophe before a number': number(lambda n: "'" + n),
    'exponent': number(lambda n: f'{float(n):.1E}'),
    'decimals of a spreadsheet': number(lambda n: f'{float(n):.2f}'),
    'error of a spreadsheet': lambda c: '#N/A' if re.match(r'[$€\d]', c) else c,
    'reference of a spreadsheet': lambda c: '#REF!' if re.match(r'[$€\d]', c) else c,
    'date of a spreadsheet': number(lambda n: '4-Mar'),
    'percent sign left out': anywhere(r'(?<=\d)%$', ''),
    'space before the percent sign': anywhere(r'(?<=\d)%$', ' %'),
    'percent in words': anywhere(r'(?<=\d)%$', ' percent'),
    'percent as a part of one': lambda c: re.sub(r'^(\d+(?:\.\d+)?)%$',
                                                 lambda m: f'{float(m[1]) / 100:g}', c),
    'decimals in a percentage': lambda c: re.sub(r'^(\d+)%$', r'\1.00%', c),
    'unit in words': anywhere(r'\b(min|h|kg|g|in|bf|ft|cm|ml)$', lambda m: UNIT_WORDS[m[1]]),
    'unit with a point': anywhere(r'\b(min|h|kg|g|in|bf|ft|cm)$', r'\1.'),
    'unit in capitals': anywhere(r'\b(min|h|kg|g|in|bf|ft|cm)$', lambda m: m[1].upper()),
    'no space before the unit': anywhere(r'(?<=\d) (?=(min|h|kg|g|in|bf|ft|cm)$)', ''),
    'clock': lambda c: hours(c, '{}:{:02d}'),
    'clock with seconds': lambda c: hours(c, '{}:{:02d}:00'),
    'hours with an h': lambda c: hours(c, '{}h{:02d}'),
    'hours in words': lambda c: hours(c, '{} hours {} minutes'),
    'hours and minutes': lambda c: hours(c, '{} h and {} min'),
    'one and a half': anywhere(r'^1 h 30 min$', '1½ h'),
    'inches as a quote': anywhere(r' in$', '"'),
    'fraction': number(lambda n: n + ' 1/2'),
    'fraction with a quote': number(lambda n: n + '-1/2"'),
    'fraction sign': number(lambda n: '½'),
    'bare fraction': number(lambda n: '3/4'),
    'space before': lambda c: '  ' + c if c else c,
    'space behind': lambda c: c + ' ' if c else c,
    'space that does not break': lambda c: c.replace(' ', ' ') if ' ' in c else c,
    'nothing as a dash': lambda c: '-' if not c else c,
    'nothing as n/a': lambda c: 'n/a' if not c else c,
    'nothing as nil': lambda c: 'none' if not c else c,
    'nothing as a space': lambda c: ' ' if not c else c,
    'nothing as a word': lambda c: 'tbd' if not c else c,
    'curly quotes': lambda c: '“' + c + '”' if c else c,
    'plus in parts left out': anywhere(r' \+ ', ' '),
    'comma between parts': anywhere(r' \+ ', '; '),
    'and between parts': anywhere(r' \+ ', ' and '),
    'number of parts first': anywhere(r'^([a-z_]+) (\d+(?: [a-z]+)?)', r'\2 \1'),
    'times between parts': anywhere(r'^([a-z_]+) (\d+)$', r'\1 x \2'),
    'unit of a part left out': anywhere(r'^([a-z_]+ [\d.]+) (?:g|ml|m|kg)\b', r'\1'),
    'part misspelt': anywhere(r'^([a-z_]+)([a-z])([a-z]) ', r'\1\3\2 '),
    'capital of a part': anywhere(r'^[a-z](?=[a-z_]+ \d)', lambda m: m[0].upper()),
    'number of parts left out': anywhere(r'^([a-z_]+) \d+(?: [a-z]+)?', r'\1'),
    'yes as a letter': lambda c: {'yes': 'y', 'no': 'n'}.get(c, c),
    'yes as a word': lambda c: {'yes': 'Yes', 'no': 'No'}.get(c, c),
    'yes as a tick': lambda c: {'yes': '✓', 'no': '✗'}.get(c, c),
    'yes as an x': lambda c: {'yes': 'x'}.get(c, c),
    'yes misspelt': lambda c: {'yes': 'yse', 'no': 'on'}.get(c, c),
    'text in capitals': lambda c: c.upper() if re.fullmatch(r'silver|gold', c) else c,
    'text misspelt': lambda c: {'silver': 'sliver', 'gold': 'glod'}.get(c, c),
    'minus sign': lambda c: '-' + c if re.match(r'[$€\d]', c) else c,
    'letter for a digit': anywhere(r'(?<=\d)0', 'O'),
    'two points': anywhere(r'(?<=\d)\.(?=\d)', '..'),
    'unit of another kind': lambda c: re.sub(r'^(\d+) min$', r'\1 g', c),
}


def of_cells(change):
    def edits(rows):
        labels = rows[0].index('name')
        for r, row in enumerate(rows[1:], 1):
            for c, cell in enumerate(row):
                new = change(cell) if c != labels else cell
                if new != cell:
                    yield r, c, new
    return edits


for name, change in CELL_TABLE.items():
    CELLS['cell: ' + name] = of_cells(change)


def of_headings(change):
    def edits(rows):
        for c, cell in enumerate(rows[0]):
            new = change(cell)
            if new != cell and new not in rows[0]:
                yield 0, c, new
    return edits


for name, change in {
        'letter left out': lambda c: c[:2] + c[3:] if len(c) > 3 else c,
        'letters swapped': lambda c: c[:1] + c[2] + c[1] + c[3:] if len(c) > 3 else c,
        'capital letter': lambda c: c.capitalize(),
        'space behind': lambda c: c + ' ',
        'space for an underscore': lambda c: c.replace('_', ' '),
        'underscore for a space': lambda c: c.replace(' ', '_'),
        'space that does not break': lambda c: c.replace(' ', ' '),
        'unit in brackets': lambda c: c + ' (min)',
        'plural': lambda c: c + 's',
        'a synonym': lambda c: {'bench': 'labour', 'bits': 'materials', 'work': 'hours'}.get(c, c),
        'curly quotes': lambda c: '“' + c + '”'}.items():
    CELLS['heading: ' + name] = of_headings(change)


def encoded(encoding):
    return lambda text: text.encode(encoding, 'replace')


def per_line(change):
    return lambda text: ''.join(change(i, line) for i, line in
                                enumerate(text.splitlines(keepends=True))).encode()


FILES = {
    'file: byte-order mark': lambda text: b'\xef\xbb\xbf' + text.encode(),
    'file: UTF-16': encoded('utf-16'),
    'file: Latin-1': lambda text: text.replace('$', '£').encode('latin-1', 'replace'),
    'file: carriage returns': lambda text: text.replace('\n', '\r\n').encode(),
    'file: tabs for commas': lambda text: text.replace(',', '\t').encode(),
    'file: semicolons for commas': lambda text: text.replace(',', ';').encode(),
    'file: bars for commas': lambda text: text.replace(',', '|').encode(),
    'file: a title above': lambda text: ('My products\n' + text).encode(),
    'file: a title and a blank line above': lambda text: ('My products\n\n' + text).encode(),
    'file: blank lines above': lambda text: ('\n\n' + text).encode(),
    'file: a total below': lambda text: (text + 'Total,12,34\n').encode(),
    'file: blank lines below': lambda text: (text + '\n,,,\n').encode(),
    'file: a comma more on each line': per_line(lambda i, line: line.rstrip('\n') + ',\n'),
    'file: a comma more on one line': per_line(
        lambda i, line: line.rstrip('\n') + (',\n' if i == 2 else '\n')),
    'file: a quote not closed': per_line(
        lambda i, line: re.sub(r',([^,]+)(?=,|$)', r',"\1', line, count=1) if i == 1 else line),
    'file: an unquoted decimal comma': per_line(
        lambda i, line: re.sub(r'(\d)\.(\d)', r'\1,\2', line, count=1) if i >= 1 else line),
    'file: no headings': per_line(lambda i, line: '' if i == 0 else line),
    'file: headings twice': per_line(lambda i, line: line * 2 if i == 0 else line),
    'file: a column twice': per_line(
        lambda i, line: (line.rstrip('\n') + ',' +
                         (line.split(',')[1].strip() if i == 0 else '') + '\n')),
    'file: a column left out': per_line(
        lambda i, line: line.rstrip('\n').rpartition(',')[0] + '\n'),
    'file: spaces behind the commas': lambda text: text.replace(',', ', ').encode(),
    'file: a spreadsheet': lambda text: b'PK\x03\x04\x14\x00\x06\x00' + text.encode('utf-16'),
    'file: a rich text': lambda text: (
        r'{\rtf1\ansi ' + text.replace('\n', '\\par\n') + '}').encode(),
    'file: a web page': lambda text: (
        '<html><body><table>' + text + '</table></body></html>').encode(),
}
