/* Definitions under their names, which the two files that build a shop share. */
#ifndef GROAT_COLLECT_H
#define GROAT_COLLECT_H

#include "names/shop.h"

/* What the shop or a channel itself defines under a name, or NULL. */
struct symbol *shop_symbol(const struct shop *shop, unsigned channel, const char *name);
/* Enters a symbol, or a unit by its number, that stands in its list and that no other is named as. */
void shop_index_symbol(struct shop *shop, const struct symbol *symbol);
void shop_index_unit(struct shop *shop, uint32_t number);

#endif
