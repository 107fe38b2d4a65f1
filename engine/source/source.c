#include "source/source.h"

#include <stdio.h>
#include <string.h>

struct source *source_new(struct arena *arena, const char *name, const char *text, size_t length)
{
    static const char mark[] = "\xEF\xBB\xBF";
    if (length >= 3 && memcmp(text, mark, 3) == 0) {
        text += 3;
        length -= 3;
    }
    struct source *source = arena_take(arena, sizeof *source);
    if (!source)
        return NULL;
    source->name = arena_text(arena, name, strlen(name));
    source->text = arena_text(arena, text, length);
    source->length = (uint32_t)length;
    return source->name && source->text ? source : NULL;
}

/* How many bytes the character at `text` has, or 0 when it is not valid UTF-8 (RFC 3629: no
 * overlong forms, no surrogates, nothing above U+10FFFF). */
static size_t character_length(const unsigned char *text, size_t left)
{
    unsigned char lead = text[0];
    if (lead < 0x80)
        return 1;
    size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || left < length)
        return 0;
    for (size_t i = 1; i < length; i++)
        if ((text[i] & 0xC0) != 0x80)
            return 0;
    bool overlong = (lead == 0xE0 && text[1] < 0xA0) || (lead == 0xF0 && text[1] < 0x90);
    bool outside = (lead == 0xED && text[1] > 0x9F) || (lead == 0xF4 && text[1] > 0x8F);
    return overlong || outside ? 0 : length;
}

size_t source_bad_byte(const char *text, size_t length)
{
    size_t at = 0;
    while (at < length) {
        size_t step = character_length((const unsigned char *)text + at, length - at);
        if (step == 0)
            return at;
        at += step;
    }
    return length;
}

size_t source_cut(const char *text, size_t length, size_t most)
{
    if (length <= most)
        return length;
    while (most > 0 && ((unsigned char)text[most] & 0xC0) == 0x80)
        most--;
    return most;
}

void source_print(char *buffer, size_t size, const char *format, va_list given)
{
    int length = vsnprintf(buffer, size, format, given);
    if (length < 0)
        buffer[0] = '\0';
    if (length < 0 || (size_t)length < size)
        return;
    /* The byte after the last whole character could not be seen any more: step back over a part. */
    size_t end = size - 1, lead = end;
    while (lead > 0 && ((unsigned char)buffer[lead - 1] & 0xC0) == 0x80)
        lead--;
    if (lead > 0 && (unsigned char)buffer[lead - 1] >= 0xC0 &&
        source_bad_byte(buffer + lead - 1, end - lead + 1) == 0)
        end = lead - 1;
    buffer[end] = '\0';
}

void source_write(char *buffer, size_t size, const char *format, ...)
{
    va_list given;
    va_start(given, format);
    source_print(buffer, size, format, given);
    va_end(given);
}

struct span span_join(struct span a, struct span b)
{
    if (a.source != b.source)
        return a;
    uint32_t start = a.start < b.start ? a.start : b.start;
    uint32_t end = a.end > b.end ? a.end : b.end;
    return (struct span){a.source, start, end};
}

struct place span_place(struct span span)
{
    struct place place = {1, 1};
    for (uint32_t i = 0; i < span.start && i < span.source->length; i++) {
        unsigned char byte = (unsigned char)span.source->text[i];
        if (byte == '\n') {
            place.line++;
            place.column = 1;
        } else if ((byte & 0xC0) != 0x80) {
            place.column++;
        }
    }
    return place;
}

struct span span_line(struct span span)
{
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
    return span.source->text + span.start;
}

int span_length(struct span span)
{
    return (int)(span.end - span.start);
}
