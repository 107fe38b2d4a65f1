"""Reads messages, and follows what stands after `Try:` as somebody would who only reads that.

A proposal is written in place of what the message marks, or of the whole statement, or of its
value, or beside what is marked. Some are instructions; those that can be followed are listed."""

import posixpath
import re

MESSAGE = re.compile(r'^(?P<file>[^\n:]+):(?P<line>\d+):(?P<column>\d+): (?P<kind>error|warning): '
                     r'(?P<text>[^\n]*)\n    (?P<source>[^\n]*)\n    (?P<marks>[ \t]*\^+)\n'
                     r'(?:Try: (?P<help>[^\n]*)\n)?', re.M)
ROW = re.compile(r'^(?P<file>[^\n: ]+\.(?:csv|tsv|json))(?::(?P<line>\d+))?(?::\d+)?:? '
                 r'(?P<text>[^\n]*)\n'
                 r'(?:Try: (?P<help>[^\n]*)\n)?', re.M)


def like(text):
    """`no row for "oak " but one for "oak"` proposes it."""
    near = re.search(r' but one for "(.*?)"', text)
    return near[1] if near else None


class Note:
    """A note of a row in the list of prices."""

    def __init__(self, file, line, text):
        self.file, self.line, self.text, self.help, self.kind = file, line, text, like(text), 'row'


class Message:
    def __init__(self, match):
        self.file, self.text = posixpath.normpath(match['file']), match['text']
        self.line = int(match['line']) if match['line'] else None
        self.help = match['help']
        column = re.search(r'no column (?:"(.+?)" for|for (\S+?),).* Is it the column "(.*)"\?',
                           self.text)
        self.help = self.help or like(self.text)
        if not self.help and column:
            self.help = f'{column[1] or column[2]} instead of {column[3]}'
        self.kind = match.groupdict().get('kind', 'row')
        if self.kind != 'row':
            self.column = int(match['column'])
            self.span = match['marks'].count('^')


def messages(text):
    return [Message(match) for match in MESSAGE.finditer(text)]


def row_messages(text):
    return [Message(match) for match in ROW.finditer(MESSAGE.sub('', text))]


# ---- rules ----

def alternatives(help):
    """`a, or b` is two proposals."""
    found = [help.removeprefix('for example ')]
    for joint in ('; or ', ', or ', ' or '):
        if joint in help:
            found += help.split(joint)
    return found


def code_end(line):
    """Where a line's comment begins, without the spaces before it."""
    quoted = False
    for at, sign in enumerate(line):
        quoted ^= sign == '"'
        if sign == '#' and not quoted:
            return len(line[:at].rstrip())
    return len(line.rstrip())


def instructions(text, help, start, end, stop):
    """Edits for proposals that say what to do."""
    close = re.match(r'close it with ([)"}])', help)
    if help.startswith('begin the block with {'):
        yield stop, stop, ' {'
    elif close and close[1] == '}':
        yield stop, stop, ' }'
        at = start
        for _ in range(60):
            at = text.find('\n', at) + 1
            if at == 0:
                break
            yield at, at, '}\n'
        yield len(text), len(text), '\n}\n'
    elif close:
        for at in range(stop, start, -1):
            yield at, at, close[1]
    elif re.match(r'(remove|leave) (it|this|them)', help):
        yield start, end, ''
    elif help.startswith(('an ordinary space', 'a space')):
        yield start, end, ' '
    elif help.startswith('a straight quote'):
        yield start, end, '"'
    elif re.match(r'(straight|double) quotes', help):
        yield start, end, '"' + text[start:end].strip('“”\'„`') + '"'
    elif help.startswith('put the sum in parentheses'):
        for at in range(stop, end, -1):
            yield start, at, '(' + text[start:at] + ')'


def edits(text, message):
    """The ways to follow a message about rules, the likeliest first."""
    lines = text.split('\n')
    begin = sum(len(line) + 1 for line in lines[:message.line - 1])
    line = lines[message.line - 1]
    start = min(begin + message.column - 1, begin + len(line))
    end = min(start + message.span, begin + len(line))
    stop = begin + code_end(line)
    stop = max(stop, start)
    head = begin + len(line) - len(line.lstrip())
    inner_head, inner_stop = head, stop
    for sign in '{;':
        at = text.rfind(sign, head, start)
        if at >= 0:
            inner_head = max(inner_head, at + 1 + len(text[at + 1:]) - len(text[at + 1:].lstrip()))
    for sign in '};':
        at = text.find(sign, start, stop)
        if at >= 0:
            inner_stop = min(inner_stop, len(text[:at].rstrip()))
    for sign in ('=', ':'):
        at = text.find(sign, inner_head, start + 1)
        value = at + 1 if at >= 0 else None
        if value:
            break
    for help in alternatives(message.help):
        yield from instructions(text, help, start, end, stop)
        yield start, end, help
        yield head, stop, help
        yield inner_head, max(inner_stop, inner_head), help
        yield start, stop, help
        if value:
            yield value, stop, ' ' + help
        yield start, start, help + ' '
        yield end, end, ' ' + help


# ---- sheets ----

def cell_quoted(cell):
    return '"' + cell.replace('"', '""') + '"' if re.search(r'[",;\n\t]', cell) else cell
