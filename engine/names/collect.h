/* What the two halves of a shop share: where a name stands in its table. */
#ifndef GROAT_COLLECT_H
#define GROAT_COLLECT_H

#include "names/shop.h"

/* The slot of the name, or the free one where it would go. The table must exist. */
size_t shop_slot(const struct shop *shop, unsigned channel, const char *name);
/* And the same for a unit, among `unit_slots`. */
size_t shop_unit_slot(const struct shop *shop, const char *name);

#endif
