/* Bytes that grow, for a line that is being put together. Private to this room.
 *
 * When memory runs out the bytes are marked as failed and everything put after that is dropped, so
 * that only the end of a line needs to ask. */
#ifndef GROAT_REPORT_BYTES_H
#define GROAT_REPORT_BYTES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "groat.h"

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

/* The texts of a value as the library writes them; nothing where it has none. */
void bytes_places(struct bytes *bytes, groat_value value, unsigned places);
void bytes_shown(struct bytes *bytes, groat_value value, unsigned places);
void bytes_top(struct bytes *bytes, groat_value value);
void bytes_bottom(struct bytes *bytes, groat_value value);

#endif
