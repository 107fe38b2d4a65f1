/* The one product of a sheet that --product names. */
#ifndef GROAT_COMMAND_CHOSEN_H
#define GROAT_COMMAND_CHOSEN_H

#include <stdbool.h>

#include "command/products.h"

/* Whether a row is the product of that name; every row is when `name` is NULL. */
bool chosen_is(struct products *products, size_t row, const char *name);
/* How many rows are. */
size_t chosen_count(struct products *products, const char *name);
/* Whether there is one; otherwise that has been said, with the nearest name or the first ones. */
bool chosen_exists(struct products *products, const char *name);
/* The first names of the sheet, on one line. */
void chosen_say_products(struct products *products);

#endif
