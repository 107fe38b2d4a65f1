/* Ranges: `20 to 30 min likely 22 min`, for values that are not known exactly. */
#ifndef GROAT_RANGE_H
#define GROAT_RANGE_H

#include "types/literal.h"

struct range {
    struct type type;             /* a number's */
    struct num low, likely, high; /* in base units, in this order */
    bool bare;                    /* none of them has a sign or a unit */
    bool percent;                 /* they are percentages */
    bool middle;                  /* no likely value is written: it is the middle */
};

/* Reads an EXPRESSION_RANGE. A unit, a `%` or a `per` that stands with one of its parts holds for
 * those that have none. Never LITERAL_NONE: what is more than a literal is reported too. */
enum literal_outcome range_read(struct literal_scope scope, const struct expression *expression,
                                struct range *out);
/* Whether it is one amount after all: its ends are equal. */
bool range_is_one(const struct range *range);

/* `20 to 30 min` for `20 - 30 min`, where a range may be meant; NULL for anything else. */
const char *range_instead(struct arena *arena, const struct expression *expression);

#endif
