/* Price breaks: the price list of several quantities as a table, a block for each product and
 * channel. Each break is a line. On the left is what a buyer may see: the price of a piece, the
 * discount, and the total of the order. On the right is what is left for the maker, for each piece
 * and for the whole order. */
#ifndef GROAT_REPORT_PRICE_BREAKS_H
#define GROAT_REPORT_PRICE_BREAKS_H

#include "listing/listing.h"
#include "report/price_place.h"

struct price_breaks;

/* Work like price_list_open, price_list_add and price_list_close. */
struct price_breaks *price_breaks_open(const groat_method *method, const struct listing_plan *plan,
                                       FILE *out);
bool price_breaks_add(struct price_breaks *breaks, const struct price_place *place,
                      const groat_scratch *scratch);
bool price_breaks_close(struct price_breaks *breaks, bool whole);

#endif
