"""Text, dates, tables of two keys, functions, units of the shop's own, roundings inside sums."""

from fractions import Fraction

from oracle import (Channel, Currency, Ladder, by_set, ends_in, even_multiple, every, exact, flag,
                    nearest_multiple, percent, plain, row, up_to_multiple)

OPTIONS = ["--as-of", "2026-12-05"]             # winter, and the fair before the holidays
QUANTITIES = [1]
SHOWS = ["is_winter", "old_stock", "stitched", "quires", "hand_share", "label", "per_hour",
         "in_spring", "even_pay", "near_pay", "season_off"]

DKK = Currency("DKK", 2)
CROWNS = Ladder(DKK, (100, every("0.50")), (500, ends_in("9.00")),
                (None, ends_in("25", "75", "99.50")))
FIVES = Ladder(DKK, (None, every(5)))

WORKDAY = exact("7.5")                          # hours
YARD, FOOT = exact("0.9144"), exact("0.3048")   # metres
REEL = 250 * YARD


class Piece:
    """Pages in signatures, sewing in hours, thread in metres."""

    def __init__(self, name, pages, leather, made, sewing, thread, gold=False, copies=1, waste="5"):
        self.name, self.pages, self.leather, self.made = name, pages, leather, made
        self.sewing, self.gold = exact(sewing), gold
        waste = percent(waste)
        cover = {"goat": exact(140), "calf": exact("188.50"), "kid": exact("188.50"),
                 "none": exact(0)}.get(leather, exact(75))
        paper = pages * exact("3.25")
        gilding = even_multiple(exact("62.75"), exact("0.5")) if gold else 0
        self.pay = min(self.sewing, 3 * WORKDAY) * 1560 / WORKDAY / copies
        self.cost = (paper + waste * paper + cover / (1 - waste)
                     + up_to_multiple(exact(thread) * 85 / REEL, exact("0.5")) + gilding + self.pay)
        if leather == "goat":
            self.finish = exact(15 if pages <= 10 else 22)
        elif leather in ("calf", "kid"):
            self.finish = exact("18" if pages < 8 else "27.25")
        else:
            self.finish = exact(4 if 1 <= pages <= 12 else 6)


PIECES = [
    Piece("pocket", 3, "none", "2026-04-02", WORKDAY / 8, 2),
    Piece("ledger", 12, "goat", "2025-12-31", WORKDAY / 2, "9.5", True, 1, "8"),
    Piece("album", 8, "calf", "2026-05-31", 3, 14 * FOOT, False, 2),
    Piece("atlas", 20, "calf", None, 2 * WORKDAY, REEL / 4, True, 1, "12.5"),
    Piece("psalter", 7, "kid", "2026-01-01", "1.5", 3, True, 3),
    Piece("folio", 16, "goat", "2026-03-01", 4 * WORKDAY, 22, False, 4),
    Piece("zine", 1, "none", "2026-06-01", "0.1", 0, False, 25, "0"),
    Piece("notebook", 10, "linen", None, WORKDAY / 20, exact("1.5") * YARD, False, 10, "2.5"),
    Piece("primer", 10, "goat", "2026-02-28", WORKDAY / 5, 3),
    Piece("blank", 4, "none", None, 0, 0),
]

STUDIO = Channel("studio", DKK, lambda p, q: p.cost, lambda p, q: p.pay)
MARKET = Channel("market", DKK, lambda p, q: p.cost, lambda p, q: p.pay,
                 fees=[("pitch", lambda s: Fraction(350, 12)),
                       ("card", lambda s: percent("1.65") * s.paid)])
POST = Channel("post", DKK, lambda p, q: p.cost + exact("46.80"), lambda p, q: p.pay,
               sells=lambda p, q: p.leather != "calf" or p.pages <= 12,
               tax=("included", percent(25)), extras=[("parcel", lambda s: exact(52))],
               fees=[("handling", lambda s: exact("3.95"))])


def price(where, piece):
    cost = where.cost(piece, 1)
    if where is MARKET:
        value = (cost + piece.finish) / exact("0.58") * exact("1.12")
        return by_set(FIVES, value, "down")
    value = (cost + piece.finish) * exact("1.9") * exact("1.08")
    if where is STUDIO:
        value += percent("6.5") * cost
    return by_set(CROWNS, value)


def rows():
    for piece in PIECES:
        for where in (STUDIO, MARKET, POST):
            if not where.sells(piece, 1):
                continue
            s = where.sale(piece, 1, price(where, piece))
            made = piece.made
            yield row(piece.name, where, s, [
                flag(where is not POST), flag(None if made is None else made < "2026-01-01"),
                plain(piece.sewing / WORKDAY), plain(Fraction(piece.pages, 4)),
                plain(s.pay / s.cost), "gilt" if piece.gold else piece.leather,
                plain(s.take_home / piece.sewing if piece.sewing else None),
                flag(None if made is None else "2026-03-01" <= made <= "2026-05-31"),
                DKK.text(even_multiple(piece.pay, 1)),
                DKK.text(nearest_multiple(piece.pay, exact("0.25"))),
                plain(percent(12 if where is MARKET else 8))])
