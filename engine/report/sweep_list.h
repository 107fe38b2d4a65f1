/* A sweep as rows, one for each product, channel and value of the rate: CSV and JSON. */
#ifndef GROAT_REPORT_SWEEP_LIST_H
#define GROAT_REPORT_SWEEP_LIST_H

#include "listing/listing.h"
#include "report/price_place.h"
#include "study/sweep.h"

/* `plan` gives everything except the columns, and the sweep must outlive the list. NULL when memory
 * runs out or nothing can be written; errno says why. */
struct listing *sweep_list_open(const groat_method *method, const struct sweep *sweep,
                                const struct listing_plan *plan, FILE *out);
/* Adds the result of a point, in the scratch, to a part of the list; adds nothing if the product is
 * not sold. Returns false as listing_add does. */
bool sweep_list_add(struct listing *part, const struct sweep *sweep,
                    const struct price_place *place, size_t point, groat_outcome outcome,
                    const groat_scratch *scratch);

#endif
