/* What the buyer pays in addition to the price, extras and added tax, as a column of a table: price
 * + this - fees - tax is what the maker keeps. Private to this room. */
#ifndef GROAT_REPORT_BUYER_ADDS_H
#define GROAT_REPORT_BUYER_ADDS_H

#include "groat.h"
#include "number/amount.h"

struct buyer_adds {
    struct amount adds;
    struct amounts room; /* of the amount, so it must not be moved */
};

void buyer_adds_open(struct buyer_adds *adds);
void buyer_adds_close(struct buyer_adds *adds);
/* The amount for the result in the scratch; valid until the next call. */
const struct amount *buyer_adds_take(struct buyer_adds *adds, const groat_scratch *scratch);

#endif
