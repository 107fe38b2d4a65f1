/* What a message proposes: amounts and units as a maker would type them. */
#ifndef GROAT_PROPOSE_H
#define GROAT_PROPOSE_H

#include "names/shop.h"

/* `$3`, `3 kr` or `3 USD`, as the shop writes its money. */
const char *propose_money(const struct shop *shop, const char *digits);
/* A common unit of this dimension: `h`, `USD per h`. NULL if there is none. */
const char *propose_unit(const struct shop *shop, struct dimension dimension);
/* The digits with a common unit of this type, `3 h`, `$3 per h`. NULL if there is none. */
const char *propose_amount(const struct shop *shop, const char *digits, struct type type);
/* The same, in the unit of the amount beside it if that amount has one. */
const char *propose_like(const struct shop *shop, const char *digits,
                         const struct expression *beside, struct type type);
/* Our unit for a word that people write, `h` for `hours`; or NULL. */
const char *propose_unit_for(const char *word);

#endif
