/* Products of one name in a sheet. */
#ifndef GROAT_COMMAND_NAMESAKES_H
#define GROAT_COMMAND_NAMESAKES_H

#include "command/products.h"

/* Says which products bear a name that an earlier line has, each with that line: as a warning, or as
 * an error where names alone tell products. False when there are such, or no memory. */
bool namesakes_none(struct products *products, bool error);

#endif
