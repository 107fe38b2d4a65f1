/* The text of a rules file, and places in it. */
#ifndef GROAT_SOURCE_H
#define GROAT_SOURCE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "memory/memory.h"

/* One text that rules or a cell are read from. The text is UTF-8 without a byte-order mark,
 * followed by a zero byte. */
struct source {
    const char *name;
    const char *text;
    uint32_t length;
    uint32_t number;      /* in the order of reading; sorts diagnostics */
    struct source **uses; /* the files it uses, directly and through others */
    size_t uses_count, uses_room;
};

/* A run of bytes of one source: [start, end). */
struct span {
    const struct source *source;
    uint32_t start, end;
};

/* Whether the span lies within its text. */
static inline bool span_is_sound(struct span span)
{
    return span.source && span.start <= span.end && span.end <= span.source->length;
}

/* Line and column from 1, the column in characters. */
struct place {
    unsigned line, column;
};

/* Copies the text into the arena, without its byte-order mark. */
struct source *source_new(struct arena *arena, const char *name, const char *text, size_t length);
struct span span_join(struct span a, struct span b);
struct place span_place(struct span span);
/* The whole line that the span begins on, without its line end. */
struct span span_line(struct span span);
/* The text of the span, for messages; not terminated by a zero byte. */
const char *span_text(struct span span);
int span_length(struct span span);

#endif
