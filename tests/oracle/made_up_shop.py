"""A shop made up by chance: its rules, its sheet, and the same choices as Python. For
random_shops.py.
"""

import csv
import io
from fractions import Fraction

import oracle
from oracle import Channel, Currency, Ladder, decimals, ends_in, every
from statements import (ATOM, COMPARE, Amount, Condition, between, chosen, common, compared, joined,
                        limited, named, negated, part, percent_text, plus, ratio, round_away)

PRODUCTS = 20

CURRENCIES = [("USD", 2, "$%s"), ("EUR", 2, "€%s"), ("CHF", 2, "%s Fr"), ("JPY", 0, "¥%s"),
              ("KRW", 0, "₩%s"), ("KWD", 3, "%s KD"), ("BHD", 3, "%s BHD")]
GRIDS = {
    2: ([1, 5, 20, 25, 50, 75, 100, 125, 500],
        [".49", ".99", ".95", ".50", ".00", ".9", "4.95", "9.95", "9.99", "5", "7.50", "0.25",
         "49", "95", "99.00"]),
    0: ([1, 3, 5, 10, 50, 70, 100], ["0", "5", "9", "80", "98", "50", "800", "980"]),
    3: ([1, 5, 25, 50, 100, 125, 250], [".250", ".995", ".5", ".75", "4.950", "9.95", "5", "0.125"]),
}


class Product:
    pass


class Way:
    """A channel: its text, its fast search and its oracle.Channel."""


class Shop:
    def __init__(self, chance):
        self.chance = chance
        code, places, self.form = chance.choice(CURRENCIES)
        self.currency = Currency(code, places)
        self.places = places
        self.coin = self.currency.coin
        self.head, self.body = [], []
        self.serial = 0
        self.rounding()
        self.scale = min(self.scale, chance.choice([150, 600, 2500, 9000, 40000]))
        symbol = self.form.replace("%s", "").strip()
        self.head.append("currency %s%s" % (code, "" if symbol == code else " " + symbol))
        self.quantities = sorted({1, chance.choice([2, 3, 4, 5, 7, 12])})
        self.costs()
        self.functions()
        self.discounting()
        # Lines of the price that stand once, for every channel that does not replace them.
        self.shared = []
        if self.round_line and self.maybe(0.5):
            self.shared.append(self.round_line)
        if self.discount and self.maybe(0.5):
            self.shared.append(self.discount[1])
        if self.shared:
            self.body.append("price {\n%s\n}" % "\n".join("    " + x for x in self.shared))
        self.ways = [self.channel(i) for i in range(chance.choice([2, 3, 3, 4]))]
        self.tickets = []
        if len(self.ways) > 2 and chance.random() < 0.3 and all(
                w.kind == "aim" and not w.ceiling and not w.pin for w in self.ways[:2]):
            if self.ways[0].ladder is self.ways[1].ladder:
                self.tickets = [w.name for w in self.ways[:2]]
                self.body.append("same price on " + ", ".join(self.tickets))
        self.refusal = chance.random() < 0.25
        if self.refusal:
            self.body.append('refuse "leaves nothing" when profit < %s' % self.money(0).text)
        self.products = [self.product(i) for i in range(PRODUCTS)]

    # Small choices.

    def name(self, stem):
        self.serial += 1
        return "%s_%d" % (stem, self.serial)

    def maybe(self, probability):
        return self.chance.random() < probability

    def coins(self, low, high):
        """A number of coins between two shares of the shop's scale, often a rounder one."""
        n = int(self.chance.uniform(low, high) * self.scale)
        step = self.chance.choice([1, 1, 5, 10, 100])
        return n // step * step if n >= step else n

    def fine(self, low, high):
        """The same, now and then with tenths of a coin."""
        coins = Fraction(self.coins(low, high))
        return coins + Fraction(self.chance.randrange(10), 10) if self.maybe(0.12) else coins

    def text(self, value):
        """An amount of money in figures, with one decimal more where it needs it."""
        whole = (value / self.coin).denominator == 1
        return decimals(value, self.places if whole else self.places + 1)

    def money(self, coins):
        coins = Fraction(coins)
        value = coins * self.coin
        return Amount(self.form % self.text(value), ATOM,
                      lambda q: (str(coins.numerator), coins.denominator), lambda s: value)

    def some(self, low, high):
        return self.money(self.fine(low, high))

    def rate(self, low, high):
        """A percentage with up to two decimals."""
        steps = self.chance.choice([1, 2, 4, 10, 100])
        return Fraction(int(self.chance.uniform(low, high) * steps), steps * 100)

    def per_order(self, amount):
        return Amount(amount.text + " per order", ATOM,
                      lambda q: (amount.code(q)[0], amount.code(q)[1] * q),
                      lambda s: amount.value(s) / s.quantity)

    # What is computed from the price.

    price = named("price", "p", lambda s: s.price)
    paid = named("paid", "paid", lambda s: s.paid)
    net = named("net", "net", lambda s: s.net)
    own_list = named("list", "l", lambda s: s.list)
    stuff = Amount("stuff", ATOM, lambda q: ("stuff", 10), lambda s: s.record.stuff)

    def base(self, extras, fees):
        """Something a fee is taken of. extras is None while the extras themselves are made."""
        kinds = [self.price] * 4
        if self.functions_of and self.maybe(0.3):
            return self.functions_of[0](self.price if extras is None else self.paid)
        if extras is not None:
            kinds += [self.paid] * 4 + [self.net]
            if extras:
                kinds.append(plus(self.price, self.chance.choice(extras)))
            if fees:
                kinds.append(plus(self.paid, self.chance.choice(fees), "-"))
        if self.discount is not None:
            kinds.append(self.own_list)
        return self.chance.choice(kinds)

    def test(self, extras, fees):
        r = self.chance.random()
        if r < 0.12:
            n = self.chance.choice([2, 3, 5])
            return Condition("quantity >= %d" % n, COMPARE, lambda q: str(q >= n),
                             lambda s: s.quantity >= n)
        if r < 0.2:
            return compared(self.stuff, ">", self.some(0.2, 0.8))
        sign = self.chance.choice(["<", "<=", ">", ">="])
        if r < 0.27:
            low = self.coins(0.3, 1.5)
            return between(self.price, self.money(low), self.money(low + self.coins(0.05, 0.8)))
        return compared(self.base(extras, fees), sign, self.some(0.3, 3))

    def simple(self, extras, fees):
        """A share, a fixed amount, or both."""
        r = self.chance.random()
        fixed = self.some(0.005, 0.08)
        if self.maybe(0.4):
            fixed = self.per_order(fixed)
        if r < 0.2:
            return fixed
        share = part(self.rate(0.5, 14), self.base(extras, fees))
        if r < 0.5:
            return share
        if r < 0.57:
            return plus(share, fixed, "-")
        return plus(share, fixed)

    def table(self, extras, fees):
        """A table by an amount that depends on the price: every row its own money."""
        name = self.name("table")
        key = self.chance.choice([self.price, self.price, self.net if extras is not None
                                  else self.price])
        used = key if self.maybe(0.5) else self.base(extras, fees)
        bounds = sorted({self.fine(0.2, 3) for _ in range(self.chance.choice([1, 2, 3]))})
        word = self.chance.choice(["up to", "below"])
        rows, lines = [], []
        for bound in bounds:
            value = self.simple_of_price()
            rows.append((bound, value))
            lines.append("    %s %s : %s" % (word, self.money(bound).text, value.text))
        last = self.simple_of_price()
        lines.append("    otherwise : %s" % last.text)
        self.body.append("table %s by %s {\n%s\n}" % (name, key.text, "\n".join(lines)))

        def code(q):
            (k, d) = used.code(q)
            values, least = common(*([v.code(q) for _, v in rows] + [last.code(q)]))
            text = "(%s)" % values[-1]
            for (bound, _), value in zip(reversed(rows), reversed(values[:-1])):
                text = "((%s) if %d*(%s) %s %d else %s)" % (
                    value, bound.denominator, k, "<=" if word == "up to" else "<",
                    bound.numerator * d, text)
            return text, least

        def value(s):
            k = used.value(s) / self.coin
            for bound, v in rows:
                if (k <= bound) if word == "up to" else (k < bound):
                    return v.value(s)
            return last.value(s)
        text = name if used is key else "%s(%s)" % (name, used.text)
        return Amount(text, ATOM, code, value)

    def simple_of_price(self):
        """What a table's row may be worth on every channel: nothing of one channel's own."""
        r = self.chance.random()
        fixed = self.some(0.005, 0.1)
        if r < 0.5:
            return fixed
        share = part(self.rate(0.5, 12), self.price)
        return share if r < 0.8 else plus(share, fixed)

    def sliced(self, extras, fees):
        name = self.name("slices")
        used = self.base(extras, fees)
        if used.level < ATOM or used is not self.price and self.maybe(0.5):
            used = self.price
        if used is not self.price:      # charges below zero can take it there, which is an error
            used = limited(used, "at least", self.money(0))
        bounds = sorted({self.fine(0.2, 3) + 1 for _ in range(self.chance.choice([1, 2, 3]))})
        rates = [self.rate(0.5, 18) for _ in range(len(bounds) + 1)]
        word = self.chance.choice(["up to", "below"])
        lines = ["    %s %s : %s" % (word, self.money(b).text, percent_text(r))
                 for b, r in zip(bounds, rates)]
        lines.append("    otherwise : %s" % percent_text(rates[-1]))
        self.body.append("table %s by price sliced {\n%s\n}" % (name, "\n".join(lines)))

        def code(q):
            k, d = used.code(q)
            k, d = "10*(%s)" % k, 10 * d                        # bounds may have tenths
            pieces, start = [], 0
            for bound, rate in zip(bounds + [None], rates):
                end = "(%s)" % k if bound is None else "min((%s), %d)" % (k, bound * d)
                pieces.append(("max(0, %s - %d)*%d" % (end, start * d, rate.numerator),
                               d * rate.denominator))
                start = bound
            texts, least = common(*pieces)
            return " + ".join("(%s)" % t for t in texts), least

        def value(s):
            rows = [(b * self.coin, r) for b, r in zip(bounds, rates)] + [(None, rates[-1])]
            return oracle.slices(used.value(s), rows)
        return Amount(name if used is self.price else "%s(%s)" % (name, used.text), ATOM, code,
                      value)

    def computed(self, extras, fees):
        """A fee's or an extra's expression."""
        r = self.chance.random()
        if r < 0.3:
            x = self.simple(extras, fees)
        elif r < 0.5:
            x = self.table(extras, fees)
        elif r < 0.68:
            x = self.sliced(extras, fees)
        elif r < 0.85:
            x = chosen(self.test(extras, fees), self.simple(extras, fees),
                       self.simple(extras, fees))
        else:
            x = plus(self.simple(extras, fees), self.table(extras, fees))
        if self.maybe(0.3):
            x = limited(x, "at most", self.some(0.05, 0.4))
        elif self.maybe(0.15):
            x = limited(x, "at least", self.some(0.01, 0.12))
        return x

    # The parts of a shop.

    def grid(self):
        steps, endings = GRIDS[self.places]
        if self.maybe(0.45):
            step = self.chance.choice(steps)
            return every(step * self.coin), "every " + self.money(step).text, step
        found = self.chance.sample(endings, self.chance.choice([1, 2, 2, 3]))
        period = min(10 ** len(e.partition(".")[0]) for e in found) * 10 ** self.places
        return ends_in(*found), "ends in " + " or ".join(found), period

    def rounding(self):
        """Sets the ladder, and the scale at which trying every allowed price stays quick."""
        chance = self.chance
        if self.maybe(0.2):
            self.ladder, self.round_line = oracle.smallest_unit(self.currency), None
            self.scale = 900
            return
        if self.maybe(0.15):
            step = chance.choice(GRIDS[self.places][0])
            self.ladder = Ladder(self.currency, (None, every(step * self.coin)))
            self.round_line = "round up to " + self.money(step).text
            self.scale = 900 * step
            return
        count = chance.choice([1, 2, 2, 3])
        unit = chance.choice([300, 1200, 5000, 20000])
        bounds = sorted({int(chance.uniform(0.05, 2.5) * unit) + 2 for _ in range(count - 1)})
        bands, lines, finest = [], [], None
        for bound in bounds + [None]:
            grid, text, period = self.grid()
            finest = period if finest is None else min(finest, period)
            if bound is None and bounds and self.maybe(0.08):
                break                                   # the ladder ends
            bands.append((None if bound is None else bound * self.coin, grid))
            lines.append("    %s : %s" % ("otherwise" if bound is None
                                          else "below " + self.money(bound).text, text))
        self.ladder = Ladder(self.currency, *bands)
        self.body.append("rounding ladder {\n%s\n}" % "\n".join(lines))
        self.round_line = "round up to ladder"
        self.scale = max(unit, 300 * finest) if finest > 1 else 900

    def costs(self):
        chance = self.chance
        self.hourly = self.coins(0.1, 1.2) + 1
        self.head.append("rate hourly = %s per h" % self.money(self.hourly).text)
        self.head.append(
            "product {\n    name   text\n    stuff  money\n    hands  time as min = 0 min\n"
            "    parcel mass as g = 0 g\n    low    money optional\n    high   money optional\n"
            "    old    money optional\n}")
        self.head.append("let hands_on = hands")
        self.body.append("cost material = stuff")
        self.body.append("pay work = hands * hourly")
        self.overhead = self.rate(1, 20) if self.maybe(0.5) else Fraction(0)
        if self.overhead:
            self.body.append("cost overhead = %s of (material + work)" % percent_text(self.overhead))
        self.setup = self.coins(0.01, 0.3) if self.maybe(0.4) else 0
        if self.setup:
            self.body.append("cost setup = %s per order" % self.money(self.setup).text)
        self.weights = None
        if self.maybe(0.6):
            self.weights = [(200, self.coins(0.02, 0.1)), (900, self.coins(0.05, 0.2)),
                            (None, self.coins(0.1, 0.3))]
            self.body.append("table postage by parcel {\n%s\n}" % "\n".join(
                "    %s : %s" % ("otherwise" if w is None else "up to %d g" % w, self.money(c).text)
                for w, c in self.weights))

    def postage(self, record):
        for weight, coins in self.weights:
            if weight is None or record.parcel <= weight:
                return coins

    def functions(self):
        """A function of an amount: what lies over a threshold."""
        self.functions_of = []
        self.discount = None
        if self.maybe(0.35):
            name, bound = self.name("over"), self.some(0.2, 2)
            self.body.append("let %s(a) = a - %s at least %s"
                             % (name, bound.text, self.money(0).text))
            zero = self.money(0)
            self.functions_of.append(lambda x: Amount(
                "%s(%s)" % (name, x.text), ATOM, limited(plus(x, bound, "-"), "at least", zero).code,
                limited(plus(x, bound, "-"), "at least", zero).value))

    def discounting(self):
        """self.discount: (a function of list in coins and quantity, the line), or None."""
        if not self.maybe(0.4):
            return
        if self.maybe(0.5):
            rates = sorted([self.rate(0, 30) for _ in range(3)])
            self.body.append("table bulk by quantity {\n    5 or more : %s\n    2 to 4 : %s\n"
                             "    otherwise : %s\n}" % tuple(map(percent_text, reversed(rates))))
            self.discount = (lambda listed, q: rates[2] if q >= 5 else rates[1] if q >= 2
                             else rates[0], "discount bulk")
        else:
            bound, high, low = self.coins(0.5, 2), self.rate(0, 40), self.rate(0, 40)
            self.discount = (lambda listed, q: high if listed >= bound else low,
                             "discount if list >= %s then %s else %s"
                             % (self.money(bound).text, percent_text(high), percent_text(low)))

    def aim(self, depth=2):
        chance = self.chance
        if depth and self.maybe(0.6):
            if self.maybe(0.15):
                return negated(self.aim(depth - 1))
            return joined(self.aim(depth - 1), chance.choice(["and", "and", "or"]),
                          self.aim(depth - 1))
        profit = "(keep*cd - cn)"
        r = chance.random()
        sign = ">=" if self.maybe(0.9) else "<"
        if r < 0.35:
            rate = self.rate(3, 55) + Fraction(1, 200)
            return ratio(lambda s: s.profit, lambda s: s.net, "margin", sign, percent_text(rate),
                         rate, profit, "(net*cd)")
        if r < 0.55:
            x = self.coins(0, 0.6)
            return Condition("profit %s %s" % (sign, self.money(x).text), COMPARE,
                             lambda q: "%s %s %d*cd" % (profit, sign, x),
                             lambda s: s.profit >= x * self.coin if sign == ">="
                             else s.profit < x * self.coin)
        if r < 0.62:
            x = self.coins(0.05, 0.9)
            return Condition("take_home > %s" % self.money(x).text, COMPARE,
                             lambda q: "(keep*cd - cn + pn) > %d*cd" % x,
                             lambda s: s.take_home > x * self.coin)
        if r < 0.72:
            x = self.coins(0.05, 1.5)
            return ratio(lambda s: s.profit / self.coin, lambda s: Fraction(s.record.hands, 60),
                         "profit / hands_on", sign, self.money(x).text + " per h", Fraction(x),
                         profit + "*60", "(hands*cd)")
        if r < 0.84:
            x = Fraction(chance.randrange(102, 260), 100)
            return ratio(lambda s: s.keep, lambda s: s.cost, "keep / cost", sign, oracle.plain(x), x,
                         "(keep*cd)", "cn")
        if r < 0.9:
            low = self.coins(0.2, 2)
            return negated(between(self.price, self.money(low),
                                   self.money(low + self.coins(0.05, 0.6))))
        keep = named("keep", "keep", lambda s: s.keep)
        fees = named("fees", "fees", lambda s: s.fees)
        if r < 0.95:
            return compared(plus(keep, self.stuff, "-"), ">=",
                            plus(part(self.rate(2, 30), self.paid), self.some(0.01, 0.2)))
        return compared(fees, "<=", plus(part(self.rate(5, 30), self.price), self.some(0.02, 0.3)))

    def channel(self, index):
        chance = self.chance
        way = Way()
        way.name = ["stall", "market", "website", "gallery"][index]
        lines = []
        way.only = self.maybe(0.15)
        if way.only:
            lines.append("only when parcel > 100 g")
        extras, fees, tax = [], [], None
        code_extras, code_fees = [], []
        posting = bool(self.weights) and self.maybe(0.5)
        if posting:
            lines.append("cost posting = postage")
            if self.maybe(0.6):
                lines.append("buyer pays shipping = postage")
                code_extras.append(("shipping", lambda q: "round_away(postage, 1)"))
                extras.append(("shipping", lambda s: self.postage(s.record) * self.coin))
        if self.maybe(0.35):
            x = self.computed(None, [])
            lines.append("buyer pays wrap = " + x.text)
            code_extras.append(("wrap", lambda q, x=x: "round_away(%s, %d)" % x.code(q)))
            extras.append(("wrap", x.value))
        amounts = [named(n, n, lambda s, n=n: s.extra[n]) for n, _ in extras]
        if self.maybe(0.55):
            word = chance.choice(["added", "included"])
            rate = chance.choice([Fraction(5, 100), Fraction(8, 100), Fraction(20, 100),
                                  Fraction(21, 100), Fraction(71, 800), self.rate(1, 30),
                                  self.rate(90, 300)])
            tax = (word, rate)
            lines.append("tax %s %s" % (word, percent_text(rate)))
        made = []
        for _ in range(chance.choice([0, 1, 1, 2, 2, 3])):
            name = self.name("fee")
            x = self.computed(amounts, made)
            lines.append("fee %s = %s" % (name, x.text))
            code_fees.append((name, lambda q, x=x: "round_away(%s, %d)" % x.code(q)))
            fees.append((name, x.value))
            made.append(named(name, name, lambda s, n=name: s.fee[n]))
        chance.shuffle(lines)

        # How its price is found.
        way.kind = "aim" if self.maybe(0.85) else "set"
        way.ladder = self.ladder
        way.floor, way.ceiling, way.pin = self.maybe(0.5), self.maybe(0.35), self.maybe(0.1)
        price = []
        if way.kind == "aim":
            way.aim = self.aim()
            price.append("aim " + way.aim.text)
            if self.round_line and self.round_line not in self.shared:
                price.append(self.round_line)
        else:
            way.multiple = Fraction(chance.randrange(110, 400), 100)
            way.direction = chance.choice(["up", "down", "nearest", "nearest"])
            price.append("set cost * %s" % oracle.plain(way.multiple))
            if self.round_line:
                price.append(self.round_line.replace("up", way.direction, 1))
            else:
                way.direction = "nearest"
        way.floor_share = self.rate(0, 30) if self.maybe(0.4) else Fraction(0)
        if way.floor:
            price.append("floor low" + (" marked down " + percent_text(way.floor_share)
                                        if way.floor_share else ""))
        if way.ceiling:
            price.append("ceiling high")
        if self.discount:
            way.pin = False
            if self.discount[1] not in self.shared:
                price.append(self.discount[1])
        if way.pin:
            price.append("pin old")
        chance.shuffle(price)
        lines.append("price {\n" + "\n".join("        " + p for p in price) + "\n    }")
        self.body.append("channel %s {\n%s\n}" % (way.name, "\n".join("    " + x for x in lines)))

        # The slow statement.
        def cost(record, q):
            work = Fraction(record.hands, 60) * self.hourly * self.coin
            total = (record.stuff + work) * (1 + self.overhead)
            total += Fraction(self.setup, q) * self.coin
            return total + (self.postage(record) * self.coin if posting else 0)

        def pay(record, q):
            return Fraction(record.hands, 60) * self.hourly * self.coin
        way.slow = Channel(way.name, self.currency, cost, pay, extras, fees, tax)

        # The fast statement, compiled once for each quantity.
        way.compiled = {}
        for q in self.quantities:
            text = ["def compute(p, l, stuff, hands, postage):"]
            for name, code in code_extras:
                text.append("    %s = %s" % (name, code(q)))
            text.append("    base = p" + "".join(" + " + n for n, _ in code_extras))
            kind, rate = tax or ("added", Fraction(0))
            bottom = rate.denominator + (rate.numerator if kind == "included" else 0)
            text.append("    tax = round_away(base*%d, %d)" % (rate.numerator, bottom))
            text.append("    paid, net = %s" % ("base, base - tax" if kind == "included"
                                                else "base + tax, base"))
            for name, code in code_fees:
                text.append("    %s = %s" % (name, code(q)))
            text.append("    fees = 0" + "".join(" + " + n for n, _ in code_fees))
            text.append("    keep = net - fees")
            body = text[1:]
            text.append("    return tax, paid, net, fees, keep")
            if way.kind == "aim":
                text.append("def search(prices, start, end, stuff, hands, postage, cn, pn, cd):")
                text.append("    for i in range(start, end):")
                text.append("        p = l = prices[i]")
                text += ["    " + line for line in body]
                text.append("        if %s:" % way.aim.code(q))
                text.append("            return i")
                text.append("    return None")
            space = {"round_away": round_away}
            exec("\n".join(text), space)
            way.compiled[q] = space
        return way

    def product(self, index):
        chance = self.chance
        record = Product()
        record.name = "piece %d" % (index + 1)
        record.stuff = self.fine(0, 1) * self.coin if self.maybe(0.93) else Fraction(0)
        record.hands = chance.randrange(0, 75) if self.maybe(0.9) else 0
        record.parcel = chance.choice([0, 50, 100, 101, 200, 201, 500, 900, 1500])
        record.low = self.fine(0.1, 4) * self.coin if self.maybe(0.5) else None
        record.high = None
        if self.maybe(0.5):
            start = self.fine(0.2, 4) * self.coin
            record.high = start if record.low is None or self.maybe(0.1) else record.low + start
        record.old = (self.coins(0.2, 3) + 1) * self.coin if self.maybe(0.2) else None
        return record

    # The files.

    def rules(self):
        return ("# An invented shop: every figure in it was made by chance.\n"
                + "\n".join(self.head + self.body) + "\n")

    def sheet(self):
        out = io.StringIO()
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(["name", "stuff", "hands", "parcel", "low", "high", "old"])
        for r in self.products:
            def cell(x):
                return "" if x is None else self.text(x)
            writer.writerow([r.name, cell(r.stuff), r.hands, r.parcel, cell(r.low), cell(r.high),
                             cell(r.old)])
        return out.getvalue()
