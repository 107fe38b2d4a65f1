/* A price list that was printed earlier, by groat price with --format csv. */
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

/* Reads the list, with money in the method's currency. Reports on standard error what cannot be
 * read, missing columns, wrong cells and duplicate lines, and then returns false. It must be closed
 * in either case. */
bool since_read(struct since *since, const char *name, const groat_method *method);
void since_close(struct since *since);

#endif
