/* What a study takes out of a result before the next one replaces it in the scratch: amounts to
 * calculate with, and copies of texts. */
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

/* Whether there is no result because memory ran out. A study then stops: this is no reason that a
 * row could give. */
bool taken_starved(const groat_scratch *scratch);
/* Why the result has no price, or is refused; empty where it is priced. NULL when memory runs out,
 * also if it ran out before there was a result. */
const char *taken_reason(struct arena *arena, const groat_scratch *scratch);
/* All notes of the result, with `between` between them. NULL when memory runs out. */
const char *taken_notes(struct arena *arena, const groat_scratch *scratch, const char *between);

#endif
