#!/usr/bin/env python3
"""Compares price lists with tests/oracle's expected.csv as they stand.

    python3 tests/mutation/lists.py GROAT

tests/oracle/run.py works each of them out again, which takes long; whether the engine still agrees
with them is seen without.
"""

import os
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.join(os.path.dirname(HERE), "oracle"))
sys.dont_write_bytecode = True

import run  # noqa: E402


def main(groat):
    for name in run.names([]):
        module = run.load(name)
        with open(run.path(name, "expected.csv"), encoding="utf-8", newline="") as file:
            expected = file.read()
        answer = run.ask(groat, run.path(name, name + ".rules"), run.path(name, "products.csv"),
                         module.QUANTITIES, getattr(module, "OPTIONS", ()))
        found = run.compare(expected, answer.stdout)
        if answer.returncode not in (0, 1) or found:
            print("%s: %s" % (name, (found or ["exit status %d" % answer.returncode])[0]))
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
