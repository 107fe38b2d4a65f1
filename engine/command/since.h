/* A price list that was printed earlier, by groat price with --format csv. */
#ifndef GROAT_COMMAND_SINCE_H
#define GROAT_COMMAND_SINCE_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"

struct since_line {
    groat_text product;
    char *channel;
    int64_t quantity;
    int64_t list, price; /* smallest units */
    char *notes;         /* as they stand there, or "" */
    size_t number;       /* of the line in the file */
};

struct since {
    const char *name;
    struct since_line *lines; /* in the order of the file */
    size_t count;
    struct sheet *sheet; /* private */
};

/* Reads the list, its money in the method's currency. Says on standard error what is wrong, and
 * returns false: what cannot be read, columns that a price list has, cells that are not what a price
 * list says, two lines about the same. Either way to be closed. */
bool since_read(struct since *since, const char *name, const groat_method *method);
void since_close(struct since *since);

/* The order of two products by their names, byte by byte, by which a list tells them apart: below,
 * at or above zero. */
int since_compare_products(groat_text a, groat_text b);

#endif
