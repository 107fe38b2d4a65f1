/* A walk over the products by several threads: each works on products of its own, and what comes of
 * them is taken in the order of the sheet. */
#ifndef GROAT_COMMAND_HANDS_H
#define GROAT_COMMAND_HANDS_H

#include "command/pricing.h"

/* What one product is worked on with. Its record is filled. */
struct hand {
    size_t row;
    groat_text label;
    groat_record *record;
    groat_scratch *scratch;
    void *own; /* of hands_plan.open: what comes of the work is kept there until it is taken */
};

struct hands_plan {
    void *(*open)(void *context); /* NULL when memory runs out */
    void (*close)(void *own);
    /* In any thread; touches nothing but the hand and what never changes. */
    void (*work)(void *context, struct hand *hand);
    /* In the thread of the walk. False, with errno set, when it could not be written. */
    bool (*take)(void *context, struct hand *hand);
};

/* Only a few products are held at a time. Those whose cells are wrong are said and left out; with
 * --product, so are others than that. False when it did not come to its end: it has been said. */
bool hands_walk(struct pricing *pricing, const struct hands_plan *plan, void *context);

#endif
