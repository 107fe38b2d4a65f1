/* Cliffs: prices just above the one that was found at which less would be kept, because a fee jumps
 * there. */
#ifndef GROAT_CLIFF_H
#define GROAT_CLIFF_H

#include "evaluate/evaluate.h"

/* At every price from the first to the last, less is kept. */
struct cliff {
    int64_t first, last; /* in smallest units */
    bool endless;        /* no later price ever keeps as much: the last one is COINS_MOST */
};

/* How far above the price to look: a tenth of it; and how many linear pieces are examined for a
 * fall, and again for its end. If there are more, `last` is the last price that was examined. */
enum { CLIFF_REACH_PART = 10, CLIFF_PIECES_MOST = 200 };

/* Whether what is kept falls within reach above the price, on the member's channel. A fall due to
 * rounding alone is not a cliff. `tried`: the member's trial steps have their values at the
 * price. */
bool cliff_above(struct evaluation *evaluation, const struct member_code *member, int64_t price,
                 bool tried, struct cliff *cliff);

/* The same for less than an amount, at any price above: for one that is kept at the price. */
bool cliff_below(struct evaluation *evaluation, const struct member_code *member, int64_t price,
                 struct num amount, struct cliff *cliff);

#endif
