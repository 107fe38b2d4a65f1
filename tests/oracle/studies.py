#!/usr/bin/env python3
"""Compares every study of the demo shop with the same figures worked out by hand.

    python3 tests/oracle/studies.py GROAT [PART ...]

fernhollow.py states the shop a second time. Here its prices and sweeps are worked out from it and
held against what the command answers as CSV and as JSON: every cell, in order. A JSON amount is compared exactly, a CSV amount as its rounded text.
"""

import csv
import io
import json
import os
import random
import subprocess
import sys
import tempfile
from fractions import Fraction
from math import gcd

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
sys.dont_write_bytecode = True

import fernhollow  # noqa: E402
from fernhollow import RULES, SHEET, Shop  # noqa: E402
from oracle import decimals, exact, percent, plain  # noqa: E402

TIMEOUT = 60
SEED, RANDOM = 20, 6      # of the random rates; how many sets of them
TAKINGS = "fees tax keep cost profit margin take_home".split()

# How a column's amount stands in CSV; in JSON it is exact.
MONEY = lambda x: decimals(x, 2)            # noqa: E731
RATIO = lambda x: decimals(x, 4)            # noqa: E731
PLAIN = plain
WHOLE = str


class Note(tuple):
    """The notes that a row must have, and no other, in any order."""


# Asking. ---------------------------------------------------------------------------------------

class Command:
    def __init__(self, groat):
        self.groat, self.cells, self.runs = groat, 0, 0

    def run(self, *arguments):
        self.runs += 1
        return subprocess.run([self.groat] + list(arguments), capture_output=True, text=True,
                              encoding="utf-8", errors="replace", timeout=TIMEOUT)


def amount(text):
    """The exact amount of a JSON text; a text that is not in its lowest terms is a fault."""
    top, bar, bottom = text.partition("/")
    if bar and gcd(int(top), int(bottom)) != 1:
        raise ValueError("%s is not in lowest terms" % text)
    return exact(text)


def csv_fault(kind, want, got):
    if isinstance(want, Note):
        return notes_fault(want, got)
    text = "" if want is None else want if kind is None else kind(want)
    return None if got == text else "expected %r answered %r" % (text, got)


def json_fault(kind, want, got):
    if isinstance(want, Note):
        return notes_fault(want, got)
    if want is None or got is None or kind is None:
        same = got == want
    elif isinstance(got, str):
        same = kind is not WHOLE and amount(got) == want
    else:
        same = kind is WHOLE and got == want
    return None if same else "expected %s answered %r" % (want, got)


def notes_fault(want, said):
    """Each note must be there, and nothing beside them. said: one text, or a list of notes."""
    rest = said if isinstance(said, str) else "; ".join(said)
    for words in want:
        before, found, after = rest.partition(words)
        if not found:
            return "expected %r answered %r" % (words, said)
        rest = before + after
    return "answered %r, of which %r was not expected" % (said, rest) if rest.strip("; ") else None


def compare(command, arguments, columns, rows, status=None):
    """Every difference between the rows and both answers. columns: (name, kind), kind None: text."""
    found = []
    names = [name for name, _ in columns]
    for form in ("csv", "json"):
        run = command.run(*arguments, "--format", form)
        if run.returncode not in (0, 1) or not run.stdout:
            return found + ["%s: exit status %d; standard error was:\n      %s" % (
                form, run.returncode, "\n      ".join(run.stderr.splitlines()[:12]))]
        if status is not None and run.returncode != status:
            found.append("%s: exit status %d, expected %d" % (form, run.returncode, status))
        if form == "csv":
            lines = list(csv.reader(io.StringIO(run.stdout)))
            heading, answers = lines[0], [dict(zip(lines[0], line)) for line in lines[1:]]
            fault = csv_fault
        else:
            answers = json.loads(run.stdout)
            heading = list(answers[0]) if answers else names
            fault = json_fault
        if heading != names:
            found.append("%s: columns expected %s\n      answered %s"
                         % (form, ",".join(names), ",".join(heading)))
            continue
        if len(answers) != len(rows):
            found.append("%s: expected %d rows, %d came" % (form, len(rows), len(answers)))
        for number, (want, got) in enumerate(zip(rows, answers), 1):
            for (name, kind), cell in zip(columns, want):
                command.cells += 1
                wrong = fault(kind, cell, got[name])
                if wrong:
                    found.append("%s row %d (%s): %s %s" % (
                        form, number, ", ".join(map(str, want[:3])), name, wrong))
    return found


def sets(changes):
    """--set for each (rate, text, value)."""
    return [word for name, text, _ in changes for word in ("--set", "%s=%s" % (name, text))]


# Random rates. ---------------------------------------------------------------------------------

def random_changes(chance):
    """One to four rates, each with a new value or so many percent more or less: (name, text, value)."""
    standing = fernhollow.rates()
    found = []
    for name in chance.sample(sorted(standing), chance.randint(1, 4)):
        tenths = chance.randint(-400, 600)
        moved = standing[name] * (1 + Fraction(tenths, 1000))
        if chance.random() < 0.5:
            sign = "-" if tenths < 0 else "+"
            found.append((name, "%s%d.%d%%" % ((sign,) + divmod(abs(tenths), 10)), moved))
        else:
            value = Fraction(round(moved * 1000), 1000)
            found.append((name, fernhollow.spelled(name, value), value))
    return found


# What the notes of a price say. ----------------------------------------------------------------

def reason(answer):
    """All there is to say of a price; of a refused one, why it is."""
    if answer.refused:
        return Note(["refused: would sell for less than it costs"])
    said = []
    if answer.how == "pin":
        said.append("pinned; the aim would be $" + MONEY(answer.needs))
    if answer.how == "ceiling":
        said.append("held to the ceiling; the aim needs $" + MONEY(answer.needs))
    if answer.warned:
        said.append("leaves less than a tenth of the price")
    return Note(said)


# price: the ground the studies stand on. -------------------------------------------------------

PRICE = ([("product", None), ("channel", None), ("quantity", WHOLE), ("list", MONEY),
          ("price", MONEY)] + [(name, RATIO if name == "margin" else MONEY) for name in TAKINGS]
         + [("earned_per_hour", PLAIN), ("notes", None)])


def price_rows(shop, pieces, quantities):
    for answer in shop.all(pieces, quantities):
        if not answer.refused:
            sale = answer.sale
            yield ([answer.piece.name, answer.place.name, sale.quantity, sale.list, sale.price]
                   + [getattr(sale, name) for name in TAKINGS]
                   + [answer.earned_per_hour, reason(answer)])


def try_price(command):
    pieces = fernhollow.read_sheet()
    chance = random.Random(SEED)
    for changes in [[], [("hourly", "$30 per h", exact(30))]] + [random_changes(chance)
                                                                 for _ in range(RANDOM)]:
        shop = Shop((name, value) for name, _, value in changes)
        yield ("price " + " ".join(sets(changes)),
               compare(command, ["price", RULES, SHEET, "--quantity", "1,5,12"] + sets(changes),
                       PRICE, list(price_rows(shop, pieces, (1, 5, 12)))))


# sweep. ----------------------------------------------------------------------------------------

SWEEP = [("product", None), ("channel", None), ("quantity", WHOLE), ("value", PLAIN),
         ("price", MONEY), ("keep", MONEY), ("profit", MONEY), ("notes", None)]


def sweep_rows(rate, shown, first, last, steps, pieces, quantities, changes=()):
    """Every price at each of the steps. shown: how much one of the rate is in the value column."""
    values = [first + (last - first) * Fraction(step, steps - 1) for step in range(steps)]
    shops = [Shop(dict(changes, **{rate: value})) for value in values]
    for piece in pieces:
        for number, place in enumerate(shops[0].places):
            if place not in shops[0].sells(piece):
                continue
            for quantity in quantities:
                for value, shop in zip(values, shops):
                    answer = shop.price(piece, shop.places[number], quantity)
                    sale = answer.sale
                    amounts = [sale.price, sale.keep, sale.profit]
                    yield [piece.name, place.name, quantity, value * shown] \
                        + ([None] * 3 if answer.refused else amounts) + [reason(answer)]


def try_sweep(command):
    pieces = fernhollow.read_sheet()
    chance = random.Random(SEED + 1)

    def sweep(rate, over, shown, first, last, steps, quantities):
        return ("sweep --over %s=%s --steps %d" % (rate, over, steps), compare(
            command, ["sweep", RULES, SHEET, "--over", "%s=%s" % (rate, over), "--steps",
                      str(steps), "--quantity", ",".join(map(str, quantities))], SWEEP,
            list(sweep_rows(rate, shown, first, last, steps, pieces, quantities))))

    yield sweep("hourly", "$20 per h..$30 per h", 1, Fraction(20), Fraction(30), 11, (1,))
    yield sweep("timber_price", "-20%..+20%", 1, exact("6.40") * percent(80),
                exact("6.40") * percent(120), 6, (1, 5))
    for _ in range(RANDOM):
        rate = chance.choice(sorted(fernhollow.RATES))
        fine = Fraction(round(fernhollow.rates()[rate] * 1000), 10 ** 6)
        first, last = fine * chance.randint(500, 1000), fine * chance.randint(1001, 1700)
        over = "..".join(fernhollow.spelled(rate, end) for end in (first, last))
        yield sweep(rate, over, 100 if over.endswith("%") else 1, first, last,
                    chance.randint(2, 8), (1, 5))


PARTS = {"price": try_price, "sweep": try_sweep}


def main(arguments):
    if not arguments or any(name not in PARTS for name in arguments[1:]):
        sys.exit(__doc__ + "\nParts: " + ", ".join(PARTS))
    fernhollow.check()
    command = Command(arguments[0])
    passed = failed = 0
    for name in arguments[1:] or PARTS:
        for what, found in PARTS[name](command):
            if found:
                failed += 1
                print("%s: %d differences" % (what, len(found)))
                for line in found[:40]:
                    print("    " + line)
            else:
                passed += 1
                print("%s: the same" % what)
    print("%d cells of %d answers compared" % (command.cells, command.runs))
    print("%d passed, %d failed" % (passed, failed))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
