/* How the effect of a change is written: a row for each ticket, and a summary.
 *
 * A table shows what moves, what is kept and what has something new to say, and the sums below it;
 * CSV has every row and no sums; JSON is an object of both, {"rows": […], "summary": {…}}. */
#ifndef GROAT_REPORT_EFFECT_LIST_H
#define GROAT_REPORT_EFFECT_LIST_H

#include "listing/listing.h"
#include "study/effect.h"

struct effect_list {
    const struct effect *effect; /* finished */
    const groat_text *labels;    /* of the products, by their numbers */
    const char *band;            /* `3%`; or NULL: nothing is held */
    bool from_list;              /* before is a list that was printed earlier */
    struct listing_plan plan;    /* all but the columns */
};

/* Returns false when it could not be written; errno says why. */
bool effect_list_write(const struct effect_list *list, FILE *out);

#endif
