/* What several lists say in the same words. Private to this room. */
#ifndef GROAT_REPORT_WORDS_H
#define GROAT_REPORT_WORDS_H

#include "listing/bytes.h"
#include "listing/listing.h"

/* What a table without a row says. */
#define NOTHING_PRICED "Nothing could be priced."

/* An amount of the shop's money within a text, as the plan's tables write it. */
void words_money(struct bytes *text, const struct amount *money, const struct listing_plan *plan);

/* A share as a percentage with so many decimals, `-3.0%`. */
void words_percent(struct bytes *text, const struct amount *share, unsigned places);

#endif
