/* Arithmetic on numbers of any length up to NUM_BITS_MOST.
 *
 * Operands are in lowest terms. Common factors are cancelled before multiplying (Knuth, volume 2,
 * 4.5.1), so that greatest common divisors are taken of short numbers, and products are as long as
 * the result. Intermediate values are exact, in arrays of twice the most bits, so NUM_TOO_LARGE
 * depends only on the length of the result. */
#include "number/large.h"

#include <assert.h>

/* ---- what it costs ---- */

/* The number of products of two limbs that take as long as one step on small numbers. */
enum { PRODUCTS_A_STEP = 64 };

static size_t effort_of(size_t products)
{
    return 1 + products / PRODUCTS_A_STEP;
}

static void charge(struct num_heap *heap, size_t products)
{
    heap->effort += effort_of(products);
}

/* Each step of Lehmer's algorithm passes over both numbers, shortens them by about half a limb, and
 * begins with divisions of machine words. Measured on numbers of 1 to 127 limbs. */
static struct limbs gcd(struct num_heap *heap, struct limbs a, struct limbs b, uint64_t *room)
{
    enum { LEAPS = 8, WORDS = 192 };
    size_t longer = a.count > b.count ? a.count : b.count;
    size_t shorter = a.count > b.count ? b.count : a.count;
    charge(heap, shorter * (LEAPS * shorter + WORDS + longer));
    return limbs_gcd(a, b, room);
}

static struct limbs multiply(struct num_heap *heap, struct limbs a, struct limbs b, uint64_t *room)
{
    charge(heap, a.count * b.count);
    return limbs_multiply(a, b, room);
}

/* Each digit of the quotient takes a division of machine words and a pass over the divisor. */
static size_t division_products(struct limbs a, struct limbs b)
{
    enum { WORDS = 16 };
    return a.count < b.count ? a.count : (a.count - b.count + 1) * (b.count + WORDS);
}

static struct limbs divide_exactly(struct num_heap *heap, struct limbs a, struct limbs b,
                                   uint64_t *room)
{
    charge(heap, division_products(a, b));
    return limbs_divide_exactly(a, b, room);
}

/* ---- the arithmetic ---- */

static bool is_one(struct limbs a)
{
    return a.count == 1 && a.at[0] == 1;
}

/* The greatest common divisor of `a`, of any length, and `b`. */
static struct limbs gcd_with_long(struct num_heap *heap, struct limbs a, struct limbs b,
                                  uint64_t *room)
{
    uint64_t quotient_room[LIMBS_WIDE];
    uint64_t rest_room[LIMBS_WIDE];
    if (is_one(b))
        return limbs_copy(b, room);
    charge(heap, division_products(a, b));
    struct limbs rest = limbs_divide(a, b, quotient_room, rest_room).rest;
    return gcd(heap, rest, b, room);
}

/* |a - b|; `*flipped` says whether `b` was the greater. */
static struct limbs difference(struct limbs a, struct limbs b, uint64_t *room, bool *flipped)
{
    *flipped = limbs_compare(a, b) < 0;
    return *flipped ? limbs_subtract(b, a, room) : limbs_subtract(a, b, room);
}

/* With a common denominator the sum is sum / (a_bottom * b_bottom / shared). Only factors of
 * `shared` can still be common to both. */
static enum num_status keep_sum(struct num_heap *heap, bool negative, struct limbs sum,
                                struct limbs a_scale, struct limbs b_bottom, struct limbs shared,
                                struct num *out)
{
    uint64_t common_room[LIMBS_MOST + 1];
    uint64_t top_room[LIMBS_WIDE];
    uint64_t factor_room[LIMBS_MOST + 1];
    uint64_t bottom_room[LIMBS_WIDE];
    struct limbs common = gcd_with_long(heap, sum, shared, common_room);
    struct limbs top = divide_exactly(heap, sum, common, top_room);
    struct limbs factor = divide_exactly(heap, b_bottom, common, factor_room);
    struct limbs bottom = multiply(heap, a_scale, factor, bottom_room);
    return num_keep(heap, negative, top, bottom, out);
}

enum num_status num_large_add(struct num_heap *heap, struct num left, struct num right,
                              bool subtracts, struct num *out)
{
    struct num_parts a;
    struct num_parts b;
    uint64_t shared_room[LIMBS_MOST + 1];
    uint64_t a_scale_room[LIMBS_MOST + 1];
    uint64_t b_scale_room[LIMBS_MOST + 1];
    uint64_t a_room[LIMBS_WIDE];
    uint64_t b_room[LIMBS_WIDE];
    num_take_apart(left, &a);
    num_take_apart(right, &b);
    b.negative = b.negative != subtracts;
    struct limbs shared = gcd(heap, a.bottom, b.bottom, shared_room);
    struct limbs a_scale = divide_exactly(heap, a.bottom, shared, a_scale_room);
    struct limbs b_scale = divide_exactly(heap, b.bottom, shared, b_scale_room);
    struct limbs a_term = multiply(heap, a.top, b_scale, a_room);
    struct limbs b_term = multiply(heap, b.top, a_scale, b_room);
    bool flipped = false;
    struct limbs sum = a.negative == b.negative ? limbs_add(a_term, b_term, a_room)
                                                : difference(a_term, b_term, a_room, &flipped);
    if (sum.count == 0) {
        *out = num_whole(0);
        return NUM_OK;
    }
    assert(sum.count < LIMBS_WIDE);
    return keep_sum(heap, a.negative != flipped, sum, a_scale, b.bottom, shared, out);
}

/* a / gcd(a, b) and b / gcd(a, b), each in its room. */
static void cancel(struct num_heap *heap, struct limbs *a, struct limbs *b, uint64_t *a_room,
                   uint64_t *b_room)
{
    uint64_t common_room[LIMBS_MOST + 1];
    if (is_one(*a) || is_one(*b))
        return;
    struct limbs common = gcd(heap, *a, *b, common_room);
    *a = divide_exactly(heap, *a, common, a_room);
    *b = divide_exactly(heap, *b, common, b_room);
}

enum num_status num_large_multiply(struct num_heap *heap, struct num left, struct num right,
                                   bool divides, struct num *out)
{
    struct num_parts a;
    struct num_parts b;
    uint64_t rooms[4][LIMBS_MOST + 1];
    uint64_t top_room[LIMBS_WIDE];
    uint64_t bottom_room[LIMBS_WIDE];
    num_take_apart(left, &a);
    num_take_apart(right, &b);
    struct limbs a_top = a.top;
    struct limbs a_bottom = a.bottom;
    struct limbs b_top = divides ? b.bottom : b.top;
    struct limbs b_bottom = divides ? b.top : b.bottom;
    if (a_top.count == 0 || b_top.count == 0) {
        *out = num_whole(0);
        return NUM_OK;
    }
    cancel(heap, &a_top, &b_bottom, rooms[0], rooms[1]);
    cancel(heap, &b_top, &a_bottom, rooms[2], rooms[3]);
    struct limbs top = multiply(heap, a_top, b_top, top_room);
    struct limbs bottom = multiply(heap, a_bottom, b_bottom, bottom_room);
    return num_keep(heap, a.negative != b.negative, top, bottom, out);
}

int num_large_compare(struct num left, struct num right, size_t *effort)
{
    struct num_parts a;
    struct num_parts b;
    uint64_t a_room[LIMBS_WIDE];
    uint64_t b_room[LIMBS_WIDE];
    num_take_apart(left, &a);
    num_take_apart(right, &b);
    *effort += effort_of(a.top.count * b.bottom.count + b.top.count * a.bottom.count);
    if (a.negative != b.negative)
        return a.negative ? -1 : 1;
    int order = limbs_compare(limbs_multiply(a.top, b.bottom, a_room),
                              limbs_multiply(b.top, a.bottom, b_room));
    return a.negative ? -order : order;
}

/* |a| / step as a whole number, rounded. */
static struct limbs count_steps(struct num_heap *heap, const struct num_parts *a,
                                const struct num_parts *step, enum num_rounding rounding,
                                uint64_t *room)
{
    static const uint64_t one = 1;
    uint64_t top_room[LIMBS_WIDE];
    uint64_t bottom_room[LIMBS_WIDE];
    uint64_t rest_room[LIMBS_WIDE];
    struct limbs top = multiply(heap, a->top, step->bottom, top_room);
    struct limbs bottom = multiply(heap, a->bottom, step->top, bottom_room);
    charge(heap, division_products(top, bottom));
    struct limbs_quotient quotient = limbs_divide(top, bottom, room, rest_room);
    struct limbs steps = quotient.quotient;
    bool exact = quotient.rest.count == 0;
    bool odd = steps.count > 0 && (steps.at[0] & 1) != 0;
    int half = limbs_compare(limbs_add(quotient.rest, quotient.rest, top_room), bottom);
    if (num_rounds_away(rounding, a->negative, exact, half, odd))
        steps = limbs_add(steps, (struct limbs){&one, 1}, room);
    return steps;
}

enum num_status num_large_round(struct num_heap *heap, struct num number, struct num multiple_of,
                                enum num_rounding rounding, struct num *out)
{
    struct num_parts a;
    struct num_parts step;
    uint64_t steps_room[LIMBS_WIDE];
    uint64_t common_room[LIMBS_MOST + 1];
    uint64_t factor_room[LIMBS_WIDE];
    uint64_t top_room[LIMBS_WIDE];
    uint64_t bottom_room[LIMBS_MOST + 1];
    num_take_apart(number, &a);
    num_take_apart(multiple_of, &step);
    struct limbs steps = count_steps(heap, &a, &step, rounding, steps_room);
    if (steps.count == 0) {
        *out = num_whole(0);
        return NUM_OK;
    }
    struct limbs common = gcd_with_long(heap, steps, step.bottom, common_room);
    struct limbs factor = divide_exactly(heap, steps, common, factor_room);
    struct limbs bottom = divide_exactly(heap, step.bottom, common, bottom_room);
    /* The product has at least this many bits; with more, it would not fit the room either. */
    if (limbs_bits(factor) + limbs_bits(step.top) - 1 > NUM_BITS_MOST)
        return NUM_TOO_LARGE;
    struct limbs top = multiply(heap, factor, step.top, top_room);
    return num_keep(heap, a.negative, top, bottom, out);
}
