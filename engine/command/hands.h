/* A walk over the products by several threads: each works on its own products, and the results are
 * taken in the order of the sheet. */
#ifndef GROAT_COMMAND_HANDS_H
#define GROAT_COMMAND_HANDS_H

#include "command/pricing.h"

/* What a thread needs to work on one product. Its record is filled in. */
struct hand {
    size_t row;
    groat_text label;
    groat_record *record;
    groat_scratch *scratch;
    void *own; /* from hands_plan.open; holds the results until they are taken */
};

struct hands_plan {
    void *(*open)(void *context); /* NULL when memory runs out */
    void (*close)(void *own);
    /* Runs in any thread; may change only the hand. */
    void (*work)(void *context, struct hand *hand);
    /* Runs in the thread of the walk. Returns false, with errno set, when the results could not be
     * written. */
    bool (*take)(void *context, struct hand *hand);
};

/* Holds only a few products at a time. Products with wrong cells are reported and left out; with
 * --product, so are all others. Returns false, after reporting why, if the walk did not reach the
 * end. */
bool hands_walk(struct pricing *pricing, const struct hands_plan *plan, void *context);

#endif
