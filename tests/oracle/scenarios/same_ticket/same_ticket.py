"""One ticket for several channels: the least price every aim and floor accepts; of sets, the
greatest."""

from fractions import Fraction

from oracle import (Channel, Currency, Ladder, by_aim, by_set, ends_in, every, exact, one_ticket,
                    percent, plain, row)

QUANTITIES = [1, 2]
SHOWS = ["per_gram"]

NZD = Currency("NZD", 2)
TICKET = Ladder(NZD, (20, ends_in(".50")), (120, ends_in("9")), (None, ends_in("5", "9")))
DOLLARS = Ladder(NZD, (None, every(1)))
HALVES = Ladder(NZD, (None, every("0.50")))

# name: silver in grams, bench in minutes, lowest, posted
PIECES = {
    "stud": ("1.2", 12, None, True),
    "ring": ("4.5", 35, None, True),
    "band": ("7.25", 60, 150, True),
    "chain": ("18", 55, None, False),
    "cuff": (exact("1.1") * exact("28.349523125"), 80, None, True),
    "drop": ("0.8", 6, exact("38.50"), False),
    "pin": ("2", 9, None, True),
    "bowl": ("210", 390, 1400, False),
    "bead": ("0.4", 1, None, True),
    "charm": ("1.5", 10, exact("9.60"), True),
    "link": ("0.9", 5, None, False),
    "torc": ("62", 240, None, True),
}


def pay(piece, quantity):
    return Fraction(piece[1], 60) * 44


def cost(piece, quantity):
    return exact(piece[0]) * exact("1.95") / exact("0.94") + pay(piece, quantity)


STALL = Channel("stall", NZD, cost, pay, fees=[("card", lambda s: percent("2.1") * s.paid),
                                               ("place", lambda s: exact("3.75"))])
WEBSITE = Channel("website", NZD, lambda piece, q: cost(piece, q) + exact("7.40"), pay,
                  tax=("included", percent(15)), sells=lambda piece, q: piece[3],
                  extras=[("courier", lambda s: exact("6.90") if s.price < 80 else 0)],
                  fees=[("payment", lambda s: percent("3.2") * s.paid
                         + exact("0.17") / s.quantity)])
GALLERY = Channel("gallery", NZD, cost, pay, fees=[("commission", lambda s: percent(40) * s.price)])
KIOSK = Channel("kiosk", NZD, cost, pay, fees=[("commission", lambda s: percent(12) * s.price)])
WINDOW = Channel("window", NZD, cost, pay)
FRIENDS = Channel("friends", NZD, cost, pay)


def price(where, piece, q):
    lowest = piece[2]

    def at(channel, p):
        return channel.sale(piece, q, p)

    if where is FRIENDS:
        return by_aim(HALVES, lambda p: at(FRIENDS, p).profit >= 0, lowest)
    if where in (KIOSK, WINDOW):
        return max(by_set(DOLLARS, cost(piece, q) * exact("2.2"), "nearest", lowest),
                   by_set(DOLLARS, cost(piece, q) * exact("1.9") + 6))
    aims = [(lambda p: at(STALL, p).margin >= percent(38), lowest),
            (lambda p: at(GALLERY, p).profit >= 4, None)]
    if WEBSITE.sells(piece, q):
        def website(p):
            s = at(WEBSITE, p)
            return s.margin >= percent(30) and s.profit >= 9
        aims.append((website, 25))
    return one_ticket(TICKET, aims)


def rows():
    for name, piece in PIECES.items():
        for where in (STALL, WEBSITE, GALLERY, KIOSK, WINDOW, FRIENDS):
            for q in QUANTITIES:
                if where.sells(piece, q):
                    sale = where.sale(piece, q, price(where, piece, q))
                    yield row(name, where, sale, [plain(sale.price / exact(piece[0]))])
