"""Whole yen: rounding of every fee, tax and discounted price to a unit; a ladder of tens and 80s."""

from fractions import Fraction

from oracle import (Channel, Currency, Ladder, Unpriced, by_aim, discounted, ends_in, every, exact,
                    percent, plain, row, without)

QUANTITIES = [1, 4, 11, 12]
SHOWS = ["hourly_left", "with_tax"]

JPY = Currency("JPY", 0)
SHELF = Ladder(JPY, (1000, every(10)), (10000, ends_in("80")), (None, ends_in("800", "500")))
HUNDREDS = Ladder(JPY, (None, every(100)))


class Piece:
    """Clay in kilograms, throwing in minutes, parcel in grams."""

    def __init__(self, name, clay, glaze, throwing, firings=1, parcel=0, low=None, high=None):
        self.name, self.parcel, self.low, self.high = name, parcel, low, high
        self.hours = Fraction(throwing, 60)
        self.pay = self.hours * 1850
        self.cost = (exact(clay) * 385 / exact("0.92") + glaze
                     + firings * Fraction(2900, 24) + self.pay)


PIECES = [
    Piece("tea bowl", "0.45", 60, 14, 2, 400),
    Piece("saucer", "0.18", 25, 5),
    Piece("sake cup", "0.12", 30, 4, 1, 150, None, 700),
    Piece("plate", "0.8", 1250, 20, 2, 1100),
    Piece("vase", "2.4", 180, 65, 2, 3500, 12000, 15000),
    Piece("jar", "3", 240, 55, 2, 2000, None, 9000),
    Piece("bead", "0.005", 0, 1, 1, 20),
    Piece("lamp", "4.75", 1400, 210, 3, 6),
    Piece("chopstick rest", "0.03", 8, 2, 1, 50, 100),
    Piece("tile", "0.5", 12, 0, 2, 500),
]


def carriage(piece):
    return 430 if piece.parcel <= 500 else 890 if piece.parcel <= 2000 else 1540


def bulk(quantity):
    return percent(15) if quantity >= 12 else percent("7.5") if quantity >= 4 else exact(0)


def cost(piece, quantity):
    return piece.cost


def pay(piece, quantity):
    return piece.pay


CHANNELS = [
    (SHELF, bulk, Channel(
        "market", JPY, cost, pay,
        fees=[("place", lambda s: exact("4000/30")), ("card", lambda s: percent("2.85") * s.paid)])),
    (SHELF, bulk, Channel(
        "site", JPY, lambda piece, q: piece.cost + carriage(piece) + 55, pay,
        sells=lambda piece, q: piece.parcel > 0,
        extras=[("carriage_paid", lambda s: carriage(s.record))],
        tax=("included", percent(10)),
        fees=[("commission", lambda s: min(percent("7.7") * (s.price + s.extra["carriage_paid"]),
                                           exact(1500))),
              ("payment", lambda s: percent("4.3") * s.paid + Fraction(27, s.quantity))])),
    (HUNDREDS, None, Channel(
        "depot", JPY, cost, pay, fees=[("commission", lambda s: percent(38) * s.price)])),
]


def rows():
    for piece in PIECES:
        for ladder, discount, channel in CHANNELS:
            if not channel.sells(piece, 1):
                continue
            for quantity in QUANTITIES:
                asked = 1 if discount else quantity         # a discount finds the list at one

                def aim(price):
                    s = channel.sale(piece, asked, price)
                    return s.margin is not None and s.margin >= percent(40) and s.profit >= 150

                try:
                    listed = by_aim(ladder, aim, piece.low, piece.high, bound=100000)
                except Unpriced:
                    yield without(piece.name, channel, quantity, "failed")
                    continue
                price = discounted(JPY, listed, discount(quantity)) if discount else listed
                sale = channel.sale(piece, quantity, price, listed)
                hourly = sale.take_home / piece.hours if piece.hours else None
                yield row(piece.name, channel, sale, [plain(hourly), JPY.text(sale.paid)])
