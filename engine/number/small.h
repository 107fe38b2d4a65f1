/* Operations on small numbers as inline functions, for code that does millions of them. Each
 * returns false and leaves `*out` unchanged if an operand is large or the result would be; the
 * caller then uses the operation of number.h. Where one returns true, the result is the same as
 * that of number.h. `out` may be an operand.
 *
 * Nothing here uses more than 64 bits, and no common factor is searched for where there can be
 * none. Numbers are read and written one word at a time: reading as a pair what was just written as
 * two words would make the processor wait for its memory. */
#ifndef GROAT_NUMBER_SMALL_H
#define GROAT_NUMBER_SMALL_H

#include "number/number.h"

#include <assert.h>

static inline bool num_are_small(const struct num *a, const struct num *b)
{
    return a->bottom > 0 && b->bottom > 0;
}

static inline uint64_t num_magnitude(int64_t value)
{
    return value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
}

static inline uint64_t num_lesser(uint64_t a, uint64_t b)
{
    return a < b ? a : b;
}

/* Both must be above zero. */
static inline uint64_t num_common_binary(uint64_t a, uint64_t b)
{
    assert(a > 0 && b > 0);
    uint64_t smaller = num_lesser(a, b), other = (a < b ? b : a) % smaller;
    if (other == 0)
        return smaller;
    int twos = __builtin_ctzll(smaller | other);
    smaller >>= __builtin_ctzll(smaller);
    other >>= __builtin_ctzll(other);
    while (smaller != other) {
        uint64_t difference = other - smaller, swaps = 0 - (uint64_t)(other < smaller);
        smaller += difference & swaps;
        other = ((difference ^ swaps) - swaps) >> __builtin_ctzll(difference);
    }
    return smaller << twos;
}

static inline bool num_is_power_of_five(uint64_t a)
{
    return a == 1 || a == 5 || a == 25 || a == 125 || a == 625;
}

/* The greatest common divisor; for zero and a number it is the number. `b` is most often the
 * denominator of an amount of money, whose only prime factors are two and five: for these there is
 * no loop, whose end the processor would have to predict. */
static inline uint64_t num_common(uint64_t a, uint64_t b)
{
    if (a == 0 || b == 0)
        return a | b;
    uint64_t odd = b >> __builtin_ctzll(b);
    if (!num_is_power_of_five(odd))
        return num_common_binary(a, b);
    uint64_t fives = a % 5 == 0 ? 5 : 1;
    fives = a % 25 == 0 ? 25 : fives;
    fives = a % 125 == 0 ? 125 : fives;
    fives = a % 625 == 0 ? 625 : fives;
    return num_lesser(fives, odd) << __builtin_ctzll(a | b);
}

static inline bool num_small_keep(int64_t top, int64_t bottom, struct num *out)
{
    assert(bottom > 0 && top != INT64_MIN);
    assert(num_common(num_magnitude(top), (uint64_t)bottom) == 1);
    out->top = top;
    out->bottom = bottom;
    return true;
}

/* top / bottom. Only factors of `shared` can be common to both. */
static inline bool num_small_reduce(int64_t top, int64_t bottom, int64_t shared, struct num *out)
{
    int64_t common = shared == 1 ? 1 : (int64_t)num_common(num_magnitude(top), (uint64_t)shared);
    return common == 1 ? num_small_keep(top, bottom, out)
                       : num_small_keep(top / common, bottom / common, out);
}

/* a_top / a_bottom + b_top / b_bottom, both denominators above zero. */
static inline bool num_small_sum(int64_t a_top, int64_t a_bottom, int64_t b_top, int64_t b_bottom,
                                 struct num *out)
{
    int64_t shared = 1, top, left, right, bottom;
    if (a_bottom == b_bottom)
        return !__builtin_add_overflow(a_top, b_top, &top) && top != INT64_MIN &&
               num_small_reduce(top, a_bottom, a_bottom, out);
    if (a_bottom != 1 && b_bottom != 1)
        shared = (int64_t)num_common((uint64_t)a_bottom, (uint64_t)b_bottom);
    int64_t a_scale = shared == 1 ? a_bottom : a_bottom / shared;
    int64_t b_scale = shared == 1 ? b_bottom : b_bottom / shared;
    return !__builtin_mul_overflow(a_top, b_scale, &left) &&
           !__builtin_mul_overflow(b_top, a_scale, &right) &&
           !__builtin_add_overflow(left, right, &top) && top != INT64_MIN &&
           !__builtin_mul_overflow(a_scale, b_bottom, &bottom) &&
           num_small_reduce(top, bottom, shared, out);
}

static inline bool num_small_add(const struct num *a, const struct num *b, struct num *out)
{
    return num_are_small(a, b) && num_small_sum(a->top, a->bottom, b->top, b->bottom, out);
}

static inline bool num_small_subtract(const struct num *a, const struct num *b, struct num *out)
{
    return num_are_small(a, b) && num_small_sum(a->top, a->bottom, -b->top, b->bottom, out);
}

/* (a_top / a_bottom) · (b_top / b_bottom), each in lowest terms, both denominators above zero. */
static inline bool num_small_product(int64_t a_top, int64_t a_bottom, int64_t b_top,
                                     int64_t b_bottom, struct num *out)
{
    int64_t top, bottom;
    if (b_bottom != 1) {
        int64_t common = (int64_t)num_common(num_magnitude(a_top), (uint64_t)b_bottom);
        a_top = common == 1 ? a_top : a_top / common;
        b_bottom = common == 1 ? b_bottom : b_bottom / common;
    }
    if (a_bottom != 1) {
        int64_t common = (int64_t)num_common(num_magnitude(b_top), (uint64_t)a_bottom);
        b_top = common == 1 ? b_top : b_top / common;
        a_bottom = common == 1 ? a_bottom : a_bottom / common;
    }
    return !__builtin_mul_overflow(a_top, b_top, &top) && top != INT64_MIN &&
           !__builtin_mul_overflow(a_bottom, b_bottom, &bottom) && num_small_keep(top, bottom, out);
}

static inline bool num_small_multiply(const struct num *a, const struct num *b, struct num *out)
{
    return num_are_small(a, b) && num_small_product(a->top, a->bottom, b->top, b->bottom, out);
}

static inline bool num_small_divide(const struct num *a, const struct num *b, struct num *out)
{
    if (!num_are_small(a, b) || b->top == 0)
        return false;
    bool negative = b->top < 0;
    return num_small_product(negative ? -a->top : a->top, a->bottom, b->bottom,
                             negative ? -b->top : b->top, out);
}

/* Below, at or above zero in `*order`, as num_compare has it. */
static inline bool num_small_compare(const struct num *a, const struct num *b, int *order)
{
    int64_t left = a->top, right = b->top;
    if (!num_are_small(a, b))
        return false;
    if (a->bottom != b->bottom && (__builtin_mul_overflow(a->top, b->bottom, &left) ||
                                   __builtin_mul_overflow(b->top, a->bottom, &right)))
        return false;
    *order = (left > right) - (left < right);
    return true;
}

/* The multiple of `step` that is nearest, ties away from zero. */
static inline bool num_small_nearest(const struct num *a, const struct num *step, struct num *out)
{
    int64_t top, bottom;
    if (!num_are_small(a, step) || step->top <= 0 ||
        __builtin_mul_overflow(a->top, step->bottom, &top) || top == INT64_MIN ||
        __builtin_mul_overflow(a->bottom, step->top, &bottom))
        return false;
    int64_t steps = top / bottom;
    uint64_t rest = num_magnitude(top % bottom);
    if (rest >= (uint64_t)bottom - rest)
        steps += top < 0 ? -1 : 1;
    return !__builtin_mul_overflow(steps, step->top, &top) && top != INT64_MIN &&
           num_small_reduce(top, step->bottom, step->bottom, out);
}

#endif
