/* How each product contributes to the goals, written as a list. A table has one part for each goal:
 * what is needed, the products from best to worst, and a line that names the best. */
#ifndef GROAT_REPORT_GOAL_LIST_H
#define GROAT_REPORT_GOAL_LIST_H

#include "listing/listing.h"
#include "study/goals.h"

/* The name of a product by its row in the sheet; valid until the next call. */
typedef groat_text goal_list_label(void *context, size_t product);

struct goal_list {
    const struct goals *goals; /* sorted */
    const char *pace;          /* for a heading, `3 a week`; NULL if there is no pace */
    goal_list_label *label;
    void *context;
};

/* `plan` gives everything except the columns. Returns false when it could not be written; errno
 * says why. */
bool goal_list_write(const struct goal_list *list, const struct listing_plan *plan, FILE *out);

#endif
