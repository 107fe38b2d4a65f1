/* Greatest common divisors by Lehmer's algorithm; those of one limb are num_common's. */
#include "number/limbs.h"

#include "number/small.h"

#include <assert.h>

/* Several steps of Euclid's at once: the next pair is |u0 x - v0 y| and |u1 x - v1 y|, where the
 * first is positive with x when `even`, and the second then with y. No step was sure when v0 is
 * 0. */
struct lehmer {
    uint64_t u0, u1, v0, v1;
    bool even;
};

/* The 64 bits of `a` that start `shift` bits below the top of limb `index`. */
static uint64_t limb_at(struct limbs a, size_t index, unsigned shift)
{
    if (index > a.count)
        return 0;
    uint64_t high = index < a.count ? a.at[index] : 0;
    uint64_t low = a.at[index - 1];
    return shift == 0 ? high : high << shift | low >> (LIMB_BITS - shift);
}

/* Runs Euclid's algorithm on the most significant limbs of both as long as the quotients are
 * certain to be those of the whole numbers (Collins' condition: see Jebelean, "A double-digit
 * Lehmer-Euclid algorithm for finding the GCD of long integers", 1995). The cofactors stay within
 * half a limb. */
static struct lehmer lehmer_steps(struct limbs x, struct limbs y)
{
    size_t top = x.count - 1;
    unsigned shift = (unsigned)__builtin_clzll(x.at[top]);
    uint64_t a = limb_at(x, top, shift);
    uint64_t b = limb_at(y, top, shift);
    struct lehmer now = {.u1 = 1};
    uint64_t u2 = 0;
    uint64_t v2 = 1;
    while (b >= v2 && a - b >= now.v1 + v2) {
        uint64_t quotient = a / b;
        uint64_t rest = a % b;
        uint64_t u3 = now.u1 + quotient * u2;
        uint64_t v3 = now.v1 + quotient * v2;
        a = b;
        b = rest;
        now = (struct lehmer){now.u1, u2, now.v1, v2, !now.even};
        u2 = u3;
        v2 = v3;
    }
    return now;
}

/* p * of_p - q * of_q, which is never negative and never longer than the longer operand. */
static struct limbs lehmer_combine(uint64_t p, struct limbs of_p, uint64_t q, struct limbs of_q,
                                   uint64_t *room)
{
    size_t count = of_p.count > of_q.count ? of_p.count : of_q.count;
    uint64_t carry_p = 0;
    uint64_t carry_q = 0;
    uint64_t borrow = 0;
    for (size_t i = 0; i < count; i++) {
        limb_pair more = (limb_pair)p * (i < of_p.count ? of_p.at[i] : 0) + carry_p;
        limb_pair less = (limb_pair)q * (i < of_q.count ? of_q.at[i] : 0) + carry_q;
        limb_pair left = (limb_pair)(uint64_t)more - (uint64_t)less - borrow;
        room[i] = (uint64_t)left;
        borrow = (uint64_t)(left >> LIMB_BITS) & 1;
        carry_p = (uint64_t)(more >> LIMB_BITS);
        carry_q = (uint64_t)(less >> LIMB_BITS);
    }
    assert(carry_p - carry_q - borrow == 0);
    return limbs_trim(room, count);
}

/* The current pair, each number in its own room, and two rooms for the next pair. */
struct gcd_pair {
    struct limbs x, y;
    uint64_t *x_room, *y_room, *spare, *other;
};

static void gcd_divide(struct gcd_pair *pair)
{
    struct limbs rest = limbs_divide(pair->x, pair->y, pair->other, pair->spare).rest;
    uint64_t *freed = pair->x_room;
    pair->x = pair->y;
    pair->x_room = pair->y_room;
    pair->y = rest;
    pair->y_room = pair->spare;
    pair->spare = freed;
}

static void gcd_leap(struct gcd_pair *pair, struct lehmer by)
{
    struct limbs x = pair->x;
    struct limbs y = pair->y;
    if (by.even) {
        pair->x = lehmer_combine(by.u0, x, by.v0, y, pair->spare);
        pair->y = lehmer_combine(by.v1, y, by.u1, x, pair->other);
    } else {
        pair->x = lehmer_combine(by.v0, y, by.u0, x, pair->spare);
        pair->y = lehmer_combine(by.u1, x, by.v1, y, pair->other);
    }
    uint64_t *freed_x = pair->x_room;
    uint64_t *freed_y = pair->y_room;
    pair->x_room = pair->spare;
    pair->y_room = pair->other;
    pair->spare = freed_x;
    pair->other = freed_y;
}

struct limbs limbs_gcd(struct limbs a, struct limbs b, uint64_t *room)
{
    uint64_t rooms[4][LIMBS_MOST + 2];
    assert(a.count <= LIMBS_MOST + 1 && b.count <= LIMBS_MOST + 1);
    bool ordered = limbs_compare(a, b) >= 0;
    struct gcd_pair pair = {limbs_copy(ordered ? a : b, rooms[0]),
                            limbs_copy(ordered ? b : a, rooms[1]),
                            rooms[0],
                            rooms[1],
                            rooms[2],
                            rooms[3]};
    while (pair.y.count > 1) {
        assert(limbs_compare(pair.x, pair.y) >= 0);
        struct lehmer leap = lehmer_steps(pair.x, pair.y);
        if (leap.v0 == 0)
            gcd_divide(&pair);
        else
            gcd_leap(&pair, leap);
    }
    if (pair.y.count == 0)
        return limbs_copy(pair.x, room);
    uint64_t word = pair.y.at[0];
    uint64_t rest = limbs_divide_word(pair.x_room, pair.x.count, word);
    room[0] = num_common(word, rest);
    return (struct limbs){room, 1};
}
