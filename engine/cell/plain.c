#include "cell/plain.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "text/utf8.h"
#include "types/propose.h"

/* ---- signs ---- */

static const struct {
    const char *sign, *instead;
} signs[] = {
    {"\xC2\xBD", " 1/2"},
    {"\xC2\xBC", " 1/4"},
    {"\xC2\xBE", " 3/4"},
    {"\xE2\x80\x9C", ""},
    {"\xE2\x80\x9D", ""},
    {"\xE2\x80\x9E", ""},
    {"\xE2\x80\x98", ""},
    {"\xE2\x80\x99", ""},
    {"\xC2\xA0", " "},
    {"\xE2\x88\x92", "-"},
    {"US$", ""},
    {"?", ""},
    {"(", ""},
    {")", ""},
    {"=", ""},
    {" and ", " "},
    {" & ", " "},
};

/* What stands for the sign that `*at` is at, which is then passed; NULL if it is none. */
static const char *instead_of(const char *text, const char **at, bool length)
{
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        size_t size = strlen(signs[i].sign);
        if (strncmp(*at, signs[i].sign, size) == 0) {
            *at += size;
            return signs[i].instead;
        }
    }
    bool after_digit = *at > text && text_is_digit((*at)[-1]);
    const char *found = NULL;
    if (**at == '"')
        found = length && after_digit ? " in" : "";
    else if (**at == '\'')
        found = length && after_digit ? " ft" : "";
    else if ((**at == 'O' || **at == 'o') && *at > text && strchr(".0123456789", (*at)[-1]))
        found = "0";
    else if (**at == '.' && *at > text && text_is_letter((*at)[-1]))
        found = "";
    *at += found != NULL;
    return found;
}

static const char *with_signs(struct arena *arena, const char *text, bool length)
{
    const char *made = "";
    for (const char *at = text; *at;) {
        const char *instead = instead_of(text, &at, length);
        made = instead ? arena_print(arena, "%s%s", made, instead)
                       : arena_print(arena, "%s%c", made, *at++);
    }
    const char *number = made + strspn(made, " -+");
    made = number[strcspn(number, " ")] == ' ' && strstr(number, " to ") ? made : number;
    size_t size = strlen(made);
    while (size > 0 && made[size - 1] == ' ')
        size--;
    return arena_print(arena, "%.*s", (int)size, made);
}

/* ---- words ---- */

static const struct {
    const char *word, *digits;
} numbers[] = {
    {"one", "1"},     {"two", "2"},     {"three", "3"},  {"four", "4"},    {"five", "5"},
    {"six", "6"},     {"seven", "7"},   {"eight", "8"},  {"nine", "9"},    {"ten", "10"},
    {"eleven", "11"}, {"twelve", "12"}, {"half", "1/2"}, {"percent", "%"},
};

static const char *plain_word(struct arena *arena, const char *word, size_t length)
{
    char *small = arena_text(arena, word, length);
    for (char *at = small; *at; at++)
        *at = (char)(*at >= 'A' && *at <= 'Z' ? *at - 'A' + 'a' : *at);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        if (strcmp(numbers[i].word, small) == 0)
            return numbers[i].digits;
    const char *unit = propose_unit_for(small);
    return unit ? unit : small;
}

const char *plain_words(struct arena *arena, const char *text)
{
    const char *made = "";
    for (const char *at = text; *at;) {
        size_t length = 0;
        while (text_is_letter(at[length]))
            length++;
        if (length == 0) {
            made = arena_print(arena, "%s%c", made, *at++);
            continue;
        }
        made = arena_print(arena, "%s%s", made, plain_word(arena, at, length));
        at += length;
    }
    return made;
}

/* ---- forms of numbers ---- */

/* `1 h 15 min` for `1:15` and `1:15:00`. */
static const char *of_a_clock(struct arena *arena, const char *text)
{
    unsigned hours, minutes, seconds = 0;
    int end = 0;
    if (strlen(text) > 9 || sscanf(text, "%3u:%2u%n", &hours, &minutes, &end) != 2)
        return text;
    if (text[end] == ':' && sscanf(text + end, ":%2u", &seconds) != 1)
        return text;
    return seconds ? arena_print(arena, "%u h %u min %u s", hours, minutes, seconds)
                   : arena_print(arena, "%u h %u min", hours, minutes);
}

/* `22` for `2.2E+01`: the point stands further on, or further back. */
static const char *without_exponent(struct arena *arena, const char *text)
{
    enum { DIGITS_MOST = 20 };
    char digits[2 * DIGITS_MOST] = "";
    int power, end = 0, count = 0, point = -1;
    const char *at = text;
    for (; (text_is_digit(*at) || *at == '.') && count < DIGITS_MOST; at++) {
        if (*at == '.')
            point = count;
        else
            digits[count++] = *at;
    }
    if (count == 0 || !strchr("eE", *at) ||
        sscanf(at + (*at != '\0'), "%3d%n", &power, &end) != 1 || at[1 + end] || power < -9 ||
        power > 9)
        return text;
    point = (point < 0 ? count : point) + power;
    while (count < point)
        digits[count++] = '0';
    while (count > point && count > 1 && digits[count - 1] == '0')
        count--;
    return point <= 0 ? arena_print(arena, "0.%0*d%.*s", -point, 0, count, digits)
           : count > point
               ? arena_print(arena, "%.*s.%.*s", point, digits, count - point, digits + point)
               : arena_print(arena, "%.*s", point, digits);
}

/* `24-1/2` for `24 1/2`. */
static const char *with_fraction(struct arena *arena, const char *text)
{
    size_t whole = strspn(text, "0123456789"), gap = strspn(text + whole, " ");
    const char *top = text + whole + gap;
    size_t digits = strspn(top, "0123456789");
    if (whole == 0 || gap == 0 || digits == 0 || top[digits] != '/')
        return text;
    return arena_print(arena, "%.*s-%s", (int)whole, text, top);
}

const char *plain_text(struct arena *arena, const char *text, struct dimension wanted)
{
    bool time = dim_equal(wanted, dim_base(DIM_TIME));
    const char *plain = without_exponent(arena, text);
    plain = time ? of_a_clock(arena, plain) : plain;
    plain = with_signs(arena, plain, dim_equal(wanted, dim_base(DIM_LENGTH)));
    return with_fraction(arena, plain_words(arena, plain + strspn(plain, " ")));
}
