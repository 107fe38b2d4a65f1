"""A multiple of cost, brought to a ladder nearest, up and down, then into floor and ceiling."""

from fractions import Fraction

from oracle import (Channel, Currency, Ladder, Unpriced, by_set, ends_in, every, exact, percent,
                    plain, row, smallest_unit, without)

QUANTITIES = [1, 3]
SHOWS = ["gain"]

GBP = Currency("GBP", 2)
SHELF = Ladder(GBP, (10, ends_in(".25", ".75")), (50, every(1)), (None, ends_in("5", "9.50")))
PENNIES = smallest_unit(GBP)
HALVES = Ladder(GBP, (None, every("0.50")))

# name: paper in pounds, press in seconds, lowest, highest
PIECES = {
    "gift tag": ("0.02", 0, None, None),
    "postcard": ("0.16", 60, None, None),
    "note card": ("1.60", 0, None, None),
    "folded card": ("2", 20, None, None),
    "print small": ("1.35", 90, None, exact("9.20")),
    "print large": ("4.05", 360, exact(28), None),
    "poster": ("12.45", 540, None, None),
    "banner": ("17.55", 0, exact("40.50"), exact(60)),
    "scroll": ("17.60", 0, None, exact("49.99")),
    "book": ("1210", 7200, None, None),
    "sleeve": ("1.80", 30, exact("10.10"), exact("10.90")),
    "leaflet": ("0", 180, None, None),
}


def pay(piece, quantity):
    return exact("2.40") / quantity


def cost(piece, quantity):
    return exact(piece[0]) + Fraction(piece[1], 3600) * 18 + pay(piece, quantity)


def posted(piece, quantity):
    return cost(piece, quantity) + exact("1.35")


SHOP = Channel("shop", GBP, cost, pay, fees=[("card", lambda s: percent("1.6") * s.paid)])
MARKET = Channel("market", GBP, cost, pay)
TRADE = Channel("trade", GBP, cost, pay)
POST = Channel("post", GBP, posted, pay, extras=[("stamp", lambda s: exact("1.35"))],
               tax=("added", percent(20)),
               fees=[("payment", lambda s: percent("2.8") * s.paid + exact("0.17") / s.quantity)])
WINDOW = Channel("window", GBP, cost, pay)


def price(channel, piece, quantity):
    lowest, highest = piece[2], piece[3]
    spent = channel.cost(piece, quantity)
    if channel is SHOP:
        return by_set(SHELF, spent * exact("2.5"), "nearest", lowest, highest)
    if channel is MARKET:
        return by_set(SHELF, spent * exact("2.5"), "up", lowest, highest)
    if channel is TRADE:
        return by_set(SHELF, spent * exact("2.2"), "down", lowest, None)
    if channel is POST:
        return by_set(PENNIES, spent / exact("0.35"), "nearest", lowest, highest)
    return by_set(HALVES, min(spent * 3, exact(40)), "nearest", None, highest)


def rows():
    for name, piece in PIECES.items():
        for channel in (SHOP, MARKET, TRADE, POST, WINDOW):
            for quantity in QUANTITIES:
                try:
                    sale = channel.sale(piece, quantity, price(channel, piece, quantity))
                except Unpriced:
                    yield without(name, channel, quantity, "failed")
                    continue
                yield row(name, channel, sale, [plain(sale.profit / sale.cost)])
