/* The one product of a sheet that --product names. */
#ifndef GROAT_COMMAND_CHOSEN_H
#define GROAT_COMMAND_CHOSEN_H

#include <stdbool.h>

#include "command/products.h"

/* Whether a row is the product with this name; true for every row if `name` is NULL. */
bool chosen_is(struct products *products, size_t row, const char *name);
/* The number of rows with this name. */
size_t chosen_count(struct products *products, const char *name);
/* Whether there is such a product; otherwise prints an error with the nearest name or the first
 * ones. */
bool chosen_exists(struct products *products, const char *name);
/* Prints the first names of the sheet, on one line. */
void chosen_say_products(struct products *products);

#endif
