/* Finding names. */
#include "names/shop.h"

#include <string.h>

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
    return figures[figure].name;
}

enum level figure_level(enum figure figure)
{
    return figures[figure].level;
}

const char *symbol_word(enum symbol_kind kind)
{
    static const char *const words[] = {
        [SYMBOL_FIELD] = "field", [SYMBOL_RATE] = "rate",         [SYMBOL_MATERIAL] = "material",
        [SYMBOL_LET] = "let",     [SYMBOL_FUNCTION] = "function", [SYMBOL_COST] = "cost",
        [SYMBOL_PAY] = "pay",     [SYMBOL_FEE] = "fee",           [SYMBOL_EXTRA] = "buyer pays",
        [SYMBOL_TABLE] = "table", [SYMBOL_ROUNDING] = "rounding", [SYMBOL_SHOW] = "show",
    };
    return words[kind];
}

unsigned shop_channel(const struct shop *shop, const char *name)
{
    for (size_t i = 0; i < shop->channels_count; i++)
        if (strcmp(shop->channels[i].name, name) == 0)
            return (unsigned)i;
    return NO_CHANNEL;
}

/* FNV-1a over the name, something else mixed in. */
static size_t hash_of(const char *name, unsigned with)
{
    uint64_t hash = 14695981039346656037u ^ with;
    for (const char *at = name; *at; at++)
        hash = (hash ^ (unsigned char)*at) * 1099511628211u;
    return (size_t)(hash ^ hash >> 32);
}

size_t shop_unit_slot(const struct shop *shop, const char *name)
{
    size_t slots = sizeof shop->unit_slots / sizeof *shop->unit_slots;
    size_t slot = hash_of(name, 0) % slots;
    while (shop->unit_slots[slot] &&
           strcmp(shop->units[shop->unit_slots[slot] - 1].name, name) != 0)
        slot = (slot + 1) % slots;
    return slot;
}

struct shop_unit *shop_unit(const struct shop *shop, const char *name)
{
    size_t place = shop->unit_slots[shop_unit_slot(shop, name)];
    return place ? &shop->units[place - 1] : NULL;
}

size_t shop_slot(const struct shop *shop, unsigned channel, const char *name)
{
    size_t slot = hash_of(name, channel) & (shop->slots_count - 1);
    while (shop->slots[slot] &&
           (shop->slots[slot]->channel != channel || strcmp(shop->slots[slot]->name, name) != 0))
        slot = (slot + 1) & (shop->slots_count - 1);
    return slot;
}

struct symbol *shop_find(const struct shop *shop, unsigned channel, const char *name)
{
    if (!shop->slots_count)
        return NULL;
    struct symbol *found = NULL;
    if (channel != NO_CHANNEL)
        found = shop->slots[shop_slot(shop, channel, name)];
    return found ? found : shop->slots[shop_slot(shop, NO_CHANNEL, name)];
}
