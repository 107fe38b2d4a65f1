/* Unsigned whole numbers of any length, as runs of 64-bit limbs. Private to the number room.
 *
 * Nothing here allocates: results are written to room that the caller provides, and the returned
 * `limbs` points there. Unless a comment says otherwise, the room may not overlap an operand. */
#ifndef GROAT_NUMBER_LIMBS_H
#define GROAT_NUMBER_LIMBS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "number/number.h"

/* Two limbs in one, for products and for dividends of a division by one limb. */
__extension__ typedef unsigned __int128 limb_pair;

enum {
    LIMB_BITS = 64,
    LIMBS_MOST = NUM_BITS_MOST / LIMB_BITS,
    /* Enough for a sum of two products and one more limb that division shifts into. */
    LIMBS_WIDE = 2 * LIMBS_MOST + 4
};

/* A whole number, not owned: least limb first, the last limb is never zero; zero has no limbs. */
struct limbs {
    const uint64_t *at;
    size_t count;
};

struct limbs_quotient {
    struct limbs quotient;
    struct limbs rest;
};

/* Whether the number has no zero limb at its most significant end, as it must be. */
static inline bool limbs_are_sound(struct limbs a)
{
    return a.count == 0 || a.at[a.count - 1] != 0;
}

/* The same number without zero limbs at its most significant end. */
struct limbs limbs_trim(const uint64_t *at, size_t count);
struct limbs limbs_copy(struct limbs a, uint64_t *room);
/* The number may not be zero. */
size_t limbs_bits(struct limbs a);
int limbs_compare(struct limbs a, struct limbs b);

/* The room must hold one limb more than the longer operand. It may be an operand's own. */
struct limbs limbs_add(struct limbs a, struct limbs b, uint64_t *room);
/* `a` may not be below `b`. The room must be as long as `a`. It may be an operand's own. */
struct limbs limbs_subtract(struct limbs a, struct limbs b, uint64_t *room);
/* The room must hold as many limbs as both operands together. */
struct limbs limbs_multiply(struct limbs a, struct limbs b, uint64_t *room);
/* Replaces the `count` limbs in `room` by room * factor + more and returns the new count. The room
 * must have one more limb to spare. */
size_t limbs_scale(uint64_t *room, size_t count, uint64_t factor, uint64_t more);

/* `b` may not be zero. The quotient's room must be as long as `a`, the rest's room one limb longer
 * than the longer operand. */
struct limbs_quotient limbs_divide(struct limbs a, struct limbs b, uint64_t *quotient_room,
                                   uint64_t *rest_room);
/* Divides the `count` limbs in `room` in place and returns the rest. */
uint64_t limbs_divide_word(uint64_t *room, size_t count, uint64_t divisor);
/* The quotient only, for operands of at most LIMBS_WIDE - 1 limbs. */
struct limbs limbs_divide_exactly(struct limbs a, struct limbs b, uint64_t *room);

/* The greatest common divisor; for zero and a number it is the number. The operands have at most
 * LIMBS_MOST limbs, and the room as many as the longer one. */
struct limbs limbs_gcd(struct limbs a, struct limbs b, uint64_t *room);

#endif
