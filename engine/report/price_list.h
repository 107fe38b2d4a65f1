/* The price list: its columns, and a row from each result. */
#ifndef GROAT_REPORT_PRICE_LIST_H
#define GROAT_REPORT_PRICE_LIST_H

#include "listing/listing.h"
#include "report/price_place.h"
#include "study/estimate.h"

struct price_list;

/* `plan` gives everything except the columns, as in listing.h. With `estimates`, columns for them
 * come last before the notes. The method must outlive the list. NULL when memory runs out or
 * nothing can be written; errno says why. */
struct price_list *price_list_open(const groat_method *method, const struct listing_plan *plan,
                                   bool estimates, FILE *out);
/* Adds the result in the scratch, and its estimate if the list has estimates. Returns false as
 * listing_add does. */
bool price_list_add(struct price_list *list, const struct price_place *place,
                    const groat_scratch *scratch, const struct estimate_result *estimate);
/* Adds an order without a price, which has nothing but what became of it, and why. */
bool price_list_add_without(struct price_list *list, const struct price_place *place,
                            groat_outcome outcome, const char *reason);
/* A part of the list, as listing_part makes it, and its rows taken into the list. */
struct price_list *price_list_part(const struct price_list *list);
bool price_list_join(struct price_list *list, struct price_list *part);
bool price_list_close(struct price_list *list, bool whole); /* as listing_close */

#endif
