/* Price breaks: the price list of several quantities as a table, a block for each product and
 * channel. What a buyer may see stands on the left, each break on a line: the price of a piece, what
 * is off the list price, and what the order comes to. What it leaves the maker, for each piece and
 * for the whole order, stands on the right. */
#ifndef GROAT_REPORT_PRICE_BREAKS_H
#define GROAT_REPORT_PRICE_BREAKS_H

#include "listing/listing.h"
#include "report/price_place.h"

struct price_breaks;

/* As price_list_open, price_list_add and price_list_close. */
struct price_breaks *price_breaks_open(const groat_method *method, const struct listing_plan *plan,
                                       FILE *out);
bool price_breaks_add(struct price_breaks *breaks, const struct price_place *place,
                      const groat_scratch *scratch);
bool price_breaks_close(struct price_breaks *breaks, bool whole);

#endif
