/* An account of one price, or of one figure: where it comes from, written for a person or as JSON. */
#ifndef GROAT_REPORT_ACCOUNT_H
#define GROAT_REPORT_ACCOUNT_H

#include <stdbool.h>
#include <stdio.h>

#include "groat.h"

struct account_plan {
    bool json;
    size_t width; /* of the lines for a person, in character cells, where it can be had */
    groat_currency currency;
    size_t written; /* accounts so far; begins at 0 */
};

/* What is accounted for. */
struct account {
    groat_text product;
    const char *channel;
    int64_t quantity;
    const char *name; /* of the one figure that is asked for, or NULL */
    groat_outcome outcome;
    const groat_explanation *explanation;
    const groat_scratch *scratch;
};

/* Write to `out`; false when that failed, with errno set. JSON needs a beginning and an end. */
bool account_begin(struct account_plan *plan, FILE *out);
bool account_add(struct account_plan *plan, const struct account *account, FILE *out);
bool account_end(struct account_plan *plan, FILE *out);

#endif
