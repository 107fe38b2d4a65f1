"""Holds a sweep to as many runs of `groat price --set` with the same exact value.

    python3 sweep_equal.py GROAT RULES PRODUCTS RATE FROM TO UNIT STEPS

FROM and TO are fractions, and UNIT is written with {} where the number stands: `${} per h`. A value
such as 61/3 is given to --set as an amount per so many units, where the unit ends in `per h`.
"""

import json
import subprocess
import sys
from fractions import Fraction


def run(arguments):
    done = subprocess.run(arguments, stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=300)
    if done.returncode > 1:
        sys.exit(done.stderr.decode())
    return json.loads(done.stdout)["rows"]


def literal(unit, value):
    """The value, exactly."""
    if unit.endswith(" per h"):
        return unit[:-len(" per h")].format(value.numerator) + f" per {value.denominator} h"
    text = unit.format(format(float(value), ".12g"))
    assert Fraction(format(float(value), ".12g")) == value, "this value has no literal"
    return text


def main():
    groat, rules, products, rate, first, last, unit, steps = sys.argv[1:]
    first, last, steps = Fraction(first), Fraction(last), int(steps)
    swept = run([groat, "sweep", rules, products, "--over",
                 f"{rate}={literal(unit, first)}..{literal(unit, last)}", "--steps", str(steps),
                 "--format", "json", "--exact"])
    # The value is per so many hours where the first end is written so; a percentage is a ratio.
    share = 100 if unit.endswith("%") else 1
    found = {}
    for row in swept:
        value = Fraction(row["value"])
        found[row["product"], row["channel"], row["quantity"], value] = row
    assert len(found) == len(swept), "a row comes twice"
    priced = [row for row in swept if row["price"] is not None]
    compared = refused = 0
    for step in range(steps):
        value = (first + (last - first) * step / (steps - 1)) / share
        for row in run([groat, "price", rules, products, "--set",
                        f"{rate}={literal(unit, value * share)}", "--format", "json",
                        "--exact"]):
            other = found.pop((row["product"], row["channel"], row["quantity"], value))
            for name in ("price", "keep", "profit"):
                assert row[name] == other[name], (value, row, other)
            if row["outcome"] == "priced":
                assert row["notes"] == other["notes"], (value, row, other)
                compared += 1
            else:
                assert row["price"] is None and row["notes"], row
                assert other["notes"][0].endswith(row["notes"][0]), (value, row, other)
                refused += 1
    assert not found and compared == len(priced), "a sweep has rows that the runs have not"
    print(f"{compared} prices are the same, {refused} are refused by both")


main()
