"""Asking the command, and holding its CSV and its JSON against rows worked out by hand.

A row is a list of cells: texts, whole numbers, exact amounts (fractions), None for nothing, and a
Note for the notes. A column is (name, kind), and its kind says how CSV writes the amount: in JSON
amounts are exact.
"""

import csv
import io
import json
import subprocess
from fractions import Fraction
from math import gcd

from oracle import decimals, exact, plain

TIMEOUT = 60

class Figure:
    """How the amounts of a column are written: a function for CSV, and the decimals in JSON."""

    def __init__(self, csv_text, places, unit):
        self.csv_text, self.places, self.unit = csv_text, places, unit

    def __call__(self, amount):
        return self.csv_text(amount)

    def json_text(self, amount):
        return decimals(amount, self.places)


# Whole cents, other money, shares, other numbers, and whole numbers, which JSON has as numbers.
COINS = Figure(lambda x: decimals(x, 2), 2, "USD")
MONEY = Figure(lambda x: decimals(x, 2), 8, "USD")
RATIO = Figure(lambda x: decimals(x, 4), 10, "ratio")
PLAIN = Figure(plain, 10, None)
PART = Figure(plain, 10, "ratio")
WHOLE = str


class Near:
    """An amount that the command has to so many digits only; CSV rounds it to six places."""

    def __init__(self, allowed, unit):
        self.allowed, self.unit = exact(allowed), unit

    def fault(self, want, got, more=Fraction(0)):
        if got is not None and got != "" and abs(exact(got) - want) <= self.allowed + more:
            return None
        return "expected about %s answered %r" % (decimals(want, 9), got)


# A price that was read unrounded, and a share of one.
FINE, SHARE = Near("0.0000001", "USD"), Near("0.00000001", "ratio")


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
    """The exact amount of a JSON text; None where it is none, or is not in its lowest terms."""
    top, bar, bottom = text.partition("/")
    try:
        return None if bar and gcd(int(top), int(bottom)) != 1 else exact(text)
    except (ValueError, ZeroDivisionError):
        return None


def csv_fault(kind, want, got):
    if isinstance(want, Note):
        return notes_fault(want, got)
    if isinstance(kind, Near):
        return kind.fault(want, got, exact("0.0000005"))
    text = "" if want is None else want if kind is None else kind(want)
    return None if got == text else "expected %r answered %r" % (text, got)


def json_fault(kind, want, got, whole=True):
    """whole: JSON was asked for all of every amount, with --exact."""
    if isinstance(want, Note):
        return notes_fault(want, got)
    if isinstance(kind, Near):
        return kind.fault(want, got)
    if want is None or got is None or kind is None:
        same = got == want
    elif isinstance(got, str) and not whole:
        same = kind is not WHOLE and got == kind.json_text(want)
        want = kind.json_text(want) if kind is not WHOLE else want
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


def compare(command, arguments, columns, rows, summary=None):
    """Every difference between the rows and both answers. columns: (name, kind); None: text."""
    found = []
    names = [name for name, _ in columns]
    for form, options in (("csv", []), ("json", []), ("json", ["--exact"])):
        run = command.run(*arguments, "--format", form, *options)
        if run.returncode not in (0, 1) or not run.stdout:
            return found + ["%s: exit status %d; standard error was:\n      %s" % (
                form, run.returncode, "\n      ".join(run.stderr.splitlines()[:12]))]
        if form == "csv":
            lines = list(csv.reader(io.StringIO(run.stdout)))
            heading, answers = lines[0], [dict(zip(lines[0], line)) for line in lines[1:]]
            fault = csv_fault
        else:
            whole = bool(options)
            answer = json.loads(run.stdout)
            found += header_faults(columns, answer, summary)
            if summary is not None:
                found += summary_faults(summary, answer["summary"], whole)
            answers = answer["rows"]
            heading = list(answers[0]) if answers else names
            fault = lambda kind, want, got: json_fault(kind, want, got, whole)  # noqa: E731
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


def header_faults(columns, answer, summary):
    """What stands before the rows: the currency, the date, and a unit for each amount."""
    keys = ["currency", "decimals", "as_of", "units", "rows"] + ["summary"] * (summary is not None)
    head = [answer.get(key) for key in keys[:3]]
    found = [] if list(answer) == keys else ["header: keys " + ", ".join(answer)]
    if head != ["USD", 2, None]:
        found.append("header: answered %s" % head)
    units, amounts = answer["units"], [name for name, kind in columns if kind is not None]
    if list(units) != amounts:
        found.append("units: expected of %s answered of %s" % (amounts, list(units)))
    for name, kind in columns:
        unit = "number" if kind is WHOLE else getattr(kind, "unit", None)
        unit = "pieces" if name == "quantity" else unit
        if unit is not None and units.get(name) != unit:
            found.append("unit of %s: expected %s answered %s" % (name, unit, units.get(name)))
    return found


def summary_faults(want, got, whole):
    """What is told once, below the rows: names with whole numbers, amounts, or a row."""
    found = [] if list(got) == list(want) else ["summary: names %s" % ", ".join(got)]
    for name in want:
        cell, said = want[name], got.get(name)
        if isinstance(cell, list):
            said = list(said.values()) if said else said
            # The share is the last of the amounts.
            same = said is not None and len(said) == len(cell) and all(
                json_fault(WHOLE if isinstance(one, int) else None if isinstance(one, str)
                           else RATIO if at == len(cell) - 1 else COINS, one, other, whole) is None
                for at, (one, other) in enumerate(zip(cell, said)))
        else:
            kind = RATIO if name.endswith("percent") else MONEY
            same = json_fault(kind if isinstance(cell, Fraction) else WHOLE, cell, said,
                              whole) is None
        if not same:
            found.append("summary: %s expected %s answered %r" % (name, cell, said))
    return found


def sets(changes):
    """--set for each (rate, text, value)."""
    return [word for name, text, _ in changes for word in ("--set", "%s=%s" % (name, text))]
