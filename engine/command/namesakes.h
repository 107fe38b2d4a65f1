/* Products with the same name in a sheet. */
#ifndef GROAT_COMMAND_NAMESAKES_H
#define GROAT_COMMAND_NAMESAKES_H

#include "command/products.h"

/* Reports each product whose name an earlier line has, with that line: as a warning, or as an error
 * if products are known by name only. Returns false if there are any, or if memory runs out. */
bool namesakes_none(struct products *products, bool error);

/* Compares two names byte by byte, as lists and sheets know a product by them: below, at or above
 * zero. */
int namesakes_compare(groat_text a, groat_text b);

#endif
