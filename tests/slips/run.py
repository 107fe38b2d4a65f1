"""Tries how Groat answers slips: small mistakes in rules and sheets, such as makers make.

    run.py GROAT [--count N] [--seed S] [--rule WORDS] [--floor PERCENT] [--list]

Each slip is one edit of a file of rules/, chosen by the seed. `groat price` then reads rules and
sheet, and the slip is put into one of these classes:

    harmless     it reads, and every price is the same
    mended       a message at the right place; its proposal, once followed, reads, and every price
                 is what it was before the slip
    reads        the same, but with other prices
    unmended     a message at the right place, without a proposal, or with one that does not read
    misplaced    the first message is about another place
    silent       it reads, other prices come out, and nothing is said

What is proposed for a whole sheet (save it as CSV, remove line 1) is not done but looked up in a
list of instructions, and counts as mended.

The share is mended and reads, of all that is not harmless. With --floor the exit status is 1 where
it is less."""

import argparse
import collections
import concurrent.futures
import csv
import io
import json
import pathlib
import random
import re
import shutil
import subprocess
import tempfile

import follow
import rules_slips
import sheet_slips

ROOT = pathlib.Path(__file__).resolve().parents[2]
FIGURES = ('channel', 'quantity', 'outcome', 'list', 'price', 'fees', 'tax', 'keep', 'cost')
CLASSES = ('mended', 'reads', 'unmended', 'misplaced', 'silent', 'harmless')
SUMMARY = re.compile(r'\d+ (?:failed|refused)')
FOLLOWED_MOST = 8  # messages about one slip: a name is used in several places


class Shop:
    """A rules file with its sheet, and the file in which slips are made."""

    def __init__(self, rules, sheet, edited=None):
        self.rules, self.sheet, self.edited = rules, sheet, edited or rules
        self.text = (ROOT / self.edited).read_text(encoding='utf-8')
        self.sheet_text = (ROOT / sheet).read_text(encoding='utf-8')


def shops():
    fernhollow = Shop('rules/fernhollow/fernhollow.rules', 'rules/fernhollow/products.csv')
    methods = sorted(ROOT.glob('rules/methods/*.csv'))
    names = [str(path.relative_to(ROOT)) for path in methods]
    found = [fernhollow] + [Shop(name.replace('.csv', '.rules'), name) for name in names]
    metal, stall = 'rules/methods/precious_metal', 'rules/methods/hourly_stall'
    found.append(Shop(metal + '.rules', metal + '.csv', 'rules/methods/day_price.rules'))
    found.append(Shop(stall + '.rules', stall + '.csv', 'rules/ladders.rules'))
    return found


class Answer:
    """What one run of `groat price` said and found."""

    def __init__(self, process, edited):
        self.said = process.stderr
        self.messages = [m for m in follow.messages(self.said)]
        self.errors = [m for m in self.messages if m.kind == 'error']
        self.warnings = [m for m in self.messages if m.kind == 'warning']
        self.rows = [m for m in follow.row_messages(self.said) if not SUMMARY.match(m.text)]
        self.figures = None
        self.edited = edited
        try:
            rows = json.loads(process.stdout)['rows']
            self.figures = [tuple(str(row.get(key)) for key in FIGURES) for row in rows]
            self.failed = [(row['product'], note) for row in rows
                           if row.get('outcome') == 'failed' for note in row.get('notes', [])]
        except (ValueError, AttributeError):
            self.failed = []

    def reads(self):
        return self.figures is not None and not self.errors


class Bench:
    """A folder with the rules, in which one slip at a time is tried."""

    def __init__(self, groat):
        self.groat = str(pathlib.Path(groat).resolve())
        self.folder = tempfile.TemporaryDirectory()
        self.path = pathlib.Path(self.folder.name)
        shutil.copytree(ROOT / 'rules', self.path / 'rules')

    def run(self, shop, edited, content, options=()):
        """Prices the shop with another content of one file; the file is then as before."""
        path = self.path / edited
        before = path.read_bytes()
        path.write_bytes(content if isinstance(content, bytes) else content.encode('utf-8'))
        try:
            process = subprocess.run(
                [self.groat, 'price', shop.rules, shop.sheet, '--format', 'json', *options],
                cwd=self.path, capture_output=True, timeout=120, encoding='utf-8', errors='replace')
        finally:
            path.write_bytes(before)
        return Answer(process, edited)


# ---- slips in rules ----

class RulesSlip:
    def __init__(self, rule, shop, edit):
        self.rule, self.shop = rule, shop
        start, end, new = edit
        self.text = shop.text[:start] + new + shop.text[end:]
        self.lines = rules_slips.right_lines(rules_slips.Text(shop.text), start, end, new)
        self.number = shop.text.count('\n', 0, start) + 1

    def show(self):
        line = self.text.split('\n')[self.number - 1].strip()
        return f'{self.shop.edited}:{self.number}: {line}'

    def is_right(self, message):
        return message.file == self.shop.edited and message.line in self.lines

    def classify(self, bench, right):
        answer = bench.run(self.shop, self.shop.edited, self.text)
        self.answer = answer
        if answer.reads() and answer.figures == right.figures:
            return 'harmless'
        told = answer.errors or answer.warnings
        if answer.reads() and not told:
            texts = [m.text for m in answer.rows] + [note for _, note in answer.failed]
            said = any(f'{self.shop.edited}:{n})' in text for text in texts for n in self.lines)
            if said:
                return 'unmended'
            return 'misplaced' if self.says_more(answer, right) else 'silent'
        if not told or not self.is_right(told[0]):
            return 'misplaced'
        return self.followed(bench, answer, right)

    @staticmethod
    def says_more(answer, right):
        return len(answer.rows) + len(answer.failed) > len(right.rows) + len(right.failed)

    def followed(self, bench, answer, right):
        text = self.text
        for _ in range(FOLLOWED_MOST):
            better = self.step(bench, text, answer, right)
            if not better:
                return 'unmended'
            text, answer = better
            if answer.reads():
                return 'mended' if answer.figures == right.figures else 'reads'
        return 'unmended'

    def step(self, bench, text, answer, right):
        """Follows one message: the text then and what is said of it, where it is said less."""
        told = answer.errors or answer.warnings
        for message in told[:3]:
            if not message.help or not self.is_right(message):
                continue
            best = read = None
            tried = set()
            for start, end, new in follow.edits(text, message):
                changed = text[:start] + new + text[end:]
                if changed in tried or changed == text:
                    continue
                tried.add(changed)
                then = bench.run(self.shop, self.shop.edited, changed)
                if then.reads() and then.figures == right.figures:
                    return changed, then
                count = len(then.warnings)
                less = answer.errors or count < len(answer.warnings)
                if then.reads() and less and (not read or count < len(read[1].warnings)):
                    read = changed, then
                fewer = len(then.errors) < len(answer.errors) and self.moves(message, then)
                if fewer and (not best or len(then.errors) < len(best[1].errors)):
                    best = changed, then
            if read or best:
                return read or best
        return None

    @staticmethod
    def moves(message, then):
        return not any(m.line == message.line and m.column == message.column for m in then.errors)


# ---- slips in sheets ----

def rows_of(text):
    return list(csv.reader(io.StringIO(text)))


def sheet_of(rows):
    return ''.join(','.join(follow.cell_quoted(cell) for cell in row) + '\n' for row in rows)


class CellSlip:
    def __init__(self, rule, shop, edit):
        self.rule, self.shop = rule, shop
        self.row, self.column, self.cell = edit
        self.rows = rows_of(shop.sheet_text)
        self.rows[self.row][self.column] = self.cell

    def show(self):
        head = rows_of(self.shop.sheet_text)[0][self.column]
        return f'{self.shop.sheet}:{self.row + 1}: {head}: {self.cell}'

    def is_right(self, message):
        here = (None, 1) if self.row == 0 else (self.row + 1,)
        return message.file == self.shop.sheet and message.line in here

    def classify(self, bench, right):
        answer = bench.run(self.shop, self.shop.sheet, sheet_of(self.rows))
        self.answer = answer
        if answer.figures == right.figures:
            return 'harmless'
        told = answer.rows + self.notes(answer)
        if not told:
            return 'silent'
        if not any(self.is_right(message) for message in told):
            return 'misplaced'
        verdicts = [self.followed(bench, message, right) for message in told
                    if message.help and self.is_right(message)]
        return min(verdicts, key=CLASSES.index) if verdicts else 'unmended'

    def notes(self, answer):
        """What is said in the list of the rows that failed, as messages about their rows."""
        head = self.rows[0]
        labels = [row[head.index('name')] if 'name' in head else '' for row in self.rows]
        return [follow.Note(self.shop.sheet, labels.index(product) + 1, note)
                for product, note in answer.failed if product in labels]

    def followed(self, bench, message, right):
        best = 'unmended'
        renamed = re.match(r'(.*) instead of (.*)', message.help)
        for help in [renamed[1]] if renamed else follow.alternatives(message.help):
            option = [help] if help.startswith('--') else []
            if 'leave the cell empty' in help or 'empty cell' in help:
                help = ''
            rows = [list(row) for row in self.rows]
            if not option:
                rows[self.row][self.column] = help
            then = bench.run(self.shop, self.shop.sheet, sheet_of(rows),
                             tuple(' '.join(option).split()))
            if then.figures == right.figures:
                return 'mended'
            told = then.rows + self.notes(then)
            if then.figures is not None and not any(self.is_right(m) for m in told):
                best = 'reads'
        return best


class FileSlip:
    # What can be done with a whole file, by what the proposal says.
    MENDS = ('save', 'remove', 'empty', 'close', 'rename', 'quotes', '.tsv', 'heading',
             'put a comma')

    def __init__(self, rule, shop, edit):
        self.rule, self.shop, self.content = rule, shop, edit

    def show(self):
        return self.shop.sheet

    def classify(self, bench, right):
        answer = bench.run(self.shop, self.shop.sheet, self.content)
        self.answer = answer
        if answer.figures == right.figures:
            return 'harmless'
        if not answer.rows:
            return 'silent'
        message = answer.rows[0]
        if message.file != self.shop.sheet:
            return 'misplaced'
        known = message.help and any(words in message.help for words in self.MENDS)
        return 'mended' if known else 'unmended'


# ---- choosing ----

def rules_of(found):
    """Every rule with the slips that it can make; they are made when they are chosen."""
    for name, rule in rules_slips.RULES.items():
        yield name, RulesSlip, [(shop, edit) for shop in found
                                for edit in rule(rules_slips.Text(shop.text))]
    for name, rule in sheet_slips.CELLS.items():
        yield name, CellSlip, [(shop, edit) for shop in found if shop.edited == shop.rules
                               for edit in rule(rows_of(shop.sheet_text))]
    for name, change in sheet_slips.FILES.items():
        yield name, FileSlip, [(shop, change(shop.sheet_text)) for shop in found
                               if shop.edited == shop.rules]


def choose(found, count, seed, words):
    slips = []
    for name, kind, places in rules_of(found):
        if words and words not in name:
            continue
        chance = random.Random(f'{seed} {name}')
        for shop, edit in chance.sample(places, min(count, len(places))):
            slips.append(kind(name, shop, edit))
    return slips


def judge_all(groat, slips, found):
    workers = 2
    benches = [Bench(groat) for _ in range(workers)]
    right = {id(shop): benches[0].run(shop, shop.edited, shop.text) for shop in found}
    shares = [slips[i::workers] for i in range(workers)]

    def judge(pair):
        bench, share = pair
        for each in share:
            each.verdict = each.classify(bench, right[id(each.shop)])

    with concurrent.futures.ThreadPoolExecutor(workers) as pool:
        list(pool.map(judge, zip(benches, shares)))


# ---- reporting ----

def said_first(slip):
    text = slip.answer.said.strip()
    return '\n'.join('        ' + line for line in text.split('\n')[:5]) if text else ''


def report(slips, every):
    by_rule = collections.OrderedDict()
    for slip in slips:
        by_rule.setdefault(slip.rule, collections.Counter())[slip.verdict] += 1
    print(f'{"":42}' + ''.join(f'{name:>10}' for name in CLASSES))
    for rule, counts in by_rule.items():
        print(f'{rule:42}' + ''.join(f'{counts[name] or "":>10}' for name in CLASSES))
    if every:
        for slip in slips:
            if slip.verdict in every.split(','):
                print(f'\n{slip.verdict}: {slip.rule}: {slip.show()}')
                print(said_first(slip))


def main():
    options = argparse.ArgumentParser()
    options.add_argument('groat')
    options.add_argument('--count', type=int, default=3, help='slips of each rule')
    options.add_argument('--seed', type=int, default=1)
    options.add_argument('--rule', default='', help='only rules with these words in their names')
    options.add_argument('--floor', type=float, default=0)
    options.add_argument('--list', default='', help='classes to list: unmended,misplaced,silent')
    given = options.parse_args()
    found = shops()
    slips = choose(found, given.count, given.seed, given.rule)
    judge_all(given.groat, slips, found)
    report(slips, given.list)
    counts = collections.Counter(slip.verdict for slip in slips)
    harmful = len(slips) - counts['harmless']
    good = counts['mended'] + counts['reads']
    share = 100 * good / harmful if harmful else 100
    print(', '.join(f'{counts[name]} {name}' for name in CLASSES))
    print(f'{len(slips)} slips; of {harmful} that matter {share:.1f}% get a message at the right '
          'place with a proposal that reads')
    raise SystemExit(1 if share < given.floor else 0)


main()
