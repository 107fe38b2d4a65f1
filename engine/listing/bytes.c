#include "listing/bytes.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "study/taken.h"
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

struct amount bytes_amount(struct amounts *room, struct figure figure)
{
    return figure.amount ? *figure.amount : taken(room, figure.value);
}

/* What a number most often takes, so that it is seldom written twice. */
#define VALUE_ROOM 48

typedef size_t writer(struct amount amount, unsigned places, char mark, char *buffer, size_t size);

static void put_amount(struct bytes *bytes, writer *write, struct figure figure, unsigned places,
                       char mark)
{
    struct amounts room;
    if (!reserve(bytes, VALUE_ROOM))
        return;
    amounts_open(&room);
    struct amount amount = bytes_amount(&room, figure);
    size_t size = bytes->room - bytes->length;
    size_t length = write(amount, places, mark, bytes->start + bytes->length, size);
    bool whole = length < size || reserve(bytes, length);
    if (whole && length >= size)
        write(amount, places, mark, bytes->start + bytes->length, bytes->room - bytes->length);
    bytes->length += whole ? length : 0;
    bytes->failed |= amount.status == NUM_NO_MEMORY;
    amounts_close(&room);
}

void bytes_places(struct bytes *bytes, struct figure figure, unsigned places, char mark)
{
    put_amount(bytes, amount_places, figure, places, mark);
}

void bytes_shown(struct bytes *bytes, struct figure figure, unsigned places, char mark)
{
    if (figure.amount || taken_is_amount(figure.value.kind)) {
        put_amount(bytes, amount_short, figure, places, mark);
        return;
    }
    size_t length = groat_value_write(figure.value, places, NULL, 0);
    if (reserve(bytes, length))
        bytes->length += groat_value_write(figure.value, places, bytes->start + bytes->length,
                                           bytes->room - bytes->length);
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

void bytes_money(struct bytes *bytes, struct figure figure, groat_currency currency, char mark)
{
    struct bytes digits = {0};
    bytes_places(&digits, figure, currency.decimals, mark);
    bytes->failed |= digits.failed;
    size_t most = digits.length + strlen(currency.symbol) + 1;
    if (digits.length > 0 && reserve(bytes, most))
        bytes->length += text_money(bytes->start + bytes->length, bytes->room - bytes->length,
                                    currency.symbol, digits.start);
    bytes_free(&digits);
}
