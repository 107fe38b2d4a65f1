/* The list of the effect of a change: a row for each ticket, and a summary.
 *
 * A table shows the tickets that change, are kept or have new notes, with the sums below. CSV and
 * NDJSON have every row and no sums. JSON has both, the sums as its summary. */
#ifndef GROAT_REPORT_EFFECT_LIST_H
#define GROAT_REPORT_EFFECT_LIST_H

#include "listing/listing.h"
#include "study/effect.h"

struct effect_list {
    const struct effect *effect; /* finished */
    const groat_text *labels;    /* of the products, by their numbers */
    bool held;                   /* tickets are held within a band */
    bool from_list;              /* the tickets from before come from a list printed earlier */
    struct listing_plan plan;    /* everything except the columns */
};

/* Writes the list. Returns false when it could not be written; errno says why. */
bool effect_list_write(const struct effect_list *list, FILE *out);

#endif
