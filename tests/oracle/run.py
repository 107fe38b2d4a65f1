#!/usr/bin/env python3
"""Compares the engine's price lists with the same methods computed by hand.

    python3 tests/oracle/run.py GROAT [SCENARIO ...]    compare
    python3 tests/oracle/run.py --write [SCENARIO ...]  write every expected.csv anew

Each folder of scenarios/ holds a rules file, products.csv, a Python module of the folder's name
and expected.csv, which the module computes. The module states QUANTITIES, SHOWS and rows().
The notes column is left out: its words are not part of the comparison.
"""

import csv
import importlib.util
import io
import os
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE)
sys.dont_write_bytecode = True

import oracle  # noqa: E402

SCENARIOS = os.path.join(HERE, "scenarios")
KEY = ("product", "channel", "quantity")
TIMEOUT = 60


def names(wanted):
    found = sorted(n for n in os.listdir(SCENARIOS) if os.path.isdir(os.path.join(SCENARIOS, n)))
    unknown = [n for n in wanted if n not in found]
    if unknown:
        sys.exit("no such scenario: " + ", ".join(unknown))
    return wanted or found


def path(name, ending):
    return os.path.join(SCENARIOS, name, ending)


def load(name):
    spec = importlib.util.spec_from_file_location("scenario_" + name, path(name, name + ".py"))
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def keyed(text):
    """The heading, and the rows by product, channel and quantity; a repeated key is reported."""
    lines = list(csv.reader(io.StringIO(text)))
    heading = lines[0] if lines else []
    table, twice = {}, []
    for cells in lines[1:]:
        line = dict(zip(heading, cells))
        key = tuple(line.get(k, "") for k in KEY)
        if key in table or len(cells) != len(heading):
            twice.append(key)
        table[key] = line
    return heading, table, twice


def compare(expected, answered):
    """Every difference between two price lists, in words."""
    want_heading, want, _ = keyed(expected)
    got_heading, got, twice = keyed(answered)
    found = ["row %s: given twice, or with a wrong number of cells" % (key,) for key in twice]
    if got_heading[-1:] == ["notes"]:
        got_heading = got_heading[:-1]
    else:
        found.append("heading: the last column is not `notes`")
    if got_heading != want_heading:
        found.append("heading: expected %s\n         answered %s"
                     % (",".join(want_heading), ",".join(got_heading)))
    for key in want:
        where = "%s on %s, quantity %s" % key
        if key not in got:
            found.append("%s: expected a row, none came (expected price %s)"
                         % (where, want[key]["price"]))
            continue
        wrong = ["%s expected %r answered %r" % (c, want[key][c], got[key].get(c))
                 for c in want_heading if want[key][c] != got[key].get(c)]
        if wrong:
            found.append(where + ": " + "; ".join(wrong))
    for key in got:
        if key not in want:
            found.append("%s on %s, quantity %s: no row expected, one came (price %s)"
                         % (key + (got[key].get("price"),)))
    return found


def ask(groat, rules, products, quantities, more=()):
    command = [groat, "price", rules, products, "--format", "csv",
               "--quantity", ",".join(map(str, quantities))] + list(more)
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8",
                          errors="replace", timeout=TIMEOUT)


def try_scenario(groat, name):
    module = load(name)
    expected = oracle.sheet_text(module.SHOWS, module.rows())
    with open(path(name, "expected.csv"), encoding="utf-8", newline="") as file:
        if file.read() != expected:
            return ["expected.csv is not what %s.py computes; run with --write" % name]
    try:
        run = ask(groat, path(name, name + ".rules"), path(name, "products.csv"),
                  module.QUANTITIES, getattr(module, "OPTIONS", ()))
    except subprocess.TimeoutExpired:
        return ["no answer within %d seconds" % TIMEOUT]
    found = []
    if run.returncode not in (0, 1):
        found.append("exit status %d" % run.returncode)
    if not run.stdout:
        found.append("nothing on standard output")
    else:
        found += compare(expected, run.stdout)
    if found and run.stderr:
        found.append("standard error was:\n      " + "\n      ".join(run.stderr.splitlines()[:30]))
    return found


def write(wanted):
    for name in names(wanted):
        module = load(name)
        text = oracle.sheet_text(module.SHOWS, module.rows())
        with open(path(name, "expected.csv"), "w", encoding="utf-8", newline="") as file:
            file.write(text)
        print("%s: %d rows" % (name, text.count("\n") - 1))


def main(arguments):
    if not arguments:
        sys.exit(__doc__)
    oracle.check()
    if arguments[0] == "--write":
        write(arguments[1:])
        return 0
    passed = failed = 0
    for name in names(arguments[1:]):
        found = try_scenario(arguments[0], name)
        if found:
            failed += 1
            print("%s: %d differences" % (name, len(found)))
            for line in found:
                print("    " + line)
        else:
            passed += 1
            print("%s: the same" % name)
    print("%d passed, %d failed" % (passed, failed))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
