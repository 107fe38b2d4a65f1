"""Absent values: what they make missing, what ignores them, what stands in for them."""

from oracle import (Channel, Currency, Ladder, Unpriced, both, by_aim, discounted, either, every,
                    exact, flag, larger, percent, plain, row, smaller, without)

QUANTITIES = [1, 2]
SHOWS = ["guide", "roof", "known", "breakable", "not_fragile", "either_way", "both_ways",
         "under_high", "colour_word", "tone", "date_kept", "count_kept", "share_kept", "doubled",
         "in_range"]

EUR = Currency("EUR", 2)
DIMES = Ladder(EUR, (None, every("0.10")))


class Piece:
    def __init__(self, name, stuff=None, making=None, low=None, last_year=None, high=None, cap=None,
                 fragile=None, colour=None, since=None, pieces=None, share=None, old=None):
        number = lambda text: None if text is None else exact(text)
        self.name, self.fragile, self.colour, self.since = name, fragile, colour, since
        self.stuff, self.making, self.low, self.last_year = map(number, (stuff, making, low,
                                                                         last_year))
        self.high, self.cap, self.share, self.old = map(number, (high, cap, share, old))
        self.pieces = pieces

    def pay(self):
        if self.making is not None:
            return self.making / 60 * 22
        return (exact(2) if self.stuff is None else self.stuff) / 2

    def cost(self):
        material = exact("1.50") if self.stuff is None else self.stuff
        padding = {None: "0.20", True: "1.10", False: "0"}[self.fragile]
        split = exact(3) / (self.pieces or 4)
        paint = {None: "0.05", "red": "0.40", "blue": "0.40", "plain": "0"}.get(self.colour, "0.25")
        if self.since is None:
            storing = "0.30"
        elif self.since < "2020-01-01":
            storing = "0.90"
        else:
            storing = "0.45" if self.since <= "2024-12-31" else "0.10"
        return material + self.pay() + exact(padding) + split + exact(paint) + exact(storing)


PIECES = [
    Piece("empty"),
    Piece("whole", "4.20", "35", "14", "18.50", "40", "36", False, "red", "2021-06-01", 3, "0.125"),
    Piece("vase", "11", "60", None, "34", None, "60", True, "blue", "2019-12-31", 1),
    Piece("dear vase", "16.75", "80", "42", None, None, None, True, "plain", "2024-12-31", 2,
          "0.05"),
    Piece("kept", "2.10", "9", "5", None, "12", share="0.10", old="7.77"),
    Piece("cap only", "6", "50", cap="15.05", fragile=False, since="2025-01-01", pieces=6),
    Piece("high only", "6", "50", high="19.50", fragile=False, colour="red", since="2020-01-01",
          share="0.60"),
    Piece("red without share", "3", "20", "8", fragile=True, colour="red", pieces=4),
    Piece("scrap", "0.05", "2"),
    Piece("quick", "1", "0.5", fragile=False),
    Piece("unknown time", "2.40", None, "3", "4", colour="green", since="1999-01-01", pieces=12,
          share="0.30"),
    Piece("half known", None, "18", None, "6.60", fragile=True, colour="blue"),
    Piece("squeezed", "5", "25", "30", None, "20", fragile=False),
]

COST = dict(cost=lambda piece, q: piece.cost(), pay=lambda piece, q: piece.pay())
STALL = Channel("stall", EUR, fees=[
    ("place", lambda s: max(exact("1.20"), (s.record.stuff or 0) * exact("0.1")))], **COST)
SHOP = Channel("shop", EUR, sells=lambda piece, q: piece.fragile is not True, fees=[
    ("commission", lambda s: (percent(20) if s.record.share is None else s.record.share) * s.price)
], **COST)


def below(a, b):
    return None if a is None or b is None else a < b


def rows():
    for piece in PIECES:
        for where in (STALL, SHOP):
            if not where.sells(piece, 1):
                continue
            guide = larger(piece.low, piece.last_year)
            least = max(exact(1), (piece.last_year or 0) * exact("0.05"))
            rate = smaller(piece.share, percent(50)) if piece.colour == "red" else exact(0)

            def aim(p):
                s = where.sale(piece, 1, p)
                return s.margin >= percent(25) and s.profit >= least

            for q in QUANTITIES:
                try:
                    if where is STALL and piece.old is not None:
                        listed = piece.old
                    elif where is STALL:
                        listed = by_aim(DIMES, aim, None if guide is None else guide * exact("0.9"),
                                        smaller(piece.high, piece.cap))
                    else:
                        listed = by_aim(DIMES, aim, piece.low, piece.cap)
                except Unpriced:
                    yield without(piece.name, where, q, "failed")
                    continue
                price = discounted(EUR, listed, rate)
                s = where.sale(piece, q, price, listed)
                thin = either(below(piece.stuff, exact("0.10")), below(piece.making, 1))
                if either(both(piece.fragile, price > 40), thin) is True:
                    yield without(piece.name, where, q, "refused")
                    continue
                dear = price >= 10
                in_range = None                         # `between` is no `and`
                if piece.low is not None and piece.high is not None:
                    in_range = piece.low <= price <= piece.high
                yield row(piece.name, where, s, [
                    EUR.text(guide), EUR.text(smaller(piece.high, piece.cap)),
                    flag(piece.making is not None), flag(piece.fragile),
                    flag(None if piece.fragile is None else not piece.fragile),
                    flag(either(piece.fragile, dear)), flag(both(piece.fragile, dear)),
                    flag(below(price, piece.high)), piece.colour or "none",
                    {None: "", True: "soft", False: "hard"}[piece.fragile],
                    piece.since or "", plain(piece.pieces), plain(piece.share),
                    EUR.text(None if piece.last_year is None else piece.last_year * 2),
                    flag(in_range)])
