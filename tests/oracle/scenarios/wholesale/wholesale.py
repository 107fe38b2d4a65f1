"""One channel priced from another; channels that replace the shop's let, cost and pay."""

from oracle import (Channel, Currency, Ladder, Unpriced, by_aim, by_set, ends_in, every, exact,
                    percent, row, without)

QUANTITIES = [1, 3, 12]
SHOWS = ["below_retail", "boxed"]

AUD = Currency("AUD", 2)
SHELF = Ladder(AUD, (8, ends_in(".00", ".50")), (None, ends_in(".00")))
DIMES = Ladder(AUD, (None, every("0.10")))
FIVES = Ladder(AUD, (None, every("0.05")))
FOUR_OUNCES = exact("453.59237") / 4

# name: oils in dollars, cutting in minutes, sold to shops, weight in grams
PIECES = {
    "oat bar": ("0.82", "3", True, 100),
    "rose bar": ("1.46", "3.5", True, 110),
    "shaving puck": ("0.95", "5", False, 85),
    "gift block": ("3.30", "9", True, 400),
    "travel bar": ("0.28", "2", True, 45),
    "salt bar": ("1.10", "4", False, FOUR_OUNCES),
    "big loaf": ("14.70", "20", True, 1200),
    "guest bar": ("0.22", "1.25", False, 30),
    "dish block": ("2.05", "6", True, 250),
    "seconds": ("0", "1", True, 100),
}

PRINTED = exact("38") / 250


def oils(piece):
    return exact(piece[0]) / exact("0.96")


def gift_wrapping(piece):
    return exact("1.20") if piece[3] > FOUR_OUNCES else exact("0.80")


def channel(name, wrapping, boxes, packing, fees, sells=None):
    """The same lines of cost on every channel, with this channel's own figures in them."""
    def pay(piece, q):
        return exact(piece[1]) / 60 * 31 + packing / q

    def cost(piece, q):
        return oils(piece) + wrapping(piece) + PRINTED + boxes + pay(piece, q)

    return Channel(name, AUD, cost, pay, fees=fees, sells=sells)


CARTON = exact("4.20") / 12
CARD = ("card", lambda s: percent("2.3") * s.paid + exact("0.08") / s.quantity)

WHOLESALE = channel("wholesale", lambda piece: exact("0.08"), exact("11.40") / 48, exact(9),
                    [("terms", lambda s: percent("1.8") * s.paid)], lambda piece, q: piece[2])
RETAIL = channel("retail", lambda piece: exact("0.35"), CARTON, exact("3.50"), [CARD])
CLUB = channel("club", gift_wrapping, CARTON, exact("3.50"), [CARD])
MARKET = channel("market", lambda piece: exact("0.35"), CARTON, exact("3.50"),
                 [("pitch", lambda s: exact(140) / 80), CARD])


def price(where, piece, q):
    if where is WHOLESALE:
        def aim(p):
            s = where.sale(piece, q, p)
            return s.margin >= percent(22) and s.take_home >= 1
        return by_aim(DIMES, aim)
    if where is RETAIL:
        trade = price(WHOLESALE, piece, 1) if piece[2] else where.cost(piece, q) * exact("1.3")
        return by_set(SHELF, trade * 2, "up")
    if where is CLUB:
        value = price(RETAIL, piece, 1) * exact("0.9") + gift_wrapping(piece)
        return by_set(FIVES, value)
    aim = lambda p: where.sale(piece, q, p).margin >= percent(35)
    return by_aim(SHELF, aim, price(RETAIL, piece, 1) * exact("0.85"))


def rows():
    for name, piece in PIECES.items():
        for where in (WHOLESALE, RETAIL, CLUB, MARKET):
            for q in QUANTITIES:
                if not where.sells(piece, q):
                    continue
                try:
                    sale = where.sale(piece, q, price(where, piece, q))
                except Unpriced:
                    yield without(name, where, q, "failed")
                    continue
                yield row(name, where, sale, [AUD.text(price(RETAIL, piece, 1) - sale.price),
                                              AUD.text(sale.cost - oils(piece))])
