/* A price list of an earlier day: one that groat price wrote as data, or any sheet with a product
 * and a price column. */
#ifndef GROAT_COMMAND_SINCE_H
#define GROAT_COMMAND_SINCE_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"
#include "memory/memory.h"

struct since_line {
    groat_text product;
    const char *channel;
    int64_t quantity;
    groat_outcome outcome;
    int64_t list, price; /* smallest units, if it is priced */
    const char *notes;   /* as in the file, or "" */
    size_t number;       /* of the line in the file */
};

struct since {
    const char *name;
    struct since_line *lines; /* in the order of the file */
    size_t count;
    /* private */
    struct sheet *sheet;
    struct memory memory;
    struct arena arena; /* of the lines and their texts; the list must not be moved */
};

/* Reads the list, with money in the method's currency. A list without a channel column holds for
 * every channel, one without a quantity column for one piece. Reports on standard error what cannot
 * be read, missing columns, wrong cells and duplicate lines, and then returns false. It must be
 * closed in either case. */
bool since_read(struct since *since, const char *name, const groat_method *method,
                bool decimal_comma);
void since_close(struct since *since);

#endif
