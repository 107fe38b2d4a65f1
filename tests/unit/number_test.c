/* What number.h promises of values, limits, rounding and memory, one promise to a test. Large
 * expected values are GMP's. */
#include "number_checks.h"

/* ---- form ---- */

static void a_fraction_is_in_lowest_terms_with_a_positive_denominator(void **state)
{
    (void)state;
    assert_small(fraction(6, 4), 3, 2);
    assert_small(fraction(6, -4), -3, 2);
    assert_small(fraction(-6, -4), 3, 2);
    assert_small(fraction(0, -7), 0, 1);
    assert_small(fraction(INT64_MAX, INT64_MAX), 1, 1);
    assert_small(fraction(INT64_MIN, INT64_MIN), 1, 1);
    assert_small(fraction(INT64_MIN, 2), -(INT64_C(1) << 62), 1);
}

static void the_least_int64_is_large_and_its_neighbours_are_small(void **state)
{
    struct num least = fraction(INT64_MIN, 1);
    struct num number;
    (void)state;
    assert_int_equal(least.bottom, 0);
    assert_places(least, 0, "-9223372036854775808");
    assert_int_equal(num_add(&heap, least, num_whole(1), &number), NUM_OK);
    assert_small(number, -INT64_MAX, 1);
    assert_int_equal(num_add(&heap, num_whole(-INT64_MAX), num_whole(-1), &number), NUM_OK);
    assert_int_equal(number.bottom, 0);
    assert_true(num_equal(number, least));
    assert_int_equal(num_negate(&heap, least, &number), NUM_OK);
    assert_int_equal(number.bottom, 0);
    assert_places(number, 0, "9223372036854775808");
}

static void a_large_result_that_fits_again_is_small_again(void **state)
{
    struct num most = num_whole(INT64_MAX);
    struct num square;
    struct num number;
    (void)state;
    assert_int_equal(num_multiply(&heap, most, most, &square), NUM_OK);
    assert_int_equal(square.bottom, 0);
    assert_int_equal(num_divide(&heap, square, most, &number), NUM_OK);
    assert_small(number, INT64_MAX, 1);
    assert_int_equal(num_divide(&heap, most, square, &number), NUM_OK);
    assert_small(number, 1, INT64_MAX);
    assert_int_equal(num_subtract(&heap, square, square, &number), NUM_OK);
    assert_small(number, 0, 1);
    assert_int_equal(num_multiply(&heap, square, num_whole(0), &number), NUM_OK);
    assert_small(number, 0, 1);
    assert_int_equal(num_round_to(&heap, num_whole(1), square, NUM_NEAREST, &number), NUM_OK);
    assert_small(number, 0, 1);
}

static void a_result_may_go_to_the_variable_of_an_operand(void **state)
{
    struct num number = fraction(1, 3);
    (void)state;
    assert_int_equal(num_add(&heap, number, number, &number), NUM_OK);
    assert_small(number, 2, 3);
    number = power_of_two(200, 0);
    assert_int_equal(num_multiply(&heap, number, number, &number), NUM_OK);
    assert_true(num_equal(number, power_of_two(400, 0)));
    assert_int_equal(num_divide(&heap, number, number, &number), NUM_OK);
    assert_small(number, 1, 1);
}

static void equal_large_numbers_reached_by_different_ways_are_equal(void **state)
{
    struct num one_way = power_of_two(300, 7);
    struct num other = power_of_two(300, 0);
    (void)state;
    assert_false(num_equal(one_way, other));
    for (int i = 0; i < 7; i++)
        assert_int_equal(num_add(&heap, other, num_whole(1), &other), NUM_OK);
    assert_true(num_equal(one_way, other));
    assert_false(num_equal(one_way, minus(other)));
    assert_false(num_equal(one_way, one_over(other)));
    assert_false(num_equal(one_way, num_whole(7)));
}

static void signs_and_wholeness_are_told_of_small_and_large(void **state)
{
    struct num large = power_of_two(100, 1);
    (void)state;
    assert_int_equal(num_sign(num_whole(0)), 0);
    assert_int_equal(num_sign(fraction(-1, 3)), -1);
    assert_int_equal(num_sign(large), 1);
    assert_int_equal(num_sign(minus(large)), -1);
    assert_true(num_is_whole(num_whole(-4)));
    assert_false(num_is_whole(fraction(1, 2)));
    assert_true(num_is_whole(large));
    assert_false(num_is_whole(one_over(large)));
    assert_false(num_is_whole(minus(one_over(large))));
}

static void only_whole_numbers_that_fit_become_machine_words(void **state)
{
    int64_t word = 77;
    (void)state;
    assert_true(num_to_int64(num_whole(-INT64_MAX), &word));
    assert_int_equal(word, -INT64_MAX);
    word = 77;
    assert_false(num_to_int64(fraction(1, 2), &word));
    assert_false(num_to_int64(power_of_two(63, 0), &word));
    assert_false(num_to_int64(fraction(INT64_MIN, 1), &word));
    assert_int_equal(word, 77);
}

static void comparison_crosses_the_border_of_small_and_large(void **state)
{
    struct num large = power_of_two(63, 0);
    struct num tiny = one_over(power_of_two(200, 1));
    (void)state;
    assert_true(num_compare(large, num_whole(INT64_MAX)) > 0);
    assert_true(num_compare(minus(large), num_whole(-INT64_MAX)) < 0);
    assert_true(num_compare(tiny, num_whole(0)) > 0);
    assert_true(num_compare(minus(tiny), num_whole(0)) < 0);
    assert_true(num_compare(tiny, fraction(1, INT64_MAX)) < 0);
    assert_true(num_compare(fraction(INT64_MAX, INT64_MAX - 1), num_whole(1)) > 0);
    assert_true(num_compare(power_of_two(8191, 0), power_of_two(8191, 1)) < 0);
    assert_int_equal(num_compare(large, large), 0);
}

/* ---- limits ---- */

static void a_limit_is_brought_between_63_bits_and_the_most(void **state)
{
    (void)state;
    limit_heap(0);
    assert_int_equal(heap.limit_bits, 63);
    assert_small(fraction(INT64_MAX, 1), INT64_MAX, 1);
    limit_heap(1000000);
    assert_int_equal(heap.limit_bits, NUM_BITS_MOST);
}

/* A number of exactly `bits` bits passes each way it can come about, one of a bit more does not. */
static void assert_limit_is_exact(unsigned long bits)
{
    struct num number = num_whole(5);
    limit_heap(bits);
    struct num most = power_of_two(bits, -1);
    assert_int_equal(try_power(bits, 0, &number), NUM_TOO_LARGE);
    assert_int_equal(num_add(&heap, most, num_whole(1), &number), NUM_TOO_LARGE);
    assert_int_equal(num_subtract(&heap, minus(most), num_whole(1), &number), NUM_TOO_LARGE);
    assert_int_equal(num_multiply(&heap, most, num_whole(2), &number), NUM_TOO_LARGE);
    assert_int_equal(num_divide(&heap, one_over(most), num_whole(2), &number), NUM_TOO_LARGE);
    assert_int_equal(num_round_to(&heap, most, power_of_two(bits - 1, 0), NUM_UP, &number),
                     NUM_TOO_LARGE);
    assert_small(number, 5, 1);
    assert_int_equal(num_subtract(&heap, most, num_whole(1), &number), NUM_OK);
    assert_int_equal(num_add(&heap, number, num_whole(1), &number), NUM_OK);
    assert_true(num_equal(number, most));
    assert_int_equal(num_round_to(&heap, most, power_of_two(bits - 1, 0), NUM_DOWN, &number),
                     NUM_OK);
    assert_true(num_equal(number, power_of_two(bits - 1, 0)));
}

static void a_number_at_the_limit_passes_and_one_bit_more_is_too_large(void **state)
{
    (void)state;
    assert_limit_is_exact(64);
    assert_limit_is_exact(65);
    assert_limit_is_exact(127);
    assert_limit_is_exact(128);
    assert_limit_is_exact(129);
    assert_limit_is_exact(1000);
    assert_limit_is_exact(NUM_BITS_MOST - 1);
    assert_limit_is_exact(NUM_BITS_MOST);
}

static void only_the_result_counts_for_the_limit_not_what_is_between(void **state)
{
    struct num wide;
    struct num number;
    (void)state;
    wide = power_of_two(NUM_BITS_MOST, -1);
    struct num inverse = one_over(wide);
    assert_int_equal(num_multiply(&heap, wide, inverse, &number), NUM_OK);
    assert_small(number, 1, 1);
    assert_int_equal(num_divide(&heap, wide, wide, &number), NUM_OK);
    assert_small(number, 1, 1);
    assert_int_equal(num_round_to(&heap, wide, wide, NUM_EVEN, &number), NUM_OK);
    assert_true(num_equal(number, wide));
    /* There are (2^m - 1)^2 such steps: twice the bits, before they are multiplied out again. */
    assert_int_equal(num_round_to(&heap, wide, inverse, NUM_EVEN, &number), NUM_OK);
    assert_true(num_equal(number, wide));
    assert_int_equal(num_subtract(&heap, inverse, inverse, &number), NUM_OK);
    assert_small(number, 0, 1);
}

/* The number is no multiple of three, so the multiple above it keeps the whole denominator. */
static void a_multiple_far_past_the_limit_is_too_large(void **state)
{
    struct num number = num_whole(5);
    struct num step = one_over(power_of_two(NUM_BITS_MOST - 1, 0));
    (void)state;
    assert_int_equal(num_multiply(&heap, step, num_whole(3), &step), NUM_OK);
    assert_int_equal(num_round_to(&heap, power_of_two(NUM_BITS_MOST, -2), step, NUM_UP, &number),
                     NUM_TOO_LARGE);
    assert_small(number, 5, 1);
}

static void sixty_different_denominators_of_64_bits_add_up_exactly(void **state)
{
    char expected[TEXT_MOST];
    char text[TEXT_MOST];
    struct num sum = num_whole(0);
    mpq_t exact;
    mpq_t term;
    mpz_t prime;
    (void)state;
    mpq_inits(exact, term, NULL);
    mpz_init_set_str(prime, "9223372036854775808", 10);
    for (int i = 0; i < 60; i++) {
        mpz_nextprime(prime, prime);
        mpz_get_str(text, 10, prime);
        struct num share = one_over(read_text(text));
        assert_int_equal(num_add(&heap, sum, share, &sum), NUM_OK);
        mpq_set_z(term, prime);
        mpq_inv(term, term);
        mpq_add(exact, exact, term);
    }
    mpz_get_str(expected, 10, mpq_denref(exact));
    num_write_bottom(sum, text, sizeof text);
    assert_string_equal(text, expected);
    mpz_get_str(expected, 10, mpq_numref(exact));
    num_write_top(sum, text, sizeof text);
    assert_string_equal(text, expected);
    mpq_clears(exact, term, NULL);
    mpz_clear(prime);
}

static void dividing_by_zero_is_told_and_leaves_the_result_alone(void **state)
{
    struct num number = num_whole(5);
    struct num large = power_of_two(100, 0);
    struct num zero = num_whole(0);
    (void)state;
    assert_int_equal(num_fraction(&heap, 1, 0, &number), NUM_DIVIDED_BY_ZERO);
    assert_int_equal(num_divide(&heap, num_whole(1), zero, &number), NUM_DIVIDED_BY_ZERO);
    assert_int_equal(num_divide(&heap, zero, zero, &number), NUM_DIVIDED_BY_ZERO);
    assert_int_equal(num_divide(&heap, large, zero, &number), NUM_DIVIDED_BY_ZERO);
    assert_int_equal(num_round_to(&heap, large, zero, NUM_UP, &number), NUM_DIVIDED_BY_ZERO);
    assert_int_equal(num_round_to(&heap, large, num_whole(-1), NUM_UP, &number),
                     NUM_DIVIDED_BY_ZERO);
    assert_int_equal(num_round_to(&heap, large, minus(large), NUM_UP, &number),
                     NUM_DIVIDED_BY_ZERO);
    assert_small(number, 5, 1);
    assert_int_equal(num_divide(&heap, zero, large, &number), NUM_OK);
    assert_small(number, 0, 1);
}

/* ---- rounding ---- */

static void each_rounding_goes_its_way_with_ties_and_below_zero(void **state)
{
    /* Halves: -3 is -1.5. Columns: up, down, nearest, even. */
    static const struct {
        int64_t halves;
        int64_t rounded[4];
    } cases[] = {{5, {3, 2, 3, 2}},    {7, {4, 3, 4, 4}},      {1, {1, 0, 1, 0}},
                 {-1, {0, -1, -1, 0}}, {-3, {-1, -2, -2, -2}}, {-5, {-2, -3, -3, -2}},
                 {4, {2, 2, 2, 2}},    {-4, {-2, -2, -2, -2}}, {0, {0, 0, 0, 0}}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        for (int rounding = 0; rounding < 4; rounding++) {
            struct num number = fraction(cases[i].halves, 2);
            assert_int_equal(num_round(&heap, number, (enum num_rounding)rounding, &number),
                             NUM_OK);
            assert_small(number, cases[i].rounded[rounding], 1);
        }
}

static void large_halves_round_as_small_ones_do(void **state)
{
    static const enum num_rounding roundings[] = {NUM_UP, NUM_DOWN, NUM_NEAREST, NUM_EVEN};
    static const long above[] = {1, 0, 1, 0};
    static const long below[] = {0, 1, 1, 0};
    struct num half = fraction(1, 2);
    (void)state;
    for (size_t i = 0; i < 4; i++) {
        struct num number;
        assert_int_equal(num_add(&heap, power_of_two(200, 0), half, &number), NUM_OK);
        struct num negative = minus(number);
        assert_int_equal(num_round(&heap, number, roundings[i], &number), NUM_OK);
        assert_true(num_equal(number, power_of_two(200, above[i])));
        assert_int_equal(num_round(&heap, negative, roundings[i], &number), NUM_OK);
        assert_true(num_equal(number, minus(power_of_two(200, below[i]))));
    }
}

static void prices_round_to_multiples_of_five_cents_and_of_thirds(void **state)
{
    struct num number;
    (void)state;
    assert_int_equal(
        num_round_to(&heap, read_text("12.32"), read_text("0.05"), NUM_NEAREST, &number), NUM_OK);
    assert_small(number, 123, 10);
    assert_int_equal(num_round_to(&heap, read_text("12.32"), read_text("0.05"), NUM_UP, &number),
                     NUM_OK);
    assert_small(number, 247, 20);
    assert_int_equal(num_round_to(&heap, read_text("1.5"), fraction(2, 3), NUM_DOWN, &number),
                     NUM_OK);
    assert_small(number, 4, 3);
}

/* ---- memory ---- */

static void small_numbers_ask_for_no_memory(void **state)
{
    struct num number = fraction(1, 3);
    (void)state;
    for (int i = 0; i < 1000; i++) {
        assert_int_equal(num_add(&heap, number, fraction(1, 7), &number), NUM_OK);
        assert_int_equal(num_round_to(&heap, number, fraction(1, 20), NUM_UP, &number), NUM_OK);
    }
    assert_int_equal(host.calls, 0);
}

/* Some hundred kilobytes of large numbers. */
static void do_large_work(void)
{
    struct num number = power_of_two(2000, 1);
    for (int i = 0; i < 500; i++)
        assert_int_equal(num_add(&heap, number, num_whole(i), &number), NUM_OK);
}

static void work_repeated_after_a_rewind_asks_for_no_more_memory(void **state)
{
    struct num_mark mark = num_heap_mark(&heap);
    (void)state;
    do_large_work();
    size_t calls = host.calls;
    size_t held = memory.held;
    assert_true(calls > 1);
    for (int i = 0; i < 20; i++) {
        num_heap_rewind(&heap, mark);
        do_large_work();
    }
    assert_int_equal(host.calls, calls);
    assert_int_equal(memory.held, held);
}

static void numbers_made_before_a_mark_outlive_the_rewind(void **state)
{
    struct num kept = power_of_two(2000, 3);
    struct num_mark mark = num_heap_mark(&heap);
    (void)state;
    do_large_work();
    size_t calls = host.calls;
    for (int i = 0; i < 20; i++) {
        num_heap_rewind(&heap, mark);
        do_large_work();
    }
    assert_int_equal(host.calls, calls);
    assert_true(num_equal(kept, power_of_two(2000, 3)));
}

static void a_copy_in_another_heap_outlives_the_first_heap(void **state)
{
    struct num_heap other;
    struct num number;
    struct num copy;
    (void)state;
    num_heap_open(&other, &memory, 512);
    assert_int_equal(try_power(500, 1, &number), NUM_OK);
    assert_int_equal(num_copy(&other, minus(number), &copy), NUM_OK);
    limit_heap(NUM_BITS_MOST);
    assert_true(num_equal(minus(power_of_two(500, 1)), copy));
    assert_int_equal(num_copy(&other, power_of_two(512, 0), &copy), NUM_TOO_LARGE);
    assert_int_equal(num_copy(&other, fraction(1, 2), &copy), NUM_OK);
    assert_small(copy, 1, 2);
    num_heap_close(&other);
}

static void results_go_to_the_named_heap_whichever_the_operands_are_in(void **state)
{
    struct num_heap other;
    struct num sum;
    (void)state;
    num_heap_open(&other, &memory, NUM_BITS_MOST);
    struct num number = power_of_two(500, 1);
    assert_int_equal(num_add(&other, number, num_whole(0), &sum), NUM_OK);
    limit_heap(NUM_BITS_MOST);
    assert_true(num_equal(sum, power_of_two(500, 1)));
    num_heap_close(&other);
}

static void a_host_without_memory_is_told_and_leaves_the_result_alone(void **state)
{
    struct num most = num_whole(INT64_MAX);
    struct num number = num_whole(5);
    (void)state;
    host.dry = true;
    assert_int_equal(num_multiply(&heap, most, most, &number), NUM_NO_MEMORY);
    assert_int_equal(num_add(&heap, most, most, &number), NUM_NO_MEMORY);
    assert_int_equal(num_fraction(&heap, INT64_MIN, 1, &number), NUM_NO_MEMORY);
    assert_int_equal(try_read("99999999999999999999", &number), NUM_NO_MEMORY);
    assert_small(number, 5, 1);
    assert_int_equal(num_add(&heap, number, number, &number), NUM_OK);
    assert_small(number, 10, 1);
    host.dry = false;
    assert_int_equal(num_multiply(&heap, most, most, &number), NUM_OK);
    assert_places(number, 0, "85070591730234615847396907784232501249");
}

static void the_memory_limit_of_the_host_is_a_lack_of_memory(void **state)
{
    struct num number = power_of_two(NUM_BITS_MOST - 1, 0);
    enum num_status status = NUM_OK;
    (void)state;
    memory.limit = memory.held;
    for (int i = 0; i < 100 && status == NUM_OK; i++)
        status = num_add(&heap, number, num_whole(1), &number);
    assert_int_equal(status, NUM_NO_MEMORY);
    assert_int_equal(num_sign(number), 1);
    memory.limit = SIZE_MAX;
    assert_int_equal(num_add(&heap, number, num_whole(1), &number), NUM_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        NUMBER_TEST(a_fraction_is_in_lowest_terms_with_a_positive_denominator),
        NUMBER_TEST(the_least_int64_is_large_and_its_neighbours_are_small),
        NUMBER_TEST(a_large_result_that_fits_again_is_small_again),
        NUMBER_TEST(a_result_may_go_to_the_variable_of_an_operand),
        NUMBER_TEST(equal_large_numbers_reached_by_different_ways_are_equal),
        NUMBER_TEST(signs_and_wholeness_are_told_of_small_and_large),
        NUMBER_TEST(only_whole_numbers_that_fit_become_machine_words),
        NUMBER_TEST(comparison_crosses_the_border_of_small_and_large),
        NUMBER_TEST(a_limit_is_brought_between_63_bits_and_the_most),
        NUMBER_TEST(a_number_at_the_limit_passes_and_one_bit_more_is_too_large),
        NUMBER_TEST(only_the_result_counts_for_the_limit_not_what_is_between),
        NUMBER_TEST(a_multiple_far_past_the_limit_is_too_large),
        NUMBER_TEST(sixty_different_denominators_of_64_bits_add_up_exactly),
        NUMBER_TEST(dividing_by_zero_is_told_and_leaves_the_result_alone),
        NUMBER_TEST(each_rounding_goes_its_way_with_ties_and_below_zero),
        NUMBER_TEST(large_halves_round_as_small_ones_do),
        NUMBER_TEST(prices_round_to_multiples_of_five_cents_and_of_thirds),
        NUMBER_TEST(small_numbers_ask_for_no_memory),
        NUMBER_TEST(work_repeated_after_a_rewind_asks_for_no_more_memory),
        NUMBER_TEST(numbers_made_before_a_mark_outlive_the_rewind),
        NUMBER_TEST(a_copy_in_another_heap_outlives_the_first_heap),
        NUMBER_TEST(results_go_to_the_named_heap_whichever_the_operands_are_in),
        NUMBER_TEST(a_host_without_memory_is_told_and_leaves_the_result_alone),
        NUMBER_TEST(the_memory_limit_of_the_host_is_a_lack_of_memory),
    };
    return cmocka_run_group_tests_name("numbers", tests, NULL, NULL);
}
