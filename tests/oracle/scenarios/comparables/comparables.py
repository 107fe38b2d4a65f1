"""Pins, floors and ceilings from comparables, dropped and replaced on some channels."""

from fractions import Fraction

from oracle import (Channel, Currency, Ladder, Unpriced, by_aim, ends_in, every, exact, percent,
                    plain, row, without)

QUANTITIES = [1, 2]
SHOWS = ["above_low", "place_in_range"]

CHF = Currency("CHF", 2)
TILL = Ladder(CHF, (10, every("0.05")), (200, ends_in(".90")), (None, ends_in("5", "8")))
FIVES = Ladder(CHF, (None, every("0.05")))

# name: wood, bench minutes, lowest and highest seen, the old price
PIECES = {
    "spoon": ("1.20", 18, None, None, None),
    "board": ("9.50", 25, "34", "48", None),
    "stool": ("22", 100, "60", "95", None),
    "box": ("6.75", 35, "80", None, None),
    "frame": ("4.10", 15, "12", "19.90", "17.35"),
    "tray": ("8", 30, None, "20", None),
    "peg": ("0.15", 1, "0.80", "2.45", None),
    "chest": ("1140", 540, None, "1500", None),
    "offcut": ("0", 2, None, None, "0.35"),
    "step": ("11.5", 30, "50", "50", None),
    "riser": ("11.5", 30, "50.90", "50.90", None),
    "crossed": ("3", 5, "25", "15", None),
    "bench": ("60", 180, "200", "201", None),
}


def number(text):
    return None if text is None else exact(text)


def pay(piece, quantity):
    return Fraction(piece[1], 60) * 52


def cost(piece, quantity):
    return exact(piece[0]) + pay(piece, quantity)


WORKSHOP = Channel("workshop", CHF, cost, pay)
FAIR = Channel("fair", CHF, cost, pay, fees=[("card", lambda s: percent("1.35") * s.paid),
                                             ("place", lambda s: exact("6.40"))])
WEBSITE = Channel("website", CHF, lambda piece, q: cost(piece, q) + exact("2.15"), pay,
                  tax=("included", percent("8.1")),
                  extras=[("packing", lambda s: exact("5.50"))],
                  fees=[("commission", lambda s: percent(9) * (s.price + s.extra["packing"]))])
FRIENDS = Channel("friends", CHF, cost, pay)


def price(channel, piece, quantity):
    low, high, fixed = (number(text) for text in piece[2:])

    def usual(p):
        s = channel.sale(piece, quantity, p)
        return s.margin is not None and s.margin >= percent(30) and s.profit >= 5

    if channel is not FAIR and fixed is not None:
        return fixed
    if channel is FRIENDS:
        floor = (exact(3) if low is None else low) * exact("0.9")
        return by_aim(FIVES, lambda p: channel.sale(piece, quantity, p).profit >= 2, floor)
    if channel is WEBSITE:
        return by_aim(TILL, usual, None, None if high is None else high * exact("0.95"))
    return by_aim(TILL, usual, low, high)


def rows():
    for name, piece in PIECES.items():
        low, high = number(piece[2]), number(piece[3])
        for channel in (WORKSHOP, FAIR, WEBSITE, FRIENDS):
            for quantity in QUANTITIES:
                try:
                    sale = channel.sale(piece, quantity, price(channel, piece, quantity))
                except Unpriced:
                    yield without(name, channel, quantity, "failed")
                    continue
                above = None if low is None else sale.price - low
                place = None
                if low is not None and high is not None and high != low:
                    place = above / (high - low)
                yield row(name, channel, sale, [CHF.text(above), plain(place)])
