/* The doubles around a number against GMP's rationals, for a million random numbers. Both doubles are
 * made rationals again, so that nothing here is compared in floating point. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <float.h>
#include <gmp.h>
#include <math.h>

#include "number/large.h"
#include "number/number.h"
#include "property/chance.h"

enum { ROUNDS = 170000, WIDTH_BITS = 48, DOUBLE_BITS_MOST = 1024, LONG_BITS_MOST = NUM_BITS_MOST };

static struct memory memory;
static struct num_heap heap;
static unsigned long long numbers, exact_ones, infinite_ones, tiny_ones;
static mpq_t value, bound, width, least_full, most_full, most_double;

static int open_all(void **state)
{
    (void)state;
    memory = memory_standard();
    num_heap_open(&heap, &memory, NUM_BITS_MOST);
    mpq_inits(value, bound, width, least_full, most_full, most_double, NULL);
    mpq_set_d(least_full, DBL_MIN);
    mpq_set_d(most_double, DBL_MAX);
    mpq_div_2exp(most_full, most_double, WIDTH_BITS); /* DBL_MAX less its share of the width */
    mpq_sub(most_full, most_double, most_full);
    return 0;
}

static int close_all(void **state)
{
    (void)state;
    mpq_clears(value, bound, width, least_full, most_full, most_double, NULL);
    num_heap_close(&heap);
    printf("%llu numbers compared: %llu exact, %llu beyond doubles, %llu too small for them\n",
           numbers, exact_ones, infinite_ones, tiny_ones);
    return memory.held == 0 && numbers >= 1000000 ? 0 : -1;
}

/* ---- numbers ---- */

/* The number of `value`, which is brought to lowest terms first. */
static struct num number_of_value(void)
{
    struct num number;
    mpq_canonicalize(value);
    mpz_srcptr top = mpq_numref(value), bottom = mpq_denref(value);
    assert_int_equal(num_keep(&heap, mpz_sgn(top) < 0,
                              (struct limbs){mpz_limbs_read(top), mpz_size(top)},
                              (struct limbs){mpz_limbs_read(bottom), mpz_size(bottom)}, &number),
                     NUM_OK);
    return number;
}

/* A whole number of exactly so many bits: at random, all ones, one bit alone, or the bits of a double
 * with something far below them. */
static void set_bits(mpz_t out, size_t bits)
{
    static const uint64_t ends[] = {0, 1, UINT64_MAX};
    uint64_t words[LONG_BITS_MOST / 64];
    size_t count = (bits + 63) / 64;
    uint64_t pattern = random_below(4);
    for (size_t i = 0; i < count; i++)
        words[i] = pattern == 0 ? random_word() : pattern == 1 ? UINT64_MAX : 0;
    words[0] |= ends[random_below(3)];
    if (pattern == 3)
        words[count - 1] = random_word() & ~UINT64_C(0x7ff);
    unsigned spare = (unsigned)(count * 64 - bits);
    words[count - 1] = (words[count - 1] | UINT64_C(1) << 63) >> spare;
    mpz_import(out, count, -1, sizeof *words, 0, 0, words);
}

static void set_sign(void)
{
    if (random_below(2))
        mpq_neg(value, value);
}

static void set_fraction(size_t top_bits, size_t bottom_bits)
{
    set_bits(mpq_numref(value), top_bits);
    set_bits(mpq_denref(value), bottom_bits);
    set_sign();
}

/* 2^power + more, over one. */
static void set_near_power(unsigned long power, int64_t more)
{
    mpz_set_si(mpq_denref(value), more);
    mpz_set_ui(mpq_numref(value), 1);
    mpz_mul_2exp(mpq_numref(value), mpq_numref(value), power);
    mpz_add(mpq_numref(value), mpq_numref(value), mpq_denref(value));
    mpz_set_ui(mpq_denref(value), 1);
    set_sign();
}

/* ---- what is held ---- */

/* `bound` as a rational; false where it is infinite. */
static bool take_bound(double from)
{
    assert_true(isnan(from) == 0);
    if (isinf(from))
        return false;
    mpq_set_d(bound, from);
    return true;
}

static void fail_with(const char *what, double low, double high)
{
    gmp_printf("of %Qd\n", value);
    fail_msg("number %llu: %s: from %a to %a", numbers, what, low, high);
}

/* Beyond doubles, or so near their end that it may be: the side toward zero is a number. */
static void check_beyond(double low, double high, bool surely)
{
    bool negative = mpq_sgn(value) < 0;
    infinite_ones++;
    if (surely && (negative ? low : high) != (negative ? -INFINITY : INFINITY))
        fail_with("the far side is not infinite", low, high);
    if (isinf(negative ? high : low))
        fail_with("the near side is infinite", low, high);
}

/* The width, and whether the bounds are the value where they are equal. */
static void check_width(double low, double high)
{
    mpq_set_d(width, high);
    mpq_set_d(bound, low);
    mpq_sub(width, width, bound);
    if (mpq_sgn(width) == 0) {
        exact_ones++;
        if (!mpq_equal(bound, value))
            fail_with("the bounds are equal and not the value", low, high);
    }
    mpq_abs(bound, value);
    if (mpq_cmp(bound, least_full) < 0) { /* no double of full length is as small */
        tiny_ones += mpq_sgn(value) != 0;
        mpq_add(bound, least_full, least_full);
        if (mpq_cmp(width, bound) > 0)
            fail_with("too wide for a tiny one", low, high);
        return;
    }
    mpq_div_2exp(bound, bound, WIDTH_BITS);
    if (mpq_cmp(width, bound) > 0)
        fail_with("too wide", low, high);
}

static void check_value(void)
{
    double low, high;
    struct num_mark mark = num_heap_mark(&heap);
    num_bounds(number_of_value(), &low, &high);
    num_heap_rewind(&heap, mark);
    numbers++;
    if (take_bound(low) ? mpq_cmp(bound, value) > 0 : low > 0)
        fail_with("low is above the value", low, high);
    if (take_bound(high) ? mpq_cmp(bound, value) < 0 : high < 0)
        fail_with("high is below the value", low, high);
    if (mpq_sgn(value) > 0 ? low < 0 : high > 0)
        fail_with("the bounds hold both signs", low, high);
    mpq_abs(width, value);
    if (mpq_cmp(width, most_full) > 0)
        check_beyond(low, high, mpq_cmp(width, most_double) > 0);
    else if (isinf(low) || isinf(high))
        fail_with("infinite without need", low, high);
    else
        check_width(low, high);
}

/* ---- the tests ---- */

static void whole_numbers_that_a_double_holds_are_their_own_bounds(void **state)
{
    (void)state;
    for (int64_t i = -1000; i <= 1000; i++) {
        double low, high;
        int64_t near = i < 0 ? i - (INT64_C(1) << 53) + 1001 : i + (INT64_C(1) << 53) - 1001;
        num_bounds(num_whole(i), &low, &high);
        assert_true(low == (double)i && high == (double)i);
        num_bounds(num_whole(near), &low, &high);
        assert_true(low == (double)near && high == (double)near);
    }
}

static void amounts_of_money_and_their_shares_lie_between_their_bounds(void **state)
{
    static const unsigned long bottoms[] = {1, 2, 3, 6, 7, 60, 97, 100, 1000, 3600, 1000000};
    (void)state;
    for (int i = 0; i < ROUNDS; i++) {
        mpz_set_si(mpq_numref(value), (long)random_from(-1000000, 1000000));
        mpz_set_ui(mpq_denref(value), bottoms[random_below(sizeof bottoms / sizeof *bottoms)]);
        if (i % 100 == 0)
            mpz_set_ui(mpq_numref(value), 0);
        check_value();
    }
}

static void numbers_at_the_ends_of_mantissas_and_words_lie_between_their_bounds(void **state)
{
    static const unsigned long powers[] = {24, 32, 52, 53, 54, 62, 63, 64, 65, 127, 128};
    (void)state;
    for (int i = 0; i < ROUNDS; i++) {
        set_near_power(powers[random_below(sizeof powers / sizeof *powers)],
                       random_from(-2049, 2049));
        if (random_below(4) == 0) {
            mpz_set(mpq_denref(value), mpq_numref(value));
            mpz_abs(mpq_denref(value), mpq_denref(value));
            set_bits(mpq_numref(value), 1 + random_below(64));
            set_sign();
        }
        check_value();
    }
}

static void fractions_of_two_words_lie_between_their_bounds(void **state)
{
    (void)state;
    for (int i = 0; i < 2 * ROUNDS; i++) {
        set_fraction(1 + random_below(63), 1 + random_below(63));
        check_value();
    }
}

static void numbers_of_hundreds_of_bits_lie_between_their_bounds(void **state)
{
    (void)state;
    for (int i = 0; i < ROUNDS; i++) {
        set_fraction(1 + random_below(600), 1 + random_below(600));
        check_value();
    }
}

static void numbers_of_thousands_of_bits_lie_between_their_bounds(void **state)
{
    (void)state;
    for (int i = 0; i < ROUNDS / 10; i++) {
        size_t bits = 1 + random_below(LONG_BITS_MOST);
        size_t other = 1 + random_below(LONG_BITS_MOST);
        if (random_below(2)) /* of a size that doubles have */
            other = bits > 500 ? bits - random_below(500) : bits;
        set_fraction(bits, other);
        check_value();
    }
}

static void tiny_fractions_lie_between_their_bounds(void **state)
{
    (void)state;
    for (int i = 0; i < ROUNDS / 2; i++) {
        size_t bits = 1 + random_below(64);
        set_fraction(bits, bits + random_below(1200));
        check_value();
    }
}

static void numbers_at_the_ends_of_doubles_lie_between_their_bounds(void **state)
{
    (void)state;
    for (int i = 0; i < ROUNDS / 2; i++) {
        set_fraction(DOUBLE_BITS_MOST - random_below(3) + random_below(3), 1 + random_below(2));
        if (random_below(2))
            mpz_swap(mpq_numref(value), mpq_denref(value));
        if (random_below(4) == 0) { /* the last double itself, and its neighbours */
            mpz_set_d(mpq_numref(value), DBL_MAX);
            mpz_set_ui(mpq_denref(value), 1);
            mpz_add_ui(mpq_numref(value), mpq_numref(value), random_below(3));
            set_sign();
        }
        check_value();
    }
}

static void a_number_beyond_doubles_is_infinite_on_its_own_side(void **state)
{
    (void)state;
    for (unsigned long power = DOUBLE_BITS_MOST + 1; power < LONG_BITS_MOST; power += 7) {
        set_near_power(power, random_from(-1, 1));
        check_value();
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_numbers_that_a_double_holds_are_their_own_bounds),
        cmocka_unit_test(amounts_of_money_and_their_shares_lie_between_their_bounds),
        cmocka_unit_test(numbers_at_the_ends_of_mantissas_and_words_lie_between_their_bounds),
        cmocka_unit_test(fractions_of_two_words_lie_between_their_bounds),
        cmocka_unit_test(numbers_of_hundreds_of_bits_lie_between_their_bounds),
        cmocka_unit_test(numbers_of_thousands_of_bits_lie_between_their_bounds),
        cmocka_unit_test(tiny_fractions_lie_between_their_bounds),
        cmocka_unit_test(numbers_at_the_ends_of_doubles_lie_between_their_bounds),
        cmocka_unit_test(a_number_beyond_doubles_is_infinite_on_its_own_side),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("bounds of numbers", tests, open_all, close_all);
}
