/* Orders things by the size of an amount, whatever its sign: the largest first, absent ones last,
 * and equal ones in their original order. */
#ifndef GROAT_STUDY_RANKING_H
#define GROAT_STUDY_RANKING_H

#include <stddef.h>

#include "number/amount.h"

typedef const struct amount *ranking_amount(const void *context, size_t thing);

/* Fills `order` with the things from 0 to count - 1. */
void ranking_by_size(size_t *order, size_t count, ranking_amount *amount_at, const void *context);

/* Whether a is larger than b in that sense. */
bool ranking_is_larger(const struct amount *a, const struct amount *b);

#endif
