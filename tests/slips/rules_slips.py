"""Slips in rules files. A slip is one edit at one place, such as makers make.

Each rule is a function that takes a Rules text and yields edits (start, end, new text)."""

import re

RULES = {}


def slip(function):
    RULES[function.__name__] = function
    return function


class Text:
    """A rules file with its code told apart from comments and quoted texts."""

    def __init__(self, text):
        self.text = text
        code, quotes, at = [], [], 0
        for piece in re.finditer(r'#[^\n]*|"(?:\\.|[^"\\\n])*"', text):
            code.append((at, piece.start()))
            if piece.group().startswith('"'):
                quotes.append(piece.span())
            at = piece.end()
        code.append((at, len(text)))
        self.code, self.quotes = code, quotes
        # What an expect holds is a check of the prices and not a part of them.
        self.checks = [m.span() for m in re.finditer(r'^expect .*?^\}', text, re.M | re.S)]

    def is_check(self, at):
        return any(start <= at < end for start, end in self.checks)

    def find(self, pattern, group=0):
        """Matches that lie in the code, outside of expects."""
        compiled = re.compile(pattern)
        for start, end in self.code:
            for match in compiled.finditer(self.text, start, end):
                if not self.is_check(match.start()):
                    yield match

    def words(self, least=1):
        for match in self.find(r'(?<![\w$€.])[A-Za-z_]\w*(?![\w(])'):
            if len(match.group()) >= least:
                yield match


def replaced(pattern, new):
    def edits(text):
        for match in text.find(pattern):
            made = match.expand(new) if isinstance(new, str) else new(match)
            yield match.start(), match.end(), made
    return edits


# (name, what is found, what is written instead)
TABLE = [
    # signs that are left out
    ('percent sign left out', r'(?<=\d)%', ''),
    ('unit left out', r'(?<=\d) (?:min|h|kg|g|bf|in|ft|sqin|l|ml|m|sqft|kW|ozt|sheet|blank)\b', ''),
    ('what it is per left out', r'(?<=\d) per (?!order)[a-zA-Z]+\b', ''),
    ('per order left out', r' per order\b', ''),
    ('currency sign left out', r'[$€](?=\d)', ''),
    ('opening brace left out', r' ?\{', ''),
    ('closing brace left out', r'\}', ''),
    ('opening parenthesis left out', r'\(', ''),
    ('closing parenthesis left out', r'\)', ''),
    ('colon left out', r' :', ''),
    ('equals sign left out', r'(?<=[\w ])=(?= [^=])', ''),
    ('operator left out', r'(?<=\w) [*/+-](?= [\w(])', ''),
    ('comma left out', r',(?= )', ''),
    # one sign for another
    ('equals sign for a colon', r' :', ' ='),
    ('colon for an equals sign', r'(?<=[\w ])=(?= [^=])', ':'),
    ('two equals signs', r'(?<=[\w ])=(?= [^=])', '=='),
    ('colon and equals sign', r'(?<=[\w ])=(?= [^=])', ':='),
    ('arrow for at least', r'>=', '=>'),
    ('sign for at least', r'>=', '≥'),
    ('typographic minus', r'(?<= )-(?= )', '–'),
    ('times sign', r'(?<= )\*(?= )', '×'),
    ('letter x for times', r'(?<= )\*(?= )', 'x'),
    ('division sign', r'(?<= )/(?= )', '÷'),
    ('square brackets', r'\{', '['),
    ('parenthesis for a brace', r'\{', '('),
    ('slashes begin a comment', None, None),
    # numbers
    ('decimal comma', r'(?<=\d)\.(?=\d)', ','),
    ('comma for thousands', r'(?<![\d.])(\d{1,3})_?(\d{3})\b', r'\1,\2'),
    ('point for thousands', r'(?<![\d.])(\d{1,3})_?(\d{3})\b', r'\1.\2'),
    ('space for thousands', r'(?<![\d.])(\d{1,3})_?(\d{3})\b', r'\1 \2'),
    ('percent in words', r'(?<=\d)%', ' percent'),
    ('space before the percent sign', r'(?<=\d)%', ' %'),
    ('sign of the currency behind', r'([$€])([\d.]*\d)', r'\2\1'),
    ('space behind the currency sign', r'([$€])(?=\d)', r'\1 '),
    ('code before the amount', r'\$(?=\d)', 'USD '),
    ('currency in words', r'\$([\d.]*\d)(?![\d.]| per)', r'\1 dollars'),
    ('another currency', r'[$€](?=\d)', '£'),
    # units
    ('unit in words', r'(?<=\d) (min|h|kg|g|in|l|m)\b', lambda m: ' ' + LONG[m.group(1)]),
    ('unit per in words', r'(?<=per )(min|h|kg|g|in|l|m|ozt)\b', lambda m: LONG[m.group(1)]),
    ('slash for per', r'(?<=\d) per (?=(h|bf|kg|l|m|ozt|sqin|kWh)\b)', '/'),
    ('an hour', r' per (h)\b', ' an hour'),
    ('inches as a quote', r'(?<=\d) in\b', '"'),
    ('square feet in words', r'\bsqft\b', 'sq ft'),
    ('square inches in words', r'\bsqin\b', 'square inches'),
    # typing on a phone or in a word processor
    ('curly quotes', None, None),
    ('quote left out', None, None),
    ('single quotes', None, None),
    ('no quotes', None, None),
    ('space that does not break', r'(?<=\S) (?=\S)', ' '),
    ('capital letter', r'(?<![\w$€.])[a-z](?=\w{2,})', lambda m: m.group().upper()),
    # names
    ('space in a name', r'(?<=[a-z])_(?=[a-z])', ' '),
    ('hyphen in a name', r'(?<=[a-z])_(?=[a-z])', '-'),
    # words that people use instead
    ('under for below', r'\bbelow\b', 'under'),
    ('less than for below', r'\bbelow\b', 'less than'),
    ('sign for below', r'\bbelow\b', '<'),
    ('to for up to', r'\bup to\b', 'to'),
    ('sign for up to', r'\bup to\b', '<='),
    ('and over for or more', r'\bor more\b', 'and over'),
    ('plus for or more', r' or more\b', '+'),
    ('else for otherwise', r'\botherwise\b', 'else'),
    ('default for otherwise', r'\botherwise\b', 'default'),
    ('if for when', r'\bwhen\b', 'if'),
    ('where for when', r'\bwhen\b', 'where'),
    ('at least for the sign', r'>=', 'at least'),
    ('of for the sign', r' >=', ' of'),
    ('no sign', r' >=', ''),
    ('max for at most', r'\bat most\b', 'max'),
    ('no more than for at most', r'\bat most\b', 'no more than'),
    ('each for per order', r'\bper order\b', 'an order'),
    ('per sale', r'\bper order\b', 'per sale'),
    ('with for and', r'\band\b', '&'),
    ('comma for and', r' and\b', ','),
    ('plus markup', r'\bmarked up\b', 'plus'),
    ('marked up by', r'\bmarked up\b', 'marked up by'),
    ('tax before the rate', r'\btax\s+(added|included) ([\w%]+)', r'tax \2 \1'),
    ('VAT for tax', r'\btax(?=\s+(?:added|included))', 'vat'),
    ('tax with an equals sign', r'\btax\s+(added|included) ', 'tax = '),
    ('target for aim', r'\baim\b', 'target'),
    ('minimum for floor', r'\bfloor\b', 'minimum'),
    ('maximum for ceiling', r'\bceiling\b', 'maximum'),
    ('rounded for round', r'\bround\b(?=\s+(?:up|to))', 'rounded'),
    ('round to the next', r'\bround\s+up to\b', 'round up to the next'),
    ('wages for pay', r'\bpay\b', 'wage'),
    ('share of nothing', r'(?<=%) of \w+', ''),
    ('number for count', r'\bcount\b', 'integer'),
    ('string for text', r'\btext\b(?= *\n)', 'string'),
    ('default in a field', r'(?<=  )=(?= \S+ *(?:#|\n))', 'default'),
    ('needed in a field', r'\boptional\b', 'maybe'),
]

LONG = {'min': 'minutes', 'h': 'hour', 'kg': 'kilo', 'g': 'grams', 'in': 'inches', 'l': 'litre',
        'm': 'metres', 'ozt': 'ounce'}

for name, pattern, new in TABLE:
    if pattern:
        RULES[name] = replaced(pattern, new)


def of_quotes(change):
    def edits(text):
        for start, end in text.quotes:
            if not text.is_check(start):
                yield start, end, change(text.text[start + 1:end - 1])
    return edits


RULES['curly quotes'] = of_quotes(lambda inside: '“' + inside + '”')
RULES['quote left out'] = of_quotes(lambda inside: '"' + inside)
RULES['first quote left out'] = of_quotes(lambda inside: inside + '"')
RULES['single quotes'] = of_quotes(lambda inside: "'" + inside + "'")
RULES['no quotes'] = of_quotes(lambda inside: inside)


def slashes(text):
    for match in re.finditer(r'#', text.text):
        if not text.is_check(match.start()):
            yield match.start(), match.end(), '//'


RULES['slashes begin a comment'] = slashes


def two_words(text):
    """Two adjacent words with the spaces between them."""
    for match in text.find(r'(?<![\w$€.%])([a-z_]\w*)( +)(?=([a-z_]\w*)(?![\w(]))'):
        yield match


def swapped_words(text):
    for match in two_words(text):
        end = match.end() + len(match.group(3))
        yield match.start(), end, match.group(3) + match.group(2) + match.group(1)


def word_left_out(text):
    for match in text.find(r'(?<![\w$€.%])[a-z_]\w*(?![\w(]) ?'):
        yield match.start(), match.end(), ''


def word_twice(text):
    for match in text.words(2):
        yield match.start(), match.end(), match.group() + ' ' + match.group()


def letter_left_out(text):
    for match in text.words(4):
        for at in range(1, len(match.group())):
            yield match.start() + at, match.start() + at + 1, ''


def letter_doubled(text):
    for match in text.words(4):
        for at in range(0, len(match.group())):
            yield match.start() + at, match.start() + at, match.group()[at]


def letters_swapped(text):
    for match in text.words(4):
        word = match.group()
        for at in range(0, len(word) - 1):
            if word[at] != word[at + 1]:
                yield match.start() + at, match.start() + at + 2, word[at + 1] + word[at]


def lines_joined(text):
    for match in text.find(r'(?<=[^\s{}])(?<!,) *\n *(?=[a-z])'):
        if '#' in text.text[text.text.rfind('\n', 0, match.start()) + 1:match.start()]:
            continue
        yield match.start(), match.end(), ' '


RULES.update({'two words swapped': swapped_words, 'word left out': word_left_out,
              'word written twice': word_twice, 'letter left out': letter_left_out,
              'letter doubled': letter_doubled, 'letters swapped': letters_swapped,
              'line end left out': lines_joined})


def right_lines(text, start, end, new):
    """The lines at which a message about the edit is at the right place.

    That is the line of the edit. A brace has two places, and so has a name: where it is defined
    and where it is used."""
    line = text.text.count('\n', 0, start)
    lines = {line, line + 1} if '\n' in text.text[start:end] else {line}
    if set('{}[(') & set(text.text[start:end] + new) - {'('} or text.text[start:end] in '{}':
        depth_start = text.text.rfind('\n\n', 0, start)
        for match in re.finditer(r'^[a-z].*\{[^\n]*\n(?:.*\n)*?\}', text.text, re.M):
            if match.start() <= start < match.end():
                first = text.text.count('\n', 0, match.start())
                lines |= set(range(first, first + match.group().count('\n') + 1))
    for match in re.finditer(r'[A-Za-z_]\w*', text.text):
        if match.start() <= start <= match.end() and end <= match.end():
            for other in re.finditer(r'\b%s\b' % re.escape(match.group()), text.text):
                if is_definition(text.text, match) or is_definition(text.text, other):
                    if is_definition(text.text, match):
                        lines.add(text.text.count('\n', 0, other.start()))
    return {number + 1 for number in lines}


def is_definition(text, match):
    """Whether the word is the name that its line gives to something."""
    head = text[text.rfind('\n', 0, match.start()) + 1:match.start()]
    words = 'rate|let|cost|pay|fee|buyer pays|table|rounding|show|channel|unit'
    return re.fullmatch(rf'\s*(?:(?:{words})\s+)?', head) is not None
