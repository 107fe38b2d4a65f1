/* Texts in UTF-8, cut and counted by whole characters. Lengths are in bytes unless a line says
 * otherwise. */
#ifndef GROAT_TEXT_UTF8_H
#define GROAT_TEXT_UTF8_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* The length of the text's first character, or 0 if it is not valid UTF-8. */
size_t text_character(const char *text, size_t length);
/* The offset of the first byte that is not part of valid UTF-8, or the length. */
size_t text_bad_byte(const char *text, size_t length);
/* Whether a byte is the second or a later byte of a character. */
static inline bool text_continues(char byte)
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}
/* A digit or a letter of ASCII; `_` counts as a letter. The C library's functions depend on the
 * host's locale. */
static inline bool text_is_digit(char byte)
{
    return byte >= '0' && byte <= '9';
}
static inline bool text_is_letter(char byte)
{
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || byte == '_';
}
/* The number of characters in a valid text. */
size_t text_characters(const char *text, size_t length);
/* The length of the longest beginning of a text that has at most `most` bytes and does not end
 * inside a character. */
size_t text_cut(const char *text, size_t length, size_t most);
/* The length of the text's first character if it is a control character (U+0000 to U+001F, U+007F
 * to U+009F); otherwise 0. */
size_t text_control(const char *text, size_t length);

/* The same for a character that a reader does not see: a control character, one without a width, or
 * one that turns the direction of a text (U+061C, U+200B to U+200F, U+202A to U+202E, U+2060 to
 * U+2069, U+FEFF). Stores which it is. */
size_t text_hidden(const char *text, size_t length, uint32_t *character);
/* What stands for such a character where it may not be written. */
#define TEXT_REPLACEMENT "\xEF\xBF\xBD"

/* vsnprintf and snprintf for messages: a text that does not fit is cut after a whole character. */
void text_write_given(char *buffer, size_t size, const char *format, va_list given);
void text_write(char *buffer, size_t size, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#endif
