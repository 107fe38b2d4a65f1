#!/usr/bin/env python3
"""Random shops, priced by the engine and by trying every allowed price.

    python3 tests/oracle/random_shops.py GROAT COUNT SEED

A shop is made as text in the rules language and, from the same choices, as Python (made_up_shop.py).
The search tries the allowed prices one by one in whole numbers; every price found, and a few that
were passed over, are computed a second time with the fractions of oracle.py, and both must agree
before the engine is asked. COUNT is the number of (product, channel, quantity) to compare; the same SEED
gives the same shops. A difference is printed, and its shop is written to a temporary folder.
"""

import csv
import io
import os
import random
import subprocess
import sys
import tempfile
from bisect import bisect_left
from fractions import Fraction
from math import gcd

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
sys.dont_write_bytecode = True

import oracle  # noqa: E402
from made_up_shop import Shop  # noqa: E402
from oracle import COLUMNS  # noqa: E402

CANDIDATES = 5000           # allowed prices tried before a search without a ceiling gives up
TIMEOUT = 60


class TriedShop(Shop):
    """A shop whose prices are found by trying the allowed ones."""

    def prices(self):
        """The allowed prices in coins, ascending, and whether the ladder ends within them."""
        found, coins = [], self.ladder.coins_up(1)
        while coins is not None and len(found) < CANDIDATES:
            found.append(coins)
            coins = self.ladder.coins_up(coins + 1)
        return found, coins is None

    def fast(self, way, record, q):
        cost, pay = way.slow.cost(record, q) / self.coin, way.slow.pay(record, q) / self.coin
        cd = cost.denominator * pay.denominator // gcd(cost.denominator, pay.denominator)
        return ((int(record.stuff / self.coin * 10), record.hands,
                 self.postage(record) if self.weights else 0),
                (int(cost * cd), int(pay * cd), cd))

    def limits(self, way, record):
        floor = record.low * (1 - way.floor_share) if way.floor and record.low is not None else None
        return floor, record.high if way.ceiling else None

    def least(self, ways, record, q, prices, ended):
        """The least of the prices every way accepts: its coins, None, or "unknown"."""
        floors = [self.limits(way, record)[0] or 0 for way in ways]
        ceiling = self.limits(ways[0], record)[1] if len(ways) == 1 else None
        start = bisect_left(prices, -(-max(floors) // self.coin))
        end = len(prices)
        beyond = ended
        if ceiling is not None and (ended or ceiling < prices[-1] * self.coin):
            end, beyond = bisect_left(prices, ceiling // self.coin + 1), True
        at = start
        while at is not None and at < end:
            first = at
            for way in ways:
                fields, figures = self.fast(way, record, q)
                at = way.compiled[q]["search"](prices, at, end, *fields, *figures)
                if at is None:
                    break
            if at is None or at == first:
                break
            if len(ways) == 1:
                break
        if at is not None and at < end:
            self.agree(ways, record, q, prices, start, at)
            return prices[at]
        if not beyond:
            return "unknown"
        if ceiling is None:
            return None
        coins = self.ladder.coins_down(ceiling // self.coin)
        return None if coins is None or coins * self.coin < max(floors) else coins

    def agree(self, ways, record, q, prices, start, at):
        """The fractions must accept the price found, and refuse some of those passed over."""
        tried = {at, max(start, at - 1), (start + at) // 2, start}
        for i in tried:
            price = prices[i] * self.coin
            holds = all(way.aim.value(way.slow.sale(record, q, price)) for way in ways)
            if holds != (i == at):
                raise AssertionError("the two statements of %s disagree at %s for %s"
                                     % ([w.name for w in ways], price, record.name))

    def listed(self, way, record, q, prices, ended):
        if way.pin and record.old is not None:
            return record.old / self.coin
        if way.kind == "set":
            floor, ceiling = self.limits(way, record)
            value = way.slow.cost(record, q) * way.multiple
            if value <= 0:
                return "unjudged"               # the reference leaves a `set` of nothing open
            try:
                if floor is not None or ceiling is not None:
                    # So does it the limits of a price that the ladder cannot round to.
                    oracle.by_set(self.ladder, value, way.direction)
            except oracle.Unpriced:
                return "unjudged"
            try:
                return oracle.by_set(self.ladder, value, way.direction, floor, ceiling) / self.coin
            except oracle.Unpriced:
                return None
        return self.least([way], record, q, prices, ended)

    def expected(self):
        """Yields (key, row or "failed" or "refused" or "unknown" or "unjudged", way, record, quantity)."""
        prices, ended = self.prices()
        for record in self.products:
            for way in self.ways:
                if way.only and not record.parcel > 100:
                    continue
                for q in self.quantities:
                    asked = 1 if self.discount else q
                    if way.name in self.tickets:
                        group = [w for w in self.ways if w.name in self.tickets
                                 and (not w.only or record.parcel > 100)]
                        listed = self.least(group, record, asked, prices, ended)
                    else:
                        listed = self.listed(way, record, asked, prices, ended)
                    key = (record.name, way.name, str(q))
                    if listed in (None, "unknown", "unjudged"):
                        yield key, listed or "failed", way, record, q
                        continue
                    listed = listed * self.coin
                    price = listed
                    if self.discount:
                        price = oracle.discounted(self.currency, listed,
                                                  self.discount[0](listed / self.coin, q))
                    sale = way.slow.sale(record, q, price, listed)
                    fast = way.compiled[q]["compute"](int(price / self.coin),
                                                      int(listed / self.coin),
                                                      *self.fast(way, record, q)[0])
                    slow = (sale.tax, sale.paid, sale.net, sale.fees, sale.keep)
                    if tuple(x / self.coin for x in slow) != fast:
                        raise AssertionError("the two statements of %s disagree at %s for %s"
                                             % (way.name, price, record.name))
                    if self.refusal and sale.profit < 0:
                        yield key, "refused", way, record, q
                    else:
                        yield key, oracle.row(record.name, way.slow, sale), way, record, q

    def holds(self, way, record, q, price):
        group = [way] if way.name not in self.tickets else [
            w for w in self.ways if w.name in self.tickets and (not w.only or record.parcel > 100)]
        return all(w.aim.value(w.slow.sale(record, 1 if self.discount else q, price))
                   for w in group)


# Asking the engine. ----------------------------------------------------------------------------

def keep_case(shop, expected, differences, stderr):
    folder = tempfile.mkdtemp(prefix="groat-shop-")
    for name, text in (("shop.rules", shop.rules()), ("products.csv", shop.sheet()),
                       ("expected.csv", oracle.sheet_text([], expected)),
                       ("differences.txt", "\n".join(differences) + "\n\n" + stderr)):
        with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
            file.write(text)
    return folder


def does_not_add_up(way, got):
    """What is wrong with the sums of a priced row: what is paid, and what is net of tax."""
    price, extras, tax, paid, net, fees, keep, cost, profit = (
        Fraction(got[name]) for name in
        "price extras tax paid net fees keep cost profit".split())
    kind = (way.slow.tax or (None,))[0]
    if paid != price + extras + (0 if kind == "included" else tax):
        return "paid %s is not price + extras + added tax" % got["paid"]
    if net != price + extras - (tax if kind == "included" else 0):
        return "net %s is not price + extras - included tax" % got["net"]
    if keep != net - fees:
        return "keep %s is not net - fees" % got["keep"]
    # A cost may be between two coins, and so may a profit: each is rounded by itself.
    if abs(profit - (keep - cost)) > way.slow.currency.coin:
        return "profit %s is not keep - cost" % got["profit"]
    return None


def judge(shop, want, got, way, record, q):
    """What differs in one row, in words; None where nothing does."""
    if got is None:
        return "no row came, but every order that is sold must have one"
    outcome = got["outcome"]
    if outcome == "priced":
        wrong = does_not_add_up(way, got)
        if wrong:
            return wrong
    else:
        amounts = [name for name in COLUMNS[5:] if got[name]]
        if outcome not in ("refused", "failed") or amounts or not got["notes"]:
            return "outcome %s with amounts in (%s) and the notes %r" % (
                outcome, ", ".join(amounts), got["notes"])
    if want == "unjudged":
        return None
    if want in ("refused", "failed"):
        return None if outcome == want else "%s expected, %s came with list %s, price %s" % (
            want, outcome, got["list"], got["price"])
    if outcome != "priced":
        if outcome == "refused" and not shop.refusal:
            return "refused, which nothing in the rules does"
        got = None
    if want == "unknown":
        # Nothing among the prices tried. A dearer answer must meet the aim; none is believed,
        # unless a much dearer price would do.
        prices, _ = shop.prices()
        last = prices[-1] * shop.coin
        if got is None and shop.refusal:
            return None  # one that is priced and then refused has none either
        if got is None:
            for factor in (2, 10, 100, 10 ** 4):
                coins = shop.ladder.coins_up(int(prices[-1] * factor))
                if coins is not None and shop.limits(way, record)[1] is None and shop.holds(
                        way, record, q, coins * shop.coin):
                    return "no price came, yet %s would do" % (coins * shop.coin)
            return None
        listed = Fraction(got["list"])
        floor, ceiling = shop.limits(way, record)
        if listed < last or (listed == last and ceiling is None):
            return "list %s is among the prices that do not do" % got["list"]
        if ceiling is None and not shop.holds(way, record, q, listed):
            return "the aim does not hold at list %s" % got["list"]
        return None
    expected = dict(zip(COLUMNS, want))
    if got is None:
        return "no price came; expected " + ",".join(want)
    wrong = ["%s expected %s answered %s" % (c, expected[c], got.get(c))
             for c in COLUMNS if expected[c] != got.get(c)]
    if not wrong:
        return None
    text = "; ".join(wrong)
    if way.kind == "aim" and expected["list"] != got.get("list"):
        try:
            listed = Fraction(got["list"])
            text += " [the answered list is %s the ladder; the aim %s there]" % (
                "on" if shop.ladder.allows(listed) else "off",
                "holds" if shop.holds(way, record, q, listed) else "does not hold")
        except (ValueError, KeyError):
            pass
    return text


def try_shop(groat, shop, number):
    expected = list(shop.expected())
    with tempfile.TemporaryDirectory() as folder:
        rules, sheet = os.path.join(folder, "shop.rules"), os.path.join(folder, "products.csv")
        with open(rules, "w", encoding="utf-8") as file:
            file.write(shop.rules())
        with open(sheet, "w", encoding="utf-8") as file:
            file.write(shop.sheet())
        command = [groat, "price", rules, sheet, "--format", "csv", "--quantity",
                   ",".join(map(str, shop.quantities))]
        try:
            run = subprocess.run(command, capture_output=True, text=True, encoding="utf-8",
                                 errors="replace", timeout=TIMEOUT)
            status, answer, stderr = run.returncode, run.stdout, run.stderr
        except subprocess.TimeoutExpired:
            status, answer, stderr = "none", "", "no answer within %d seconds" % TIMEOUT
    rows = {}
    for line in csv.DictReader(io.StringIO(answer)):
        rows[(line.get("product"), line.get("channel"), line.get("quantity"))] = line
    differences, failed = [], 0
    if status not in (0, 1) or not answer:
        differences.append("exit status %s; nothing to compare" % status)
        failed = len(expected)
    else:
        for key, want, way, record, q in expected:
            wrong = judge(shop, want, rows.pop(key, None), way, record, q)
            if wrong:
                failed += 1
                differences.append("%s on %s, quantity %s: %s" % (key + (wrong,)))
        for key in rows:
            failed += 1
            differences.append("%s on %s, quantity %s: no such row was expected" % key)
    if differences:
        known = [want for _, want, _, _, _ in expected if isinstance(want, list)]
        folder = keep_case(shop, known, differences, stderr)
        print("shop %d: %d differences, kept in %s" % (number, failed, folder))
        for line in differences[:8]:
            print("    " + line)
        if len(differences) > 8:
            print("    and %d more" % (len(differences) - 8))
        for line in stderr.splitlines()[:6]:
            print("    standard error: " + line)
    return max(0, len(expected) - failed), failed, sum(w == "unknown" for _, w, _, _, _ in expected)


def main(arguments):
    if len(arguments) != 3:
        sys.exit(__doc__)
    groat, count, seed = arguments[0], int(arguments[1]), arguments[2]
    passed = failed = beyond = number = 0
    while passed + failed < count:
        shop = TriedShop(random.Random("%s/%d" % (seed, number)))
        good, bad, unknown = try_shop(groat, shop, number)
        passed, failed, beyond = passed + good, failed + bad, beyond + unknown
        number += 1
    print("%d shops; in %d of the cases no price among the first %d allowed ones would do"
          % (number, beyond, CANDIDATES))
    print("%d passed, %d failed" % (passed, failed))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
