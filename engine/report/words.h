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

/* Writes the value of a rate as the rules write it, but with the decimal mark of the plan. In the
 * rules, a point between digits is always a decimal point. */
void words_rate(const groat_method *method, size_t index, const struct listing_plan *plan,
                char *text, size_t size);

/* Appends what a price is of: `Nest box on stall, 5 pieces`. */
void words_place(struct bytes *text, groat_text product, const char *channel, int64_t quantity);

#endif
