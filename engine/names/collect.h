/* Definitions by name: shared by the two files that build a shop. */
#ifndef GROAT_COLLECT_H
#define GROAT_COLLECT_H

#include "names/shop.h"

/* The definition with this name that the shop or the channel itself makes, or NULL. */
struct symbol *shop_symbol(const struct shop *shop, unsigned channel, const char *name);
/* Adds a symbol, or a unit by its number, to the index. It must be in its list already, and its
 * name must be unique. */
void shop_index_symbol(struct shop *shop, const struct symbol *symbol);
void shop_index_unit(struct shop *shop, uint32_t number);

#endif
