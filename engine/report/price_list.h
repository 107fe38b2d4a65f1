/* The price list: which columns it has, and a row of it from a priced result. */
#ifndef GROAT_REPORT_PRICE_LIST_H
#define GROAT_REPORT_PRICE_LIST_H

#include "report/listing.h"

struct price_list;

/* `plan` says all but the columns; its width and the rest as in listing.h. The method must outlive
 * the list. NULL when memory runs out or nothing can be written; errno says why. */
struct price_list *price_list_open(const groat_method *method, const struct listing_plan *plan,
                                   FILE *out);
/* Which row it is: the product's place in its sheet and its label, and what was asked of it. */
struct price_place {
    size_t row;
    groat_text product;
    const char *channel;
    int64_t quantity;
};
/* Adds the result that is in the scratch. Returns false as listing_add does. */
bool price_list_add(struct price_list *list, const struct price_place *place,
                    const groat_scratch *scratch);
bool price_list_close(struct price_list *list, bool whole); /* as listing_close */

#endif
