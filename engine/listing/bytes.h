/* A growing text, for building a line.
 *
 * When memory runs out the bytes are marked as failed and everything put after that is dropped, so
 * that only the end of a line needs to ask. */
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

/* What is to be written: a value of the library's; or an amount, where there is one, of which
 * `value` tells the kind and whether it is there. */
struct figure {
    groat_value value;
    const struct amount *amount;
};

/* An amount as a figure of a kind; the figure lives as long as the amount. */
struct figure bytes_figure(const struct amount *amount, groat_kind kind);

/* The texts of a figure as the library writes them; nothing where it has none. */
void bytes_places(struct bytes *bytes, struct figure figure, unsigned places);
void bytes_shown(struct bytes *bytes, struct figure figure, unsigned places);
void bytes_top(struct bytes *bytes, struct figure figure);
void bytes_bottom(struct bytes *bytes, struct figure figure);

/* A text as part of a line: what would break the line or steer a terminal becomes a space. */
void bytes_plain(struct bytes *bytes, const char *start, size_t length);
/* Money as a person writes it, `-$4.50`, `80.00 kr`. */
void bytes_money(struct bytes *bytes, struct figure figure, groat_currency currency);

#endif
