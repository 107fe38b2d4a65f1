"""Taxes inside and on top of the price, a sliced commission, exact margins after both."""

from fractions import Fraction

from oracle import (Channel, Currency, Ladder, by_aim, ends_in, every, exact, percent, plain, row,
                    slices)

QUANTITIES = [1, 4]
SHOWS = ["kept_share", "net_of_tax"]

EUR = Currency("EUR", 2)
COINS = Ladder(EUR, (20, every("0.05")), (None, ends_in(".50", ".95")))
STAIRS = [(exact(25), percent(14)), (exact(120), percent("8.5")), (None, percent("3.25"))]

# name: yarn in euro, weaving in minutes, wrapped
PIECES = {
    "bookmark": ("0.85", 9, False),
    "tea towel": ("3.40", 42, True),
    "scarf": ("18.75", 165, False),
    "throw": ("46.20", 390, True),
    "coaster": ("0.60", 7, False),
    "cushion": ("9.90", 95, True),
    "runner": ("14", 105, False),
    "curtain": ("1106", 1860, False),
    "ribbon": ("0", 1, False),
    "sampler": ("0.99", 0, True),
}


def pay(piece, quantity):
    return Fraction(piece[1], 60) * 24


def cost(piece, quantity):
    return exact(piece[0]) * exact("1.08") + pay(piece, quantity)


def stairs(amount):
    return slices(amount, STAIRS)


CHANNELS = [
    (percent(30), Channel(
        "webshop", EUR, cost, pay, tax=("included", percent(21)),
        extras=[("wrap", lambda s: exact("2.95") if s.record[2] else 0)],
        fees=[("commission", lambda s: stairs(s.price + s.extra["wrap"])),
              ("payment", lambda s: percent("2.3") * s.paid + exact("0.18") / s.quantity)])),
    (percent(30), Channel(
        "fair", EUR, cost, pay, tax=("included", percent(9)),
        fees=[("commission", lambda s: stairs(s.price)), ("stand", lambda s: exact("61/24"))])),
    (percent(25), Channel(
        "abroad", EUR, cost, pay, tax=("added", percent(19)),
        fees=[("commission", lambda s: stairs(s.paid)),
              ("payment", lambda s: percent("2.7") * s.paid + exact("0.23") / s.quantity)])),
    (percent(30), Channel("door", EUR, cost, pay)),
]


def rows():
    for name, piece in PIECES.items():
        for wanted, channel in CHANNELS:
            for quantity in QUANTITIES:                     # no discount: at the order's own

                def aim(price):
                    s = channel.sale(piece, quantity, price)
                    return s.margin is not None and s.margin >= wanted

                sale = channel.sale(piece, quantity, by_aim(COINS, aim))
                yield row(name, channel, sale, [plain(sale.keep / sale.paid), EUR.text(sale.net)])
