"""Fees that jump at a price: the least price may lie below a jump that the next one falls into."""

from fractions import Fraction

from oracle import (Channel, Currency, Ladder, by_aim, ends_in, every, exact, percent, plain, row,
                    smallest_unit)

QUANTITIES = [1, 3]
SHOWS = ["fee_share"]

USD = Currency("USD", 2)
NINES = Ladder(USD, (50, ends_in(".49", ".99")), (None, ends_in("4", "9.50")))
CENTS = smallest_unit(USD)
QUARTERS = Ladder(USD, (None, every("0.25")))
POUND = exact("453.59237")

# name: wax in dollars, pouring in minutes, box in grams
PIECES = {
    "tea light": ("0.30", 2, 0),
    "votive": ("1.15", 11, 150),
    "pillar": ("3.85", 9, 200),
    "jar": ("6.10", 7, 201),
    "twist": ("2.05", 17, POUND),
    "beeswax pair": ("14.20", 21, 454),
    "column": ("22.40", 30, POUND * 18 / 16),
    "lantern": ("31", 25, 0),
    "wreath": ("38.75", 40, 2100),
    "altar": ("1020", 180, 9000),
    "gift": ("0.01", 0, 90),
}


def step_fee(price, at):
    """The table looked up at an amount; its own words still speak of the price."""
    if at < 15:
        return exact("0.45")
    if at < 40:
        return exact("2.60")
    if at <= 60:
        return exact("4.10")
    return max(percent(9) * price, exact("6.25"))


def bands(price):
    if price < 12:
        return percent(4) * price
    if price <= 30:
        return percent(11) * price + 1
    return percent(6) * price


def carriage(sale):
    if sale.record[2] <= 200:
        by_weight = exact("0.90")
    else:
        by_weight = exact("1.75") + percent(1) * sale.price
    return min(by_weight + percent(2) * sale.price, exact(7))


def pay(piece, quantity):
    return Fraction(piece[1], 60) * 21


def cost(piece, quantity):
    return exact(piece[0]) + pay(piece, quantity)


def usual(s):
    return s.profit >= 6 and s.margin >= percent(28)


CHANNELS = [
    (CENTS, usual, Channel("counter", USD, cost, pay,
                           fees=[("step_fee", lambda s: step_fee(s.price, s.price))])),
    (NINES, usual, Channel(
        "online", USD, lambda piece, q: cost(piece, q) + exact("5.10"), pay,
        extras=[("shipping", lambda s: exact("4.50") if s.price < 35 else 0)],
        fees=[("step_fee", lambda s: step_fee(s.price, s.paid)),
              ("card", lambda s: percent("3.7") * s.paid + exact("0.23") / s.quantity)])),
    (NINES, lambda s: s.profit >= 8 and not 18 <= s.price <= 20, Channel(
        "club", USD, cost, pay,
        fees=[("card", lambda s: percent("1.5" if s.quantity >= 3 else "2.5") * s.paid),
              ("threshold", lambda s: exact("3.40") if s.price > 25 else 0)])),
    (NINES, lambda s: s.keep - s.cost >= 5 or s.margin >= percent(55), Channel(
        "stepped", USD, cost, pay, fees=[("bands", lambda s: bands(s.price))])),
    (QUARTERS, usual, Channel(
        "heavy", USD, lambda piece, q: cost(piece, q) + (3 if piece[2] > POUND else exact("1.20")),
        pay, sells=lambda piece, q: piece[2] > 0, fees=[("carriage", carriage)])),
]


def rows():
    for name, piece in PIECES.items():
        for ladder, wanted, channel in CHANNELS:
            for quantity in QUANTITIES:
                if not channel.sells(piece, quantity):
                    continue
                holds = lambda price: wanted(channel.sale(piece, quantity, price))
                sale = channel.sale(piece, quantity, by_aim(ladder, holds))
                yield row(name, channel, sale, [plain(sale.fees / sale.price)])
