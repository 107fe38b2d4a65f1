#include "source/source.h"

#include <assert.h>
#include <limits.h>
#include <string.h>

#include "text/utf8.h"

struct source *source_new(struct arena *arena, const char *name, const char *text, size_t length)
{
    static const char mark[] = "\xEF\xBB\xBF";
    if (length >= 3 && memcmp(text, mark, 3) == 0) {
        text += 3;
        length -= 3;
    }
    assert(length < UINT32_MAX); /* places in the text have 32 bits */
    struct source *source = arena_take(arena, sizeof *source);
    if (!source)
        return NULL;
    source->name = arena_text(arena, name, strlen(name));
    source->text = arena_text(arena, text, length);
    source->length = (uint32_t)length;
    return source->name && source->text ? source : NULL;
}

struct span span_join(struct span a, struct span b)
{
    if (a.source != b.source)
        return a;
    uint32_t start = a.start < b.start ? a.start : b.start;
    uint32_t end = a.end > b.end ? a.end : b.end;
    assert(span_is_sound(a) && span_is_sound(b));
    return (struct span){a.source, start, end};
}

struct place span_place(struct span span)
{
    struct place place = {1, 1};
    assert(span_is_sound(span));
    for (uint32_t i = 0; i < span.start && i < span.source->length; i++) {
        unsigned char byte = (unsigned char)span.source->text[i];
        if (byte == '\n') {
            place.line++;
            place.column = 1;
        } else if (!text_continues((char)byte)) {
            place.column++;
        }
    }
    return place;
}

struct span span_line(struct span span)
{
    assert(span_is_sound(span));
    const char *text = span.source->text;
    uint32_t start = span.start, end = span.start;
    while (start > 0 && text[start - 1] != '\n')
        start--;
    while (end < span.source->length && text[end] != '\n')
        end++;
    if (end > start && text[end - 1] == '\r')
        end--;
    return (struct span){span.source, start, end};
}

const char *span_text(struct span span)
{
    assert(span_is_sound(span));
    return span.source->text + span.start;
}

int span_length(struct span span)
{
    assert(span_is_sound(span) && span.end - span.start <= INT_MAX);
    return (int)(span.end - span.start);
}
