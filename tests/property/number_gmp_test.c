/* Every operation on numbers against GMP's rationals, on random operands. */
#include "property/operands.h"

enum {
    ARITHMETIC_ROUNDS = 1000000,
    COMPARE_ROUNDS = 300000,
    ROUND_ROUNDS = 400000,
    TREES = 20000,
    TREE_DEPTH = 6,
    LIMB_ROUNDS = 100000
};

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
    for (int i = 0; i < LIMB_ROUNDS; i++) {
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

/* So many that no kind of operand can have been missed. */
static int drop_enough(void **state)
{
    return drop_operands(state) == 0 && operations >= 1000000 ? 0 : -1;
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
        cmocka_unit_test(limb_divisors_and_quotients_equal_those_of_gmp),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("numbers against GMP", tests, make_operands, drop_enough);
}
