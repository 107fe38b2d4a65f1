"""Amounts and conditions of a made-up shop, each stated several times: in the rules language, as
Python over whole numbers, and as fractions of oracle.py. For random_shops.py.
"""

from math import gcd

import oracle

# Precedences of the language, loosest first.
IF, OR, AND, NOT, COMPARE, LIMIT, SUM, TERM, OF, ATOM = range(10)


def scaled(code, factor):
    return code if factor == 1 else "%d*(%s)" % (factor, code)


def common(*pairs):
    """Brings (numerator code, denominator) pairs to one denominator."""
    least = 1
    for _, d in pairs:
        least = least * d // gcd(least, d)
    return [scaled(n, least // d) for n, d in pairs], least


class Amount:
    """An amount of money, stated three times.

    text, level   in the rules language
    code(q)       as Python over whole numbers of coins: a numerator's text and a denominator
    value(s)      as a fraction of the currency, from an oracle.Sale
    """

    def __init__(self, text, level, code, value):
        self.text, self.level, self.code, self.value = text, level, code, value

    def at(self, level):
        return self.text if self.level >= level else "(" + self.text + ")"


class Condition:
    """The same for a condition; code(q) is one Python expression."""

    def __init__(self, text, level, code, value):
        self.text, self.level, self.code, self.value = text, level, code, value

    at = Amount.at


def round_away(n, d):
    return (2 * n + d) // (2 * d) if n >= 0 else -((d - 2 * n) // (2 * d))


def percent_text(rate):
    return oracle.plain(rate * 100) + "%"


# Amounts. --------------------------------------------------------------------------------------

def named(name, code, value):
    return Amount(name, ATOM, lambda q: (code, 1), value)


def part(rate, x):
    return Amount("%s of %s" % (percent_text(rate), x.at(OF + 1)), OF,
                  lambda q: (scaled(x.code(q)[0], rate.numerator), x.code(q)[1] * rate.denominator),
                  lambda s: rate * x.value(s))


def plus(a, b, sign="+"):
    def code(q):
        (left, right), d = common(a.code(q), b.code(q))
        return "(%s) %s (%s)" % (left, sign, right), d
    return Amount("%s %s %s" % (a.at(SUM), sign, b.at(TERM)), SUM, code,
                  lambda s: a.value(s) + b.value(s) if sign == "+" else a.value(s) - b.value(s))


def limited(a, word, b):
    pick = {"at least": max, "at most": min}[word]

    def code(q):
        (left, right), d = common(a.code(q), b.code(q))
        return "%s(%s, %s)" % (pick.__name__, left, right), d
    return Amount("%s %s %s" % (a.at(SUM), word, b.at(TERM)), LIMIT, code,
                  lambda s: pick(a.value(s), b.value(s)))


def chosen(condition, a, b):
    def code(q):
        (left, right), d = common(a.code(q), b.code(q))
        return "((%s) if %s else (%s))" % (left, condition.code(q), right), d
    return Amount("if %s then %s else %s" % (condition.at(OR), a.at(OR), b.at(OR)), IF, code,
                  lambda s: a.value(s) if condition.value(s) else b.value(s))


# Conditions. -----------------------------------------------------------------------------------

def compared(a, sign, b):
    def code(q):
        (left, right), _ = common(a.code(q), b.code(q))
        return "(%s) %s (%s)" % (left, {"=": "=="}.get(sign, sign), right)
    tests = {"<": lambda x, y: x < y, "<=": lambda x, y: x <= y, ">": lambda x, y: x > y,
             ">=": lambda x, y: x >= y, "=": lambda x, y: x == y, "!=": lambda x, y: x != y}
    return Condition("%s %s %s" % (a.at(LIMIT), sign, b.at(LIMIT)), COMPARE, code,
                     lambda s: tests[sign](a.value(s), b.value(s)))


def between(a, low, high):
    return Condition("%s between %s and %s" % (a.at(LIMIT), low.at(LIMIT), high.at(LIMIT)), COMPARE,
                     lambda q: "(%s) and (%s)" % (compared(a, ">=", low).code(q),
                                                  compared(a, "<=", high).code(q)),
                     lambda s: low.value(s) <= a.value(s) <= high.value(s))


def joined(a, word, b):
    level = {"and": AND, "or": OR}[word]
    return Condition("%s %s %s" % (a.at(level), word, b.at(level + 1)), level,
                     lambda q: "(%s) %s (%s)" % (a.code(q), word, b.code(q)),
                     lambda s: (a.value(s) and b.value(s)) if word == "and"
                     else (a.value(s) or b.value(s)))


def negated(a):
    return Condition("not " + a.at(NOT), NOT, lambda q: "not (%s)" % a.code(q),
                     lambda s: not a.value(s))


def ratio(top, bottom, text, sign, bound_text, bound, top_code, bottom_code):
    """top / bottom against a number; the comparison is false where bottom is nothing."""
    def value(s):
        under = bottom(s)
        if under <= 0:
            return False
        return top(s) / under >= bound if sign == ">=" else top(s) / under < bound
    return Condition("%s %s %s" % (text, sign, bound_text), COMPARE,
                     lambda q: "%s > 0 and (%s)*%d %s (%s)*%d" % (
                         bottom_code, top_code, bound.denominator, sign, bottom_code,
                         bound.numerator), value)
