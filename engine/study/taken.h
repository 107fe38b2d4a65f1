/* Makes amounts of the library's values, to calculate with them. */
#ifndef GROAT_STUDY_TAKEN_H
#define GROAT_STUDY_TAKEN_H

#include "groat.h"
#include "number/amount.h"

/* Whether values of the kind are amounts: numbers, money, quantities. */
bool taken_is_amount(groat_kind kind);
/* The amount in the value's unit: money in the currency, time in seconds. Absent if the value
 * is. */
struct amount taken(struct amounts *room, groat_value value);
/* A figure of the result in the scratch. */
struct amount taken_figure(struct amounts *room, const groat_scratch *scratch, groat_figure figure);

#endif
