/* Texts and values as JSON. */
#ifndef GROAT_LISTING_JSON_H
#define GROAT_LISTING_JSON_H

#include "listing/bytes.h"

/* Appends a text in quotes, with escapes. */
void json_text(struct bytes *line, const char *start, size_t length);
/* Appends an exact amount as a text, with at least this many decimals; null if it is absent. */
void json_amount(struct bytes *line, struct amount amount, unsigned decimals_least);
/* Appends a value that is not an amount; null if there is none. */
void json_value(struct bytes *line, groat_value value);

#endif
