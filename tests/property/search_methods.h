/* Methods written twice: as rules, and as whole-number arithmetic that knows nothing of the engine.
 *
 * Prices, extras, taxes and fees are whole smallest units of the currency, coins for short, as the
 * rules language has them. A cost is counted in tenths of a coin. A fee before it is rounded is
 * counted in PARTS of a coin, so that hundredths of a percent and shares of an order are exact. */
#ifndef PROPERTY_SEARCH_METHODS_H
#define PROPERTY_SEARCH_METHODS_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* One record, in one order. */
struct item {
    int64_t stuff; /* tenths of a coin */
    int64_t grams, quantity;
    int64_t floor;  /* coins; 0: none */
    int64_t dearer; /* the rate of that name: hundredths of a percent on fees */
};

/* What is sold for a price, in coins; the cost in tenths. */
struct sale {
    int64_t price, extras, tax, paid, net, fees, keep, cost;
};

struct spelled_band {
    int64_t below; /* coins; 0: the last one */
    const char *grid;
};

struct method_twice {
    const char *name, *rules; /* the name is the channel's too */
    int64_t unit;             /* coins in one of the currency */
    int decimals;
    struct spelled_band ladder[4];
    int64_t stuff_most, floor_most; /* coins */
    void (*sell)(const struct item *item, struct sale *sale);
    bool (*aim)(const struct sale *sale);
    int64_t rounded_lines; /* of which what is kept is made; with those a fee of a fee moves */
    int64_t steps[3];      /* prices near which what is kept falls by more than rounding */
};

/* ---- arithmetic ---- */

enum { PARTS = 120000, PERCENT = 100, HIDDEN = PARTS / 10000 };

static inline int64_t lesser(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

static inline int64_t greater(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

/* top / bottom to the nearest whole number, halves away from zero. */
static inline int64_t nearest(int64_t top, int64_t bottom)
{
    return top >= 0 ? (2 * top + bottom) / (2 * bottom) : -((bottom - 2 * top) / (2 * bottom));
}

/* So many hundredths of a percent of an amount, in PARTS. */
static inline int64_t share(int64_t hundredths, int64_t coins)
{
    return hundredths * coins * HIDDEN;
}

static inline int64_t parts(int64_t coins)
{
    return coins * PARTS;
}

static inline int64_t rounded(int64_t in_parts)
{
    return nearest(in_parts, PARTS);
}

static inline void tax_added(struct sale *sale, int64_t hundredths)
{
    int64_t taxed = sale->price + sale->extras;
    sale->tax = nearest(taxed * hundredths, 10000);
    sale->net = taxed;
    sale->paid = taxed + sale->tax;
}

static inline void tax_included(struct sale *sale, int64_t hundredths)
{
    int64_t taxed = sale->price + sale->extras;
    sale->tax = nearest(taxed * hundredths, 10000 + hundredths);
    sale->net = taxed - sale->tax;
    sale->paid = taxed;
}

static inline void keep_what_is_left(struct sale *sale, int64_t fees)
{
    sale->fees = fees;
    sale->keep = sale->net - fees;
}

static inline int64_t profit_of(const struct sale *sale) /* tenths of a coin */
{
    return sale->keep * 10 - sale->cost;
}

static inline bool margin_is(const struct sale *sale, int64_t percent)
{
    return sale->net > 0 && profit_of(sale) * 100 >= sale->net * 10 * percent;
}

/* ---- ladders by their spelling ---- */

/* Whether a price as it is written ends as an ending is: as many digits before the point as that
 * has, and every decimal, those that are left out being zeros. */
static inline bool text_ends_in(const char *price, const char *ending, int decimals)
{
    char full[32];
    const char *point = strchr(ending, '.');
    int given = point ? (int)strlen(point + 1) : 0;
    snprintf(full, sizeof full, "%s%s%.*s", ending, point || decimals == 0 ? "" : ".",
             decimals - given, "000");
    size_t length = strlen(full), whole = strlen(price);
    return length <= whole && strcmp(price + whole - length, full) == 0;
}

/* `every 25` in coins, or `ends in .49 .99`. */
static inline bool grid_allows(const char *grid, int64_t coins, int64_t unit, int decimals)
{
    char price[64], ending[16];
    long long every;
    if (sscanf(grid, "every %lld", &every) == 1)
        return coins % every == 0;
    snprintf(price, sizeof price, "000000%lld", (long long)(coins / unit));
    if (decimals > 0) /* with a one before the decimals, so that their zeros are written */
        snprintf(price + strlen(price), 24, "%lld", (long long)(coins % unit + unit));
    if (decimals > 0)
        price[strlen(price) - (size_t)decimals - 1] = '.';
    int used = 0;
    for (grid += strlen("ends in"); sscanf(grid, "%15s%n", ending, &used) == 1; grid += used)
        if (text_ends_in(price, ending, decimals))
            return true;
    return false;
}

static inline bool spelling_allows(const struct method_twice *method, int64_t coins)
{
    for (const struct spelled_band *band = method->ladder; band->grid; band++)
        if (band->below == 0 || coins < band->below)
            return grid_allows(band->grid, coins, method->unit, method->decimals);
    return false;
}

/* ---- the methods ---- */

#define RECORD                                                                                     \
    "product {\n"                                                                                  \
    "    stuff money\n"                                                                            \
    "    grams mass as g = 0 g\n"                                                                  \
    "    least money optional\n"                                                                   \
    "}\n"                                                                                          \
    "rate dearer = 0%\n"                                                                           \
    "cost material = stuff\n"

/* Shares with a cap, and charming prices in three bands. */
static const char stall_rules[] = "currency USD $\n" RECORD "rounding charm {\n"
                                  "    below $10  : ends in .49 or .99\n"
                                  "    below $100 : ends in .99\n"
                                  "    otherwise  : ends in 4.95 or 9.95\n"
                                  "}\n"
                                  "channel stall {\n"
                                  "    fee card  = (2% + dearer) of paid + $0.05 per order\n"
                                  "    fee pitch = (8% + dearer) of price at most $6\n"
                                  "}\n"
                                  "price { aim margin >= 30%; floor least; round up to charm }\n";

static void stall_sale(const struct item *item, struct sale *sale)
{
    sale->cost = item->stuff;
    tax_added(sale, 0);
    int64_t card = share(2 * PERCENT + item->dearer, sale->paid) + parts(5) / item->quantity;
    int64_t pitch = lesser(share(8 * PERCENT + item->dearer, sale->price), parts(600));
    keep_what_is_left(sale, rounded(card) + rounded(pitch));
}

static bool stall_aim(const struct sale *sale)
{
    return margin_is(sale, 30);
}

/* Tax on top, what the buyer pays, a cap, a cost of the channel's own. */
static const char post_rules[] =
    "currency USD $\n" RECORD "table postage by grams {\n"
    "    up to 500 g : $4.60\n"
    "    up to 2 kg  : $8.20\n"
    "    otherwise   : $14.90\n"
    "}\n"
    "channel post {\n"
    "    buyer pays shipping = postage\n"
    "    buyer pays wrapping = 1% of price at most $2\n"
    "    cost posting        = postage + $0.90\n"
    "    tax added 7%\n"
    "    fee commission = (8.25% + dearer) of (price + shipping) at most $25\n"
    "    fee payment    = (3.7% + dearer) of paid + $0.23 per order\n"
    "}\n"
    "price { aim profit >= $4 and margin >= 25%; floor least; round up to $0.25 }\n";

static void post_sale(const struct item *item, struct sale *sale)
{
    int64_t postage = item->grams <= 500 ? 460 : item->grams <= 2000 ? 820 : 1490;
    sale->cost = item->stuff + (postage + 90) * 10;
    sale->extras = postage + rounded(lesser(share(PERCENT, sale->price), parts(200)));
    tax_added(sale, 7 * PERCENT);
    int64_t commission = lesser(share(825 + item->dearer, sale->price + postage), parts(2500));
    int64_t payment = share(370 + item->dearer, sale->paid) + parts(23) / item->quantity;
    keep_what_is_left(sale, rounded(commission) + rounded(payment));
}

static bool post_aim(const struct sale *sale)
{
    return profit_of(sale) >= 4000 && margin_is(sale, 25);
}

/* A table by price, whose steps are cliffs, and tax inside. */
static const char counter_rules[] = "currency USD $\n" RECORD "table steps by price {\n"
                                    "    below $15  : $0.45\n"
                                    "    below $40  : $2.60\n"
                                    "    $40 to $60 : $4.10\n"
                                    "    otherwise  : 9% of price at least $6.25\n"
                                    "}\n"
                                    "channel counter {\n"
                                    "    tax included 20%\n"
                                    "    fee step_fee = steps\n"
                                    "    fee card     = (1.5% + dearer) of paid\n"
                                    "}\n"
                                    "price { aim margin >= 20% or profit >= $12; floor least }\n";

static void counter_sale(const struct item *item, struct sale *sale)
{
    sale->cost = item->stuff;
    tax_included(sale, 20 * PERCENT);
    int64_t p = sale->price;
    int64_t steps = p < 1500    ? parts(45)
                    : p < 4000  ? parts(260)
                    : p <= 6000 ? parts(410)
                                : greater(share(9 * PERCENT, p), parts(625));
    keep_what_is_left(sale, rounded(steps) + rounded(share(150 + item->dearer, sale->paid)));
}

static bool counter_aim(const struct sale *sale)
{
    return margin_is(sale, 20) || profit_of(sale) >= 12000;
}

/* Slices with a least amount, no decimals, prices of three kinds. */
static const char fair_rules[] =
    "currency JPY ¥\n" RECORD "table commission by price sliced {\n"
    "    up to ¥1000 : 15%\n"
    "    up to ¥5000 : 10%\n"
    "    otherwise   : 7%\n"
    "}\n"
    "rounding round_yen {\n"
    "    below ¥1000  : every ¥10\n"
    "    below ¥10000 : ends in 80 or 50\n"
    "    otherwise    : ends in 800\n"
    "}\n"
    "channel fair {\n"
    "    tax added 10%\n"
    "    fee cut     = commission at least ¥30\n"
    "    fee payment = (4.3% + dearer) of paid\n"
    "}\n"
    "price { aim profit >= ¥200 and not margin < 15%; floor least; round up to round_yen }\n";

static void fair_sale(const struct item *item, struct sale *sale)
{
    sale->cost = item->stuff;
    tax_added(sale, 10 * PERCENT);
    int64_t p = sale->price;
    int64_t cut = share(15 * PERCENT, lesser(p, 1000)) +
                  share(10 * PERCENT, greater(0, lesser(p, 5000) - 1000)) +
                  share(7 * PERCENT, greater(0, p - 5000));
    int64_t payment = share(430 + item->dearer, sale->paid);
    keep_what_is_left(sale, rounded(greater(cut, parts(30))) + rounded(payment));
}

static bool fair_aim(const struct sale *sale)
{
    return profit_of(sale) >= 2000 && margin_is(sale, 15);
}

/* Choices by price, both ways, in thousandths. */
static const char souk_rules[] =
    "currency KWD KD\n" RECORD "rounding quarters {\n"
    "    below 5 KD : ends in .25 or .750\n"
    "    otherwise  : every 0.5 KD\n"
    "}\n"
    "channel souk {\n"
    "    tax included 5%\n"
    "    buyer pays delivery = if price >= 20 KD then 0 KD else 1.250 KD\n"
    "    cost carriage = 0.9 KD\n"
    "    fee cut = if price < 8 KD then (4% + dearer) of price else\n"
    "        (if price <= 30 KD then (11% + dearer) of price + 0.4 KD else (6% + dearer) of "
    "price)\n"
    "    fee card = (2.5% + dearer) of paid\n"
    "}\n"
    "price { aim not (margin < 18%) and profit >= 0.750 KD; floor least; round up to quarters }\n";

static void souk_sale(const struct item *item, struct sale *sale)
{
    int64_t p = sale->price;
    sale->cost = item->stuff + 9000;
    sale->extras = p >= 20000 ? 0 : 1250;
    tax_included(sale, 5 * PERCENT);
    int64_t cut = p < 8000     ? share(4 * PERCENT + item->dearer, p)
                  : p <= 30000 ? share(11 * PERCENT + item->dearer, p) + parts(400)
                               : share(6 * PERCENT + item->dearer, p);
    keep_what_is_left(sale, rounded(cut) + rounded(share(250 + item->dearer, sale->paid)));
}

static bool souk_aim(const struct sale *sale)
{
    return margin_is(sale, 18) && profit_of(sale) >= 7500;
}

/* A quotient of two amounts that both follow the price, and a fee of what a fee leaves. */
static const char gallery_rules[] =
    "currency USD $\n" RECORD "channel gallery {\n"
    "    fee commission = 40% of price\n"
    "    fee card       = (3% + dearer) of paid\n"
    "    fee insurance  = (1% + dearer) of (price - commission)\n"
    "}\n"
    "price { aim profit / fees >= 0.5 or profit >= $80; floor least; round up to $5 }\n";

static void gallery_sale(const struct item *item, struct sale *sale)
{
    sale->cost = item->stuff;
    tax_added(sale, 0);
    int64_t commission = rounded(share(40 * PERCENT, sale->price));
    int64_t card = rounded(share(3 * PERCENT + item->dearer, sale->paid));
    int64_t insurance = rounded(share(PERCENT + item->dearer, sale->price - commission));
    keep_what_is_left(sale, commission + card + insurance);
}

static bool gallery_aim(const struct sale *sale)
{
    return (sale->fees > 0 && profit_of(sale) * 2 >= sale->fees * 10) || profit_of(sale) >= 80000;
}

/* At least and at most, two sides of which rounding alone says which is the lesser, an aim without a
 * figure of its own, every cent. */
static const char workshop_rules[] =
    "currency USD $\n" RECORD "channel workshop {\n"
    "    fee middle = (5% + dearer) of price at least $1.10 at most $9\n"
    "    fee ticket = $0.07 per order\n"
    "    fee first  = 1% of price\n"
    "    fee second = 2% of price\n"
    "    fee third  = 3% of price at most (first + second)\n"
    "}\n"
    "price { aim keep >= cost marked up 45%; floor least; round up to $0.01 }\n";

static void workshop_sale(const struct item *item, struct sale *sale)
{
    sale->cost = item->stuff;
    tax_added(sale, 0);
    int64_t middle = share(5 * PERCENT + item->dearer, sale->price);
    middle = lesser(greater(middle, parts(110)), parts(900));
    int64_t first = rounded(share(1 * PERCENT, sale->price));
    int64_t second = rounded(share(2 * PERCENT, sale->price));
    int64_t third = lesser(parts(first + second), share(3 * PERCENT, sale->price));
    int64_t ticket = rounded(parts(7) / item->quantity);
    keep_what_is_left(sale, rounded(middle) + ticket + first + second + rounded(third));
}

static bool workshop_aim(const struct sale *sale)
{
    return sale->keep * 1000 >= sale->cost * 145;
}

/* A table by what is paid, a threshold, and prices that the aim does not want. */
static const char club_rules[] =
    "currency USD $\n" RECORD "table steps by paid {\n"
    "    below $22 : $0.80\n"
    "    otherwise : $2.30\n"
    "}\n"
    "channel club {\n"
    "    tax added 7%\n"
    "    buyer pays wrapping = $0.75 + 2% of price\n"
    "    fee step_fee    = steps\n"
    "    fee card        = if quantity >= 3 then 1.5% of paid else (2.5% + dearer) of paid\n"
    "    fee threshold   = if net > $31 then $3.40 else $0\n"
    "}\n"
    "price { aim profit >= $3 and not price between $18 and $20 or profit >= $40; floor least\n"
    "    round up to $0.05 }\n";

static void club_sale(const struct item *item, struct sale *sale)
{
    sale->cost = item->stuff;
    sale->extras = rounded(parts(75) + share(2 * PERCENT, sale->price));
    tax_added(sale, 7 * PERCENT);
    int64_t card = share(item->quantity >= 3 ? 150 : 250 + item->dearer, sale->paid);
    keep_what_is_left(sale, (sale->paid < 2200 ? 80 : 230) + rounded(card) +
                                (sale->net > 3100 ? 340 : 0));
}

static bool club_aim(const struct sale *sale)
{
    bool unwanted = sale->price >= 1800 && sale->price <= 2000;
    return (profit_of(sale) >= 3000 && !unwanted) || profit_of(sale) >= 40000;
}

/* Four takers of nearly everything: what is kept rises by less than a cent in a dollar, and a step
 * takes long to make up for. */
static const char takers_rules[] =
    "currency USD $\n" RECORD "channel takers {\n"
    "    fee first  = 24.9% of price\n"
    "    fee second = 24.7% of price\n"
    "    fee third  = 24.85% of price\n"
    "    fee fourth = 24.75% of price\n"
    "    fee step   = if price >= $100 then $0.40 else $0\n"
    "}\n"
    "price { aim profit >= $0.10; floor least; round up to $0.10 }\n";

static void takers_sale(const struct item *item, struct sale *sale)
{
    sale->cost = item->stuff;
    tax_added(sale, 0);
    static const int64_t rates[] = {2490, 2470, 2485, 2475};
    int64_t fees = sale->price >= 10000 ? 40 : 0;
    for (size_t i = 0; i < 4; i++)
        fees += rounded(share(rates[i], sale->price));
    keep_what_is_left(sale, fees);
}

static bool takers_aim(const struct sale *sale)
{
    return profit_of(sale) >= 100;
}

/* A ladder that ends, so that many a record has no price. */
static const char booth_rules[] =
    "currency USD $\n" RECORD "rounding coins_only {\n"
    "    below $3  : ends in .5 or .00\n"
    "    below $50 : every $2\n"
    "}\n"
    "channel booth {\n"
    "    fee pitch = (45% + dearer) of price - $1 at least $0\n"
    "}\n"
    "price { aim take_home >= $2 or margin >= 90%; floor least; round up to coins_only }\n";

static void booth_sale(const struct item *item, struct sale *sale)
{
    sale->cost = item->stuff;
    tax_added(sale, 0);
    int64_t pitch = share(45 * PERCENT + item->dearer, sale->price) - parts(100);
    keep_what_is_left(sale, rounded(greater(pitch, 0)));
}

static bool booth_aim(const struct sale *sale)
{
    return profit_of(sale) >= 2000 || margin_is(sale, 90);
}

/* The unit of a method's currency in coins, and its decimals. */
#define CENTS 100, 2
#define YEN 1, 0
#define FILS 1000, 3

/* clang-format off */
static const struct method_twice methods[] = {
    {"stall", stall_rules, CENTS,
     {{1000, "ends in .49 .99"}, {10000, "ends in .99"}, {0, "ends in 4.95 9.95"}},
     60000, 20000, stall_sale, stall_aim, 2, {0}},
    {"post", post_rules, CENTS, {{0, "every 25"}},
     60000, 20000, post_sale, post_aim, 4, {0}},
    {"counter", counter_rules, CENTS, {{0, "every 1"}},
     8000, 7000, counter_sale, counter_aim, 3, {1500, 4000, 6001}},
    {"fair", fair_rules, YEN,
     {{1000, "every 10"}, {10000, "ends in 80 50"}, {0, "ends in 800"}},
     20000, 9000, fair_sale, fair_aim, 3, {0}},
    {"souk", souk_rules, FILS, {{5000, "ends in .25 .750"}, {0, "every 500"}},
     40000, 40000, souk_sale, souk_aim, 4, {8000, 20000}},
    {"gallery", gallery_rules, CENTS, {{0, "every 500"}},
     40000, 30000, gallery_sale, gallery_aim, 3, {0}},
    {"workshop", workshop_rules, CENTS, {{0, "every 1"}},
     30000, 9000, workshop_sale, workshop_aim, 8, {0}},
    {"club", club_rules, CENTS, {{0, "every 5"}},
     6000, 5000, club_sale, club_aim, 5, {1942, 2966}},
    {"takers", takers_rules, CENTS, {{0, "every 10"}},
     150, 7000, takers_sale, takers_aim, 5, {10000}},
    {"booth", booth_rules, CENTS, {{300, "ends in .5 .00"}, {5000, "every 200"}},
     4000, 6000, booth_sale, booth_aim, 1, {0}},
};
/* clang-format on */

enum { METHODS = sizeof methods / sizeof *methods };

#endif
