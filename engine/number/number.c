/* The operations of number.h. Small numbers with small intermediate results are handled by small.h;
 * if an intermediate result does not fit a machine word, 128 bits are used; large numbers use
 * limbs. */
#include "number/large.h"
#include "number/small.h"

#include <assert.h>
#include <string.h>

__extension__ typedef __int128 signed_pair;

/* The additional cost of an operation on small numbers whose intermediate results do not fit a
 * machine word: it divides 128 bits, and searches for common factors twice. */
enum { EFFORT_PAST_A_WORD = 6 };

struct num num_whole(int64_t value)
{
    assert(value != INT64_MIN);
    return (struct num){.top = value, .bottom = 1};
}

enum num_status num_fraction(struct num_heap *heap, int64_t top, int64_t bottom, struct num *out)
{
    if (bottom == 0)
        return NUM_DIVIDED_BY_ZERO;
    if (bottom == 1 && top != INT64_MIN) {
        *out = num_whole(top);
        return NUM_OK;
    }
    uint64_t common = num_common(num_magnitude(top), num_magnitude(bottom));
    return num_keep_pair(heap, (top < 0) != (bottom < 0), num_magnitude(top) / common,
                         num_magnitude(bottom) / common, out);
}

enum num_status num_copy(struct num_heap *heap, struct num number, struct num *out)
{
    if (number.bottom > 0) {
        *out = number;
        return NUM_OK;
    }
    struct num_parts parts;
    num_take_apart(number, &parts);
    return num_keep(heap, parts.negative, parts.top, parts.bottom, out);
}

enum num_status num_negate(struct num_heap *heap, struct num a, struct num *out)
{
    if (a.bottom > 0) {
        *out = (struct num){.top = -a.top, .bottom = a.bottom};
        return NUM_OK;
    }
    struct num_parts parts;
    num_take_apart(a, &parts);
    return num_keep(heap, !parts.negative, parts.top, parts.bottom, out);
}

/* The same steps as num_large_add: nothing here can pass 127 bits, as neither a numerator nor a
 * denominator has more than 63. */
static enum num_status add_small(struct num_heap *heap, struct num a, struct num b, struct num *out)
{
    heap->effort += EFFORT_PAST_A_WORD;
    int64_t shared = 1;
    if (a.bottom == b.bottom)
        shared = a.bottom;
    else if (a.bottom != 1 && b.bottom != 1)
        shared = (int64_t)num_common((uint64_t)a.bottom, (uint64_t)b.bottom);
    int64_t a_scale = shared == 1 ? a.bottom : a.bottom / shared;
    int64_t b_scale = shared == 1 ? b.bottom : b.bottom / shared;
    signed_pair sum = (signed_pair)a.top * b_scale + (signed_pair)b.top * a_scale;
    bool negative = sum < 0;
    limb_pair top = negative ? -(limb_pair)sum : (limb_pair)sum;
    if (shared == 1)
        return num_keep_pair(heap, negative, top, (limb_pair)a.bottom * (limb_pair)b.bottom, out);
    uint64_t common = num_common((uint64_t)(top % (uint64_t)shared), (uint64_t)shared);
    limb_pair bottom = (limb_pair)a_scale * ((uint64_t)b.bottom / common);
    return num_keep_pair(heap, negative, top / common, bottom, out);
}

enum num_status num_add(struct num_heap *heap, struct num a, struct num b, struct num *out)
{
    if (num_small_add(&a, &b, out))
        return NUM_OK;
    if (num_are_small(&a, &b))
        return add_small(heap, a, b, out);
    return num_large_add(heap, a, b, false, out);
}

enum num_status num_subtract(struct num_heap *heap, struct num a, struct num b, struct num *out)
{
    if (b.bottom > 0)
        return num_add(heap, a, (struct num){.top = -b.top, .bottom = b.bottom}, out);
    return num_large_add(heap, a, b, true, out);
}

/* (a_top / a_bottom) * (b_top / b_bottom), each of at most 63 bits and in lowest terms. */
static enum num_status multiply_small(struct num_heap *heap, bool negative, uint64_t a_top,
                                      uint64_t a_bottom, uint64_t b_top, uint64_t b_bottom,
                                      struct num *out)
{
    heap->effort += EFFORT_PAST_A_WORD;
    uint64_t one = num_common(a_top, b_bottom);
    uint64_t two = num_common(b_top, a_bottom);
    if (one != 1) {
        a_top /= one;
        b_bottom /= one;
    }
    if (two != 1) {
        b_top /= two;
        a_bottom /= two;
    }
    return num_keep_pair(heap, negative, (limb_pair)a_top * b_top, (limb_pair)a_bottom * b_bottom,
                         out);
}

enum num_status num_multiply(struct num_heap *heap, struct num a, struct num b, struct num *out)
{
    if (num_small_multiply(&a, &b, out))
        return NUM_OK;
    if (num_are_small(&a, &b))
        return multiply_small(heap, (a.top < 0) != (b.top < 0), num_magnitude(a.top),
                              (uint64_t)a.bottom, num_magnitude(b.top), (uint64_t)b.bottom, out);
    return num_large_multiply(heap, a, b, false, out);
}

enum num_status num_divide(struct num_heap *heap, struct num a, struct num b, struct num *out)
{
    if (num_small_divide(&a, &b, out))
        return NUM_OK;
    if (num_sign(b) == 0)
        return NUM_DIVIDED_BY_ZERO;
    if (num_are_small(&a, &b))
        return multiply_small(heap, (a.top < 0) != (b.top < 0), num_magnitude(a.top),
                              (uint64_t)a.bottom, (uint64_t)b.bottom, num_magnitude(b.top), out);
    return num_large_multiply(heap, a, b, true, out);
}

/* Adds the cost to `*effort`. */
static int compare(struct num a, struct num b, size_t *effort)
{
    int order;
    if (num_small_compare(&a, &b, &order))
        return order;
    if (num_are_small(&a, &b)) {
        signed_pair left = (signed_pair)a.top * b.bottom;
        signed_pair right = (signed_pair)b.top * a.bottom;
        return (left > right) - (left < right);
    }
    return num_large_compare(a, b, effort);
}

int num_compare(struct num a, struct num b)
{
    size_t unasked = 0;
    return compare(a, b, &unasked);
}

int num_order(struct num_heap *heap, struct num a, struct num b)
{
    return compare(a, b, &heap->effort);
}

bool num_equal(struct num a, struct num b)
{
    if (a.bottom != b.bottom)
        return false;
    if (a.bottom > 0)
        return a.top == b.top;
    const struct num_big *one = a.big;
    const struct num_big *two = b.big;
    if (one->top_count != two->top_count || one->bottom_count != two->bottom_count ||
        one->negative != two->negative)
        return false;
    size_t count = (size_t)one->top_count + one->bottom_count;
    return memcmp(one->limbs, two->limbs, count * sizeof *one->limbs) == 0;
}

int num_sign(struct num a)
{
    assert(a.bottom >= 0);
    if (a.bottom == 0)
        return a.big->negative ? -1 : 1;
    return (a.top > 0) - (a.top < 0);
}

bool num_is_whole(struct num a)
{
    if (a.bottom > 0)
        return a.bottom == 1;
    return a.big->bottom_count == 1 && a.big->limbs[a.big->top_count] == 1;
}

bool num_decimals(struct num a, unsigned *decimals)
{
    struct num_parts parts;
    num_take_apart(a, &parts);
    if (parts.bottom.count != 1)
        return false;
    uint64_t rest = parts.bottom.at[0];
    unsigned twos = 0, fives = 0;
    for (; rest % 2 == 0; rest /= 2)
        twos++;
    for (; rest % 5 == 0; rest /= 5)
        fives++;
    *decimals = twos > fives ? twos : fives;
    return rest == 1;
}

bool num_to_int64(struct num a, int64_t *out)
{
    if (a.bottom != 1)
        return false;
    *out = a.top;
    return true;
}

bool num_rounds_away(enum num_rounding rounding, bool negative, bool exact, int half, bool odd)
{
    if (exact)
        return false;
    switch (rounding) {
    case NUM_UP: return !negative;
    case NUM_DOWN: return negative;
    case NUM_NEAREST: return half >= 0;
    case NUM_EVEN: return half > 0 || (half == 0 && odd);
    }
    return false;
}

enum num_status num_round(struct num_heap *heap, struct num a, enum num_rounding rounding,
                          struct num *out)
{
    return num_round_to(heap, a, num_whole(1), rounding, out);
}

/* False if the number of steps does not fit one limb; the caller then uses limbs. */
static bool round_small(struct num_heap *heap, struct num a, struct num step,
                        enum num_rounding rounding, struct num *out, enum num_status *status)
{
    heap->effort += EFFORT_PAST_A_WORD;
    bool negative = a.top < 0;
    limb_pair top = (limb_pair)num_magnitude(a.top) * (uint64_t)step.bottom;
    limb_pair bottom = (limb_pair)(uint64_t)a.bottom * (uint64_t)step.top;
    limb_pair quotient = top / bottom;
    if (quotient >= UINT64_MAX)
        return false;
    uint64_t steps = (uint64_t)quotient;
    limb_pair rest = top - quotient * bottom;
    int half = (rest + rest > bottom) - (rest + rest < bottom);
    if (num_rounds_away(rounding, negative, rest == 0, half, (steps & 1) != 0))
        steps++;
    uint64_t common = num_common(steps, (uint64_t)step.bottom);
    *status = num_keep_pair(heap, negative, (limb_pair)(steps / common) * (uint64_t)step.top,
                            (uint64_t)step.bottom / common, out);
    return true;
}

enum num_status num_round_to(struct num_heap *heap, struct num a, struct num step,
                             enum num_rounding rounding, struct num *out)
{
    enum num_status status;
    if (rounding == NUM_NEAREST && num_small_nearest(&a, &step, out))
        return NUM_OK;
    if (num_sign(step) <= 0)
        return NUM_DIVIDED_BY_ZERO;
    if (num_are_small(&a, &step) && round_small(heap, a, step, rounding, out, &status))
        return status;
    return num_large_round(heap, a, step, rounding, out);
}
