/* What --set makes of each rate that it names, so that an answer can say which question it is of:
 * `vat 20% → 20.4%`. */
#ifndef GROAT_COMMAND_CHANGES_H
#define GROAT_COMMAND_CHANGES_H

#include <stdbool.h>
#include <stdio.h>

#include "groat.h"

struct changes {
    struct change {
        const char *rate;     /* as the request names it */
        char *before, *after; /* as the rules would write them */
    } * items;
    size_t count;
};

/* Notes each rate once, with its value in both methods. Returns false when memory runs out. The
 * changes must be freed in either case. */
bool changes_take(struct changes *changes, const groat_method *before, const groat_method *after,
                  const groat_rate_value *sets, size_t count);
/* Writes them as lines that stand above a table, if there are any. Returns false when they could
 * not be written; errno says why. */
bool changes_put(const struct changes *changes, FILE *out);
void changes_free(struct changes *changes);

#endif
