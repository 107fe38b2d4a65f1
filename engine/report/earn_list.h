/* What is left of given prices, as a list: a row for each product, channel and quantity. */
#ifndef GROAT_REPORT_EARN_LIST_H
#define GROAT_REPORT_EARN_LIST_H

#include "listing/listing.h"
#include "report/price_place.h"
#include "study/earn.h"

struct earn_list;

/* `plan` gives everything except the columns. The method must outlive the list. NULL when memory
 * runs out or nothing can be written; errno says why. */
struct earn_list *earn_list_open(const groat_method *method, const struct listing_plan *plan,
                                 FILE *out);
/* Adds a row. The result at the price must still be in the scratch. Returns false as listing_add
 * does. */
bool earn_list_add(struct earn_list *list, const struct price_place *place, const struct earn *earn,
                   const groat_scratch *scratch);
/* Adds an order of which nothing can be worked out, with the reason. */
bool earn_list_add_without(struct earn_list *list, const struct price_place *place,
                           groat_outcome outcome, const char *reason);
bool earn_list_close(struct earn_list *list, bool whole); /* as listing_close */

#endif
