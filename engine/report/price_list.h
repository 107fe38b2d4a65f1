/* The price list: which columns it has, and a row of it from a priced result. */
#ifndef GROAT_REPORT_PRICE_LIST_H
#define GROAT_REPORT_PRICE_LIST_H

#include "listing/listing.h"
#include "report/price_place.h"
#include "study/estimate.h"

struct price_list;

/* `plan` says all but the columns; its width and the rest as in listing.h. With `estimates` there are
 * columns for them, last before the notes. The method must outlive the list. NULL when memory runs
 * out or nothing can be written; errno says why. */
struct price_list *price_list_open(const groat_method *method, const struct listing_plan *plan,
                                   bool estimates, FILE *out);
/* Adds the result that is in the scratch, and what it may come to, where the list has estimates.
 * Returns false as listing_add does. */
bool price_list_add(struct price_list *list, const struct price_place *place,
                    const groat_scratch *scratch, const struct estimate_result *estimate);
bool price_list_close(struct price_list *list, bool whole); /* as listing_close */

#endif
