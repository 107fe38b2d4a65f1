/* Texts and values as JSON. */
#ifndef GROAT_LISTING_JSON_H
#define GROAT_LISTING_JSON_H

#include "listing/bytes.h"

/* Appends a text in quotes. Control characters, and those that have no width or turn the direction
 * of a text, are written as escapes. */
void json_text(struct bytes *line, const char *start, size_t length);
/* Appends a name in quotes and a colon. */
void json_key(struct bytes *line, const char *key);
/* Appends an amount as a text with so many decimals, or exactly and with at least as many; null if
 * it is absent. */
void json_figure(struct bytes *line, struct amount amount, unsigned places, bool exact);
/* Appends a value that is not an amount; null if there is none. */
void json_value(struct bytes *line, groat_value value);
/* Begins the object that every answer is, up to its units, which the caller appends. `as_of` may be
 * NULL. */
void json_header(struct bytes *line, groat_currency currency, const char *as_of);

#endif
