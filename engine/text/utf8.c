#include "text/utf8.h"

#include <assert.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* RFC 3629, section 4: the ranges of the second byte exclude overlong forms, surrogates and code
 * points above U+10FFFF. */
size_t text_character(const char *text, size_t length)
{
    const unsigned char *byte = (const unsigned char *)text;
    if (length == 0 || byte[0] < 0x80)
        return length > 0;
    size_t size = byte[0] < 0xE0 ? 2 : byte[0] < 0xF0 ? 3 : 4;
    if (byte[0] < 0xC2 || byte[0] > 0xF4 || length < size)
        return 0;
    unsigned char least = byte[0] == 0xE0 ? 0xA0 : byte[0] == 0xF0 ? 0x90 : 0x80;
    unsigned char most = byte[0] == 0xED ? 0x9F : byte[0] == 0xF4 ? 0x8F : 0xBF;
    if (byte[1] < least || byte[1] > most)
        return 0;
    for (size_t i = 2; i < size; i++)
        if (!text_continues(text[i]))
            return 0;
    return size;
}

/* Whether the next eight bytes are all ASCII. */
static bool are_ascii(const char *text)
{
    uint64_t word;
    memcpy(&word, text, sizeof word);
    return (word & UINT64_C(0x8080808080808080)) == 0;
}

size_t text_bad_byte(const char *text, size_t length)
{
    size_t at = 0;
    for (size_t step = 1; at < length && step > 0; at += step)
        step = length - at >= sizeof(uint64_t) && are_ascii(text + at)
                   ? sizeof(uint64_t)
                   : text_character(text + at, length - at);
    return at;
}

size_t text_characters(const char *text, size_t length)
{
    size_t count = 0;
    for (size_t i = 0; i < length; i++)
        count += !text_continues(text[i]);
    return count;
}

size_t text_cut(const char *text, size_t length, size_t most)
{
    if (length <= most)
        return length;
    while (most > 0 && text_continues(text[most]))
        most--;
    assert(most < length);
    return most;
}

size_t text_control(const char *text, size_t length)
{
    unsigned char first = length > 0 ? (unsigned char)text[0] : ' ';
    if (first < 0x20 || first == 0x7F)
        return 1;
    return first == 0xC2 && length > 1 && ((unsigned char)text[1] & 0xE0) == 0x80 ? 2 : 0;
}

size_t text_hidden(const char *text, size_t length, uint32_t *character)
{
    size_t control = text_control(text, length);
    const unsigned char *at = (const unsigned char *)text;
    *character = 0;
    if (control > 0) {
        *character = at[control - 1];
        return control;
    }
    if (length >= 2 && at[0] == 0xD8 && at[1] == 0x9C) {
        *character = 0x061C;
        return 2;
    }
    if (length < 3 || (at[0] != 0xE2 && at[0] != 0xEF) || text_character(text, length) != 3)
        return 0;
    uint32_t found =
        ((uint32_t)at[0] & 0x0F) << 12 | ((uint32_t)at[1] & 0x3F) << 6 | (at[2] & 0x3F);
    *character = found;
    bool hidden = (found >= 0x200B && found <= 0x200F) || (found >= 0x202A && found <= 0x202E) ||
                  (found >= 0x2060 && found <= 0x2069) || found == 0xFEFF;
    return hidden ? 3 : 0;
}

void text_write_given(char *buffer, size_t size, const char *format, va_list given)
{
    assert(size > 0);
    int length = vsnprintf(buffer, size, format, given);
    if (length < 0)
        buffer[0] = '\0';
    if (length < 0 || (size_t)length < size)
        return;
    /* The bytes that were cut off are gone, so an incomplete character at the end is dropped. */
    size_t end = size - 1, lead = end;
    while (lead > 0 && text_continues(buffer[lead - 1]))
        lead--;
    if (lead > 0 && (unsigned char)buffer[lead - 1] >= 0xC0 &&
        text_character(buffer + lead - 1, end - lead + 1) == 0)
        end = lead - 1;
    buffer[end] = '\0';
}

void text_write(char *buffer, size_t size, const char *format, ...)
{
    va_list given;
    va_start(given, format);
    text_write_given(buffer, size, format, given);
    va_end(given);
}
