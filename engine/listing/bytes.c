#include "listing/bytes.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "text/money.h"
#include "text/utf8.h"

void bytes_free(struct bytes *bytes)
{
    free(bytes->start);
    *bytes = (struct bytes){0};
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

void bytes_whole(struct bytes *bytes, int64_t whole)
{
    char text[24];
    int length = snprintf(text, sizeof text, "%" PRId64, whole);
    bytes_put(bytes, text, (size_t)length);
}

struct figure bytes_figure(const struct amount *amount, groat_kind kind)
{
    groat_value shape = {.presence = amount->there ? GROAT_THERE : GROAT_MISSING, .kind = kind};
    return (struct figure){shape, amount};
}

/* What a number most often takes, so that it is seldom written twice. */
#define VALUE_ROOM 48

typedef size_t writer(struct figure figure, unsigned places, char *buffer, size_t size);

static void put_written(struct bytes *bytes, writer *write, struct figure figure, unsigned places)
{
    if (!reserve(bytes, VALUE_ROOM))
        return;
    size_t size = bytes->room - bytes->length;
    size_t length = write(figure, places, bytes->start + bytes->length, size);
    if (length >= size) {
        if (!reserve(bytes, length))
            return;
        write(figure, places, bytes->start + bytes->length, bytes->room - bytes->length);
    }
    bytes->length += length;
}

static size_t write_places(struct figure figure, unsigned places, char *buffer, size_t size)
{
    return figure.amount ? amount_places(*figure.amount, places, buffer, size)
                         : groat_value_places(figure.value, places, buffer, size);
}

static size_t write_shown(struct figure figure, unsigned places, char *buffer, size_t size)
{
    return figure.amount ? amount_short(*figure.amount, places, buffer, size)
                         : groat_value_write(figure.value, places, buffer, size);
}

static size_t write_top(struct figure figure, unsigned places, char *buffer, size_t size)
{
    (void)places;
    return figure.amount ? amount_top(*figure.amount, buffer, size)
                         : groat_value_top(figure.value, buffer, size);
}

static size_t write_bottom(struct figure figure, unsigned places, char *buffer, size_t size)
{
    (void)places;
    return figure.amount ? amount_bottom(*figure.amount, buffer, size)
                         : groat_value_bottom(figure.value, buffer, size);
}

void bytes_places(struct bytes *bytes, struct figure figure, unsigned places)
{
    put_written(bytes, write_places, figure, places);
}

void bytes_shown(struct bytes *bytes, struct figure figure, unsigned places)
{
    put_written(bytes, write_shown, figure, places);
}

void bytes_top(struct bytes *bytes, struct figure figure)
{
    put_written(bytes, write_top, figure, 0);
}

void bytes_bottom(struct bytes *bytes, struct figure figure)
{
    put_written(bytes, write_bottom, figure, 0);
}

/* ---- for a person ---- */

void bytes_plain(struct bytes *bytes, const char *start, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        size_t control = text_control(start + i, length - i);
        bytes_char(bytes, control > 0 ? ' ' : start[i]);
        i += control > 1;
    }
}

void bytes_money(struct bytes *bytes, struct figure figure, groat_currency currency)
{
    struct bytes digits = {0};
    bytes_places(&digits, figure, currency.decimals);
    bytes->failed |= digits.failed;
    bool negative = digits.length > 0 && digits.start[0] == '-';
    bool word = text_sign_is_word(currency.symbol, strlen(currency.symbol));
    if (negative)
        bytes_char(bytes, '-');
    if (!word)
        bytes_text(bytes, currency.symbol);
    if (digits.length > negative)
        bytes_put(bytes, digits.start + negative, digits.length - negative);
    if (word) {
        bytes_char(bytes, ' ');
        bytes_text(bytes, currency.symbol);
    }
    bytes_free(&digits);
}
