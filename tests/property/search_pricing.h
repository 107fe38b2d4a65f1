/* The methods of search_methods.h read by the engine, through its public header alone; random records
 * of them, priced; and the prices that their ladders allow, by spelling. */
#ifndef PROPERTY_SEARCH_PRICING_H
#define PROPERTY_SEARCH_PRICING_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>

#include "groat.h"
#include "property/chance.h"
#include "property/search_methods.h"

/* Coins that the blind loops look at. */
enum { COINS_END = 250000 };

/* A method as the engine has it. */
struct shop {
    const struct method_twice *twice;
    groat_method *method, *dearer; /* the second with fees raised by `DEARER` */
    groat_scratch *scratch;
    groat_record *record;
    size_t channel, stuff, grams, least;
    bool *allowed; /* by coin */
};

enum { DEARER = 150 };

static struct shop shops[METHODS];
static bool priced; /* whether there was a price last time */

static inline groat_method *read_method(const struct method_twice *twice)
{
    groat_report *report;
    groat_method *method = groat_method_read(
        twice->name, (groat_text){twice->rules, strlen(twice->rules)}, NULL, &report);
    for (size_t i = 0; report && i < groat_report_count(report); i++) {
        char text[1024];
        groat_diagnostic_write(groat_report_at(report, i), text, sizeof text);
        if (groat_report_at(report, i)->severity == GROAT_ERROR)
            fputs(text, stderr);
    }
    groat_report_free(report);
    return method;
}

static inline int open_shops(void **state)
{
    (void)state;
    for (size_t i = 0; i < METHODS; i++) {
        struct shop *shop = &shops[i];
        groat_trouble trouble;
        *shop = (struct shop){.twice = &methods[i], .method = read_method(&methods[i])};
        if (!shop->method)
            return -1;
        shop->dearer = groat_method_with_rates(
            shop->method, &(groat_rate_value){.rate = "dearer", .value = "1.5%"}, 1, &trouble);
        shop->scratch = groat_scratch_new(shop->method);
        shop->record = groat_record_new(shop->method);
        shop->allowed = calloc(COINS_END, sizeof *shop->allowed);
        if (!shop->dearer || !shop->scratch || !shop->record || !shop->allowed)
            return -1;
        shop->channel = groat_method_find_channel(shop->method, methods[i].name);
        shop->stuff = groat_method_find_field(shop->method, "stuff");
        shop->grams = groat_method_find_field(shop->method, "grams");
        shop->least = groat_method_find_field(shop->method, "least");
        for (int64_t coins = 1; coins < COINS_END; coins++)
            shop->allowed[coins] = spelling_allows(&methods[i], coins);
    }
    return 0;
}

static inline int close_shops(void **state)
{
    (void)state;
    for (size_t i = 0; i < METHODS; i++) {
        groat_record_free(shops[i].record);
        groat_scratch_free(shops[i].scratch);
        groat_method_free(shops[i].dearer);
        groat_method_free(shops[i].method);
        free(shops[i].allowed);
    }
    return 0;
}

/* ---- records ---- */

static inline struct item random_item(const struct shop *shop)
{
    static const int64_t quantities[] = {1, 1, 1, 2, 3, 4, 6, 12};
    struct item item = {.quantity = quantities[random_below(8)]};
    item.stuff = random_from(0, shop->twice->stuff_most * 10 >> random_below(7));
    item.stuff -= random_below(2) ? item.stuff % 10 : 0;
    item.grams = random_from(0, 3000);
    item.floor = random_below(4) == 0 ? random_from(1, shop->twice->floor_most) : 0;
    return item;
}

/* A figure of the last result in coins. */
static inline int64_t coins_of(const struct shop *shop, groat_figure figure)
{
    char top[64], bottom[64];
    groat_value value = groat_result_figure(shop->scratch, figure);
    assert_int_equal(value.presence, GROAT_THERE);
    groat_value_top(value, top, sizeof top);
    groat_value_bottom(value, bottom, sizeof bottom);
    int64_t coins = strtoll(top, NULL, 10) * shop->twice->unit, by = strtoll(bottom, NULL, 10);
    assert_int_equal(coins % by, 0);
    return coins / by;
}

/* The engine's price in coins; `priced` tells whether there is one. */
static inline int64_t price_item(struct shop *shop, const struct item *item)
{
    groat_trouble trouble;
    int64_t unit = shop->twice->unit;
    groat_record_clear(shop->record);
    assert_int_equal(
        groat_record_set_fraction(shop->record, shop->stuff, item->stuff, unit * 10, &trouble),
        GROAT_OK);
    assert_int_equal(groat_record_set_fraction(shop->record, shop->grams, item->grams, 1, &trouble),
                     GROAT_OK);
    if (item->floor)
        assert_int_equal(
            groat_record_set_fraction(shop->record, shop->least, item->floor, unit, &trouble),
            GROAT_OK);
    groat_order order = {.channel = shop->channel, .quantity = item->quantity};
    groat_outcome outcome = groat_price(shop->scratch, item->dearer ? shop->dearer : shop->method,
                                        shop->record, &order);
    priced = outcome == GROAT_PRICED;
    if (!priced)
        return 0;
    int64_t price = coins_of(shop, GROAT_PRICE);
    assert_true(price > 0 && price < COINS_END);
    return price;
}

/* The sale at a price, by whole numbers alone. */
static inline struct sale sale_at(const struct shop *shop, const struct item *item, int64_t price)
{
    struct sale sale = {.price = price};
    shop->twice->sell(item, &sale);
    return sale;
}

static inline bool aim_holds(const struct shop *shop, const struct item *item, int64_t price)
{
    struct sale sale = sale_at(shop, item, price);
    return shop->twice->aim(&sale);
}

static inline void fail_item(const struct shop *shop, const struct item *item, int64_t price,
                             const char *what)
{
    fail_msg("%s: stuff %lld tenths, %lld g, %lld pieces, floor %lld, dearer %lld: price %lld: %s",
             shop->twice->name, (long long)item->stuff, (long long)item->grams,
             (long long)item->quantity, (long long)item->floor, (long long)item->dearer,
             (long long)price, what);
}

#endif
