"""A potter's ranges: every combination of their ends priced by hand.

A range is a triple of low, likely and high. The likely values make the price list. Then each range
that bears on the row is put at its low and at its high end, all combinations of them are priced,
and the lowest and highest price, and the three-point mean of the cost, stand beside the list.
"""

from fractions import Fraction
from itertools import product

from oracle import (Channel, Currency, Ladder, Unpriced, by_aim, ends_in, every, exact, percent,
                    row)

QUANTITIES = [1, 4]
SHOWS = ["unseen", "price_lowest", "price_highest", "cost_mean"]
OPTIONS = ["--estimates"]

USD = Currency("USD", 2)
WHOLE = Ladder(USD, (None, every(1)))
CHARM = Ladder(USD, (20, ends_in(".49", ".99")), (None, ends_in(".99")))


def span(low, high, likely=None):
    low, high = exact(low), exact(high)
    return (low, (low + high) / 2 if likely is None else exact(likely), high)


# Clay and parcel in grams, throwing in minutes, corks in pieces, ribbon in metres, money.
GLAZE = span("0.40", "0.90", "0.50")
POTS = {
    "plain cup": dict(clay="350", glaze="0.50", throwing="9"),
    "cup": dict(clay=span("300", "400", "350"), throwing=span("8", "12")),
    "corked jar": dict(clay=span("700", "900"), throwing=span("15", "20", "16"),
                       fired=span("8", "12", "9"), parcel=span("450", "520"), corks="1",
                       ribbon="0.4"),
    "salt pig": dict(clay=span("600", "700"), glaze="0.50", throwing="14", fired=span("10", "14"),
                     parcel="900", seen=span("18.50", "24", "20")),
    "big bowl": dict(clay=span("2800", "3400", "3000"), glaze=span("2", "4"),
                     throwing=span("40", "60", "45"), fired="3",
                     parcel=span("2900", "3200", "2950")),
    "giant": dict(clay=span("9000", "11000"), glaze=span("5", "8"),
                  throwing=span("60", "100", "62"), fired=span("2", "4")),
    "ring dish": dict(clay=span("90", "110"), glaze=span("0.20", "0.30"), throwing=span("3", "5"),
                      fired="40", parcel=span("0", "300")),
    "bottle": dict(clay="500", glaze="1", throwing="12", parcel="700", corks="1"),
}
RATES = dict(clay_price=span("1.80", "2.20"), hourly=span("22", "28", "24"),
             cork=tuple(x / 50 for x in span("9", "12")))


def whole(pot):
    """Everything that bears on a pot, as numbers or ranges."""
    values = dict(glaze=GLAZE, fired="12", parcel="0", corks="0", ribbon="0", seen=None)
    values.update(pot)
    values.update(RATES)
    if values["corks"] == "0":
        values["cork"] = Fraction(0)            # the price of corks does not bear on it
    return {name: value if value is None or isinstance(value, tuple) else exact(value)
            for name, value in values.items()}


def stuff(pot):
    return (pot["clay"] / 1000 * pot["clay_price"] / (1 - percent(5)) + pot["glaze"]
            + pot["corks"] * pot["cork"] + pot["ribbon"] * exact("0.25") + exact(18) / pot["fired"])


def pay(pot, quantity):
    return (pot["throwing"] / 60 + exact(4) / 60 * exact("0.75")) * pot["hourly"]


def postage(pot):
    for limit, amount in ((500, "4.00"), (1000, "6.50"), (3000, "9.80")):
        if pot["parcel"] <= limit:
            return exact(amount)
    raise Unpriced("no row of postage for this parcel")


MARKET = Channel("market", USD, lambda pot, q: stuff(pot) + pay(pot, q), pay,
                 fees=[("card", lambda s: percent(2) * s.paid + exact("0.10") / s.quantity)])
POST = Channel("post", USD,
               lambda pot, q: stuff(pot) + pay(pot, q) + postage(pot) + exact("0.50"), pay,
               sells=lambda pot, q: pot["parcel"] > 0,
               extras=[("shipping", lambda s: postage(s.record))],
               fees=[("commission",
                      lambda s: min(percent(9) * (s.price + s.extra["shipping"]), exact(3)))])


def sale_of(where, pot, quantity):
    """The sale, None where there is none; and the cost, None where it cannot be told."""
    if not where.sells(pot, quantity):
        return None, None
    try:
        cost = where.cost(pot, quantity)

        def enough(price):
            s = where.sale(pot, quantity, price)
            if where is MARKET:
                return s.margin >= percent(30)
            return s.margin >= percent(25) and s.profit >= 3

        if where is MARKET:
            price = by_aim(WHOLE, enough)
        else:
            price = by_aim(CHARM, enough, pot["seen"])
    except Unpriced:
        return None, None
    if cost > 60:                               # refused
        return None, cost
    return where.sale(pot, quantity, price), cost


def likely(values):
    return {name: value[1] if isinstance(value, tuple) else value
            for name, value in values.items()}


def corners(values):
    ranges = [name for name, value in values.items() if isinstance(value, tuple)]
    for ends in product((0, 2), repeat=len(ranges)):
        corner = dict(values)
        corner.update((name, values[name][end]) for name, end in zip(ranges, ends))
        yield corner


def estimate(where, values, quantity):
    prices, costs = [], []
    for corner in corners(values):
        sale, cost = sale_of(where, corner, quantity)
        costs.append(cost)
        if sale:
            prices.append(sale.price)
    mean = None
    if None not in costs:
        middle = sale_of(where, likely(values), quantity)[1]
        mean = (min(costs) + 4 * middle + max(costs)) / 6
    return [USD.text(min(prices)), USD.text(max(prices)), USD.text(mean)]


def rows():
    for name, pot in POTS.items():
        values = whole(pot)
        for where in (MARKET, POST):
            for quantity in QUANTITIES:
                sale, _ = sale_of(where, likely(values), quantity)
                if not sale:
                    continue
                seen = likely(values)["seen"] or Fraction(0)
                yield row(name, where, sale, [USD.text(sale.price - seen)]
                          + estimate(where, values, quantity))
