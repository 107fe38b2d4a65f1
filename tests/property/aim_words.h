/* Random rules for one or two channels, with aims of everything that an aim may be made of: sums,
 * caps, choices, tables with text keys and with prices for keys, slices, quotients, and values that
 * are missing at some prices. A definition is written before what uses it, so that nothing depends on
 * itself. */
#ifndef PROPERTY_AIM_WORDS_H
#define PROPERTY_AIM_WORDS_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include "property/chance.h"

enum { RULES_MOST = 1 << 16, AIM_MOST = 1 << 13 };

/* What has been written, and what may be named in what follows. */
struct words {
    char text[RULES_MOST];
    size_t length;
    bool lets, tables, figures; /* whether these may be named yet */
    bool whole_tables;          /* only those that have a row for every key */
};

static inline void put(struct words *words, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    int more =
        vsnprintf(words->text + words->length, RULES_MOST - words->length, format, arguments);
    va_end(arguments);
    if (more > 0)
        words->length += (size_t)more;
    if (words->length > RULES_MOST - 1)
        words->length = RULES_MOST - 1;
}

/* One of some words. */
#define ONE_OF(...)                                                                                \
    ((const char *const[]){__VA_ARGS__}[random_below(sizeof((const char *const[]){__VA_ARGS__}) /  \
                                                     sizeof(const char *))])

static inline void put_amount(struct words *words, int depth);
static inline void put_condition(struct words *words, int depth);

/* Mostly small, so that an aim is decided among prices that can all be tried; now and then of half a
 * cent. */
static inline void put_money(struct words *words)
{
    int64_t cents = random_from(1, random_below(3) ? 900 : 3500);
    put(words, "$%lld.%02lld%s", (long long)(cents / 100), (long long)(cents % 100),
        random_below(8) ? "" : "5");
}

static inline void put_share(struct words *words)
{
    put(words, "%lld%%", (long long)random_from(1, 95));
}

/* ---- amounts ---- */

static inline void put_pair(struct words *words, int depth, const char *between)
{
    put(words, "(");
    put_amount(words, depth);
    put(words, " %s ", between);
    put_amount(words, depth);
    put(words, ")");
}

/* An amount that may be missing, at some prices or at all. */
static inline void put_maybe(struct words *words, int depth)
{
    switch (random_below(words->lets ? 5 : 4)) {
    case 0: put(words, "%s", ONE_OF("spare", "extra")); break;
    case 1:
        put(words, "(if ");
        put_condition(words, depth);
        put(words, " then spare else ");
        put_amount(words, depth);
        put(words, ")");
        break;
    case 2:
        put(words, "(if ");
        put_condition(words, depth);
        put(words, " then ");
        put_amount(words, depth);
        put(words, " else extra)");
        break;
    case 3:
        put(words, "(%s %s ", ONE_OF("spare", "extra"), ONE_OF("+", "-"));
        put_amount(words, depth);
        put(words, ")");
        break;
    default: put(words, "maybe"); break;
    }
}

static inline void put_leaf(struct words *words)
{
    switch (random_below(10)) {
    case 0:
    case 1:
    case 2:
    case 3: put(words, "price"); break;
    case 4: put(words, "stuff"); break;
    case 5:
        put(words, "(stuff rounded %s to $0.35)", ONE_OF("up", "down", "nearest", "even"));
        break;
    case 6:
        if (words->figures) {
            put(words, "%s", ONE_OF("keep", "fees", "profit", "paid", "net", "cost", "tax"));
            break;
        }
        put_money(words);
        break;
    case 7:
        if (words->lets) {
            put(words, "middle");
            break;
        }
        put_money(words);
        break;
    default: put_money(words); break;
    }
}

static inline void put_choice(struct words *words, int depth)
{
    put(words, "(if ");
    put_condition(words, depth);
    put(words, " then ");
    put_amount(words, depth);
    put(words, " else ");
    put_amount(words, depth);
    put(words, ")");
}

/* A slice below zero is an error; what a fee is made of has none. */
static inline void put_table(struct words *words, int depth)
{
    if (!words->tables)
        put_leaf(words);
    else if (words->whole_tables)
        put(words, "%s", ONE_OF("shade", "grade", "sliced_up"));
    else if (random_below(3) == 0) {
        put(words, "%s(", ONE_OF("steps", "sliced_up", "bands"));
        put_amount(words, depth);
        put(words, ")");
    } else
        put(words, "%s", ONE_OF("shade", "steps", "grade", "bands", "sliced_up"));
}

static inline void put_amount(struct words *words, int depth)
{
    if (depth <= 0) {
        put_leaf(words);
        return;
    }
    depth--;
    switch (random_below(16)) {
    case 0:
    case 1: put_pair(words, depth, "+"); break;
    case 2:
    case 3: put_pair(words, depth, "-"); break;
    case 4: put_pair(words, depth, "at least"); break;
    case 5: put_pair(words, depth, "at most"); break;
    case 6:
    case 7: put_choice(words, depth); break;
    case 8:
    case 9: put_table(words, depth); break;
    case 10:
        put(words, "(");
        put_maybe(words, depth);
        put(words, " %s ", ONE_OF("otherwise", "at least", "at most"));
        put_amount(words, 0);
        put(words, ")");
        break;
    case 11:
        put(words, "(-");
        put_amount(words, 0);
        put(words, ")");
        break;
    case 12:
        put(words, "(");
        put_share(words);
        put(words, " of ");
        put_amount(words, 0);
        put(words, ")");
        break;
    case 13:
        put(words, "(");
        put_amount(words, 0);
        put(words, " %s ", ONE_OF("marked up", "marked down", "at margin", "* part * "));
        put_share(words);
        put(words, ")");
        break;
    case 14:
        put(words, "(");
        put_amount(words, 0);
        put(words, " * (if ");
        put_condition(words, depth);
        put(words, " then %lld else %lld))", (long long)random_from(-2, 3),
            (long long)random_from(-1, 4));
        break;
    default: put_leaf(words); break;
    }
}

/* ---- conditions ---- */

static inline const char *any_order(void)
{
    return ONE_OF("<", "<=", ">=", ">", ">=", ">", "=", "!=");
}

/* What is never zero at a whole number of cents, and not of one sign everywhere. */
static inline void put_divisor(struct words *words)
{
    switch (random_below(5)) {
    case 0: put(words, "(price + $%lld)", (long long)random_from(1, 20)); break;
    case 1: put(words, "(-price)"); break;
    case 2:
        put(words, "(price - $%lld.%02lld5)", (long long)random_from(0, 12),
            (long long)random_from(0, 99));
        break;
    case 3: put(words, "($%lld.005 - price)", (long long)random_from(1, 12)); break;
    default: put(words, "price"); break;
    }
}

static inline void put_quotient(struct words *words, int depth)
{
    bool first = random_below(2);
    const char *order = ONE_OF("<", "<=", ">=", ">");
    if (!first)
        put(words, "%lld%% %s ", (long long)random_from(-60, 120), order);
    if (random_below(3) == 0)
        put(words, "margin");
    else {
        put(words, "(");
        put_amount(words, depth);
        put(words, ") / ");
        put_divisor(words);
    }
    if (first)
        put(words, " %s %lld%%", order, (long long)random_from(-60, 120));
}

static inline void put_text(struct words *words, int depth)
{
    switch (random_below(words->lets ? 4 : 3)) {
    case 0: put(words, "colour"); break;
    case 1: put(words, "%s", ONE_OF("\"red\"", "\"blue\"")); break;
    case 2:
        put(words, "(if ");
        put_condition(words, depth);
        put(words, " then %s else %s)", ONE_OF("\"red\"", "colour"),
            ONE_OF("\"blue\"", "\"grey\""));
        break;
    default: put(words, "tone"); break;
    }
}

static inline void put_comparison(struct words *words, int depth)
{
    put_amount(words, depth);
    put(words, " %s ", any_order());
    put_amount(words, depth);
}

static inline void put_joined(struct words *words, int depth, const char *between)
{
    put_condition(words, depth);
    put(words, " %s ", between);
    put_condition(words, depth);
}

static inline void put_condition(struct words *words, int depth)
{
    put(words, "(");
    depth--;
    switch (random_below(depth > 0 ? 16 : 4)) {
    case 0:
    case 1:
    case 2: put_comparison(words, depth); break;
    case 3:
        put_amount(words, depth);
        put(words, " between ");
        put_money(words);
        put(words, " and ");
        put_amount(words, 0);
        break;
    case 4:
    case 5: put_joined(words, depth, "and"); break;
    case 6:
    case 7: put_joined(words, depth, "or"); break;
    case 8:
        put(words, "not ");
        put_condition(words, depth);
        break;
    case 9:
        put_maybe(words, depth);
        put(words, " is missing");
        break;
    case 10:
        put(words, "(");
        put_maybe(words, depth);
        put(words, " %s ", any_order());
        put_amount(words, depth);
        if (random_below(2)) {
            put(words, " %s ", ONE_OF("and", "or"));
            put_condition(words, depth);
        }
        put(words, ") otherwise %s", ONE_OF("yes", "no", "fragile"));
        break;
    case 11:
        put_text(words, depth);
        put(words, " %s ", ONE_OF("=", "!="));
        put_text(words, depth);
        break;
    case 12: put(words, "fragile"); break;
    case 13:
        if (words->figures)
            put_quotient(words, depth);
        else
            put_comparison(words, depth);
        break;
    case 14:
        put(words, "if ");
        put_condition(words, depth);
        put(words, " then ");
        put_condition(words, depth);
        put(words, " else ");
        put_condition(words, depth);
        break;
    default: put_comparison(words, depth); break;
    }
    put(words, ")");
}

/* ---- definitions ---- */

static inline void put_row(struct words *words, const char *cells)
{
    put(words, "    %s : ", cells);
    put_amount(words, random_below(2) ? 1 : 0);
    put(words, "\n");
}

/* Bounds in ascending order, a text key that may follow the price, and rows that overlap. */
static inline void put_tables(struct words *words)
{
    char cells[64];
    put(words, "table shade by tone, price {\n");
    for (int i = 0; i < 4; i++) {
        snprintf(cells, sizeof cells, "%s, %s $%lld",
                 ONE_OF("\"red\"", "\"blue\" or \"grey\"", "any", "hue"),
                 ONE_OF("below", "up to", "over"), (long long)random_from(1, 14));
        put_row(words, cells);
    }
    put_row(words, "otherwise");
    put(words, "}\ntable steps by middle {\n");
    int64_t bound = 0;
    for (int i = 0; i < 3; i++) {
        bound += random_from(1, 6);
        snprintf(cells, sizeof cells, "%s $%lld", ONE_OF("below", "up to"), (long long)bound);
        put_row(words, cells);
    }
    snprintf(cells, sizeof cells, "$%lld to $%lld", (long long)bound, (long long)(bound + 4));
    put_row(words, cells);
    put_row(words, random_below(2) ? "otherwise" : "$40 or more");
    put(words, "}\ntable grade by paid, fragile {\n");
    for (int i = 0; i < 3; i++) {
        snprintf(cells, sizeof cells, "%s $%lld, %s", ONE_OF("below", "up to", "over"),
                 (long long)random_from(1, 16), ONE_OF("yes", "no", "any"));
        put_row(words, cells);
    }
    snprintf(cells, sizeof cells, "$%lld, any", (long long)random_from(1, 9));
    put_row(words, cells);
    put_row(words, "otherwise");
    put(words, "}\ntable bands by price sliced {\n");
    bound = 0;
    for (int i = 0; i < 3; i++) {
        bound += random_from(1, 5);
        put(words, "    up to $%lld : %lld%%\n", (long long)bound, (long long)random_from(-20, 60));
    }
    put(words,
        "}\ntable sliced_up by price sliced {\n    up to $%lld : %lld%%\n    up to $9 : 4%%\n"
        "    otherwise : %lld%%\n}\n",
        (long long)random_from(1, 8), (long long)random_from(0, 70),
        (long long)random_from(-10, 40));
}

static inline void put_channel(struct words *words, const char *name, char *aim, size_t size)
{
    put(words, "channel %s {\n", name);
    if (random_below(3) == 0)
        put(words, "    only when %s\n", ONE_OF("fragile", "not fragile", "colour != \"red\""));
    if (random_below(3) == 0)
        put(words, "    tax %s %lld%%\n", ONE_OF("added", "included"),
            (long long)random_from(1, 30));
    if (random_below(3) == 0)
        put(words, "    buyer pays posting = if price >= $%lld then $0 else $%lld.40\n",
            (long long)random_from(2, 12), (long long)random_from(0, 3));
    words->figures = false;
    words->tables = words->whole_tables = true;
    for (int i = 0, fees = (int)random_below(3); i < fees; i++) {
        put(words, "    fee fee_%d = (", i);
        put_amount(words, 2);
        put(words, ") at least $0 at most (%lld%% of price)\n", (long long)random_from(3, 40));
    }
    words->figures = true;
    words->whole_tables = false;
    size_t from = words->length + sizeof "    show holds = " - 1;
    put(words, "    show holds = ");
    put_condition(words, 4);
    snprintf(aim, size, "%s", words->text + from);
    put(words, "\n    price { aim %s", aim);
}

/* The rules of `count` channels, one or two; two have one price. Each shows whether its aim holds. */
static inline void put_rules(struct words *words, int count, int64_t grid)
{
    static char aim[AIM_MOST];
    *words = (struct words){.length = 0};
    put(words, "currency USD $\n"
               "product {\n"
               "    stuff money; colour text = \"red\"; fragile flag = no\n"
               "    part number = 0.5\n"
               "    spare money optional; extra money optional; low money optional\n"
               "}\n"
               "rate hue = \"blu\"\n"
               "cost material = stuff\n");
    put(words, "let middle = ");
    put_amount(words, 2);
    put(words, "\nlet tone = ");
    put_text(words, 2);
    put(words, "\nlet maybe = ");
    put_maybe(words, 1);
    put(words, "\n");
    words->lets = true;
    put_tables(words);
    for (int i = 0; i < count; i++) {
        put_channel(words, i == 0 ? "first" : "second", aim, sizeof aim);
        put(words, "; floor low; round up to $%lld.%02lld }\n}\n", (long long)(grid / 100),
            (long long)(grid % 100));
    }
    if (count > 1)
        put(words, "same price on first, second\n");
}

#endif
