#!/usr/bin/env python3
"""Looks for fees that are somebody's: a percentage and a fixed amount that real tariffs pair.

    python3 tests/documents/figures.py [FOLDER]

Fees in this repository are invented. A pair of figures that many readers know from a bill would
pass for a claim about whoever sends that bill, so such a pair may not stand within a few lines of
each other in any text of the tree. The list is short, and from memory.
"""

import os
import re
import sys

HERE = os.path.abspath(__file__)
ROOT = os.path.dirname(os.path.dirname(os.path.dirname(HERE)))

# A percentage of what is paid, and an amount for each order in whatever currency.
PAIRS = [("2.9", "0.30"), ("2.6", "0.15"), ("2.6", "0.10"), ("2.5", "0.20"), ("3.6", "40"),
         ("1.9", "0.25"), ("1.9", "0.35"), ("1.5", "0.25"), ("2.2", "0.30"), ("1.7", "0.10"),
         ("3", "0.30"), ("3", "0.25"), ("2.9", "2.50")]
NEAR = 2        # lines between the two, at most
SKIPPED = {".git", "build", "__pycache__"}


def number(figure):
    """The figure as written with a point or a comma, and no part of a longer number."""
    return r"(?<![\d.,])" + re.escape(figure).replace(r"\.", "[.,]") + r"(?![\d]|[.,]\d)"


def as_percentage(figure):
    """`2.9%`, and `percent("2.9")` as the calculations in Python write it."""
    return re.compile(number(figure) + r" ?%|percent\(\"?" + number(figure) + r"\"?\)")


def as_amount(figure):
    """`$0.30`, `0.30 €`, `exact("0.30")`; without decimals only with its sign."""
    if "." in figure:
        return re.compile(number(figure) + r"(?! ?%)")
    return re.compile("¥" + number(figure) + "|Fraction\\(" + figure + ",")


PATTERNS = [(pair, as_percentage(pair[0]), as_amount(pair[1])) for pair in PAIRS]


def found_in(text):
    """Every forbidden pair of a text, with the line of its percentage."""
    lines = text.splitlines()
    for pair, percentage, amount in PATTERNS:
        for i, line in enumerate(lines):
            if percentage.search(line):
                near = lines[max(0, i - NEAR):i + NEAR + 1]
                if any(amount.search(other) for other in near):
                    yield i + 1, pair


def texts(folder):
    for where, folders, files in os.walk(folder):
        folders[:] = sorted(set(folders) - SKIPPED)
        for name in sorted(files):
            path = os.path.join(where, name)
            if os.path.abspath(path) == HERE or os.path.islink(path):
                continue
            try:
                with open(path, encoding="utf-8") as file:
                    yield os.path.relpath(path, folder), file.read()
            except UnicodeDecodeError:
                pass                            # not a text


def check():
    """What is to be found in made-up texts, and what is not."""
    def pairs(text):
        return [pair for _, pair in found_in(text)]

    assert pairs("fee card = 2.9% of paid + $0.30 per order") == [("2.9", "0.30")]
    assert pairs('percent("2.9") * s.paid\n + exact("0.30")') == [("2.9", "0.30")]
    assert pairs("fee a = 2,5 % of paid\n\nfee b = 0,20 €") == [("2.5", "0.20")]
    assert pairs("fee a = £0.20\nfee b = 2.5% of paid") == [("2.5", "0.20")]
    assert pairs("fee card = 3.6% of paid + ¥40") == [("3.6", "40")]
    assert pairs("fee card = 2.9% of paid\n\n\nrate glue = $0.30") == []
    assert pairs("fee card = 12.9% of paid + $0.30") == []
    assert pairs("fee card = 2.95% of paid + $0.30") == []
    assert pairs("fee card = 2.9% of paid + $0.305") == []
    assert pairs("fee card = 2.9% of paid + $10.30") == []
    assert pairs("fee card = 2.9% of paid, or 0.30% of it") == []
    assert pairs("fee card = 3.7% of paid + $0.23") == []


def main(arguments):
    check()
    found = read = 0
    for name, text in texts(arguments[0] if arguments else ROOT):
        read += 1
        for line, (percentage, amount) in found_in(text):
            found += 1
            print("%s:%d: %s%% beside %s is a real tariff's pair; invent another"
                  % (name, line, percentage, amount))
    if not read:
        sys.exit("no text was read")
    print("%d texts read, %d forbidden pairs" % (read, found))
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
