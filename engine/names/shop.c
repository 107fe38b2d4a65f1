/* Finding names. */
#include "names/shop.h"

#include <assert.h>
#include <string.h>

#include "names/collect.h"

static const struct {
    const char *name;
    enum level level;
} figures[FIGURES] = {
    [FIGURE_QUANTITY] = {"quantity", LEVEL_RECORD},
    [FIGURE_AS_OF] = {"as_of", LEVEL_RECORD},
    [FIGURE_CHANNEL] = {"channel", LEVEL_RECORD},
    [FIGURE_COST] = {"cost", LEVEL_COST},
    [FIGURE_PAY] = {"pay", LEVEL_COST},
    [FIGURE_LIST] = {"list", LEVEL_LIST},
    [FIGURE_PRICE] = {"price", LEVEL_PRICE},
    [FIGURE_EXTRAS] = {"extras", LEVEL_EXTRAS},
    [FIGURE_TAX] = {"tax", LEVEL_TAX},
    [FIGURE_PAID] = {"paid", LEVEL_NET},
    [FIGURE_NET] = {"net", LEVEL_NET},
    [FIGURE_FEES] = {"fees", LEVEL_FEES},
    [FIGURE_KEEP] = {"keep", LEVEL_KEEP},
    [FIGURE_PROFIT] = {"profit", LEVEL_ALL},
    [FIGURE_MARGIN] = {"margin", LEVEL_ALL},
    [FIGURE_TAKE_HOME] = {"take_home", LEVEL_ALL},
};

enum figure figure_find(const char *name)
{
    unsigned figure = 0;
    while (figure < FIGURES && strcmp(figures[figure].name, name) != 0)
        figure++;
    return (enum figure)figure;
}

const char *figure_name(enum figure figure)
{
    assert(figure < FIGURES);
    return figures[figure].name;
}

enum level figure_level(enum figure figure)
{
    assert(figure < FIGURES);
    return figures[figure].level;
}

struct type figure_type(enum figure figure)
{
    switch (figure) {
    case FIGURE_CHANNEL: return (struct type){TYPE_TEXT, dim_none()};
    case FIGURE_AS_OF: return (struct type){TYPE_DATE, dim_none()};
    case FIGURE_QUANTITY:
    case FIGURE_MARGIN: return (struct type){TYPE_NUMBER, dim_none()};
    default: return (struct type){TYPE_NUMBER, dim_base(DIM_MONEY)};
    }
}

const struct figure_term *figure_terms(enum figure figure)
{
    static const struct figure_term terms[FIGURES][4] = {
        [FIGURE_PAID] = {{' ', FIGURE_PRICE}, {'+', FIGURE_EXTRAS}, {'+', FIGURE_TAX}},
        [FIGURE_NET] = {{' ', FIGURE_PRICE}, {'+', FIGURE_EXTRAS}, {'-', FIGURE_TAX}},
        [FIGURE_KEEP] = {{' ', FIGURE_NET}, {'-', FIGURE_FEES}},
        [FIGURE_PROFIT] = {{' ', FIGURE_KEEP}, {'-', FIGURE_COST}},
        [FIGURE_MARGIN] = {{' ', FIGURE_PROFIT}, {'/', FIGURE_NET}},
        [FIGURE_TAKE_HOME] = {{' ', FIGURE_PROFIT}, {'+', FIGURE_PAY}}};
    assert(figure < FIGURES);
    return terms[figure];
}

bool figure_counts(const struct channel *channel, enum figure sum, enum figure term)
{
    return term != FIGURE_TAX ||
           (channel->tax && (channel->tax->kind == STATEMENT_TAX_INCLUDED) == (sum == FIGURE_NET));
}

const char *symbol_word(enum symbol_kind kind)
{
    static const char *const words[] = {
        [SYMBOL_FIELD] = "field", [SYMBOL_RATE] = "rate",         [SYMBOL_MATERIAL] = "material",
        [SYMBOL_LET] = "let",     [SYMBOL_FUNCTION] = "function", [SYMBOL_COST] = "cost",
        [SYMBOL_PAY] = "pay",     [SYMBOL_FEE] = "fee",           [SYMBOL_EXTRA] = "buyer pays",
        [SYMBOL_TABLE] = "table", [SYMBOL_ROUNDING] = "rounding", [SYMBOL_SHOW] = "show",
    };
    assert((size_t)kind < sizeof words / sizeof *words && words[kind]);
    return words[kind];
}

unsigned shop_channel(const struct shop *shop, const char *name)
{
    for (size_t i = 0; i < shop->channels_count; i++)
        if (strcmp(shop->channels[i].name, name) == 0)
            return (unsigned)i;
    return NO_CHANNEL;
}

/* A name that is searched for. */
struct asked {
    const struct shop *shop;
    unsigned channel;
    const char *name;
};

static uint64_t hash_of(unsigned channel, const char *name)
{
    return index_hash_text(index_hash(INDEX_HASH, channel), name, strlen(name));
}

static bool is_unit(const void *context, uint32_t number)
{
    const struct asked *asked = context;
    return strcmp(asked->shop->units[number].name, asked->name) == 0;
}

struct shop_unit *shop_unit(const struct shop *shop, const char *name)
{
    const struct asked asked = {shop, NO_CHANNEL, name};
    uint32_t number = index_look(&shop->unit_index, hash_of(NO_CHANNEL, name), is_unit, &asked);
    assert(number == INDEX_NONE || number < shop->units_count);
    return number == INDEX_NONE ? NULL : &shop->units[number];
}

void shop_index_unit(struct shop *shop, uint32_t number)
{
    const struct asked asked = {shop, NO_CHANNEL, shop->units[number].name};
    *index_find(&shop->unit_index, shop->arena, hash_of(NO_CHANNEL, asked.name), is_unit, &asked) =
        number;
}

static bool is_symbol(const void *context, uint32_t number)
{
    const struct asked *asked = context;
    const struct symbol *symbol = asked->shop->symbols.items[number];
    return symbol->channel == asked->channel && strcmp(symbol->name, asked->name) == 0;
}

struct symbol *shop_symbol(const struct shop *shop, unsigned channel, const char *name)
{
    const struct asked asked = {shop, channel, name};
    uint32_t number = index_look(&shop->symbol_index, hash_of(channel, name), is_symbol, &asked);
    return number == INDEX_NONE ? NULL : shop->symbols.items[number];
}

void shop_index_symbol(struct shop *shop, const struct symbol *symbol)
{
    const struct asked asked = {shop, symbol->channel, symbol->name};
    *index_find(&shop->symbol_index, shop->arena, hash_of(symbol->channel, symbol->name), is_symbol,
                &asked) = symbol->number;
}

struct symbol *shop_find(const struct shop *shop, unsigned channel, const char *name)
{
    struct symbol *found = channel != NO_CHANNEL ? shop_symbol(shop, channel, name) : NULL;
    return found ? found : shop_symbol(shop, NO_CHANNEL, name);
}
