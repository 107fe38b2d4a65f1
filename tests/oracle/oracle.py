"""Building blocks for pricing by hand, written from the language's reference,
grammar/LANGUAGE.md.

This is not a reader of rules files. A scenario states its method a second time, as Python
functions over exact fractions, and these blocks do what the reference says about money, ladders,
fees, taxes and the search for a price, in the plainest way: every allowed price is tried, upward.

Amounts are fractions.Fraction in whole currency (12.5 is twelve and a half), times are in hours,
lengths in inches, masses in grams, volumes in whatever the scenario says.

Run as a program, it checks itself.
"""

import csv
import io
from fractions import Fraction

COLUMNS = ["product", "channel", "quantity", "outcome", "currency", "list", "price", "extras", "tax",
           "paid", "net", "fees", "keep", "cost", "profit", "margin", "take_home"]


def exact(text):
    """The fraction a decimal or a quotient spells: exact("7.80"), exact("85/30")."""
    return Fraction(text)


def percent(text):
    return Fraction(text) / 100


def half_away(x):
    """The nearest whole number; a tie goes away from zero."""
    x = Fraction(x)
    whole = (2 * abs(x.numerator) + x.denominator) // (2 * x.denominator)
    return whole if x >= 0 else -whole


def decimals(x, places):
    """The figure with exactly that many decimals, rounded half away from zero."""
    units = half_away(Fraction(x) * 10 ** places)
    digits = str(abs(units)).rjust(places + 1, "0")
    text = digits[:-places] + "." + digits[-places:] if places else digits
    return "-" + text if units < 0 else text


def plain(x):
    """How a `show` that is no money prints: at most six decimals, none that says nothing."""
    if x is None:
        return ""
    text = decimals(x, 6).rstrip("0").rstrip(".")
    return "0" if text in ("", "-0") else text


def flag(x):
    return "" if x is None else "yes" if x else "no"


# Missing values. None is the missing value. ---------------------------------------------------

def either(a, b):
    """`or`: yes if either side is, even where the other is missing."""
    if a is True or b is True:
        return True
    return None if a is None or b is None else False


def both(a, b):
    """`and`: no if either side is, even where the other is missing."""
    if a is False or b is False:
        return False
    return None if a is None or b is None else True


def larger(a, b):
    """`at least`: ignores a missing side."""
    present = [x for x in (a, b) if x is not None]
    return max(present) if present else None


def smaller(a, b):
    """`at most`: ignores a missing side."""
    present = [x for x in (a, b) if x is not None]
    return min(present) if present else None


# Roundings inside expressions. -----------------------------------------------------------------

def up_to_multiple(x, step):
    return -((-Fraction(x)) // step) * step


def down_to_multiple(x, step):
    return (Fraction(x) // step) * step


def nearest_multiple(x, step):
    return half_away(Fraction(x) / step) * step


def even_multiple(x, step):
    below = Fraction(x) // step
    rest = Fraction(x) / step - below
    if rest > Fraction(1, 2) or (rest == Fraction(1, 2) and below % 2 == 1):
        below += 1
    return below * step


def slices(amount, rows):
    """A sliced table: rows are (upper bound or None, value); each part times its own value."""
    total, start = Fraction(0), Fraction(0)
    for bound, value in rows:
        end = amount if bound is None else min(amount, bound)
        if end > start:
            total += (end - start) * value
            start = end
    if start < amount:
        raise LookupError("no slice for the rest of the amount")
    return total


# Money and the allowed prices. -----------------------------------------------------------------

class Currency:
    def __init__(self, code, places):
        self.code = code
        self.places = places
        self.coin = Fraction(1, 10 ** places)

    def round(self, x):
        """To the smallest unit, ties away from zero."""
        return half_away(Fraction(x) / self.coin) * self.coin

    def text(self, x):
        return "" if x is None else decimals(x, self.places)


def every(step):
    return ("every", Fraction(step))


def ends_in(*spellings):
    return ("ends", spellings)


class Ladder:
    """The allowed prices: bands of (upper bound, not included, or None; grid), ascending."""

    def __init__(self, currency, *bands):
        self.currency = currency
        self.bands = []
        low = 1                                     # an allowed price is greater than zero
        for bound, grid in bands:
            high = None if bound is None else self._first_coin(Fraction(bound))
            self.bands.append((low, high, self._progressions(grid)))
            low = high
        self.spelled = bands

    def _first_coin(self, amount):
        """The least whole number of coins that is not below the amount."""
        return -((-amount) // self.currency.coin)

    def _progressions(self, grid):
        kind, what = grid
        if kind == "every":
            step = what / self.currency.coin
            assert step.denominator == 1 and step > 0
            return [(0, int(step))]
        found = []
        for spelling in what:
            before, _, after = spelling.partition(".")
            assert len(after) <= self.currency.places
            start = Fraction(spelling if before else "0" + spelling) / self.currency.coin
            found.append((int(start), 10 ** len(before) * 10 ** self.currency.places))
        return found

    def coins_up(self, coins):
        """The least allowed price of at least so many coins, in coins; None past the end."""
        for low, high, progressions in self.bands:
            start = max(low, coins)
            if high is not None and start >= high:
                continue
            best = min(first + max(0, -((first - start) // period)) * period
                       for first, period in progressions)
            if high is None or best < high:
                return best
        return None

    def coins_down(self, coins):
        """The greatest allowed price of at most so many coins, in coins; None below the start."""
        for low, high, progressions in reversed(self.bands):
            end = coins if high is None else min(coins, high - 1)
            if end < low:
                continue
            best = [first + (end - first) // period * period
                    for first, period in progressions if first <= end]
            best = [b for b in best if b >= low]
            if best:
                return max(best)
        return None

    def at_or_above(self, amount):
        coins = self.coins_up(self._first_coin(Fraction(amount)))
        return None if coins is None else coins * self.currency.coin

    def at_or_below(self, amount):
        coins = self.coins_down(Fraction(amount) // self.currency.coin)
        return None if coins is None else coins * self.currency.coin

    def upward(self, floor=0):
        """Every allowed price from the floor upward."""
        coins = self.coins_up(self._first_coin(Fraction(floor)))
        while coins is not None:
            yield coins * self.currency.coin
            coins = self.coins_up(coins + 1)

    def allows(self, price):
        """The same question answered from the spelling of the price, digit by digit."""
        if price <= 0 or (price / self.currency.coin).denominator != 1:
            return False
        for bound, (kind, what) in self.spelled:
            if bound is not None and price >= Fraction(bound):
                continue
            if kind == "every":
                return (price / what).denominator == 1
            whole, _, cents = decimals(price, self.currency.places).partition(".")
            for spelling in what:
                before, _, after = spelling.partition(".")
                after = after.ljust(self.currency.places, "0")
                if after == cents and whole.rjust(40, "0").endswith(before):
                    return True
            return False
        return False


def smallest_unit(currency):
    return Ladder(currency, (None, every(currency.coin)))


# One sale on one channel. ----------------------------------------------------------------------

class Sale:
    """What one piece costs the buyer, what is taken, what is left. Filled from left to right."""

    def __init__(self, record, quantity, price, listed):
        self.record, self.quantity = record, quantity
        self.price, self.list = price, listed
        self.extra, self.fee = {}, {}


class Channel:
    """A way of selling.

    cost, pay       functions of (record, quantity): the sum of costs and pays; the pays alone
    extras, fees    lists of (name, function of the Sale so far), in an order that can be computed
    tax             None, ("added", rate) or ("included", rate)
    sells           a function of (record, quantity), for `only when`
    """

    def __init__(self, name, currency, cost, pay=None, extras=(), fees=(), tax=None, sells=None):
        self.name, self.currency = name, currency
        self.cost, self.pay = cost, pay or (lambda record, quantity: Fraction(0))
        self.extras, self.fees, self.tax = list(extras), list(fees), tax
        self.sells = sells or (lambda record, quantity: True)

    def sale(self, record, quantity, price, listed=None):
        rounded = self.currency.round
        s = Sale(record, quantity, Fraction(price), Fraction(price if listed is None else listed))
        s.cost, s.pay = Fraction(self.cost(record, quantity)), Fraction(self.pay(record, quantity))
        for name, amount in self.extras:
            s.extra[name] = rounded(amount(s))
        s.extras = sum(s.extra.values(), Fraction(0))
        base = s.price + s.extras
        kind, rate = self.tax or (None, Fraction(0))
        if kind == "included":
            s.tax = rounded(base * rate / (1 + rate))
            s.paid, s.net = base, base - s.tax
        else:
            s.tax = rounded(base * rate)
            s.paid, s.net = base + s.tax, base
        for name, amount in self.fees:
            s.fee[name] = rounded(amount(s))
        s.fees = sum(s.fee.values(), Fraction(0))
        s.keep = s.net - s.fees
        s.profit = s.keep - s.cost
        s.margin = s.profit / s.net if s.net > 0 else None
        s.take_home = s.profit + s.pay
        return s


# How a price is found. -------------------------------------------------------------------------

class Unpriced(Exception):
    """The row is an error: no price can be given."""


def by_aim(ladder, holds, floor=None, ceiling=None, bound=20000):
    """The least allowed price, not below the floor, at which holds(price) is True.

    Beyond the ceiling, or where nothing up to it serves: the greatest allowed price between them.
    Without a ceiling the search stops at the bound, which is then too low: that is no answer.
    """
    start = Fraction(0) if floor is None else Fraction(floor)
    last = Fraction(bound) if ceiling is None else Fraction(ceiling)
    for price in ladder.upward(start):
        if price > last:
            break
        if holds(price) is True:
            return price
    if ceiling is None:
        raise RuntimeError("nothing up to the bound of %s" % bound)
    return greatest_between(ladder, start, last)


def greatest_between(ladder, floor, ceiling):
    price = ladder.at_or_below(ceiling)
    if price is None or price < floor:
        raise Unpriced("nothing allowed between floor and ceiling")
    return price


def by_set(ladder, value, direction="nearest", floor=None, ceiling=None):
    """The value on the ladder, then moved to the nearest allowed price inside the limits."""
    if value <= 0:
        raise Unpriced("not greater than zero")
    above, below = ladder.at_or_above(value), ladder.at_or_below(value)
    if direction == "up":
        price = above
    elif direction == "down":
        price = below
    elif above is None or below is None:
        price = below if above is None else above
    else:
        price = below if value - below < above - value else above       # a tie: the dearer
    if price is None:
        raise Unpriced("the ladder has no such price")
    if floor is not None and price < floor:
        price = ladder.at_or_above(floor)
    if ceiling is not None and price is not None and price > ceiling:
        price = ladder.at_or_below(ceiling)
    if price is None or (floor is not None and price < floor):
        raise Unpriced("nothing allowed between floor and ceiling")
    return price


def one_ticket(ladder, aims, bound=20000):
    """The least allowed price that meets every channel's aim and floor: (holds, floor) pairs."""
    start = max([Fraction(0)] + [floor for _, floor in aims if floor is not None])
    for price in ladder.upward(start):
        if price > bound:
            raise RuntimeError("nothing up to the bound of %s" % bound)
        if all(holds(price) is True for holds, _ in aims):
            return price


def discounted(currency, listed, rate):
    """What is left of a list that was found, by the aim, as if there were no discount."""
    assert 0 <= rate < 1
    return currency.round(listed * (1 - rate))


# Rows. -----------------------------------------------------------------------------------------

def row(product, channel, sale, shows=()):
    """One line of the price list; shows are texts already."""
    money = channel.currency.text
    margin = "" if sale.margin is None else decimals(sale.margin, 4)
    return [product, channel.name, str(sale.quantity), "priced", channel.currency.code,
            money(sale.list), money(sale.price), money(sale.extras), money(sale.tax),
            money(sale.paid), money(sale.net), money(sale.fees), money(sale.keep), money(sale.cost),
            money(sale.profit), margin, money(sale.take_home)] + list(shows)


def without(product, channel, quantity, outcome):
    """The line of an order without a price, which is `refused` or `failed` and has no amounts."""
    return [product, channel.name, str(quantity), outcome, channel.currency.code]


def sheet_text(shows, rows):
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    heading = COLUMNS + list(shows)
    writer.writerow(heading)
    writer.writerows(line + [""] * (len(heading) - len(line)) for line in rows)
    return out.getvalue()


# The blocks check themselves. ------------------------------------------------------------------

def check():
    usd, jpy, kwd = Currency("USD", 2), Currency("JPY", 0), Currency("KWD", 3)
    assert [half_away(Fraction(n, 2)) for n in (-3, -1, 0, 1, 3, 4)] == [-2, -1, 0, 1, 2, 2]
    assert decimals(exact("-0.005"), 2) == "-0.01" and decimals(exact("1850"), 0) == "1850"
    assert plain(exact("2.50")) == "2.5" and plain(Fraction(2, 3)) == "0.666667"
    assert even_multiple(exact("2.5"), 1) == 2 and even_multiple(exact("3.5"), 1) == 4
    assert nearest_multiple(exact("-2.5"), 1) == -3 and up_to_multiple(exact("-2.5"), 1) == -2
    assert slices(exact("30"), [(Fraction(25), percent("10")), (None, percent("2"))]) == exact("2.6")

    ladders = [
        Ladder(usd, (10, ends_in(".49", ".99")), (100, ends_in(".99")),
               (None, ends_in("4.95", "9.95"))),
        Ladder(usd, (3, every("0.05")), (17, every("0.75")), (None, ends_in("5", "07.5"))),
        Ladder(jpy, (1000, every(10)), (10000, ends_in("80")), (None, ends_in("800", "500"))),
        Ladder(kwd, (1, ends_in(".5", ".995")), (12, every("0.025"))),
        smallest_unit(usd),
    ]
    for ladder in ladders:
        coin = ladder.currency.coin
        spelled = [n for n in range(0, 26000) if ladder.allows(n * coin)]
        walked = []
        for price in ladder.upward():
            if price >= 26000 * coin:
                break
            walked.append(price / coin)
        assert walked == spelled, ladder.spelled
        for n in range(0, 26000, 7):
            below = [x for x in spelled if x <= n][-1:] if n < 2600 else None
            if below is not None:
                found = ladder.coins_down(n)
                assert ([] if found is None else [found]) == below, (ladder.spelled, n)

    whole = smallest_unit(usd)
    shelf = ladders[0]
    assert by_set(shelf, exact("12.74")) == exact("12.99")
    assert by_set(shelf, exact("9.74")) == exact("9.99")              # a tie goes to the dearer
    assert by_set(shelf, exact("9.73")) == exact("9.49")
    assert by_set(shelf, exact("55"), "down", ceiling=exact("30")) == exact("29.99")
    # The nest box of the reference's example, on paper: it costs 35.3566; at 61.10 the fees are
    # 1.53 + 2.83, and 61.10 - 4.36 - 35.3566 = 21.3834 is 34.997%; at 61.11 it is 35.008%.
    cost = (exact("1.8") * exact("7.80") / (1 - percent(12)) + exact("1.35")
            + Fraction(40, 60) * 26 / 6 + Fraction(25, 60) * exact("6.50")
            + Fraction(20, 60) * 26) * (1 + percent(12))
    stall = Channel("stall", usd, lambda record, quantity: cost,
                    fees=[("card", lambda s: percent("2.4") * s.paid + exact("0.06") / s.quantity),
                          ("pitch", lambda s: Fraction(85, 30))])
    aim = lambda price: stall.sale(None, 1, price).margin >= percent(35)
    assert by_aim(shelf, aim) == exact("61.99")
    assert by_aim(whole, aim) == exact("61.11")
    assert by_aim(shelf, aim, ceiling=50) == exact("49.99")
    # A tax inside: the fraction of the price is 1/6 at 20% and 1/21 at 5%.
    inside = Channel("inside", usd, lambda record, quantity: 0, tax=("included", percent(20)))
    assert inside.sale(None, 1, 120).tax == 20
    inside.tax = ("included", percent(5))
    assert inside.sale(None, 1, 105).tax == 5
    assert (either(None, True), both(None, False), both(None, True)) == (True, False, None)
    assert (larger(None, 2), smaller(1, None), smaller(None, None)) == (2, 1, None)


if __name__ == "__main__":
    check()
    print("the building blocks agree with themselves")
