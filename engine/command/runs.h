/* A walk over the sheet in which several threads each price runs of rows and put their part of the
 * list together. The parts are joined in the order of the sheet. */
#ifndef GROAT_COMMAND_RUNS_H
#define GROAT_COMMAND_RUNS_H

#include "command/pricing.h"

struct runs_plan {
    /* Called as by pricing_each, in any thread. Their context is an own part; or the context of the
     * walk, where there is one thread only. */
    pricing_visitor *visit, *unread;
    void *(*open)(void *context, const struct pricing *pricing); /* NULL when memory runs out */
    void (*close)(void *own);
    /* Takes over the rows of a part, and empties it. Returns false, with errno set, when they could
     * not be written. */
    bool (*join)(void *context, void *own);
};

/* As pricing_each, with as many threads as the request asks for. Not for tables. */
bool runs_walk(struct pricing *pricing, const struct runs_plan *plan, void *context);

#endif
