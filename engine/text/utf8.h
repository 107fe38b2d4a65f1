/* Texts in UTF-8, by whole characters. Lengths are in bytes unless a line says otherwise. */
#ifndef GROAT_TEXT_UTF8_H
#define GROAT_TEXT_UTF8_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

/* How many bytes the character that begins a text has, or 0 where it is not valid UTF-8. */
size_t text_character(const char *text, size_t length);
/* The offset of the first byte that is not part of valid UTF-8, or the length. */
size_t text_bad_byte(const char *text, size_t length);
/* Whether a byte is the second or a later one of a character. */
static inline bool text_continues(char byte)
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}
/* How many characters a valid text has. */
size_t text_characters(const char *text, size_t length);
/* How much of a text there is room for without parting a character: at most `most` bytes. */
size_t text_cut(const char *text, size_t length, size_t most);
/* How many bytes the character that begins a text has, where it is one that steers a terminal
 * (U+0000 to U+001F, U+007F to U+009F); otherwise 0. */
size_t text_control(const char *text, size_t length);

/* vsnprintf and snprintf for messages: a text that does not fit ends at a whole character. */
void text_write_given(char *buffer, size_t size, const char *format, va_list given);
void text_write(char *buffer, size_t size, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#endif
