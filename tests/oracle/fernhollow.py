"""The demo shop, rules/fernhollow, stated a second time: its method and its studies by hand.

Written from the rules file and the language's reference with the blocks of oracle.py. Every allowed
price is tried, upward. Amounts are fractions of a dollar, times are in hours, lengths in inches,
timber in board feet, masses in grams; a material's rate is for one of what its pack is counted in.

Run as a program, it checks itself against the sums in the rules file.
"""

import csv
import functools
import os
from fractions import Fraction

from oracle import (Channel, Currency, Ladder, by_aim, discounted, ends_in, every, exact,
                    greatest_between, percent, smallest_unit)

HERE = os.path.dirname(os.path.abspath(__file__))
RULES = os.path.normpath(os.path.join(HERE, "..", "..", "rules", "fernhollow", "fernhollow.rules"))
SHEET = os.path.join(os.path.dirname(RULES), "products.csv")

USD = Currency("USD", 2)
CHARM = Ladder(USD, (10, ends_in(".49", ".99")), (100, ends_in(".99")),
               (None, ends_in("4.95", "9.95")))
WHOLE_COINS = Ladder(USD, (None, every(1)))
NOTES = Ladder(USD, (50, every(1)), (250, every(5)), (1000, every(10)), (None, every(50)))
CENTS = smallest_unit(USD)

WEEK = Fraction(7 * 24)                             # in hours
MONTH = exact("365.2425") / 12 * 24


# The knobs. ------------------------------------------------------------------------------------

# name: (value, how the rules write one of it); `{}` is the number.
RATES = {
    "screws": (exact("8.40") / 200, "${} each"),
    "hinges": (exact("5.20"), "${} per pair"),
    "twine": (exact("6.90") / 150, "${} per m"),
    "linseed_oil": (exact(21), "${} per l"),
    "roof_felt": (exact("1.35"), "${} per sqft"),
    "acrylic": (exact("3.50"), "${} per sqft"),
    "timber_price": (exact("6.40"), "${} per bf"),
    "ply_price": (exact(52), "${} per sheet"),
    "offcuts": (percent(15), "{}%"),
    "hourly": (exact(24), "${} per h"),
    "machine_bought": (exact(2400), "${}"),
    "machine_hours": (exact(800), "{} h"),
    "machine_power": (exact("0.45"), "${} per h"),
    "machine_hour": (None, "${} per h"),
    "workshop_month": (exact(234), "${}"),
    "worked_month": (exact(90), "{} h"),
    "workshop_hour": (None, "${} per h"),
    "pitch_day": (exact(66), "${}"),
    "pitch_sales": (exact(24), "{}"),
    "carton": (exact("0.90"), "${}"),
    "sales_tax": (percent(7), "{}%"),
}

# A rate worked out from others follows them unless it is replaced itself.
FOLLOWING = {
    "machine_hour": lambda r: r["machine_bought"] / r["machine_hours"] + r["machine_power"],
    "workshop_hour": lambda r: r["workshop_month"] / r["worked_month"],
}


def rates(changes=()):
    changes = dict(changes)
    found = {name: changes.get(name, value) for name, (value, _) in RATES.items()}
    for name, follow in FOLLOWING.items():
        if found[name] is None:
            found[name] = follow(found)
    return found


def spelled(name, value):
    """The rate's value as `--set` takes it; None where decimals cannot say it."""
    form = RATES[name][1]
    number = value * 100 if form.endswith("%") else value
    scaled = number * 10 ** 12
    if scaled.denominator != 1:
        return None
    text = "%d.%012d" % divmod(int(scaled), 10 ** 12)
    return form.format(text.rstrip("0").rstrip("."))


# The sheet. ------------------------------------------------------------------------------------

def number(text):
    """3, 1.6, 3/4 or 1-1/4."""
    whole, dash, rest = text.partition("-")
    return exact(whole) + exact(rest) if dash else exact(text)


def measured(text, units, bare):
    """A cell such as `1 h 20 min`, `25` or `3/4 in`, in the unit that counts one in `units`."""
    words = text.split()
    if not words:
        return None
    if len(words) == 1:
        return number(words[0]) * units[bare]
    assert len(words) % 2 == 0, text
    return sum(number(n) * units[unit] for n, unit in zip(words[::2], words[1::2]))


def money(text):
    return exact(text.lstrip("$")) if text else None


TIMES = {"h": exact(1), "min": exact("1/60")}
MASSES = {"g": exact(1), "kg": exact(1000)}
# What a part's cell counts, in what its rate is for.
PART_UNITS = {"": exact(1), "pair": exact(1), "m": exact(1), "ml": exact("1/1000"),
              "sqft": exact(1)}


class Piece:
    def __init__(self, cells):
        def time(name):
            return measured(cells[name], TIMES, "min") or Fraction(0)

        def inches(name):
            return measured(cells[name], {"in": exact(1)}, "in") or Fraction(0)

        self.name = cells["name"]
        timber = measured(cells["timber"], {"bf": exact(1)}, "bf")
        sizes = inches("long") * inches("wide") * inches("thick")
        self.boards = sizes / 144 if timber is None else timber
        self.ply = measured(cells["ply"], {"sheet": exact(1)}, "sheet") or Fraction(0)
        self.parts = []
        for part in filter(None, cells["uses"].split(" + ")):
            words = part.split() + [""]
            self.parts.append((words[0], exact(words[1]) * PART_UNITS[words[2]]))
        self.bought_in = money(cells["bought in"]) or Fraction(0)
        self.setup, self.machine, self.bench = time("setup"), time("machine"), time("bench")
        self.batch = int(cells["batch"] or 1)
        self.parcel = measured(cells["parcel"], MASSES, "g") or Fraction(0)
        self.for_gallery = cells["for gallery"] == "yes"
        self.low, self.high = money(cells["cheapest seen"]), money(cells["dearest seen"])
        self.agreed = money(cells["agreed price"])
        self.hands_on = self.setup / self.batch + self.bench
        self.cells = cells


def read_sheet(path=SHEET):
    with open(path, encoding="utf-8", newline="") as file:
        return [Piece(cells) for cells in csv.DictReader(file)]


def postage(piece, quantity=1):
    """A piece's share of it: an order is one parcel."""
    for limit, amount in ((500, "4.60"), (2000, "8.20"), (5000, "12.40")):
        if piece.parcel * quantity <= limit:
            return exact(amount) / quantity
    return exact("19.80") / quantity


def bulk(quantity):
    return percent(10) if quantity >= 10 else percent(5) if quantity >= 4 else Fraction(0)


# The method. -----------------------------------------------------------------------------------

class Place:
    """A channel with how its price is found. share: of the price, what is always taken."""

    def __init__(self, channel, ladder, margin, profit, share="0", discount=bulk, ceiling=True):
        self.channel, self.name = channel, channel.name
        self.ladder, self.margin, self.profit = ladder, percent(margin), Fraction(profit)
        self.share, self.discount = percent(share), discount
        self.ceiling = (lambda piece: piece.high) if ceiling else (lambda piece: None)

    def start(self, piece, margin=Fraction(0), quantity=1):
        """A price below which this margin is out of reach, so that trying can begin there.

        What is left is at most the postage and the price's part that no fee takes, and a coin.
        """
        left = self.channel.cost(piece, quantity) / (1 - margin) - exact("0.02")
        if self.channel.extras:
            left -= postage(piece, quantity)
        return max(Fraction(0), left / (1 - self.share))


class Answer:
    """A price found. how: aim, ceiling or pin; needs: what the aim alone would ask."""

    def __init__(self, piece, place, sale, how, needs):
        self.piece, self.place, self.sale = piece, place, sale
        self.how, self.needs = how, needs
        self.list, self.price = sale.list, sale.price
        self.refused = sale.profit < 0
        self.warned = sale.margin is not None and sale.margin < percent(10)
        self.earned_per_hour = sale.take_home / piece.hands_on if piece.hands_on else None


class Shop:
    """The method at these rates. With exact_fees no fee, extra or tax is rounded.

    commission, cap and margin are what a changed copy of the rules file may say otherwise.
    """

    def __init__(self, changes=(), exact_fees=False, commission=8, cap=25, margin=20):
        self.rate = r = rates(changes)
        currency = USD
        if exact_fees:
            currency = Currency("USD", 2)
            currency.round = Fraction
        self.found = {}

        @functools.lru_cache(maxsize=None)
        def cost(piece, quantity):
            return sum(self.lines(piece).values())

        @functools.lru_cache(maxsize=None)
        def pay(piece, quantity):
            lines = self.lines(piece)
            return lines["setting_up"] + lines["hand_time"]

        @functools.lru_cache(maxsize=None)
        def posted(piece, quantity):
            return cost(piece, quantity) + postage(piece, quantity) + r["carton"] / quantity

        def has_parcel(piece, quantity):
            return piece.parcel > 0

        stall = Channel("stall", currency, cost, pay, fees=[
            ("card", lambda s: percent("2.3") * s.paid + exact("0.07") / s.quantity),
            ("pitch", lambda s: r["pitch_day"] / r["pitch_sales"])])
        marketplace = Channel(
            "marketplace", currency, posted, pay, sells=has_parcel, tax=("added", r["sales_tax"]),
            extras=[("shipping", lambda s: postage(s.record, s.quantity))],
            fees=[("listing", lambda s: exact("0.31")),
                  ("commission",
                   lambda s: min(percent(commission) * (s.price + s.extra["shipping"]),
                                 exact(cap))),
                  ("payment", lambda s: percent("3.3") * s.paid + exact("0.16") / s.quantity)])
        web_shop = Channel(
            "web_shop", currency, posted, pay, sells=has_parcel, tax=("added", r["sales_tax"]),
            extras=[("shipping", lambda s: exact(0) if s.price >= 80
                      else postage(s.record, s.quantity))],
            fees=[("payment", lambda s: percent("2.7") * s.paid + exact("0.21") / s.quantity),
                  ("upkeep", lambda s: exact("38/20"))])
        gallery = Channel("gallery", currency, cost, pay, sells=lambda piece, q: piece.for_gallery,
                          fees=[("commission", lambda s: percent(40) * s.price)])
        self.places = [Place(stall, WHOLE_COINS, margin, 3, "2.3"),
                       Place(marketplace, CHARM, margin, 3, "3.3"),
                       Place(web_shop, CHARM, margin, 3, "2.7"),
                       Place(gallery, NOTES, 20, 6, "40", discount=lambda quantity: Fraction(0),
                             ceiling=False)]

    def lines(self, piece):
        r = self.rate
        wood = (piece.boards * r["timber_price"] + piece.ply * r["ply_price"]) / (1 - r["offcuts"])
        return {
            "wood": wood,
            "sundries": sum((n * r[part] for part, n in piece.parts), Fraction(0))
                        + piece.bought_in,
            "machine_time": piece.machine * r["machine_hour"],
            "workshop": (piece.hands_on + piece.machine) * r["workshop_hour"],
            "setting_up": piece.setup * r["hourly"] / piece.batch,
            "hand_time": piece.bench * r["hourly"],
        }

    def sells(self, piece):
        return [place for place in self.places if place.channel.sells(piece, 1)]

    def aims(self, piece, place, price, quantity=1):
        """Whether the aim holds at this price: the floor is no part of it."""
        sale = place.channel.sale(piece, quantity, price)
        return sale.margin is not None and sale.margin >= place.margin \
            and sale.profit >= place.profit

    def needed(self, piece, place):
        """The least allowed price, at or above the floor, that meets the aim."""
        if (piece, place) not in self.found:
            self.found[piece, place] = by_aim(
                place.ladder, lambda price: self.aims(piece, place, price),
                max(piece.low or Fraction(0), place.start(piece, place.margin)))
        return self.found[piece, place]

    def at(self, piece, place, quantity, listed, how="at", needs=None):
        price = discounted(USD, listed, place.discount(quantity))
        sale = place.channel.sale(piece, quantity, price, listed)
        return Answer(piece, place, sale, how, needs)

    def price(self, piece, place, quantity=1):
        needs, ceiling = self.needed(piece, place), place.ceiling(piece)
        if piece.agreed is not None:
            return self.at(piece, place, quantity, piece.agreed, "pin", needs)
        if ceiling is not None and needs > ceiling:
            held = greatest_between(place.ladder, piece.low or Fraction(0), ceiling)
            return self.at(piece, place, quantity, held, "ceiling", needs)
        return self.at(piece, place, quantity, needs, "aim", needs)

    def all(self, pieces, quantities=(1,), channels=None):
        """Every answer in the order of the sheet, the rules and the quantities."""
        for piece in pieces:
            for place in self.sells(piece):
                if channels is None or place.name in channels:
                    for quantity in quantities:
                        yield self.price(piece, place, quantity)


# The other questions. --------------------------------------------------------------------------

@functools.lru_cache(maxsize=None)
def without_loss(piece, place, quantity=1):
    """The least price in whole cents at which nothing is lost."""
    return by_aim(CENTS, lambda price: place.channel.sale(piece, quantity, price).profit >= 0,
                  place.start(piece, quantity=quantity))


def loss_again(piece, place, quantity=1):
    """Above the least price without a loss: the first and the last price that has one again, where
    postage becomes ours to pay."""
    free, start = Fraction(80), without_loss(piece, place, quantity)

    def profit(price):
        return place.channel.sale(piece, quantity, price).profit

    if place.name != "web_shop" or start >= free or profit(free) >= 0:
        return None
    return free, by_aim(CENTS, lambda price: profit(price) >= 0, free) - USD.coin


def free_postage(answer):
    """Above a web shop's price within a tenth of $80: the last price that leaves less than it."""
    free = Fraction(80)
    if answer.place.name != "web_shop" or not answer.list < free <= answer.list * exact("1.1"):
        return None

    def keep(price):
        return answer.place.channel.sale(answer.piece, 1, price).keep

    if keep(free) >= keep(answer.list):
        return None
    return by_aim(CENTS, lambda price: keep(price) >= keep(answer.list), free) - USD.coin


def position(piece, price, ceiling):
    """Where the price lies between the cheapest and the dearest: 0 is the one, 1 the other."""
    if piece.low is None or ceiling is None or ceiling == piece.low:
        return None
    return (price - piece.low) / (ceiling - piece.low)


class Goal:
    """needs, and what one sale gives and takes (None: nothing is used up), and what there is."""

    def __init__(self, text, needs, gives, takes=None, has=None, per=None):
        self.text, self.needs, self.gives, self.takes, self.has = text, needs, gives, takes, has
        self.per = per                               # the hours its needs are for; None: once

    def suffices(self, piece, sale):
        if self.takes is None:
            return None
        gives, takes = self.gives(piece, sale), self.takes(piece)
        return gives > 0 and (takes == 0 or gives * self.has / takes >= self.needs)


def goals(shop):
    return [
        Goal("pay for the router", shop.rate["machine_bought"],
             lambda piece, sale: sale.profit + piece.machine * shop.rate["machine_hour"]),
        Goal("an income in winter", exact(500), lambda piece, sale: sale.take_home,
             lambda piece: piece.hands_on, exact(40), MONTH),
    ]


def price_for(goal, piece, place):
    """The least allowed price, at or above the floor, at which what there is suffices."""
    def serves(price):
        return goal.suffices(piece, place.channel.sale(piece, 1, price))
    return by_aim(place.ladder, serves, piece.low)


# The price before anything is rounded. ---------------------------------------------------------

# Where, on the way up, something bends or jumps: the free parcel and the commission's cap.
def bends(piece, place):
    if place.name == "web_shop":
        return [Fraction(80)]
    if place.name == "marketplace":
        return [max(Fraction(0), exact(25) / percent(8) - postage(piece))]
    return []


def unrounded(shop, piece, place):
    """The least price of all that meets the aim and the limits; shop was made with exact_fees.

    Between two bends everything is a straight line: two prices inside give each condition's line.
    """
    low = piece.low or Fraction(0)
    ceiling = place.ceiling(piece)
    if piece.agreed is not None:
        return piece.agreed
    edges = [Fraction(0)] + bends(piece, place) + [Fraction(10 ** 6)]
    for start, end in zip(edges, edges[1:]):
        at = max(start, low)
        if at >= end:
            continue

        def spare(price):
            sale = place.channel.sale(piece, 1, price)
            return [sale.profit - place.margin * sale.net, sale.profit - place.profit]

        one, two = (end * 2 + at) / 3, (end + at * 2) / 3
        for left, right in zip(spare(one), spare(two)):
            slope = (left - right) / (one - two)
            crossing = two - right / slope if slope else None
            if slope > 0:
                at = max(at, crossing)
            else:                                    # falling or level: in force at once or never
                at = at if left + slope * (at - one) >= 0 else end
        if at < end:
            assert all(x >= 0 for x in spare(at))
            return at if ceiling is None or at <= ceiling else ceiling
    raise RuntimeError("no price meets the aim")


# The blocks check themselves. ------------------------------------------------------------------

def check():
    shop = Shop()
    stall, market, web, gallery = shop.places
    blank = dict.fromkeys(["long", "wide", "thick", "ply", "uses", "bought in", "setup", "machine",
                           "bench", "batch", "parcel", "for gallery", "cheapest seen",
                           "dearest seen", "agreed price", "timber"], "")

    def piece(**cells):
        named = {name.replace("_", " "): text for name, text in cells.items()}
        return Piece({**blank, "name": "a check", **named})

    # The sums at the end of fernhollow.rules.
    box = piece(timber="1.6", setup="40", machine="12", bench="25", batch="8", parcel="1.4 kg")
    ten = shop.price(box, stall, 10)
    assert (ten.list, ten.price, ten.sale.fees) == (38, exact("34.20"), exact("3.54"))
    sent = shop.price(box, market)
    assert (sent.price, sent.sale.tax, sent.sale.fees) == (
        exact("44.99"), exact("3.72"), exact("6.61"))
    dear = piece(timber="3.4", setup="40", machine="20", bench="45", batch="4", parcel="3 kg")
    assert shop.price(dear, web).price == exact("75.99")
    held = shop.price(piece(timber="2", bench="30", dearest_seen="$35"), stall)
    assert (held.price, held.how, held.warned) == (35, "ceiling", True)
    assert shop.price(piece(timber="4", bench="1 h", dearest_seen="40"), stall).refused
    shown = shop.price(piece(timber="2", bench="30 min", for_gallery="yes"), gallery)
    assert (shown.price, shown.sale.fees) == (75, 30)
    assert shop.price(piece(timber="2", bench="30", agreed_price="38.50"), stall).price \
        == exact("38.50")
    # 1-1/4 in x 1/4 in x 70 in is 21.875 cubic inches; 144 are a board foot.
    assert piece(long="70 in", wide="1-1/4 in", thick="1/4 in").boards == exact("21.875") / 144
    assert measured("1 h 20 min", TIMES, "min") == exact("4/3") and money("$3.20") == exact("3.20")
    assert spelled("hourly", exact("26.40")) == "$26.4 per h"
    assert spelled("offcuts", percent(15)) == "15%" and spelled("hourly", exact("1/3")) is None
    # Unrounded on the stall: p - 2.3% p - 0.07 - 2.75 - cost = 20% p.
    exactly = Shop(exact_fees=True)
    cost = exactly.places[0].channel.cost(box, 1)
    assert unrounded(exactly, box, exactly.places[0]) == (cost + exact("2.82")) / exact("0.777")
    # And never far from the price in cents, which cannot be found before it by more than rounding.
    for one in read_sheet():
        for place, fine in zip(shop.sells(one), exactly.sells(one)):
            if one.agreed is None:
                cent = by_aim(CENTS, lambda price: shop.aims(one, place, price),
                              max(one.low or 0, place.start(one, place.margin)))
                ceiling = place.ceiling(one)
                cent = cent if ceiling is None else min(cent, ceiling)
                assert abs(cent - unrounded(exactly, one, fine)) < exact("0.06"), one.name


if __name__ == "__main__":
    check()
    print("the demo shop by hand agrees with its own rules file's sums")
