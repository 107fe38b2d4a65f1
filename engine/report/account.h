/* An account of one price or one figure: how it is calculated, written for a person or as JSON. */
#ifndef GROAT_REPORT_ACCOUNT_H
#define GROAT_REPORT_ACCOUNT_H

#include <stdbool.h>
#include <stdio.h>

#include "groat.h"

struct account_plan {
    bool json;
    size_t width; /* of the lines for a person, in character cells, if possible */
    groat_currency currency;
    const char *as_of; /* the date that the prices are for; or NULL */
    bool exact;        /* all of every amount in JSON */
    size_t written;    /* number of accounts so far; begins at 0 */
};

/* What the account is about. */
struct account {
    groat_text product;
    const char *channel;
    int64_t quantity;
    const char *name; /* of the figure, if it is about only one; or NULL */
    groat_outcome outcome;
    const groat_explanation *explanation;
    const groat_scratch *scratch;
};

/* These write to `out` and return false on failure, with errno set. JSON needs a beginning and an
 * end. */
bool account_begin(struct account_plan *plan, FILE *out);
bool account_add(struct account_plan *plan, const struct account *account, FILE *out);
bool account_end(struct account_plan *plan, FILE *out);

#endif
