/* Large numbers: how they lie in a heap, and the arithmetic that small ones fall back on. Private
 * to the number room. */
#ifndef GROAT_NUMBER_LARGE_H
#define GROAT_NUMBER_LARGE_H

#include "number/limbs.h"
#include "number/number.h"

/* A number of which the numerator or the denominator is no int64_t. Never zero. */
struct num_big {
    uint32_t top_count;
    uint32_t bottom_count;
    uint32_t negative;
    uint32_t unused;  /* keeps the limbs on their boundary and is always zero */
    uint64_t limbs[]; /* the numerator's, then the denominator's */
};

/* Any number as limbs. It points into itself when the number is small: not to be copied. */
struct num_parts {
    struct limbs top, bottom;
    bool negative;
    uint64_t words[2];
};

void num_take_apart(struct num number, struct num_parts *parts);

/* Makes a number of a sign and two whole numbers in lowest terms: small when it fits, else in the
 * heap. NUM_TOO_LARGE and NUM_NO_MEMORY come from here only. */
enum num_status num_keep(struct num_heap *heap, bool negative, struct limbs top,
                         struct limbs bottom, struct num *out);
enum num_status num_keep_pair(struct num_heap *heap, bool negative, limb_pair top, limb_pair bottom,
                              struct num *out);

enum num_status num_large_add(struct num_heap *heap, const struct num_parts *a,
                              const struct num_parts *b, struct num *out);
enum num_status num_large_multiply(struct num_heap *heap, const struct num_parts *a,
                                   const struct num_parts *b, struct num *out);
enum num_status num_large_round(struct num_heap *heap, const struct num_parts *a,
                                const struct num_parts *step, enum num_rounding rounding,
                                struct num *out);
int num_large_compare(const struct num_parts *a, const struct num_parts *b);
/* What a comparison costs, in steps of small numbers. */
size_t num_large_compare_effort(const struct num_parts *a, const struct num_parts *b);

/* Whether the quotient toward zero gives way to the next one away from zero. `half` compares twice
 * the rest with the divisor. */
bool num_rounds_away(enum num_rounding rounding, bool negative, bool exact, int half, bool odd);

#endif
