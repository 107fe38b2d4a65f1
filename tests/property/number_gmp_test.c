/* Every operation on numbers against GMP's rationals, on random operands.
 *
 * What GMP says is compared limb by limb, so that a right value in the wrong form is found too.
 * The seed is printed; another one is given as the first argument. */
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

enum {
    OPERANDS = 4096,
    ARITHMETIC_ROUNDS = 1000000,
    COMPARE_ROUNDS = 300000,
    ROUND_ROUNDS = 400000,
    TREES = 20000,
    TREE_DEPTH = 6,
    TEXT_ROUNDS = 100000,
    TEXT_MOST = 4096
};

static uint64_t seed = 20240607;
static uint64_t operations;

/* splitmix64 (Steele, Lea and Flood, 2014). */
static uint64_t random_word(void)
{
    seed += UINT64_C(0x9e3779b97f4a7c15);
    uint64_t z = seed;
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

static uint64_t random_below(uint64_t end)
{
    return random_word() % end;
}

/* ---- operands ---- */

struct operand {
    mpq_t exact;
    struct num number;
};

static struct memory memory;
static struct num_heap pool_heap;
static struct operand pool[OPERANDS];

static void set_word(mpz_t out, uint64_t word)
{
    mpz_import(out, 1, -1, sizeof word, 0, 0, &word);
}

/* Where carries, borrows and the change from small to large happen. */
static uint64_t word_near_edge(void)
{
    static const uint64_t edges[] = {UINT64_C(1) << 31, UINT64_C(1) << 32, UINT64_C(1) << 62,
                                     UINT64_C(1) << 63, UINT64_MAX,        INT64_MAX};
    uint64_t edge = edges[random_below(sizeof edges / sizeof *edges)];
    return edge + random_below(7) - 3;
}

static uint64_t word_of_pattern(void)
{
    switch (random_below(5)) {
    case 0: return 0;
    case 1: return UINT64_MAX;
    case 2: return word_near_edge();
    default: return random_word();
    }
}

static void set_limbs(mpz_t out, size_t most)
{
    uint64_t words[16];
    size_t count = 1 + random_below(most);
    for (size_t i = 0; i < count; i++)
        words[i] = word_of_pattern();
    words[count - 1] >>= random_below(64);
    mpz_import(out, count, -1, sizeof *words, 0, 0, words);
}

static void set_magnitude(mpz_t out)
{
    static const uint64_t money[] = {1, 1, 1, 2, 3, 5, 10, 20, 100, 100, 1000, 10000, 1000000};
    switch (random_below(6)) {
    case 0: set_word(out, random_below(12)); break;
    case 1: set_word(out, money[random_below(sizeof money / sizeof *money)]); break;
    case 2: set_word(out, random_word() >> random_below(64)); break;
    case 3: set_word(out, word_near_edge()); break;
    case 4: set_limbs(out, 3); break;
    default: set_limbs(out, 12); break;
    }
}

static void set_rational(mpq_t out)
{
    set_magnitude(mpq_numref(out));
    do
        set_magnitude(mpq_denref(out));
    while (mpz_sgn(mpq_denref(out)) == 0);
    if (random_below(2) == 0)
        mpz_neg(mpq_numref(out), mpq_numref(out));
    mpq_canonicalize(out);
}

static struct num number_from(struct num_heap *heap, const mpq_t exact)
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

static const struct operand *any_operand(void)
{
    return &pool[random_below(OPERANDS)];
}

/* ---- what GMP expects ---- */

static bool same_limbs(struct limbs limbs, const mpz_t exact)
{
    return limbs.count == mpz_size(exact) &&
           memcmp(limbs.at, mpz_limbs_read(exact), limbs.count * sizeof *limbs.at) == 0;
}

static bool fits_small(const mpq_t exact)
{
    return mpz_sizeinbase(mpq_numref(exact), 2) < 64 && mpz_sizeinbase(mpq_denref(exact), 2) < 64;
}

/* Equal in value and in form. */
static bool same_number(struct num number, const mpq_t exact)
{
    struct num_parts parts;
    if ((number.bottom != 0) != fits_small(exact) || num_sign(number) != mpq_sgn(exact))
        return false;
    num_take_apart(number, &parts);
    return same_limbs(parts.top, mpq_numref(exact)) && same_limbs(parts.bottom, mpq_denref(exact));
}

static bool within_limit(const struct num_heap *heap, const mpq_t exact)
{
    return fits_small(exact) || (mpz_sizeinbase(mpq_numref(exact), 2) <= heap->limit_bits &&
                                 mpz_sizeinbase(mpq_denref(exact), 2) <= heap->limit_bits);
}

static void expect_number(const struct num_heap *heap, enum num_status status, struct num number,
                          const mpq_t exact, const char *operation)
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

typedef enum num_status (*operation_call)(struct num_heap *heap, struct num a, struct num b,
                                          struct num *out);
typedef void (*exact_call)(mpq_t out, const mpq_t a, const mpq_t b);

static void exact_add(mpq_t out, const mpq_t a, const mpq_t b)
{
    mpq_add(out, a, b);
}

static void exact_subtract(mpq_t out, const mpq_t a, const mpq_t b)
{
    mpq_sub(out, a, b);
}

static void exact_multiply(mpq_t out, const mpq_t a, const mpq_t b)
{
    mpq_mul(out, a, b);
}

static void exact_divide(mpq_t out, const mpq_t a, const mpq_t b)
{
    mpq_div(out, a, b);
}

static const struct {
    const char *name;
    operation_call call;
    exact_call exact;
} operation_table[] = {{"add", num_add, exact_add},
                       {"subtract", num_subtract, exact_subtract},
                       {"multiply", num_multiply, exact_multiply},
                       {"divide", num_divide, exact_divide}};

enum { OPERATIONS = 4, DIVIDE = 3 };

/* One operation on both sides; the status, which GMP has confirmed. */
static enum num_status operate(struct num_heap *heap, size_t which, const struct operand *a,
                               const struct operand *b, struct operand *out)
{
    enum num_status status = operation_table[which].call(heap, a->number, b->number, &out->number);
    if (which == DIVIDE && mpq_sgn(b->exact) == 0) {
        operations++;
        assert_int_equal(status, NUM_DIVIDED_BY_ZERO);
        return status;
    }
    operation_table[which].exact(out->exact, a->exact, b->exact);
    expect_number(heap, status, out->number, out->exact, operation_table[which].name);
    return status;
}

/* ---- the tests ---- */

static void sums_differences_products_and_quotients_equal_those_of_gmp(void **state)
{
    static const size_t limits[] = {63, 64, 128, 320, 1024, NUM_BITS_MOST};
    enum { LIMITS = sizeof limits / sizeof *limits };
    struct num_heap heaps[LIMITS];
    struct operand result;
    (void)state;
    mpq_init(result.exact);
    for (size_t i = 0; i < LIMITS; i++)
        num_heap_open(&heaps[i], &memory, limits[i]);
    for (int i = 0; i < ARITHMETIC_ROUNDS; i++) {
        struct num_heap *heap = &heaps[random_below(2) ? LIMITS - 1 : random_below(LIMITS)];
        struct num_mark mark = num_heap_mark(heap);
        operate(heap, random_below(OPERATIONS), any_operand(), any_operand(), &result);
        num_heap_rewind(heap, mark);
    }
    for (size_t i = 0; i < LIMITS; i++)
        num_heap_close(&heaps[i]);
    mpq_clear(result.exact);
}

static void adding_and_taking_away_again_gives_the_same_fields(void **state)
{
    struct num_heap heap;
    (void)state;
    num_heap_open(&heap, &memory, NUM_BITS_MOST);
    for (int i = 0; i < ARITHMETIC_ROUNDS / 10; i++) {
        const struct operand *a = any_operand();
        const struct operand *b = any_operand();
        struct num_mark mark = num_heap_mark(&heap);
        struct num number;
        assert_int_equal(num_add(&heap, a->number, b->number, &number), NUM_OK);
        assert_int_equal(num_subtract(&heap, number, b->number, &number), NUM_OK);
        operations += 2;
        assert_true(same_number(number, a->exact));
        assert_true(num_equal(number, a->number));
        num_heap_rewind(&heap, mark);
    }
    num_heap_close(&heap);
}

static void comparisons_order_as_gmp_does(void **state)
{
    (void)state;
    for (int i = 0; i < COMPARE_ROUNDS; i++) {
        const struct operand *a = any_operand();
        const struct operand *b = random_below(16) ? any_operand() : a;
        int expected = mpq_cmp(a->exact, b->exact);
        int order = num_compare(a->number, b->number);
        operations++;
        if ((order > 0) != (expected > 0) || (order < 0) != (expected < 0))
            fail_msg("comparison %d: %d where GMP says %d", i, order, expected);
        if (num_equal(a->number, b->number) != (expected == 0))
            fail_msg("comparison %d: equal or not, unlike GMP", i);
    }
}

static void halve(mpq_t q)
{
    mpq_div_2exp(q, q, 1);
}

/* The definition of each rounding, by floors and ceilings of the exact quotient. */
static void exact_round(mpq_t out, const mpq_t a, const mpq_t step, enum num_rounding rounding)
{
    mpq_t steps;
    mpq_t half;
    mpz_t whole;
    mpq_inits(steps, half, NULL);
    mpz_init(whole);
    mpq_set_ui(half, 1, 1);
    halve(half);
    mpq_div(steps, a, step);
    if (rounding == NUM_DOWN) {
        mpz_fdiv_q(whole, mpq_numref(steps), mpq_denref(steps));
    } else if (rounding == NUM_UP) {
        mpz_cdiv_q(whole, mpq_numref(steps), mpq_denref(steps));
    } else if (rounding == NUM_NEAREST) {
        if (mpq_sgn(steps) < 0)
            mpq_neg(half, half);
        mpq_add(steps, steps, half);
        mpz_tdiv_q(whole, mpq_numref(steps), mpq_denref(steps));
    } else {
        mpq_add(steps, steps, half);
        mpz_fdiv_q(whole, mpq_numref(steps), mpq_denref(steps));
        if (mpz_cmp_ui(mpq_denref(steps), 1) == 0 && mpz_odd_p(whole))
            mpz_sub_ui(whole, whole, 1);
    }
    mpq_set_z(steps, whole);
    mpq_mul(out, steps, step);
    mpq_clears(steps, half, NULL);
    mpz_clear(whole);
}

/* Puts about a third of the operands on or right beside half a step, where roundings differ. */
static void choose_near_step(struct num_heap *heap, const struct operand *step, struct operand *a)
{
    mpq_t count;
    mpq_init(count);
    mpz_set_si(mpq_numref(count), (long)random_below(2001) - 1000);
    halve(count);
    mpq_mul(a->exact, count, step->exact);
    mpq_clear(count);
    a->number = number_from(heap, a->exact);
}

static void rounding_to_multiples_equals_its_definition_in_gmp(void **state)
{
    struct num_heap heap;
    struct operand a;
    mpq_t expected;
    (void)state;
    num_heap_open(&heap, &memory, 1024);
    mpq_inits(a.exact, expected, NULL);
    for (int i = 0; i < ROUND_ROUNDS; i++) {
        const struct operand *step = any_operand();
        struct num_mark mark = num_heap_mark(&heap);
        enum num_rounding rounding = (enum num_rounding)random_below(4);
        struct num number;
        if (mpq_sgn(step->exact) > 0 && random_below(3) == 0) {
            choose_near_step(&heap, step, &a);
        } else {
            const struct operand *other = any_operand();
            mpq_set(a.exact, other->exact);
            a.number = other->number;
        }
        enum num_status status = num_round_to(&heap, a.number, step->number, rounding, &number);
        if (mpq_sgn(step->exact) <= 0) {
            operations++;
            assert_int_equal(status, NUM_DIVIDED_BY_ZERO);
        } else {
            exact_round(expected, a.exact, step->exact, rounding);
            expect_number(&heap, status, number, expected, "round");
        }
        num_heap_rewind(&heap, mark);
    }
    mpq_clears(a.exact, expected, NULL);
    num_heap_close(&heap);
}

static void rounding_to_whole_numbers_equals_its_definition_in_gmp(void **state)
{
    struct num_heap heap;
    mpq_t one;
    mpq_t expected;
    (void)state;
    num_heap_open(&heap, &memory, NUM_BITS_MOST);
    mpq_inits(one, expected, NULL);
    mpq_set_ui(one, 1, 1);
    for (int i = 0; i < ROUND_ROUNDS / 4; i++) {
        const struct operand *a = any_operand();
        struct num_mark mark = num_heap_mark(&heap);
        enum num_rounding rounding = (enum num_rounding)random_below(4);
        struct num number;
        enum num_status status = num_round(&heap, a->number, rounding, &number);
        exact_round(expected, a->exact, one, rounding);
        expect_number(&heap, status, number, expected, "round to whole");
        assert_true(num_is_whole(number));
        num_heap_rewind(&heap, mark);
    }
    mpq_clears(one, expected, NULL);
    num_heap_close(&heap);
}

/* A random expression: where GMP says that a result is too large or divides by zero, an operand
 * stands for it, so that the tree goes on. */
static void grow_tree(struct num_heap *heap, unsigned depth, struct operand *out)
{
    const struct operand *leaf = any_operand();
    mpq_set(out->exact, leaf->exact);
    out->number = leaf->number;
    if (depth == 0 || random_below(12) == 0)
        return;
    struct operand left;
    struct operand right;
    mpq_inits(left.exact, right.exact, NULL);
    grow_tree(heap, depth - 1, &left);
    grow_tree(heap, depth - 1, &right);
    struct num kept = out->number;
    if (operate(heap, random_below(OPERATIONS), &left, &right, out) != NUM_OK) {
        assert_memory_equal(&kept, &out->number, sizeof kept);
        mpq_set(out->exact, leaf->exact);
    }
    mpq_clears(left.exact, right.exact, NULL);
}

static void expression_trees_of_growing_numbers_equal_those_of_gmp(void **state)
{
    struct num_heap heap;
    struct operand root;
    size_t longest = 0;
    (void)state;
    num_heap_open(&heap, &memory, NUM_BITS_MOST);
    mpq_init(root.exact);
    for (int i = 0; i < TREES; i++) {
        struct num_mark mark = num_heap_mark(&heap);
        grow_tree(&heap, (unsigned)random_below(TREE_DEPTH + 1), &root);
        size_t bits = mpz_sizeinbase(mpq_denref(root.exact), 2);
        longest = bits > longest ? bits : longest;
        num_heap_rewind(&heap, mark);
    }
    assert_true(longest > NUM_BITS_MOST / 2);
    mpq_clear(root.exact);
    num_heap_close(&heap);
}

/* The text of a value to some places, ties away from zero, from GMP alone. */
static void exact_text(const mpq_t exact, unsigned places, bool drop_zeros, char *text)
{
    char digits[TEXT_MOST];
    mpz_t scaled;
    mpz_t bottom;
    mpz_inits(scaled, bottom, NULL);
    mpz_ui_pow_ui(scaled, 10, places);
    mpz_mul(scaled, scaled, mpq_numref(exact));
    mpz_abs(scaled, scaled);
    mpz_mul_ui(scaled, scaled, 2);
    mpz_add(scaled, scaled, mpq_denref(exact));
    mpz_mul_ui(bottom, mpq_denref(exact), 2);
    mpz_fdiv_q(scaled, scaled, bottom);
    const char *sign = mpq_sgn(exact) < 0 && mpz_sgn(scaled) != 0 ? "-" : "";
    mpz_get_str(digits, 10, scaled);
    size_t length = strlen(digits);
    size_t zeros = length <= places ? places + 1 - length : 0;
    memmove(digits + zeros, digits, length + 1);
    memset(digits, '0', zeros);
    size_t whole = length + zeros - places;
    snprintf(text, TEXT_MOST, "%s%.*s%s%s", sign, (int)whole, digits, places > 0 ? "." : "",
             digits + whole);
    size_t end = strlen(text);
    while (drop_zeros && places > 0 && text[end - 1] == '0')
        text[--end] = 0;
    if (drop_zeros && text[end - 1] == '.')
        text[end - 1] = 0;
    mpz_clears(scaled, bottom, NULL);
}

static void written_decimals_equal_text_made_by_gmp(void **state)
{
    char expected[TEXT_MOST];
    char text[TEXT_MOST];
    (void)state;
    for (int i = 0; i < TEXT_ROUNDS; i++) {
        const struct operand *a = any_operand();
        unsigned places = (unsigned)random_below(61);
        exact_text(a->exact, places, false, expected);
        assert_int_equal(num_write_places(a->number, places, text, sizeof text), strlen(expected));
        assert_string_equal(text, expected);
        exact_text(a->exact, places, true, expected);
        assert_int_equal(num_write_short(a->number, places, text, sizeof text), strlen(expected));
        assert_string_equal(text, expected);
        operations += 2;
    }
}

static void written_numerators_and_denominators_equal_those_of_gmp(void **state)
{
    char expected[TEXT_MOST];
    char text[TEXT_MOST];
    (void)state;
    for (size_t i = 0; i < OPERANDS; i++) {
        mpz_get_str(expected, 10, mpq_numref(pool[i].exact));
        assert_int_equal(num_write_top(pool[i].number, text, sizeof text), strlen(expected));
        assert_string_equal(text, expected);
        mpz_get_str(expected, 10, mpq_denref(pool[i].exact));
        assert_int_equal(num_write_bottom(pool[i].number, text, sizeof text), strlen(expected));
        assert_string_equal(text, expected);
    }
}

/* A decimal with underscores and needless zeros in `text`, its value in `exact`. */
static void random_decimal(char *text, mpq_t exact)
{
    char digits[TEXT_MOST];
    size_t most = random_below(4) == 0 ? 120 : 22;
    size_t whole = random_below(most);
    size_t places = random_below(3) == 0 ? 0 : random_below(most);
    size_t length = 0;
    if (whole + places == 0)
        whole = 1;
    for (size_t i = 0; i < whole + places; i++) {
        digits[i] = (char)('0' + (random_below(3) == 0 ? 0 : random_below(10)));
        if (i == whole)
            text[length++] = '.';
        else if (i > 0 && random_below(8) == 0)
            text[length++] = '_';
        text[length++] = digits[i];
    }
    digits[whole + places] = 0;
    text[length] = 0;
    mpz_set_str(mpq_numref(exact), digits, 10);
    mpz_ui_pow_ui(mpq_denref(exact), 10, places);
    mpq_canonicalize(exact);
}

static void read_decimals_equal_the_fractions_gmp_makes_of_their_digits(void **state)
{
    struct num_heap heap;
    char text[TEXT_MOST];
    mpq_t exact;
    (void)state;
    num_heap_open(&heap, &memory, 256);
    mpq_init(exact);
    for (int i = 0; i < TEXT_ROUNDS; i++) {
        struct num_mark mark = num_heap_mark(&heap);
        struct num number;
        random_decimal(text, exact);
        enum num_status status = num_read_decimal(&heap, text, strlen(text), &number);
        expect_number(&heap, status, number, exact, text);
        num_heap_rewind(&heap, mark);
    }
    mpq_clear(exact);
    num_heap_close(&heap);
}

static void limb_divisors_and_quotients_equal_those_of_gmp(void **state)
{
    uint64_t quotient_room[LIMBS_WIDE];
    uint64_t rest_room[LIMBS_WIDE];
    uint64_t common_room[LIMBS_WIDE];
    mpz_t a;
    mpz_t b;
    mpz_t expected;
    mpz_t rest;
    (void)state;
    mpz_inits(a, b, expected, rest, NULL);
    for (int i = 0; i < TEXT_ROUNDS; i++) {
        set_limbs(a, 16);
        set_limbs(b, 16);
        struct limbs a_limbs = {mpz_limbs_read(a), mpz_size(a)};
        struct limbs b_limbs = {mpz_limbs_read(b), mpz_size(b)};
        mpz_gcd(expected, a, b);
        assert_true(same_limbs(limbs_gcd(a_limbs, b_limbs, common_room), expected));
        operations++;
        if (mpz_sgn(b) == 0)
            continue;
        struct limbs_quotient q = limbs_divide(a_limbs, b_limbs, quotient_room, rest_room);
        mpz_fdiv_qr(expected, rest, a, b);
        assert_true(same_limbs(q.quotient, expected));
        assert_true(same_limbs(q.rest, rest));
        operations++;
    }
    mpz_clears(a, b, expected, rest, NULL);
}

static int make_operands(void **state)
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

static int drop_operands(void **state)
{
    (void)state;
    for (size_t i = 0; i < OPERANDS; i++)
        mpq_clear(pool[i].exact);
    num_heap_close(&pool_heap);
    printf("%llu operations compared\n", (unsigned long long)operations);
    return memory.held == 0 && operations >= 1000000 ? 0 : -1;
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sums_differences_products_and_quotients_equal_those_of_gmp),
        cmocka_unit_test(adding_and_taking_away_again_gives_the_same_fields),
        cmocka_unit_test(comparisons_order_as_gmp_does),
        cmocka_unit_test(rounding_to_multiples_equals_its_definition_in_gmp),
        cmocka_unit_test(rounding_to_whole_numbers_equals_its_definition_in_gmp),
        cmocka_unit_test(expression_trees_of_growing_numbers_equal_those_of_gmp),
        cmocka_unit_test(written_decimals_equal_text_made_by_gmp),
        cmocka_unit_test(written_numerators_and_denominators_equal_those_of_gmp),
        cmocka_unit_test(read_decimals_equal_the_fractions_gmp_makes_of_their_digits),
        cmocka_unit_test(limb_divisors_and_quotients_equal_those_of_gmp),
    };
    if (argc > 1)
        seed = strtoull(argv[1], NULL, 10);
    printf("seed %llu\n", (unsigned long long)seed);
    return cmocka_run_group_tests_name("numbers against GMP", tests, make_operands, drop_operands);
}
