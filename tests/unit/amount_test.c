/* Amounts to be calculated with: what they come to, when they are absent, and when they have too
 * many digits or find no memory. Expected texts are by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "number/amount.h"

static struct amounts room;

static int open_room(void **state)
{
    (void)state;
    amounts_open(&room);
    return 0;
}

static int close_room(void **state)
{
    (void)state;
    amounts_close(&room);
    assert_int_equal(room.memory.held, 0);
    return 0;
}

static struct amount read(const char *digits)
{
    return amount_read(&room, digits, strlen(digits));
}

static void assert_amount(struct amount amount, const char *top, const char *bottom)
{
    char text[128];
    assert_true(amount.there);
    assert_int_equal(amount_top(amount, text, sizeof text), strlen(top));
    assert_string_equal(text, top);
    amount_bottom(amount, text, sizeof text);
    assert_string_equal(text, bottom);
}

static void assert_absent(struct amount amount, enum num_status status)
{
    char text[8] = "before";
    assert_false(amount.there);
    assert_int_equal(amount.status, status);
    assert_int_equal(amount_places(amount, 2, '.', text, sizeof text), 0);
    assert_string_equal(text, "");
}

static void sums_are_exact_and_in_lowest_terms(void **state)
{
    (void)state;
    struct amount third = amount_ratio(1, 3), sixth = amount_ratio(1, 6);
    assert_amount(amount_add(&room, third, sixth), "1", "2");
    assert_amount(amount_subtract(&room, sixth, third), "-1", "6");
    assert_amount(amount_multiply(&room, third, sixth), "1", "18");
    assert_amount(amount_divide(&room, third, sixth), "2", "1");
    assert_amount(amount_times(&room, amount_ratio(-3, 4), 6), "-9", "2");
    assert_amount(amount_size(&room, amount_ratio(-3, 4)), "3", "4");
    assert_amount(amount_ratio(3, -6), "-1", "2");
}

/* 123456789012345678901234567890 is beyond a machine word. */
static void a_large_amount_is_as_exact_as_a_small_one(void **state)
{
    (void)state;
    struct amount large = read("-123456789012345678901234567890");
    assert_amount(large, "-123456789012345678901234567890", "1");
    assert_amount(amount_add(&room, large, amount_whole(1)), "-123456789012345678901234567889",
                  "1");
    assert_amount(amount_divide(&room, large, large), "1", "1");
    struct amounts other;
    amounts_open(&other);
    struct amount copy = amount_copy(&other, large);
    assert_true(copy.number.big != large.number.big);
    assert_int_equal(amount_compare(copy, large), 0);
    amounts_close(&other);
}

static void what_is_calculated_with_an_absent_amount_is_absent(void **state)
{
    (void)state;
    const struct amount none = {0}, three = amount_whole(3);
    assert_absent(amount_add(&room, three, none), NUM_OK);
    assert_absent(amount_subtract(&room, none, three), NUM_OK);
    assert_absent(amount_multiply(&room, none, three), NUM_OK);
    assert_absent(amount_times(&room, none, 2), NUM_OK);
    assert_absent(amount_size(&room, none), NUM_OK);
    assert_absent(amount_round(&room, none, NUM_UP), NUM_OK);
    assert_absent(amount_copy(&room, none), NUM_OK);
    assert_absent(read("3 kg"), NUM_OK);
    assert_int_equal(amount_compare(none, amount_whole(0)), 0);
    assert_int_equal(amount_sign(none), 0);
    assert_false(amount_is_whole_number(none, 0));
}

static void there_is_no_quotient_by_zero(void **state)
{
    (void)state;
    assert_absent(amount_divide(&room, amount_whole(3), amount_whole(0)), NUM_OK);
    assert_absent(amount_ratio(3, 0), NUM_OK);
    assert_amount(amount_divide(&room, amount_whole(0), amount_whole(3)), "0", "1");
}

/* Squaring 10 doubles its digits each time: 2^12 of them need more than 8,192 bits. */
static void an_amount_with_too_many_digits_says_so_and_so_does_what_it_leads_to(void **state)
{
    (void)state;
    struct amount power = amount_whole(10);
    int squared = 0;
    for (; power.there && squared < 20; squared++)
        power = amount_multiply(&room, power, power);
    assert_int_equal(squared, 12);
    assert_absent(power, NUM_TOO_LARGE);
    assert_absent(amount_add(&room, power, amount_whole(1)), NUM_TOO_LARGE);
    assert_absent(amount_add(&room, (struct amount){0}, power), NUM_TOO_LARGE);
    assert_absent(amount_divide(&room, amount_whole(1), power), NUM_TOO_LARGE);
    assert_absent(amount_round(&room, power, NUM_NEAREST), NUM_TOO_LARGE);
}

static void *no_memory(void *context, void *block, size_t old_size, size_t new_size)
{
    (void)context;
    (void)block;
    (void)old_size;
    (void)new_size;
    return NULL;
}

static void an_amount_that_finds_no_memory_says_so(void **state)
{
    struct amounts starved;
    (void)state;
    amounts_open(&starved);
    starved.memory.resize = no_memory;
    struct amount large = amount_multiply(&starved, amount_whole(INT64_MAX), amount_whole(2));
    assert_absent(large, NUM_NO_MEMORY);
    assert_absent(amount_add(&starved, large, amount_whole(1)), NUM_NO_MEMORY);
    assert_amount(amount_add(&starved, amount_whole(2), amount_whole(1)), "3", "1");
    amounts_close(&starved);
}

static void coins_are_amounts_of_the_smallest_unit(void **state)
{
    (void)state;
    char text[32];
    amount_places(amount_of_coins(-1999, 2), 2, '.', text, sizeof text);
    assert_string_equal(text, "-19.99");
    assert_amount(amount_of_coins(1500, 0), "1500", "1");
    assert_amount(amount_of_coins(1500, 3), "3", "2");
    assert_amount(amount_of_coins(INT64_MAX, 0), "9223372036854775807", "1");
}

static void rounding_goes_to_whole_numbers_and_to_places(void **state)
{
    (void)state;
    assert_amount(amount_round(&room, amount_ratio(7, 2), NUM_UP), "4", "1");
    assert_amount(amount_round(&room, amount_ratio(-7, 2), NUM_UP), "-3", "1");
    assert_amount(amount_round(&room, amount_ratio(7, 2), NUM_DOWN), "3", "1");
    assert_amount(amount_round(&room, amount_ratio(-5, 2), NUM_NEAREST), "-3", "1");
    assert_amount(amount_round_places(&room, amount_ratio(1, 3), 2), "33", "100");
    assert_amount(amount_round_places(&room, amount_ratio(-1, 8), 2), "-13", "100");
    assert_amount(amount_round_places(&room, amount_ratio(1, 3), 18), "333333333333333333",
                  "1000000000000000000");
}

static void an_amount_has_as_many_decimals_as_say_it_exactly(void **state)
{
    (void)state;
    unsigned decimals = 0;
    assert_true(amount_decimals(amount_whole(-120), &decimals));
    assert_int_equal(decimals, 0);
    assert_true(amount_decimals(amount_ratio(-3, 8), &decimals)); /* 0.375 */
    assert_int_equal(decimals, 3);
    assert_true(amount_decimals(amount_ratio(7, 250), &decimals)); /* 0.028 */
    assert_int_equal(decimals, 3);
    struct amount large = read("1000000000000000000000001");
    assert_true(amount_decimals(amount_divide(&room, large, amount_whole(4)), &decimals));
    assert_int_equal(decimals, 2);
    assert_false(amount_decimals(amount_ratio(1, 6), &decimals));
    assert_false(amount_decimals(amount_divide(&room, amount_whole(1), large), &decimals));
    assert_false(amount_decimals((struct amount){0}, &decimals));
}

static void a_double_for_drawing_is_the_nearest_one(void **state)
{
    (void)state;
    assert_true(amount_double(amount_ratio(1, 3)) == 1.0 / 3);
    assert_true(amount_double(amount_whole(-42)) == -42);
    double large = amount_double(read("123456789012345678901234567890"));
    assert_true(fabs(large / 123456789012345678901234567890.0 - 1) < 1e-14);
}

static void a_room_that_has_forgotten_serves_again_without_more_memory(void **state)
{
    (void)state;
    read("123456789012345678901234567890");
    size_t held = room.memory.held;
    assert_true(held > 0);
    for (int i = 0; i < 10000; i++) {
        amounts_forget(&room);
        read("123456789012345678901234567890");
    }
    assert_int_equal(room.memory.held, held);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, open_room, close_room)
    const struct CMUnitTest tests[] = {
        TEST(sums_are_exact_and_in_lowest_terms),
        TEST(a_large_amount_is_as_exact_as_a_small_one),
        TEST(what_is_calculated_with_an_absent_amount_is_absent),
        TEST(there_is_no_quotient_by_zero),
        TEST(an_amount_with_too_many_digits_says_so_and_so_does_what_it_leads_to),
        TEST(an_amount_that_finds_no_memory_says_so),
        TEST(coins_are_amounts_of_the_smallest_unit),
        TEST(rounding_goes_to_whole_numbers_and_to_places),
        TEST(an_amount_has_as_many_decimals_as_say_it_exactly),
        TEST(a_double_for_drawing_is_the_nearest_one),
        TEST(a_room_that_has_forgotten_serves_again_without_more_memory),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
