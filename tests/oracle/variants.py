"""The demo shop with something changed: its rates by chance, its rules, its sheet."""

import csv
import os
import re
import shutil
from fractions import Fraction

from fernhollow import RULES, rates, read_sheet, spelled


def random_changes(chance):
    """One to four rates, each with a new value or a change in percent: (name, text, value)."""
    standing = rates()
    found = []
    for name in chance.sample(sorted(standing), chance.randint(1, 4)):
        tenths = chance.randint(-400, 600)
        moved = standing[name] * (1 + Fraction(tenths, 1000))
        if chance.random() < 0.5:
            sign = "-" if tenths < 0 else "+"
            found.append((name, "%s%d.%d%%" % ((sign,) + divmod(abs(tenths), 10)), moved))
        else:
            value = Fraction(round(moved * 1000), 1000)
            found.append((name, spelled(name, value), value))
    return found


def changed_rules(folder, *changes):
    """A copy of the shop's rules with other words in them, whatever spaces stand between them.

    changes are (old, new) pairs; each old one must be there once.
    """
    with open(RULES, encoding="utf-8") as file:
        text = file.read()
    for old, new in changes:
        words = r"\s+".join(re.escape(word) for word in old.split())
        assert len(re.findall(words, text)) == 1, old
        text = re.sub(words, lambda match: new, text)
    os.makedirs(os.path.join(folder, "changed"), exist_ok=True)
    shutil.copy(os.path.join(os.path.dirname(RULES), "..", "ladders.rules"), folder)
    path = os.path.join(folder, "changed", "changed.rules")
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return path


def changed_sheet(folder, column, cells):
    """A copy of the sheet with one more column, or with other cells in one it has."""
    rows = [dict(piece.cells, **{column: cell})
            for piece, cell in zip(read_sheet(), cells)]
    path = os.path.join(folder, "changed.csv")
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    return path
