"""Three decimals: fees, taxes and discounts to a thousandth; endings whose missing decimals are
zeros; a `set` on a fine grid beside an aim."""

from fractions import Fraction

from oracle import (Channel, Currency, Ladder, by_aim, by_set, discounted, ends_in, every, exact,
                    percent, plain, row)

QUANTITIES = [1, 6]
SHOWS = ["per_ml"]

KWD = Currency("KWD", 3)
COUNTER = Ladder(KWD, (2, ends_in(".250", ".75", ".995")), (10, every("0.125")),
                 (None, ends_in(".5")))
FIVES = Ladder(KWD, (None, every("0.005")))

# name: essence in millilitres, bottle, mixing in minutes
PIECES = {
    "sample": ("1.5", "0.085", "2"),
    "roll-on": ("8", "0.240", "6"),
    "classic": ("30", "1.125", "11"),
    "large": ("50", "1.350", "12"),
    "house": ("100", "2.005", "25"),
    "oil": ("7.5", "0.310", "4"),
    "candle oil": ("12.25", "0.4", "6"),
    "reserve": ("250", "1000.5", "60"),
    "water": ("0", "0.333", "1"),
    "solid": ("2", "0.150", "1.5"),
}


def pay(piece, quantity):
    return exact(piece[2]) / 60 * exact("3.6")


def cost(piece, quantity):
    return (exact(piece[0]) * exact("4.875") / 50 / exact("0.97") + exact(piece[1])
            + pay(piece, quantity))


def bulk(quantity):
    return percent("4.5") if quantity >= 6 else exact(0)


SOUK = Channel("souk", KWD, cost, pay,
               fees=[("place", lambda s: Fraction(7, 90)),
                     ("card", lambda s: percent("1.75") * s.paid)])
APP = Channel("app", KWD, lambda piece, q: cost(piece, q) + exact("1.1"), pay,
              extras=[("delivery", lambda s: exact("0.75") if s.price < 8 else 0)],
              tax=("added", percent(5)),
              fees=[("commission", lambda s: max(percent("12.5") * (s.price + s.extra["delivery"]),
                                                 exact("0.4"))),
                    ("order_fee", lambda s: exact("0.1") / s.quantity)])
HOTEL = Channel("hotel", KWD, cost, pay, fees=[("commission", lambda s: percent(33) * s.price)])


def listed(channel, piece):
    if channel is HOTEL:
        return by_set(FIVES, cost(piece, 1) * exact("1.75") + exact("0.3335"))

    def aim(price):
        s = channel.sale(piece, 1, price)
        return s.profit >= exact("0.65") and s.keep / s.cost >= exact("1.4")

    return by_aim(COUNTER, aim)


def rows():
    for name, piece in PIECES.items():
        for channel in (SOUK, APP, HOTEL):
            ticket = listed(channel, piece)
            for quantity in QUANTITIES:
                price = discounted(KWD, ticket, bulk(quantity))
                sale = channel.sale(piece, quantity, price, ticket)
                essence = exact(piece[0])
                yield row(name, channel, sale, [plain(price / essence if essence else None)])
