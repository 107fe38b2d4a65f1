/* Reading decimals. */
#include "number/large.h"
#include "number/small.h"

#include <assert.h>

enum {
    /* A value with more whole digits than this has more than NUM_BITS_MOST bits. So has a
     * denominator in lowest terms with more places: if the last digit is not zero, either all the
     * twos or all the fives of 10^places remain in it. */
    READ_WHOLE_MOST = NUM_BITS_MOST * 302 / 1000,
    READ_PLACES_MOST = NUM_BITS_MOST,
    READ_LIMBS = (READ_WHOLE_MOST + READ_PLACES_MOST) * 10 / 3 / LIMB_BITS + 2,
    DIGITS_IN_WORD = 18 /* 10^18 is the greatest power of ten in an int64_t */
};

/* A text without the zeros that do not change its value. */
struct decimal {
    const char *text;
    size_t start, end; /* from the first digit that is not zero to the last that counts */
    size_t digits;     /* between them */
    size_t places;     /* how many of the digits are after the point, zeros there included */
};

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_decimal(const char *text, size_t length)
{
    bool point = false;
    for (size_t i = 0; i < length; i++) {
        bool before = i > 0 && is_digit(text[i - 1]);
        bool after = i + 1 < length && is_digit(text[i + 1]);
        if (is_digit(text[i]))
            continue;
        if (text[i] == '_' && before && after)
            continue;
        /* Only digits, or nothing, may come before the point. */
        if (text[i] != '.' || point || !after || !(before || i == 0))
            return false;
        point = true;
    }
    return length > 0;
}

static struct decimal measure(const char *text, size_t length)
{
    struct decimal decimal = {.text = text, .end = length};
    bool point = false;
    size_t end = 0;
    size_t digits = 0;
    size_t places = 0;
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '.')
            point = true;
        if (!is_digit(text[i]))
            continue;
        if (digits == 0 && text[i] != '0')
            decimal.start = i;
        digits += digits > 0 || text[i] != '0';
        places += point;
        if (!point || text[i] != '0') {
            end = i + 1;
            decimal.digits = digits;
            decimal.places = places;
        }
    }
    decimal.end = end;
    return decimal;
}

/* Divides by `prime` as often as there is no rest, at most `most` times; returns how often. */
static size_t strip(uint64_t *room, size_t *count, uint64_t prime, size_t most)
{
    uint64_t trial[READ_LIMBS];
    size_t times = 0;
    while (times < most) {
        limbs_copy((struct limbs){room, *count}, trial);
        if (limbs_divide_word(trial, *count, prime) != 0)
            break;
        *count = limbs_trim(trial, *count).count;
        limbs_copy((struct limbs){trial, *count}, room);
        times++;
    }
    return times;
}

/* Multiplies by base^power; false if the result is longer than a number may be. */
static bool raise(uint64_t *room, size_t *count, uint64_t base, size_t power)
{
    assert(*count > 0 && *count <= LIMBS_MOST);
    for (; power > 0 && *count <= LIMBS_MOST; power--)
        *count = limbs_scale(room, *count, base, 0);
    return *count <= LIMBS_MOST;
}

/* The digits as one whole number, a limb's worth of digits at a time. */
static size_t gather(struct decimal decimal, uint64_t *room)
{
    size_t count = 0;
    uint64_t word = 0;
    uint64_t scale = 1;
    size_t taken = 0;
    for (size_t i = decimal.start; i < decimal.end; i++) {
        if (!is_digit(decimal.text[i]))
            continue;
        word = word * 10 + (uint64_t)(decimal.text[i] - '0');
        scale *= 10;
        if (++taken == decimal.digits || taken % DIGITS_IN_WORD == 0) {
            count = limbs_scale(room, count, scale, word);
            word = 0;
            scale = 1;
        }
    }
    return count;
}

static enum num_status read_long(struct num_heap *heap, struct decimal decimal, struct num *out)
{
    uint64_t top[READ_LIMBS];
    uint64_t bottom[LIMBS_MOST + 2] = {1};
    size_t bottom_count = 1;
    if (decimal.places > READ_PLACES_MOST || decimal.digits > READ_WHOLE_MOST + decimal.places)
        return NUM_TOO_LARGE;
    size_t top_count = gather(decimal, top);
    size_t fives = strip(top, &top_count, 5, decimal.places);
    size_t twos = strip(top, &top_count, 2, decimal.places);
    if (!raise(bottom, &bottom_count, 5, decimal.places - fives) ||
        !raise(bottom, &bottom_count, 2, decimal.places - twos))
        return NUM_TOO_LARGE;
    return num_keep(heap, false, (struct limbs){top, top_count},
                    (struct limbs){bottom, bottom_count}, out);
}

bool num_read_plain(const char *text, size_t length, struct num *out)
{
    int64_t top = 0, bottom = 1;
    bool point = false;
    if (length == 0 || length > DIGITS_IN_WORD + 1 || !is_digit(text[length - 1]))
        return false;
    for (size_t i = 0; i < length; i++) {
        if (is_digit(text[i]) && i - point < DIGITS_IN_WORD) {
            top = top * 10 + (text[i] - '0');
            bottom = point ? bottom * 10 : bottom;
        } else if (text[i] == '.' && !point) {
            point = true;
        } else {
            return false;
        }
    }
    for (; bottom > 1 && top % 10 == 0; bottom /= 10)
        top /= 10;
    return num_small_reduce(top, bottom, bottom, out);
}

enum num_status num_read_decimal(struct num_heap *heap, const char *text, size_t length,
                                 struct num *out)
{
    assert(text || length == 0);
    if (num_read_plain(text, length, out))
        return NUM_OK;
    if (!is_decimal(text, length))
        return NUM_BAD_TEXT;
    struct decimal decimal = measure(text, length);
    if (decimal.digits > DIGITS_IN_WORD || decimal.places > DIGITS_IN_WORD)
        return read_long(heap, decimal, out);
    assert(decimal.start <= decimal.end && decimal.end <= length);
    uint64_t top = 0;
    uint64_t bottom = 1;
    if (decimal.digits > 0)
        gather(decimal, &top);
    for (size_t i = 0; i < decimal.places; i++)
        bottom *= 10;
    return num_fraction(heap, (int64_t)top, (int64_t)bottom, out);
}
