#!/usr/bin/env python3
"""Compares every study of the demo shop with the same figures worked out by hand.

    python3 tests/oracle/studies.py GROAT [PART ...]

fernhollow.py states the shop a second time. Here its prices, sweeps, ranks, earnings and goals are
worked out from it and held against what the command answers as CSV and as JSON: every cell, in
order. A JSON amount is compared exactly, a CSV amount as its rounded text.
"""

import csv
import io
import json
import os
import random
import shutil
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


def changed_rules(folder, *changes):
    """A copy of the shop's rules with other words in them: (old, new) pairs, each old one once."""
    with open(RULES, encoding="utf-8") as file:
        text = file.read()
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    os.makedirs(os.path.join(folder, "changed"), exist_ok=True)
    shutil.copy(os.path.join(os.path.dirname(RULES), "..", "ladders.rules"), folder)
    path = os.path.join(folder, "changed", "changed.rules")
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return path


def changed_sheet(folder, column, cells):
    """A copy of the sheet with one more column, or with other cells in one it has."""
    rows = [dict(piece.cells, **{column: cell})
            for piece, cell in zip(fernhollow.read_sheet(), cells)]
    path = os.path.join(folder, "changed.csv")
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    return path


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


# rank. -----------------------------------------------------------------------------------------

def rank_columns(by, kind):
    own = [("profit", MONEY), ("margin", RATIO), ("take_home", MONEY)]
    return ([("product", None), ("place", WHOLE), ("channel", None), ("quantity", WHOLE),
             ("price", MONEY), ("keep", MONEY)] + own
            + ([] if by in dict(own) else [(by, kind)]) + [("gap", kind), ("notes", None)])


def worth(answer, by):
    return answer.earned_per_hour if by == "earned_per_hour" else getattr(answer.sale, by)


def rank_rows(shop, pieces, quantities, by):
    """Best first; then what is held to its ceiling; then what is refused, which has no place."""
    def order(answer):
        if answer.refused:
            return 2, 0
        return 1 if answer.how == "ceiling" else 0, -worth(answer, by)

    for piece in pieces:
        for quantity in quantities:
            answers = sorted(shop.all([piece], (quantity,)), key=order)
            for index, answer in enumerate(answers):
                sale, value = answer.sale, worth(answer, by)
                cells = [sale.price, sale.keep, sale.profit, sale.margin, sale.take_home]
                if by not in ("profit", "margin", "take_home"):
                    cells.append(value)
                if answer.refused:
                    place, cells, gap = None, [None] * len(cells), None
                else:
                    equal = [order(other) for other in answers].index(order(answer))
                    place, gap = equal + 1, worth(answers[0], by) - value
                yield ([piece.name, place, answer.place.name, quantity] + cells
                       + [gap, reason(answer)])


def try_rank(command):
    pieces = fernhollow.read_sheet()
    chance = random.Random(SEED + 2)
    for changes in [[], [("hourly", "$33 per h", Fraction(33))], random_changes(chance)]:
        shop = Shop((name, value) for name, _, value in changes)
        for by, kind in (("profit", MONEY), ("earned_per_hour", PLAIN), ("margin", RATIO),
                         ("fees", MONEY)):
            options = ([] if by == "profit" else ["--by", by]) + sets(changes)
            yield ("rank " + " ".join(options), compare(
                command, ["rank", RULES, SHEET, "--quantity", "1,5"] + options,
                rank_columns(by, kind), list(rank_rows(shop, pieces, (1, 5), by))))
    # Ceilings under which some channels of a product meet the aim and others do not.
    with tempfile.TemporaryDirectory() as folder:
        highs = ["43", "", "", "", "22", "115", "", "", "22", "", "50", "$93"]
        sheet = changed_sheet(folder, "dearest seen", highs)
        yield "rank, some held to a ceiling", compare(
            command, ["rank", RULES, sheet], rank_columns("profit", MONEY),
            list(rank_rows(Shop(), fernhollow.read_sheet(sheet), (1,), "profit")))


# earn. -----------------------------------------------------------------------------------------

EARN = ([("product", None), ("channel", None), ("quantity", WHOLE), ("at", MONEY)]
        + [(name, RATIO if name == "margin" else MONEY) for name in TAKINGS]
        + [("earned_per_hour", PLAIN), ("no_loss", MONEY), ("floor", MONEY), ("ceiling", MONEY),
           ("position", RATIO), ("notes", None)])


def earn_rows(shop, pieces, quantities, at):
    """What a price leaves. at: a function of the piece; None where it has no price."""
    for piece in pieces:
        for place in shop.sells(piece):
            for quantity in quantities:
                price = at(piece)
                if price is None:
                    continue
                sale = place.channel.sale(piece, quantity, price)
                notes = ["the aim holds" if shop.aims(piece, place, price)
                         else "the aim does not hold"]
                if sale.profit < 0:
                    notes.append("refused: would sell for less than it costs")
                if sale.margin is not None and sale.margin < percent(10):
                    notes.append("leaves less than a tenth of the price")
                ceiling = place.ceiling(piece)
                yield ([piece.name, place.name, quantity, price]
                       + [getattr(sale, name) for name in TAKINGS]
                       + [sale.take_home / piece.hands_on,
                          fernhollow.without_loss(piece, place, quantity), piece.low, ceiling,
                          fernhollow.position(piece, price, ceiling), Note(notes)])


def try_earn(command):
    pieces = fernhollow.read_sheet()
    yield "earn --at $45", compare(
        command, ["earn", RULES, SHEET, "--at", "$45", "--quantity", "1,5"], EARN,
        list(earn_rows(Shop(), pieces, (1, 5), lambda piece: Fraction(45))))
    with tempfile.TemporaryDirectory() as folder:
        asked = ["$39.50", "58", "119.00", "$199.99", "", "112.12", "10.79", "$312.50", "17.49",
                 "95", "51.99", "312.35"]
        sheet = changed_sheet(folder, "asking", asked)
        changes = [("hourly", "$21 per h", Fraction(21))]
        yield "earn --at asking --set hourly", compare(
            command, ["earn", RULES, sheet, "--at", "asking"] + sets(changes), EARN,
            list(earn_rows(Shop({"hourly": Fraction(21)}), fernhollow.read_sheet(sheet), (1,),
                           lambda piece: fernhollow.money(piece.cells["asking"]))))


# goals. ----------------------------------------------------------------------------------------

GOALS = [("goal", None), ("product", None), ("channel", None), ("price", MONEY), ("gives", MONEY),
         ("sales", WHOLE), ("sales_per_week", PLAIN), ("weeks", PLAIN), ("sales_allowed", WHOLE),
         ("brings", MONEY), ("suffices", None), ("price_needed", MONEY), ("notes", None)]


def goal_rows(shop, goal, pieces, pace=None, channels=None):
    """The rows of one goal; what is reached first comes first.

    An income under limited hours is first reached by what can bring the most in them, anything
    else by what takes the fewest sales; what gives more decides between equals.
    """
    found = []
    for answer in shop.all(pieces, channels=channels):
        if answer.refused:
            continue
        piece, place, sale = answer.piece, answer.place, answer.sale
        gives, limited = goal.gives(piece, sale), goal.takes is not None
        sales = week = weeks = room = brings = suffices = needed = None
        notes = []
        if gives <= 0:
            suffices = "never"
            notes.append("never: a sale gives " + ("less than nothing" if gives < 0 else "nothing"))
        else:
            sales = -(-goal.needs // gives)
            if goal.per is not None:
                week = goal.needs / goal.per * fernhollow.WEEK / gives
            elif pace is not None:
                weeks = sales / pace
        if limited:
            room = goal.has // goal.takes(piece)
            brings = gives * goal.has / goal.takes(piece)
        if limited and gives > 0:
            suffices = "yes" if goal.suffices(piece, sale) else "no"
            if suffices == "no":
                needed = fernhollow.price_for(goal, piece, place)
                ceiling = place.ceiling(piece)
                if ceiling is not None and needed > ceiling:
                    notes.append("$%s is above the ceiling of $%s" % (MONEY(needed), MONEY(ceiling)))
            elif sales > room:
                notes.append("only %d whole sales fit in one month; over several it is enough" % room)
        order = (["yes", "no", "never"].index(suffices or "yes"), -brings if limited else sales or 0,
                 -gives)
        found.append((order, [goal.text, piece.name, place.name, sale.price, gives, sales, week,
                              weeks, room, brings, suffices, needed, Note(notes)]))
    return [row for _, row in sorted(found, key=lambda pair: pair[0])]


def try_goals(command):
    pieces = fernhollow.read_sheet()

    def answer(rules, shop, goals, pace, *options):
        rows = [row for goal in goals for row in goal_rows(shop, goal, pieces, pace)]
        return compare(command, ["goals", rules, SHEET] + list(options), GOALS, rows)

    shop = Shop()
    router, winter = fernhollow.goals(shop)
    yield "goals", answer(RULES, shop, (router, winter), None)
    yield "goals --pace 6", answer(RULES, shop, (router, winter), Fraction(6), "--pace", "6")
    pace = 10 * fernhollow.WEEK / fernhollow.MONTH
    yield "goals --pace '10 per month' --goal 'pay for the router'", answer(
        RULES, shop, (router,), pace, "--pace", "10 per month", "--goal", router.text)
    changes = [("hourly", "$31 per h", Fraction(31)), ("machine_bought", "$2500", Fraction(2500))]
    moved = Shop((name, value) for name, _, value in changes)
    yield "goals " + " ".join(sets(changes)), answer(
        RULES, moved, fernhollow.goals(moved), None, *sets(changes))
    with tempfile.TemporaryDirectory() as folder:
        rules = changed_rules(folder, ("gives profit + machine_time", "gives profit - $7.50"))
        gives, router.gives = router.gives, lambda piece, sale: sale.profit - exact("7.50")
        yield "goals, some sales of which give nothing", answer(
            rules, shop, (router,), Fraction(3), "--pace", "3", "--goal", router.text)
        # Break-even as it is published: fixed cost / (price - variable cost), units rounded up; the
        # US Small Business Administration's guide (value from memory). The fixed cost is the
        # router's, the variable ones what a piece is made of and what the stall takes.
        rules = changed_rules(folder, ("gives profit + machine_time", "gives keep - wood - sundries"))
        router.gives = lambda piece, sale: sale.price - (
            sale.fees + shop.lines(piece)["wood"] + shop.lines(piece)["sundries"])
        yield "goals, the published break-even", compare(
            command, ["goals", rules, SHEET, "--goal", router.text, "--channel", "stall"], GOALS,
            goal_rows(shop, router, pieces, channels=("stall",)))
        router.gives = gives
        for needs in (1950, 2400, 3600):
            rules = changed_rules(folder, ("needs $500 per month", "needs $%d per month" % needs))
            winter.needs = Fraction(needs)
            yield "goals, an income of $%d a month" % needs, answer(
                rules, shop, (winter,), None, "--goal", winter.text)


PARTS = {"price": try_price, "sweep": try_sweep, "rank": try_rank,
         "earn": try_earn, "goals": try_goals}


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
