/* Ranges: `20 to 30 min likely 22 min`, for values that are not known exactly. */
#ifndef GROAT_RANGE_H
#define GROAT_RANGE_H

#include "types/literal.h"

struct range {
    struct type type;             /* a number's */
    struct num low, likely, high; /* in base units, in this order */
    bool bare;                    /* none of them has a sign or a unit */
    bool percent;                 /* they are percentages */
    bool middle;                  /* no likely value is written, so it is the middle */
};

/* Reads an EXPRESSION_RANGE. A unit, a `%` or a `per` of one part also applies to the parts without
 * one. Never returns LITERAL_NONE: parts that are not just literals are reported. */
enum literal_outcome range_read(struct literal_scope scope, const struct expression *expression,
                                struct range *out);
/* Whether the range is a single amount, because its ends are equal. */
bool range_is_one(const struct range *range);

/* `20 to 30 min` for `20 - 30 min`, where a range may be meant; NULL for anything else. */
const char *range_instead(struct arena *arena, const struct expression *expression);

#endif
