/* What several lists say in the same words. Private to this room. */
#ifndef GROAT_REPORT_WORDS_H
#define GROAT_REPORT_WORDS_H

#include "listing/bytes.h"
#include "listing/listing.h"

/* What a table without a row says. */
#define NOTHING_PRICED "Nothing could be priced."

/* An amount of the shop's money within a text, as the plan's tables write it. */
void words_money(struct bytes *text, const struct amount *money, const struct listing_plan *plan);

/* A share as a percentage with so many decimals, `-3.0%`, written so too. */
void words_percent(struct bytes *text, const struct amount *share, unsigned places,
                   const struct listing_plan *plan);

/* Gives the numbers in a text the decimal mark of the plan's tables. A mark stands between digits: the point of a symbol stays. */
void words_mark(char *text, const struct listing_plan *plan);
void words_mark_from(struct bytes *text, size_t start, const struct listing_plan *plan);

#endif
