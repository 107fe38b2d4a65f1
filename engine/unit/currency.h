/* ISO 4217 currency codes and how many decimals each has. */
#ifndef GROAT_CURRENCY_H
#define GROAT_CURRENCY_H

#include <stddef.h>

/* The number of decimals of the currency's smallest unit (0 to 4). Returns -1 for a code that is
 * not on the list, or that the list gives no decimals for (gold, test codes). Codes are in
 * capitals. Source: ISO 4217 list one, published 2024-06-25, as the npm package currency-codes
 * carries it. */
int currency_decimals(const char *code, size_t length);

#endif
