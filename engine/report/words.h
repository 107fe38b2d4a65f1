/* Texts that several lists use. Private to this room. */
#ifndef GROAT_REPORT_WORDS_H
#define GROAT_REPORT_WORDS_H

#include "listing/bytes.h"
#include "listing/listing.h"

/* The text of a table without rows. */
#define NOTHING_PRICED "Nothing could be priced."

/* Appends an amount of the shop's money, as the plan's tables write it. */
void words_money(struct bytes *text, const struct amount *money, const struct listing_plan *plan);

/* Appends a share as a percentage with `places` decimals, `-3.0%`, in the same way. */
void words_percent(struct bytes *text, const struct amount *share, unsigned places,
                   const struct listing_plan *plan);

/* Gives the numbers in a text the decimal mark of the plan's tables. Only points between digits are
 * changed, so the point of a currency symbol stays. */
void words_mark(char *text, const struct listing_plan *plan);
void words_mark_from(struct bytes *text, size_t start, const struct listing_plan *plan);

#endif
