/* Cliffs: a stretch of prices just above the one that was found at which less would be kept, because
 * a fee jumps there. */
#ifndef GROAT_CLIFF_H
#define GROAT_CLIFF_H

#include "evaluate/evaluate.h"

struct cliff {
    int64_t first, last; /* in smallest units */
    bool endless;        /* there is no last one within the pieces looked at */
};

/* How far ahead is within reach: a tenth of the price; and how many pieces are looked at. */
enum { CLIFF_REACH_PART = 10, CLIFF_PIECES_MOST = 200 };

/* Whether such a stretch begins within reach above the price, on the member's channel. What rounding
 * alone takes away is no cliff. */
bool cliff_above(struct evaluation *evaluation, const struct member_code *member, int64_t price,
                 struct cliff *cliff);

#endif
