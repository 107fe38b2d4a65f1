"""The garden shop of the reference's "A whole file" (grammar/LANGUAGE.md), computed by hand."""

from oracle import (Channel, Currency, Ladder, Unpriced, by_aim, discounted, ends_in, every, exact,
                    percent, plain, row, without)

QUANTITIES = [1, 5, 20]
SHOWS = ["earned_per_hour"]

USD = Currency("USD", 2)
CHARM = Ladder(USD, (10, ends_in(".49", ".99")), (100, ends_in(".99")),
               (None, ends_in("4.95", "9.95")))
WHOLE_DOLLARS = Ladder(USD, (None, every(1)))

OIL = exact("18") / 1000                # a millilitre
SCREW = exact("9.60") / 200
TWINE = exact("7.50") / 250             # a metre
OUNCE = exact("453.59237") / 16         # in grams


class Piece:
    """Timber in board feet, ply in sheets, times in minutes, parcel in grams, the rest money."""

    def __init__(self, name, timber="0", ply="0", parts=0, hardware="0", setup=0, machine=0,
                 bench=0, batch=1, parcel=0, low=None, high=None):
        self.name, self.batch, self.parcel = name, batch, exact(parcel)
        self.low = None if low is None else exact(low)
        self.high = None if high is None else exact(high)
        hour = exact(1) / 60
        wood = (exact(timber) * exact("7.80") + exact(ply) * 46) / (1 - percent(12))
        sundries = parts + exact(hardware)
        machine_time = machine * hour * exact("6.50")
        setting_up = setup * hour * 26 / batch
        hand_time = bench * hour * 26
        before = wood + sundries + machine_time + setting_up + hand_time
        self.cost = before + percent(12) * before
        self.pay = setting_up + hand_time
        self.hands_on = (exact(setup) / batch + bench) * hour


PIECES = [
    Piece("plain nest box", "1.8", hardware="1.35", setup=40, machine=25, bench=20, batch=6,
          parcel=900),
    Piece("long trough", "4", "1/2", 24 * SCREW + 60 * OIL, "2.10", 70, 35, 50, 4, 4200),
    Piece("bean frame", "7/2", parts=12 * TWINE + 16 * SCREW, setup=30, machine=15, bench=25,
          batch=10, parcel=2500, low="34", high="58"),
    Piece("seed tray", "0.6", parts=8 * SCREW, setup=30, machine=6, bench=8, batch=20, parcel=240,
          low="4"),
    Piece("planter", ply="5/4", parts=200 * OIL, hardware="14.80", setup=120, machine=50, bench=90,
          batch=2, parcel=6000),
    Piece("bird table", "2.4", "0.25", hardware="3.20", setup=45, machine=20, bench=35, batch=5,
          parcel=3000, high="72"),
    Piece("dibber", "0.25", parts=5 * OIL, setup=15, machine=4, bench=3, batch=40, parcel=120),
    Piece("potting bench", "22", "1", 60 * SCREW + 250 * OIL, "18.50", 90, 65, 180, 1, low="600"),
    Piece("label stakes", "1/8", hardware="0.30", setup=20, machine=3, bench=5, batch=12,
          parcel=8 * OUNCE, low="12.50"),
    Piece("gate", "9", hardware="1024.50", setup=60, machine=45, bench=150, parcel=5000),
    Piece("unworked kit", "3", parts=200 * SCREW, machine=12, batch=6, parcel=1000),
    Piece("twine on a reel", "0.2", parts=25 * TWINE, bench=4, parcel=250, low="3", high="30"),
    Piece("crossed guide", "1", setup=10, machine=5, bench=5, batch=2, parcel=500, low="40",
          high="20"),
]


def bulk(quantity):
    return percent(12) if quantity >= 20 else percent(5) if quantity >= 5 else exact(0)


def postage(piece):
    for limit, amount in ((250, "4.10"), (1000, "6.85"), (5000, "11.40")):
        if piece.parcel <= limit:
            return exact(amount)
    raise Unpriced("no row of postage for this parcel")


CHANNELS = [
    (CHARM, Channel(
        "stall", USD, lambda piece, q: piece.cost, lambda piece, q: piece.pay,
        fees=[("card", lambda s: percent("2.4") * s.paid + exact("0.06") / s.quantity),
              ("pitch", lambda s: exact("85/30"))])),
    (CHARM, Channel(
        "marketplace", USD, lambda piece, q: piece.cost + postage(piece) + exact("0.60"),
        lambda piece, q: piece.pay,
        sells=lambda piece, q: piece.parcel > 0,
        extras=[("shipping", lambda s: postage(s.record))],
        tax=("added", percent(8)),
        fees=[("listing", lambda s: exact("0.24")),
              ("commission", lambda s: min(percent("7.2") * (s.price + s.extra["shipping"]),
                                           exact(30))),
              ("payment", lambda s: percent("3.1") * s.paid + exact("0.18") / s.quantity)])),
    (WHOLE_DOLLARS, Channel(
        "gallery", USD, lambda piece, q: piece.cost, lambda piece, q: piece.pay,
        fees=[("commission", lambda s: percent(45) * s.price)])),
]


def rows():
    for piece in PIECES:
        for ladder, channel in CHANNELS:
            if not channel.sells(piece, 1):
                continue

            def aim(price):
                s = channel.sale(piece, 1, price)
                return s.margin >= percent(35) and s.profit >= 4

            for quantity in QUANTITIES:
                try:
                    listed = by_aim(ladder, aim, piece.low, piece.high)
                    price = discounted(USD, listed, bulk(quantity))
                    sale = channel.sale(piece, quantity, price, listed)
                except Unpriced:
                    yield without(piece.name, channel, quantity, "failed")
                    continue
                if sale.profit < 0:
                    yield without(piece.name, channel, quantity, "refused")
                    continue
                hourly = sale.take_home / piece.hands_on if piece.hands_on else None
                yield row(piece.name, channel, sale, [plain(hourly)])
