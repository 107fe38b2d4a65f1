/* Texts and values as JSON. */
#ifndef GROAT_LISTING_JSON_H
#define GROAT_LISTING_JSON_H

#include "listing/bytes.h"

/* Appends a text in quotes, with escapes. */
void json_text(struct bytes *line, const char *start, size_t length);
/* Appends an exact amount as a text, with at least `money_decimals` decimals if it is money; null
 * if there is none. */
void json_figure(struct bytes *line, struct figure figure, unsigned money_decimals);

#endif
