/* Texts and values as JSON. */
#ifndef GROAT_LISTING_JSON_H
#define GROAT_LISTING_JSON_H

#include "listing/bytes.h"

/* In quotes, with what needs it escaped. */
void json_text(struct bytes *line, const char *start, size_t length);
/* An exact amount as a text, at least with `money_decimals` where it is money; null where there is
 * nothing. */
void json_figure(struct bytes *line, struct figure figure, unsigned money_decimals);

#endif
