#include "sheet/exponent.h"

#include <stdbool.h>
#include <string.h>

#define EXPONENT_MOST 324 /* of the smallest double above zero; the greatest has 308 */
#define DIGITS_MOST 100

/* The digits of a number, and how many of them stand before its point. */
struct figures {
    char digits[DIGITS_MOST];
    int count, whole;
};

/* Reads the digits before the exponent, without zeros in front; false if they are too many. */
static bool read_digits(const char *text, const char *end, struct figures *figures)
{
    bool point = false;
    for (; text < end; text++) {
        if (*text == '.') {
            point = true;
            continue;
        }
        bool leading = figures->count == 0 && *text == '0';
        figures->whole += point ? (leading ? -1 : 0) : (leading ? 0 : 1);
        if (leading)
            continue;
        if (figures->count == DIGITS_MOST)
            return false;
        figures->digits[figures->count++] = *text;
    }
    return true;
}

static bool read_exponent(const char *at, const char *end, int *exponent)
{
    bool negative = at < end && *at == '-';
    at += at < end && (*at == '-' || *at == '+');
    *exponent = 0;
    for (; at < end; at++) {
        *exponent = *exponent * 10 + (*at - '0');
        if (*exponent > EXPONENT_MOST)
            return false;
    }
    *exponent = negative ? -*exponent : *exponent;
    return true;
}

static char *put_zeros(char *to, int count)
{
    for (; count > 0; count--)
        *to++ = '0';
    return to;
}

static char *put_digits(char *to, const struct figures *figures, int from, int until)
{
    if (until <= from)
        return to;
    memcpy(to, figures->digits + from, (size_t)(until - from));
    return to + (until - from);
}

size_t exponent_written_out(const char *text, size_t length, char plain[EXPONENT_TEXT_MOST])
{
    struct figures figures = {.count = 0};
    const char *end = text + length, *letter = text;
    char *to = plain;
    int exponent;
    while (letter < end && *letter != 'e' && *letter != 'E')
        letter++;
    bool negative = length > 0 && *text == '-';
    if (letter == end || !read_exponent(letter + 1, end, &exponent) ||
        !read_digits(text + negative, letter, &figures))
        return 0;
    int whole = figures.count > 0 ? figures.whole + exponent : 0, count = figures.count;
    if (negative)
        *to++ = '-';
    if (whole <= 0)
        *to++ = '0';
    to = put_digits(to, &figures, 0, whole < count ? whole : count);
    to = put_zeros(to, count > 0 ? whole - count : 0);
    if (whole < count)
        *to++ = '.';
    to = put_zeros(to, -whole);
    to = put_digits(to, &figures, whole > 0 ? whole : 0, count);
    return (size_t)(to - plain);
}
