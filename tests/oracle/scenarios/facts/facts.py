"""Facts of the trade (common practice, no source), on the channel a shop has without naming one."""

from fractions import Fraction

from oracle import Channel, Currency, by_set, exact, flag, plain, row, smallest_unit

QUANTITIES = [1, 5]
SHOWS = ["before_time", "brings", "machine_hours", "stuff_share", "stuff_is_low"]

USD = Currency("USD", 2)
CENTS = smallest_unit(USD)

# name: tag, material, machine minutes
PIECES = {
    "sign": ("25", "3", 30),
    "board": ("30", "2.75", 30),
    "plate": ("30", "3", 30),
    "house number": ("42.50", "2.60", 30),
    "coaster": ("8", "0.40", 12),
    "key tag": ("4.99", "0.15", 4),
    "map": ("1120", "38.10", 390),
    "letter": ("12.345", "1.005", 18),
    "blank": ("0.01", "0", 0),
}

DIRECT = Channel("direct", USD, lambda piece, q: exact(piece[1]) + Fraction(piece[2], 60) * 4)


def rows():
    for name, piece in PIECES.items():
        stuff = exact(piece[1])
        for q in QUANTITIES:
            sale = DIRECT.sale(piece, q, by_set(CENTS, exact(piece[0])))
            if name == "sign":
                assert sale.price - stuff == 22
            if name in ("board", "plate") and q == 5:
                assert sale.price * q == 150
            yield row(name, DIRECT, sale,
                      [USD.text(sale.price - stuff), USD.text(sale.price * q),
                       plain(Fraction(piece[2], 60) * q), plain(stuff / sale.price),
                       flag(stuff <= 3)])
