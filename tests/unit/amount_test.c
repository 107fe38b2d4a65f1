/* Exact amounts above the core: how they are written, and when they are absent. Expected texts are
 * by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "amount/amount.h"

static struct amount amount_of(const char *fraction)
{
    struct amount amount;
    amount_open(&amount);
    assert_int_equal(mpq_set_str(amount.number, fraction, 10), 0);
    mpq_canonicalize(amount.number);
    amount.there = true;
    return amount;
}

static void assert_places(const char *fraction, unsigned places, const char *expected)
{
    char text[64];
    struct amount amount = amount_of(fraction);
    assert_int_equal(amount_places(&amount, places, text, sizeof text), strlen(expected));
    assert_string_equal(text, expected);
    amount_close(&amount);
}

static void assert_short(const char *fraction, unsigned places, const char *expected)
{
    char text[64];
    struct amount amount = amount_of(fraction);
    assert_int_equal(amount_short(&amount, places, text, sizeof text), strlen(expected));
    assert_string_equal(text, expected);
    amount_close(&amount);
}

static void exact_places_round_ties_away_from_zero(void **state)
{
    (void)state;
    assert_places("1/8", 2, "0.13");
    assert_places("-1/8", 2, "-0.13");
    assert_places("1/3", 4, "0.3333");
    assert_places("2/3", 0, "1");
    assert_places("1/2", 0, "1");
    assert_places("-1/2", 0, "-1");
    assert_places("-1/3", 0, "0");
    assert_places("1005/1000", 2, "1.01");
    assert_places("123456789012345678901234567890", 2, "123456789012345678901234567890.00");
}

static void short_texts_drop_closing_zeros(void **state)
{
    (void)state;
    assert_short("5/2", 6, "2.5");
    assert_short("100", 6, "100");
    assert_short("1/3", 6, "0.333333");
    assert_short("-1/10000000", 6, "0");
    assert_short("-7/4", 1, "-1.8");
}

static void writers_tell_the_whole_length_when_there_is_no_room(void **state)
{
    (void)state;
    char text[4];
    struct amount amount = amount_of("12345/100");
    assert_int_equal(amount_places(&amount, 2, text, sizeof text), 6);
    assert_string_equal(text, "123");
    assert_int_equal(amount_places(&amount, 2, NULL, 0), 6);
    assert_int_equal(amount_top(&amount, NULL, 0), 4);
    assert_int_equal(amount_bottom(&amount, NULL, 0), 2);
    amount_close(&amount);
}

static void what_is_absent_writes_nothing_and_stays_absent(void **state)
{
    (void)state;
    char text[8] = "before";
    struct amount none, three = amount_of("3"), zero = amount_of("0"), out;
    amount_open(&none);
    amount_open(&out);
    assert_int_equal(amount_places(&none, 2, text, sizeof text), 0);
    assert_string_equal(text, "");
    amount_subtract(&out, &three, &none);
    assert_false(out.there);
    amount_divide(&out, &three, &zero);
    assert_false(out.there);
    amount_divide(&out, &zero, &three);
    assert_true(out.there);
    assert_int_equal(mpq_sgn(out.number), 0);
    amount_close(&none);
    amount_close(&three);
    amount_close(&zero);
    amount_close(&out);
}

static void coins_are_amounts_of_the_smallest_unit(void **state)
{
    (void)state;
    struct amount amount;
    char text[32];
    amount_open(&amount);
    amount_of_coins(&amount, -1999, 2);
    amount_places(&amount, 2, text, sizeof text);
    assert_string_equal(text, "-19.99");
    amount_of_coins(&amount, 1500, 0);
    amount_top(&amount, text, sizeof text);
    assert_string_equal(text, "1500");
    amount_of_coins(&amount, INT64_MAX, 0);
    amount_top(&amount, text, sizeof text);
    assert_string_equal(text, "9223372036854775807");
    amount_close(&amount);
}

static void rounding_up_gives_the_whole_number_not_below(void **state)
{
    (void)state;
    const struct {
        const char *from, *to;
    } cases[] = {{"7/2", "4"}, {"4", "4"}, {"-7/2", "-3"}, {"1/1000", "1"}, {"0", "0"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct amount amount = amount_of(cases[i].from);
        char text[16];
        amount_round_up(&amount);
        amount_short(&amount, 6, text, sizeof text);
        assert_string_equal(text, cases[i].to);
        amount_close(&amount);
    }
}

static void a_ratio_goes_to_the_nearest_whole_number_and_ties_away_from_zero(void **state)
{
    (void)state;
    const struct {
        const char *from;
        long to;
    } cases[] = {{"7/3", 2}, {"8/3", 3}, {"5/2", 3}, {"-5/2", -3}, {"-7/3", -2}, {"0", 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct amount amount = amount_of(cases[i].from);
        mpz_t whole;
        mpz_init(whole);
        amount_round_ratio(whole, mpq_numref(amount.number), mpq_denref(amount.number));
        assert_int_equal(mpz_get_si(whole), cases[i].to);
        mpz_clear(whole);
        amount_close(&amount);
    }
}

/* Six times 3/4 is 9/2. */
static void an_amount_times_a_whole_number_is_in_lowest_terms(void **state)
{
    (void)state;
    struct amount amount = amount_of("-3/4");
    char text[16];
    amount_times(&amount, &amount, 6);
    amount_top(&amount, text, sizeof text);
    assert_string_equal(text, "-9");
    amount_bottom(&amount, text, sizeof text);
    assert_string_equal(text, "2");
    amount.there = false;
    amount_times(&amount, &amount, 2);
    assert_false(amount.there);
    amount_close(&amount);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exact_places_round_ties_away_from_zero),
        cmocka_unit_test(short_texts_drop_closing_zeros),
        cmocka_unit_test(writers_tell_the_whole_length_when_there_is_no_room),
        cmocka_unit_test(what_is_absent_writes_nothing_and_stays_absent),
        cmocka_unit_test(coins_are_amounts_of_the_smallest_unit),
        cmocka_unit_test(rounding_up_gives_the_whole_number_not_below),
        cmocka_unit_test(a_ratio_goes_to_the_nearest_whole_number_and_ties_away_from_zero),
        cmocka_unit_test(an_amount_times_a_whole_number_is_in_lowest_terms),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
