/* A growing text, for building a line.
 *
 * When memory runs out, the text is marked as failed and all further additions are dropped, so that
 * callers need to check only at the end of a line. */
#ifndef GROAT_LISTING_BYTES_H
#define GROAT_LISTING_BYTES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "groat.h"
#include "number/amount.h"

struct bytes {
    char *start; /* NULL while there are none */
    size_t length, room;
    bool failed;
};

void bytes_free(struct bytes *bytes);
void bytes_put(struct bytes *bytes, const char *start, size_t length);
void bytes_text(struct bytes *bytes, const char *text);
void bytes_char(struct bytes *bytes, char letter);
void bytes_whole(struct bytes *bytes, int64_t whole);

/* A number to write: a value of the library, or, if `amount` is not NULL, that amount. `value` then
 * gives the kind, and whether the amount is present. */
struct figure {
    groat_value value;
    const struct amount *amount;
};

/* An amount as a figure of a kind; the figure lives as long as the amount. */
struct figure bytes_figure(const struct amount *amount, groat_kind kind);

/* The figure as an amount, which lives in the room, or where the amount of the figure lives. */
struct amount bytes_amount(struct amounts *room, struct figure figure);

/* Appends a figure with this many decimals; nothing if it has no number. `mark` is the decimal
 * mark. */
void bytes_places(struct bytes *bytes, struct figure figure, unsigned places, char mark);
/* The same without trailing zeros; a value that is no amount is written as the library writes it. */
void bytes_shown(struct bytes *bytes, struct figure figure, unsigned places, char mark);

/* Appends a text within a line. Line ends and control characters become spaces. */
void bytes_plain(struct bytes *bytes, const char *start, size_t length);
/* Appends money as a person writes it, `-$4.50`, `80.00 kr`. */
void bytes_money(struct bytes *bytes, struct figure figure, groat_currency currency, char mark);

#endif
