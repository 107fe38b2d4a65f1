/* Large numbers: how they are stored in a heap, and the arithmetic used when small numbers do not
 * suffice. Private to the number room. */
#ifndef GROAT_NUMBER_LARGE_H
#define GROAT_NUMBER_LARGE_H

#include "number/limbs.h"
#include "number/number.h"

/* A number whose numerator or denominator does not fit an int64_t. Never zero. */
struct num_big {
    uint32_t top_count;
    uint32_t bottom_count;
    uint32_t negative;
    uint32_t unused;  /* aligns the limbs; always zero */
    uint64_t limbs[]; /* the numerator's, then the denominator's */
};

/* Any number as limbs. Must not be copied, because it points into itself when the number is
 * small. */
struct num_parts {
    struct limbs top, bottom;
    bool negative;
    uint64_t words[2];
};

void num_take_apart(struct num number, struct num_parts *parts);

/* Makes a number from a sign and two whole numbers in lowest terms: a small number if they fit,
 * otherwise a large one in the heap. NUM_TOO_LARGE and NUM_NO_MEMORY come only from here. */
enum num_status num_keep(struct num_heap *heap, bool negative, struct limbs top,
                         struct limbs bottom, struct num *out);
enum num_status num_keep_pair(struct num_heap *heap, bool negative, limb_pair top, limb_pair bottom,
                              struct num *out);

/* The sum, or the difference if `subtracts`. */
enum num_status num_large_add(struct num_heap *heap, struct num left, struct num right,
                              bool subtracts, struct num *out);
/* The product, or the quotient if `divides`; `right` may then not be zero. */
enum num_status num_large_multiply(struct num_heap *heap, struct num left, struct num right,
                                   bool divides, struct num *out);
enum num_status num_large_round(struct num_heap *heap, struct num number, struct num multiple_of,
                                enum num_rounding rounding, struct num *out);
/* Adds the cost, in steps on small numbers, to `*effort`. */
int num_large_compare(struct num left, struct num right, size_t *effort);

/* Whether a quotient that was cut off toward zero must be rounded away from zero. `half` is the
 * result of comparing twice the remainder with the divisor. */
bool num_rounds_away(enum num_rounding rounding, bool negative, bool exact, int half, bool odd);

#endif
