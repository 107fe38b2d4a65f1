#include "listing/bytes.h"

#include <errno.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "text/money.h"
#include "text/utf8.h"

void bytes_free(struct bytes *bytes)
{
    int why = errno;
    free(bytes->start);
    *bytes = (struct bytes){0};
    errno = why;
}

bool bytes_flush(struct bytes *bytes, FILE *out)
{
    size_t length = bytes->length;
    bytes->length = 0;
    errno = ENOMEM;
    return !bytes->failed && (length == 0 || fwrite(bytes->start, 1, length, out) == length);
}

/* Makes room for `more` bytes and a closing zero. */
static bool reserve(struct bytes *bytes, size_t more)
{
    if (bytes->failed || more >= SIZE_MAX / 2 - bytes->length) {
        bytes->failed = true;
        return false;
    }
    size_t wanted = bytes->length + more + 1;
    if (wanted <= bytes->room)
        return true;
    size_t room = wanted < 256 ? 256 : wanted + wanted / 2;
    char *start = realloc(bytes->start, room);
    if (!start) {
        bytes->failed = true;
        return false;
    }
    bytes->start = start;
    bytes->room = room;
    return true;
}

void bytes_put(struct bytes *bytes, const char *start, size_t length)
{
    if (length == 0 || !reserve(bytes, length))
        return;
    memcpy(bytes->start + bytes->length, start, length);
    bytes->length += length;
}

void bytes_text(struct bytes *bytes, const char *text)
{
    bytes_put(bytes, text, strlen(text));
}

void bytes_char(struct bytes *bytes, char letter)
{
    bytes_put(bytes, &letter, 1);
}

void bytes_spaces(struct bytes *bytes, size_t count)
{
    for (; count > 0; count--)
        bytes_char(bytes, ' ');
}

void bytes_format(struct bytes *bytes, const char *format, ...)
{
    va_list given;
    va_start(given, format);
    int length = vsnprintf(NULL, 0, format, given);
    va_end(given);
    if (length < 0 || !reserve(bytes, (size_t)length)) {
        bytes->failed = true;
        return;
    }
    va_start(given, format);
    vsnprintf(bytes->start + bytes->length, bytes->room - bytes->length, format, given);
    va_end(given);
    bytes->length += (size_t)length;
}

void bytes_trim(struct bytes *bytes)
{
    while (bytes->length > 0 && bytes->start[bytes->length - 1] == ' ')
        bytes->length--;
}

/* What a number most often takes, so that it is seldom written twice. */
#define VALUE_ROOM 48

typedef size_t writer(struct amount amount, unsigned places, char mark, char *buffer, size_t size);

static void put_amount(struct bytes *bytes, writer *write, struct amount amount, unsigned places,
                       char mark)
{
    bytes->failed |= amount.status == NUM_NO_MEMORY;
    if (!amount.there || !reserve(bytes, VALUE_ROOM))
        return;
    size_t size = bytes->room - bytes->length;
    size_t length = write(amount, places, mark, bytes->start + bytes->length, size);
    if (length >= size) {
        if (!reserve(bytes, length))
            return;
        write(amount, places, mark, bytes->start + bytes->length, bytes->room - bytes->length);
    }
    bytes->length += length;
}

void bytes_places(struct bytes *bytes, struct amount amount, unsigned places, char mark)
{
    put_amount(bytes, amount_places, amount, places, mark);
}

void bytes_short(struct bytes *bytes, struct amount amount, unsigned places, char mark)
{
    put_amount(bytes, amount_short, amount, places, mark);
}

/* Digits of any length. */
static void put_digits(struct bytes *bytes, size_t (*write)(struct amount, char *, size_t),
                       struct amount amount)
{
    size_t length = write(amount, NULL, 0);
    if (!reserve(bytes, length))
        return;
    write(amount, bytes->start + bytes->length, bytes->room - bytes->length);
    bytes->length += length;
}

/* The most decimals that an exact amount is written with. */
#define EXACT_DECIMALS 18

void bytes_exact(struct bytes *bytes, struct amount amount, unsigned places, char mark)
{
    unsigned decimals;
    bytes->failed |= amount.status == NUM_NO_MEMORY;
    if (!amount.there)
        return;
    if (amount_decimals(amount, &decimals) && decimals <= EXACT_DECIMALS) {
        bytes_places(bytes, amount, decimals > places ? decimals : places, mark);
        return;
    }
    put_digits(bytes, amount_top, amount);
    bytes_char(bytes, '/');
    put_digits(bytes, amount_bottom, amount);
}

void bytes_value(struct bytes *bytes, groat_value value)
{
    size_t length = groat_value_write(value, 0, NULL, 0);
    if (reserve(bytes, length))
        bytes->length +=
            groat_value_write(value, 0, bytes->start + bytes->length, bytes->room - bytes->length);
}

/* ---- for a person ---- */

#define THOUSAND 3 /* digits */

void bytes_plain(struct bytes *bytes, const char *start, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        uint32_t character;
        size_t hidden = text_hidden(start + i, length - i, &character);
        if (hidden > 0 && !strchr("\t\n\r", start[i]))
            bytes_text(bytes, TEXT_REPLACEMENT);
        else
            bytes_char(bytes, hidden > 0 ? ' ' : start[i]);
        i += hidden > 0 ? hidden - 1 : 0;
    }
}

void bytes_grouped(struct bytes *bytes, struct amount amount, unsigned places,
                   struct bytes_marks marks)
{
    size_t before = bytes->length;
    bytes_places(bytes, amount, places, marks.decimal);
    size_t length = bytes->length - before, first = length > 0 && bytes->start[before] == '-';
    size_t end = first; /* of the digits before the decimal mark */
    while (end < length && bytes->start[before + end] != marks.decimal)
        end++;
    size_t count = marks.thousands && end > first ? (end - first - 1) / THOUSAND : 0;
    if (count == 0 || !reserve(bytes, count))
        return;
    char *text = bytes->start + before;
    memmove(text + end + count, text + end, length - end + 1);
    for (size_t from = end, to = end + count, digits = 0; to > from; digits++) {
        if (digits > 0 && digits % THOUSAND == 0)
            text[--to] = marks.thousands;
        text[--to] = text[--from];
    }
    bytes->length += count;
}

void bytes_money(struct bytes *bytes, struct amount amount, groat_currency currency,
                 struct bytes_marks marks)
{
    struct bytes digits = {0};
    bytes_grouped(&digits, amount, currency.decimals, marks);
    bytes->failed |= digits.failed;
    size_t most = digits.length + strlen(currency.symbol) + 1;
    if (digits.length > 0 && reserve(bytes, most))
        bytes->length += text_money(bytes->start + bytes->length, bytes->room - bytes->length,
                                    currency.symbol, digits.start);
    bytes_free(&digits);
}
