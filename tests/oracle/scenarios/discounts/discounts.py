"""The list is found for one piece; the discount is taken from it and rounded to a cent."""

from fractions import Fraction

from oracle import (Channel, Currency, Ladder, Unpriced, by_aim, discounted, ends_in, exact,
                    percent, row, without)

QUANTITIES = [1, 2, 10, 99, 100]
SHOWS = ["off", "whole_sum"]

USD = Currency("USD", 2)
SHELF = Ladder(USD, (5, ends_in(".50")), (30, ends_in(".99")), (None, ends_in("4.50", "9.50")))

# name: parts in dollars, making and setting up in minutes, lowest
PIECES = {
    "block": ("0.20", "2", 0, None),
    "car": ("1.75", "14", 20, None),
    "train": ("6.40", "38", 45, 64),
    "puzzle": ("2.15", "9", 30, None),
    "rattle": ("0.85", "6", 5, exact("24.99")),
    "kite": ("3.30", "11", 0, None),
    "house": ("38.20", "135", 90, None),
    "castle": ("1050", "600", 0, None),
    "yoyo": ("0.60", "4", 0, 1000),
    "top": ("0.43", "2.5", 1, None),
}


def bulk(listed, q):
    if q >= 100:
        return percent(20)
    if q >= 25:
        return percent("12.5")
    if q >= 10:
        return percent("7.5")
    return percent(5) if q >= 2 else exact(0)


def pay(piece, q):
    return exact(piece[1]) / 60 * 23 + Fraction(piece[2], 60) * 23 / q


def cost(piece, q):
    return exact(piece[0]) + pay(piece, q)


def usual(s):
    return s.profit >= 3 and s.margin >= percent(33)


CARD = ("card", lambda s: percent("2.2") * s.paid + exact("0.13") / s.quantity)
FAIR = Channel("fair", USD, cost, pay, fees=[CARD])
ONLINE = Channel("online", USD, lambda piece, q: cost(piece, q) + exact("7.90") / q, pay,
                 tax=("added", percent("6.25")),
                 extras=[("shipping", lambda s: exact("7.20") / s.quantity)],
                 fees=[("commission", lambda s: min(percent(6) * (s.price + s.extra["shipping"]),
                                                    exact(12))),
                       ("upkeep", lambda s: percent(1) * s.list)])
SCHOOLS = Channel("schools", USD, cost, pay)
CLUB = Channel("club", USD, cost, pay)
SINGLE = Channel("single", USD, cost, pay, fees=[CARD])

# channel: aim, discount, whether lowest and the ceiling hold
METHODS = [
    (FAIR, usual, bulk, False),
    (ONLINE, usual, bulk, True),
    (SCHOOLS, lambda s: s.margin >= percent(20), lambda listed, q: percent(15), False),
    (CLUB, usual,
     lambda listed, q: percent("10" if listed >= 20 else "2.5") + percent(2 if q > 9 else 0), False),
    (SINGLE, usual, None, False),
]


def rows():
    for name, piece in PIECES.items():
        for channel, wanted, discount, limited in METHODS:
            for q in QUANTITIES:
                asked = 1 if discount else q
                holds = lambda p: wanted(channel.sale(piece, asked, p))
                floor, ceiling = (piece[3], 250) if limited else (None, None)
                try:
                    listed = by_aim(SHELF, holds, floor, ceiling)
                except Unpriced:
                    yield without(name, channel, q, "failed")
                    continue
                price = discounted(USD, listed, discount(listed, q)) if discount else listed
                sale = channel.sale(piece, q, price, listed)
                if sale.margin < percent(10):
                    yield without(name, channel, q, "refused")
                    continue
                yield row(name, channel, sale, [USD.text(listed - price), USD.text(price * q)])
