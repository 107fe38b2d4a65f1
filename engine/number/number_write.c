/* Writing numbers as decimal text. */
#include "number/large.h"
#include "number/small.h"

#include <assert.h>
#include <string.h>

enum {
    PLACES_MOST = 60,
    PLACES_LIMBS = 4, /* 10^60 has 200 bits */
    DIGITS_IN_LIMB = 19,
    /* A digit holds more than 1000 / 302 bits, so there is room for the largest whole part. */
    DIGITS_MOST = NUM_BITS_MOST * 302 / 1000 + PLACES_MOST + DIGITS_IN_LIMB
};

static const uint64_t TEN_TO_19 = UINT64_C(10000000000000000000);

/* The digits of a whole number, right-aligned; zero has one. */
struct digits {
    size_t count;
    char room[DIGITS_MOST];
};

static const char *digits_start(const struct digits *digits)
{
    return digits->room + DIGITS_MOST - digits->count;
}

static void digits_push(struct digits *digits, uint64_t digit)
{
    assert(digit <= 9 && digits->count < DIGITS_MOST);
    digits->count++;
    digits->room[DIGITS_MOST - digits->count] = (char)('0' + digit);
}

static void digits_pad(struct digits *digits, size_t count)
{
    while (digits->count < count)
        digits_push(digits, 0);
}

/* `value` has at most LIMBS_MOST + PLACES_LIMBS limbs, and fewer digits than there is room for. */
static void digits_of(struct limbs value, struct digits *digits)
{
    uint64_t room[LIMBS_MOST + PLACES_LIMBS + 1];
    assert(value.count <= LIMBS_MOST + PLACES_LIMBS);
    digits->count = 0;
    for (struct limbs left = limbs_copy(value, room); left.count > 0;) {
        size_t whole_limbs = digits->count + DIGITS_IN_LIMB;
        uint64_t part = limbs_divide_word(room, left.count, TEN_TO_19);
        left = limbs_trim(room, left.count);
        for (; part > 0; part /= 10)
            digits_push(digits, part % 10);
        if (left.count > 0)
            digits_pad(digits, whole_limbs);
    }
    digits_pad(digits, 1);
}

/* The buffer that text is written to. Text that does not fit is counted only. */
struct text_out {
    char *buffer;
    size_t size;
    size_t length;
};

static void text_put(struct text_out *text, const char *from, size_t count)
{
    assert(text->buffer || text->size == 0);
    if (text->length < text->size) {
        size_t room = text->size - text->length;
        memcpy(text->buffer + text->length, from, count < room ? count : room);
    }
    text->length += count;
}

static size_t text_close(struct text_out *text)
{
    if (text->size > 0)
        text->buffer[text->length < text->size ? text->length : text->size - 1] = 0;
    return text->length;
}

static size_t write_whole(bool negative, struct limbs whole, char *buffer, size_t size)
{
    struct digits digits;
    struct text_out text = {buffer, size, 0};
    digits_of(whole, &digits);
    if (negative)
        text_put(&text, "-", 1);
    text_put(&text, digits_start(&digits), digits.count);
    return text_close(&text);
}

size_t num_write_top(struct num a, char *buffer, size_t size)
{
    struct num_parts parts;
    num_take_apart(a, &parts);
    return write_whole(parts.negative, parts.top, buffer, size);
}

size_t num_write_bottom(struct num a, char *buffer, size_t size)
{
    struct num_parts parts;
    num_take_apart(a, &parts);
    return write_whole(false, parts.bottom, buffer, size);
}

/* |a| * 10^places to the nearest whole number, ties away from zero. The room must have LIMBS_WIDE
 * limbs. */
static struct limbs scale_to_places(const struct num_parts *parts, unsigned places, uint64_t *room)
{
    static const uint64_t one = 1;
    uint64_t top_room[LIMBS_WIDE];
    uint64_t rest_room[LIMBS_WIDE];
    size_t count = limbs_copy(parts->top, top_room).count;
    for (; places >= DIGITS_IN_LIMB; places -= DIGITS_IN_LIMB)
        count = limbs_scale(top_room, count, TEN_TO_19, 0);
    uint64_t scale = 1;
    for (; places > 0; places--)
        scale *= 10;
    count = limbs_scale(top_room, count, scale, 0);
    struct limbs_quotient quotient =
        limbs_divide((struct limbs){top_room, count}, parts->bottom, room, rest_room);
    struct limbs twice = limbs_add(quotient.rest, quotient.rest, top_room);
    if (limbs_compare(twice, parts->bottom) < 0)
        return quotient.quotient;
    return limbs_add(quotient.quotient, (struct limbs){&one, 1}, room);
}

/* ---- numbers of two machine words ---- */

static const uint64_t powers_of_ten[] = {1,
                                         10,
                                         100,
                                         1000,
                                         10000,
                                         100000,
                                         1000000,
                                         10000000,
                                         100000000,
                                         1000000000,
                                         10000000000,
                                         100000000000,
                                         1000000000000,
                                         10000000000000,
                                         100000000000000,
                                         1000000000000000,
                                         10000000000000000,
                                         100000000000000000,
                                         1000000000000000000};
enum { POWERS = sizeof powers_of_ten / sizeof *powers_of_ten };

/* A number cut at the decimal mark. */
struct cut {
    uint64_t whole, after; /* `after` in units of 10^-places */
};

/* Rounds to `places`; false if that takes more than 64 bits. */
static bool cut_small(struct num a, unsigned places, struct cut *cut)
{
    uint64_t bottom = (uint64_t)a.bottom, top = num_magnitude(a.top);
    if (a.bottom <= 0 || places >= POWERS || bottom > UINT64_MAX / powers_of_ten[places])
        return false;
    uint64_t scaled = top % bottom * powers_of_ten[places], rest = scaled % bottom;
    cut->whole = top / bottom;
    cut->after = scaled / bottom + (rest >= bottom - rest);
    if (cut->after == powers_of_ten[places]) {
        cut->whole++;
        cut->after = 0;
    }
    return true;
}

/* Writes the digits of a whole number so that they end before `end`; at least `least` of them.
 * Returns where they begin. */
static char *write_before(char *end, uint64_t whole, unsigned least)
{
    for (unsigned count = 0; whole > 0 || count < least; count++, whole /= 10)
        *--end = (char)('0' + whole % 10);
    return end;
}

static size_t write_cut(bool negative, const struct cut *cut, unsigned places, bool drop_zeros,
                        char mark, char *buffer, size_t size)
{
    char room[2 * DIGITS_IN_LIMB + 8], *end = room + sizeof room, *start = end;
    struct text_out text = {buffer, size, 0};
    if (places > 0) {
        start = write_before(end, cut->after, places);
        while (drop_zeros && end > start && end[-1] == '0')
            end--;
        if (end > start)
            *--start = mark;
    }
    start = write_before(start, cut->whole, 1);
    if (negative && (cut->whole > 0 || cut->after > 0))
        *--start = '-';
    text_put(&text, start, (size_t)(end - start));
    return text_close(&text);
}

/* ---- any number ---- */

static size_t write_decimal(struct num a, unsigned places, bool drop_zeros, char mark, char *buffer,
                            size_t size)
{
    uint64_t room[LIMBS_WIDE];
    struct num_parts parts;
    struct digits digits;
    struct text_out text = {buffer, size, 0};
    struct cut cut;
    if (cut_small(a, places, &cut))
        return write_cut(a.top < 0, &cut, places, drop_zeros, mark, buffer, size);
    if (places > PLACES_MOST)
        places = PLACES_MOST;
    num_take_apart(a, &parts);
    struct limbs scaled = scale_to_places(&parts, places, room);
    digits_of(scaled, &digits);
    digits_pad(&digits, (size_t)places + 1);
    const char *start = digits_start(&digits);
    size_t whole = digits.count - places;
    size_t after = places;
    while (drop_zeros && after > 0 && start[whole + after - 1] == '0')
        after--;
    if (parts.negative && scaled.count > 0)
        text_put(&text, "-", 1);
    text_put(&text, start, whole);
    if (after > 0) {
        text_put(&text, &mark, 1);
        text_put(&text, start + whole, after);
    }
    return text_close(&text);
}

size_t num_write_places(struct num a, unsigned places, char mark, char *buffer, size_t size)
{
    return write_decimal(a, places, false, mark, buffer, size);
}

size_t num_write_short(struct num a, unsigned places, char mark, char *buffer, size_t size)
{
    return write_decimal(a, places, true, mark, buffer, size);
}
