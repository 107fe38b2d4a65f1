#include "text/money.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "text/utf8.h"

/* The code point of the first character. The text must be valid UTF-8. */
static unsigned long code_of(const char *text, size_t length)
{
    static const unsigned char lead[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    assert(length > 0 && length < sizeof lead);
    unsigned long code = (unsigned char)text[0] & lead[length];
    for (size_t i = 1; i < length; i++)
        code = code << 6 | ((unsigned char)text[i] & 0x3F);
    return code;
}

/* The currency symbols of Unicode (category Sc) that the language knows: `sign` in the lexer. */
static bool is_mark_of_money(unsigned long code)
{
    static const struct {
        unsigned long first, last;
    } marks[] = {{'$', '$'},       {0x00A2, 0x00A5}, {0x058F, 0x058F},
                 {0x060B, 0x060B}, {0x09F2, 0x09F3}, {0x0E3F, 0x0E3F},
                 {0x17DB, 0x17DB}, {0x20A0, 0x20C0}, {0xFDFC, 0xFDFC}};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
        if (code >= marks[i].first && code <= marks[i].last)
            return true;
    return false;
}

bool text_sign_is_word(const char *sign, size_t length)
{
    size_t last = length;
    while (last > 0 && text_continues(sign[last - 1]))
        last--;
    if (last == 0)
        return true;
    size_t bytes = text_character(sign + last - 1, length - last + 1);
    return bytes == 0 || !is_mark_of_money(code_of(sign + last - 1, bytes));
}

size_t text_money(char *buffer, size_t size, const char *sign, const char *digits)
{
    bool negative = digits[0] == '-', word = text_sign_is_word(sign, strlen(sign));
    int length = snprintf(buffer, size, "%s%s%s%s%s", negative ? "-" : "", word ? "" : sign,
                          digits + negative, word ? " " : "", word ? sign : "");
    return length < 0 ? 0 : (size_t)length;
}
