"""Areas, volumes and masses from mixed units; parts and their worth; losses; rounded amounts."""

from oracle import (Channel, Currency, Ladder, by_aim, ends_in, exact,
                    nearest_multiple, percent, plain, row, slices, up_to_multiple)

QUANTITIES = [1]
SHOWS = ["covered_sqin", "covered_tiles", "core_litres", "metal_g", "stone_oz", "sheets",
         "oven_booked", "per_sqft", "board_feet", "diagonal_free"]

CAD = Currency("CAD", 2)
SHELF = Ladder(CAD, (40, ends_in("5.00", "9.50")), (None, ends_in("9")))

# Lengths in millimetres, areas in square millimetres, volumes in cubic millimetres, masses in
# grams, times in minutes.
IN, FT, YD, CM = exact("25.4"), exact("304.8"), exact("914.4"), exact(10)
SQIN, SQFT, SQYD, SQM = IN ** 2, FT ** 2, YD ** 2, exact(10 ** 6)
BF, ML, LITRE = 144 * IN ** 3, exact(1000), exact(10 ** 6)
LB = exact("453.59237")
OZ, OZT, CT = LB / 16, 480 * LB / 7000, exact("0.2")          # 7000 grains a pound, 480 an ozt
FLOZ = 231 * IN ** 3 / 128                                    # 231 cubic inches a US gallon

OLIVE = exact(36) / (5 * LITRE)
OLIVE_BY_MASS = OLIVE / (exact(915) / LITRE)                  # per gram
LYE = exact("7.20") / 900
VENEER = exact(58) / (12 * SQFT)
BRASS = exact("9.40") / YD
DYE = exact("6.75") / (250 * ML)
BEAD = exact(3) / 12
JAR = exact("0.85")
SILVER = exact("31.50") / OZT
LEATHER = exact(92)
SCREW = exact("9.60") / 200


class Piece:
    def __init__(self, name, uses=0, top=0, core=0, wide=0, long=0, skin=0, metal=0, stone=0,
                 glaze=0, oven=0, pack=0):
        self.name, self.pack = name, exact(pack)
        self.top, self.core, self.metal, self.stone = top, core, metal, stone
        self.edge = exact(wide + long)
        self.oven = exact(oven)
        self.covered = exact(wide * long + top)
        self.cost = (
            uses
            + top * VENEER / exact("0.85")
            + core * exact("8.25") / BF / exact("0.85")
            + wide * long * exact("4.40") / SQM / exact("0.96")
            + wide * long * exact("0.02") / SQIN
            + skin * LEATHER
            + metal * SILVER / exact("0.975")
            + stone * 14 / CT
            + glaze * DYE
            + up_to_multiple(self.oven, 30) * exact("5.60") / 60
            + exact("0.75") + up_to_multiple(self.pack, 100) * exact("1.15") / 1000)


PIECES = [
    Piece("castile", 450 * OLIVE_BY_MASS + 62 * LYE + 2 * JAR, pack=550),
    Piece("laundry bar", exact("0.3") * LITRE * OLIVE + exact("1.5") * OZ * LYE,
          wide=3 * IN, long=exact("2.25") * IN, pack=90),
    Piece("side table", 12 * SCREW + exact("1.5") * FT * BRASS, top=exact("5.5") * SQFT,
          core=exact("3.25") * BF, wide=18 * IN, long=2 * FT, pack=9500),
    Piece("tray", 30 * BEAD, top=288 * SQIN, core=BF / 4, wide=exact("8.5") * IN, long=12 * IN,
          pack=800),
    Piece("ring", metal=exact("4.2"), stone=exact("0.75") * CT, oven=45, pack=35),
    Piece("pendant", 24 * BEAD + 20 * CM * BRASS, wide=IN, long=exact("1.5") * IN,
          metal=exact("0.3") * OZ, stone=exact("0.125"), oven=10, pack=40),
    Piece("bowl", 12 * ML * DYE, wide=6 * IN, long=6 * IN, glaze=35 * ML, oven=70,
          pack=exact("1.4") * LB),
    Piece("tiles", top=SQYD * 2 / 3, glaze=8 * FLOZ, oven=150, pack=4000),
    Piece("bag", 18 * IN * BRASS, skin=exact("0.4"), pack=700),
    Piece("strap", wide=exact("1.5") * IN, long=38 * IN, skin=exact("0.125"), glaze=5 * ML,
          pack=120),
    Piece("panel", exact("1.5") * SQFT * VENEER, top=SQM, core=exact("0.02") * BF, wide=exact(600),
          long=40 * CM, oven=30, pack=2),
    Piece("heirloom", exact("2.5") * OZT * SILVER + JAR, core=1000 * CM ** 3, wide=5 * IN,
          long=7 * IN, skin=1, metal=OZT, stone=2 * CT, glaze=ML / 2, oven=150, pack=1000),
]


def area_fee(area):
    return slices(area, [(50 * SQIN, exact("0.03") / SQIN), (SQFT, exact("0.01") / SQIN),
                         (None, exact("0.004") / SQIN)])


def posting(piece):
    return exact("0.35") / 100 * up_to_multiple(piece.pack, 50) + exact("2.10")


STUDIO = Channel("studio", CAD, lambda piece, q: piece.cost,
                 fees=[("licence", lambda s: area_fee(s.record.covered)),
                       ("card", lambda s: percent("2.25") * s.paid)])
ONLINE = Channel("online", CAD, lambda piece, q: piece.cost + posting(piece),
                 tax=("added", percent(13)), fees=[("commission", lambda s: percent(8) * s.price)])


def rows():
    for piece in PIECES:
        for where in (STUDIO, ONLINE):
            def aim(p):
                s = where.sale(piece, 1, p)
                return s.profit >= 5 and s.margin >= percent(40)

            sale = where.sale(piece, 1, by_aim(SHELF, aim))
            shows = [piece.covered / SQIN, piece.covered / (16 * SQIN), piece.core / LITRE,
                     piece.metal, piece.stone / OZ, up_to_multiple(piece.top / (32 * SQFT), 1),
                     nearest_multiple(piece.oven, 20) / 60,
                     sale.price / (piece.covered / SQFT) if piece.covered else None,
                     piece.core / BF, piece.edge / FT]
            yield row(piece.name, where, sale, map(plain, shows))
