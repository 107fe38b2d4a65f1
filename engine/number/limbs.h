/* Unsigned whole numbers of any length, as runs of 64-bit limbs. Private to the number room.
 *
 * Nothing here allocates: a result goes to room that the caller gives, and the returned `limbs`
 * points there. Unless a line says otherwise, the room may not overlap an operand.
 */
#ifndef GROAT_NUMBER_LIMBS_H
#define GROAT_NUMBER_LIMBS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "number/number.h"

/* Two limbs in one, for products and for what is divided by one limb. */
__extension__ typedef unsigned __int128 limb_pair;

enum {
    LIMB_BITS = 64,
    LIMBS_MOST = NUM_BITS_MOST / LIMB_BITS,
    /* A sum of two products, with the one limb more that division shifts into. */
    LIMBS_WIDE = 2 * LIMBS_MOST + 4
};

/* A whole number read where it lies: least limb first, the last one never zero; zero has none. */
struct limbs {
    const uint64_t *at;
    size_t count;
};

struct limbs_quotient {
    struct limbs quotient;
    struct limbs rest;
};

/* Whether it is as it is to be: no zero limb at its great end. */
static inline bool limbs_are_sound(struct limbs a)
{
    return a.count == 0 || a.at[a.count - 1] != 0;
}

/* The same number without zero limbs at its great end. */
struct limbs limbs_trim(const uint64_t *at, size_t count);
struct limbs limbs_from_pair(limb_pair value, uint64_t room[2]);
struct limbs limbs_copy(struct limbs a, uint64_t *room);
size_t limbs_bits(struct limbs a);
int limbs_compare(struct limbs a, struct limbs b);

/* Room for one limb more than the longer operand; it may be an operand's own. */
struct limbs limbs_add(struct limbs a, struct limbs b, uint64_t *room);
/* `a` may not be below `b`. Room as long as `a`; it may be an operand's own. */
struct limbs limbs_subtract(struct limbs a, struct limbs b, uint64_t *room);
/* Room for as many limbs as both have. */
struct limbs limbs_multiply(struct limbs a, struct limbs b, uint64_t *room);
/* Turns the `count` limbs in `room` into room * factor + more; returns the new count. The room has
 * one limb to spare. */
size_t limbs_scale(uint64_t *room, size_t count, uint64_t factor, uint64_t more);

/* `b` may not be zero. The quotient's room is as long as `a`, the rest's one limb longer than the
 * longer of the two. */
struct limbs_quotient limbs_divide(struct limbs a, struct limbs b, uint64_t *quotient_room,
                                   uint64_t *rest_room);
/* Divides the `count` limbs in `room` where they lie and returns the rest. */
uint64_t limbs_divide_word(uint64_t *room, size_t count, uint64_t divisor);
/* The quotient alone, for operands of at most LIMBS_WIDE - 1 limbs. */
struct limbs limbs_divide_exactly(struct limbs a, struct limbs b, uint64_t *room);

/* Greatest common divisors; of zero and a number it is the number. The long one takes operands of
 * at most LIMBS_MOST limbs, and room for the longer of them. */
uint64_t limb_gcd(uint64_t a, uint64_t b);
struct limbs limbs_gcd(struct limbs a, struct limbs b, uint64_t *room);

#endif
