/* A growing text, for building a line.
 *
 * When memory runs out, the text is marked as failed and all further additions are dropped, so that
 * callers need to check only at the end of a line. */
#ifndef GROAT_LISTING_BYTES_H
#define GROAT_LISTING_BYTES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include "groat.h"
#include "number/amount.h"

struct bytes {
    char *start; /* NULL while there are none */
    size_t length, room;
    bool failed;
};

void bytes_free(struct bytes *bytes); /* leaves errno as it is */
/* Writes the text and empties it. Returns false when it could not be put together or written; errno
 * says why. */
bool bytes_flush(struct bytes *bytes, FILE *out);

void bytes_put(struct bytes *bytes, const char *start, size_t length);
void bytes_text(struct bytes *bytes, const char *text);
void bytes_char(struct bytes *bytes, char letter);
void bytes_spaces(struct bytes *bytes, size_t count);
/* Appends as printf does. */
void bytes_format(struct bytes *bytes, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Drops the spaces at the end. */
void bytes_trim(struct bytes *bytes);

/* Appends an amount with this many decimals; nothing if it is absent. `mark` is the decimal
 * mark. */
void bytes_places(struct bytes *bytes, struct amount amount, unsigned places, char mark);
/* Appends an amount exactly: in decimals, at least `places` of them, if 18 or fewer write it;
 * otherwise as `top/bottom`. Nothing if it is absent. */
void bytes_exact(struct bytes *bytes, struct amount amount, unsigned places, char mark);
/* As bytes_places, without trailing zeros. */
void bytes_short(struct bytes *bytes, struct amount amount, unsigned places, char mark);
/* Appends a value that is not an amount, as the library writes it. */
void bytes_value(struct bytes *bytes, groat_value value);

/* Appends a text within a line. Tabs and line ends become spaces; other characters that a reader
 * does not see become U+FFFD. */
void bytes_plain(struct bytes *bytes, const char *start, size_t length);
/* The marks in a number: before its decimals and, if it is not zero, between its thousands. */
struct bytes_marks {
    char decimal, thousands;
};

/* Appends an amount as a person reads it, `-1,234.50`. */
void bytes_grouped(struct bytes *bytes, struct amount amount, unsigned places,
                   struct bytes_marks marks);
/* Appends money in the same way, `-$1,234.50`, `80.00 kr`. */
void bytes_money(struct bytes *bytes, struct amount amount, groat_currency currency,
                 struct bytes_marks marks);

#endif
