/* Random numbers, each beside the same value as GMP's rational, and what GMP expects of a result. What
 * GMP says is compared limb by limb, so that a right value in the wrong form is found too. */
#ifndef PROPERTY_OPERANDS_H
#define PROPERTY_OPERANDS_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "number/large.h"
#include "number/number.h"
#include "property/chance.h"

enum { OPERANDS = 4096, TEXT_MOST = 4096 };

struct operand {
    mpq_t exact;
    struct num number;
};

static uint64_t operations; /* that were compared */
static struct memory memory;
static struct num_heap pool_heap;
static struct operand pool[OPERANDS];

static inline void set_word(mpz_t out, uint64_t word)
{
    mpz_import(out, 1, -1, sizeof word, 0, 0, &word);
}

/* Where carries, borrows and the change from small to large happen. */
static inline uint64_t word_near_edge(void)
{
    static const uint64_t edges[] = {UINT64_C(1) << 31, UINT64_C(1) << 32, UINT64_C(1) << 62,
                                     UINT64_C(1) << 63, UINT64_MAX,        INT64_MAX};
    uint64_t edge = edges[random_below(sizeof edges / sizeof *edges)];
    return edge + random_below(7) - 3;
}

static inline uint64_t word_of_pattern(void)
{
    switch (random_below(5)) {
    case 0: return 0;
    case 1: return UINT64_MAX;
    case 2: return word_near_edge();
    default: return random_word();
    }
}

static inline void set_limbs(mpz_t out, size_t most)
{
    uint64_t words[16];
    size_t count = 1 + random_below(most);
    for (size_t i = 0; i < count; i++)
        words[i] = word_of_pattern();
    words[count - 1] >>= random_below(64);
    mpz_import(out, count, -1, sizeof *words, 0, 0, words);
}

static inline void set_magnitude(mpz_t out)
{
    static const uint64_t money[] = {1,   1,    1,     2,       3,    5,  10,   20,    100,
                                     100, 1000, 10000, 1000000, 3600, 48, 4500, 16875, 50625};
    switch (random_below(6)) {
    case 0: set_word(out, random_below(12)); break;
    case 1: set_word(out, money[random_below(sizeof money / sizeof *money)]); break;
    case 2: set_word(out, random_word() >> random_below(64)); break;
    case 3: set_word(out, word_near_edge()); break;
    case 4: set_limbs(out, 3); break;
    default: set_limbs(out, 12); break;
    }
}

static inline void set_rational(mpq_t out)
{
    set_magnitude(mpq_numref(out));
    do
        set_magnitude(mpq_denref(out));
    while (mpz_sgn(mpq_denref(out)) == 0);
    if (random_below(2) == 0)
        mpz_neg(mpq_numref(out), mpq_numref(out));
    mpq_canonicalize(out);
}

static inline struct num number_from(struct num_heap *heap, const mpq_t exact)
{
    char text[TEXT_MOST];
    struct num top;
    struct num bottom;
    struct num number;
    mpz_t magnitude;
    mpz_init(magnitude);
    mpz_abs(magnitude, mpq_numref(exact));
    mpz_get_str(text, 10, magnitude);
    assert_int_equal(num_read_decimal(heap, text, strlen(text), &top), NUM_OK);
    mpz_get_str(text, 10, mpq_denref(exact));
    assert_int_equal(num_read_decimal(heap, text, strlen(text), &bottom), NUM_OK);
    assert_int_equal(num_divide(heap, top, bottom, &number), NUM_OK);
    if (mpq_sgn(exact) < 0)
        assert_int_equal(num_negate(heap, number, &number), NUM_OK);
    mpz_clear(magnitude);
    return number;
}

static inline const struct operand *any_operand(void)
{
    return &pool[random_below(OPERANDS)];
}

/* ---- what GMP expects ---- */

static inline bool same_limbs(struct limbs limbs, const mpz_t exact)
{
    return limbs.count == mpz_size(exact) &&
           memcmp(limbs.at, mpz_limbs_read(exact), limbs.count * sizeof *limbs.at) == 0;
}

static inline bool fits_small(const mpq_t exact)
{
    return mpz_sizeinbase(mpq_numref(exact), 2) < 64 && mpz_sizeinbase(mpq_denref(exact), 2) < 64;
}

/* Equal in value and in form. */
static inline bool same_number(struct num number, const mpq_t exact)
{
    struct num_parts parts;
    if ((number.bottom != 0) != fits_small(exact) || num_sign(number) != mpq_sgn(exact))
        return false;
    num_take_apart(number, &parts);
    return same_limbs(parts.top, mpq_numref(exact)) && same_limbs(parts.bottom, mpq_denref(exact));
}

static inline bool within_limit(const struct num_heap *heap, const mpq_t exact)
{
    return fits_small(exact) || (mpz_sizeinbase(mpq_numref(exact), 2) <= heap->limit_bits &&
                                 mpz_sizeinbase(mpq_denref(exact), 2) <= heap->limit_bits);
}

static inline void expect_number(const struct num_heap *heap, enum num_status status,
                                 struct num number, const mpq_t exact, const char *operation)
{
    operations++;
    if (!within_limit(heap, exact)) {
        if (status != NUM_TOO_LARGE)
            fail_msg("%s, operation %llu: status %d for a result past the limit", operation,
                     (unsigned long long)operations, (int)status);
    } else if (status != NUM_OK || !same_number(number, exact)) {
        gmp_printf("expected %Qd\n", exact);
        fail_msg("%s, operation %llu: status %d or another number", operation,
                 (unsigned long long)operations, (int)status);
    }
}

static inline int make_operands(void **state)
{
    (void)state;
    memory = memory_standard();
    num_heap_open(&pool_heap, &memory, NUM_BITS_MOST);
    for (size_t i = 0; i < OPERANDS; i++) {
        mpq_init(pool[i].exact);
        set_rational(pool[i].exact);
        pool[i].number = number_from(&pool_heap, pool[i].exact);
        if (!same_number(pool[i].number, pool[i].exact))
            return -1;
    }
    return 0;
}

static inline int drop_operands(void **state)
{
    (void)state;
    for (size_t i = 0; i < OPERANDS; i++)
        mpq_clear(pool[i].exact);
    num_heap_close(&pool_heap);
    printf("%llu operations compared\n", (unsigned long long)operations);
    return memory.held == 0 ? 0 : -1;
}

#endif
