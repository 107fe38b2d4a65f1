/* What the buyer adds to the price, extras and added tax, as a column of a table has it: so that
 * price + this - fees - tax is what the maker keeps. Private to this room. */
#ifndef GROAT_REPORT_BUYER_ADDS_H
#define GROAT_REPORT_BUYER_ADDS_H

#include "groat.h"
#include "number/amount.h"

struct buyer_adds {
    struct amount adds;
    struct amounts room; /* of it: it stays where it is */
};

void buyer_adds_open(struct buyer_adds *adds);
void buyer_adds_close(struct buyer_adds *adds);
/* That of the result, until the next is taken. */
const struct amount *buyer_adds_take(struct buyer_adds *adds, const groat_scratch *scratch);

#endif
