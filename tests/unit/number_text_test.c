/* What number.h promises of decimals read and written, one promise to a test. */
#include "number_checks.h"

static void good_decimals_are_read_as_their_exact_fractions(void **state)
{
    static const struct {
        const char *text;
        int64_t top, bottom;
    } cases[] = {{"0", 0, 1},
                 {"12", 12, 1},
                 {"12.50", 25, 2},
                 {".99", 99, 100},
                 {"1_850", 1850, 1},
                 {"1_0.2_5", 41, 4},
                 {"0.000", 0, 1},
                 {"000.5", 1, 2},
                 {"0.1", 1, 10},
                 {"1.000000000000000000000000000000", 1, 1},
                 {"0000000000000000000000000000000000012", 12, 1},
                 {"9223372036854775807", INT64_MAX, 1},
                 {"0.000000000000000001", 1, INT64_C(1000000000000000000)},
                 {"0.0000000000000000005", 1, INT64_C(2000000000000000000)}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_small(read_text(cases[i].text), cases[i].top, cases[i].bottom);
}

static void bad_decimals_are_refused_and_leave_the_result_alone(void **state)
{
    static const char *const cases[] = {"",     ".",    "1.",  "1__0", "_1", "1_",   "1.5.2",
                                        "1_.5", "1._5", "._5", "-1",   "+1", "1e5",  " 1",
                                        "1 ",   "1,5",  "..5", "1..5", "_",  "1.5_", "0x10",
                                        "1.5.", "a",    "1/2", "_.5",  "._"};
    struct num number = num_whole(5);
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_int_equal(try_read(cases[i], &number), NUM_BAD_TEXT);
    assert_small(number, 5, 1);
}

static void a_decimal_is_read_to_its_length_and_no_further(void **state)
{
    struct num number;
    (void)state;
    assert_int_equal(num_read_decimal(&heap, "12.59", 4, &number), NUM_OK);
    assert_small(number, 25, 2);
    assert_int_equal(num_read_decimal(&heap, "12.59", 3, &number), NUM_BAD_TEXT);
    assert_int_equal(num_read_decimal(&heap, "7_", 1, &number), NUM_OK);
    assert_small(number, 7, 1);
}

/* 1 / base^power as a decimal with all its `power` places: (10 / base)^power digits. */
static void write_inverse_power(unsigned long base, unsigned long power, char *text)
{
    char digits[TEXT_MOST];
    mpz_t value;
    mpz_init(value);
    mpz_ui_pow_ui(value, 10 / base, power);
    mpz_get_str(digits, 10, value);
    mpz_clear(value);
    memset(text, '0', power + 1);
    text[0] = '.';
    memcpy(text + 1 + power - strlen(digits), digits, strlen(digits) + 1);
}

static void the_longest_decimals_are_read_when_their_fraction_fits(void **state)
{
    char text[TEXT_MOST];
    struct num number;
    struct num expected;
    (void)state;
    write_inverse_power(2, NUM_BITS_MOST - 1, text);
    assert_int_equal(try_read(text, &number), NUM_OK);
    expected = one_over(power_of_two(NUM_BITS_MOST - 1, 0));
    assert_true(num_equal(number, expected));
    write_inverse_power(2, NUM_BITS_MOST, text);
    assert_int_equal(try_read(text, &number), NUM_TOO_LARGE);
    write_inverse_power(2, NUM_BITS_MOST + 1, text);
    assert_int_equal(try_read(text, &number), NUM_TOO_LARGE);
    /* 5^3528 has 8192 bits, 5^3529 has 8195. */
    write_inverse_power(5, 3528, text);
    assert_int_equal(try_read(text, &number), NUM_OK);
    write_inverse_power(5, 3529, text);
    assert_int_equal(try_read(text, &number), NUM_TOO_LARGE);
}

static void endless_digits_are_too_large_but_endless_zeros_are_not(void **state)
{
    enum { LONG = 100000 };
    char *text = malloc(LONG);
    struct num number;
    (void)state;
    assert_non_null(text);
    memset(text, '9', LONG);
    assert_int_equal(num_read_decimal(&heap, text, LONG, &number), NUM_TOO_LARGE);
    text[1] = '.';
    assert_int_equal(num_read_decimal(&heap, text, LONG, &number), NUM_TOO_LARGE);
    text[LONG - 1] = '.';
    assert_int_equal(num_read_decimal(&heap, text, LONG, &number), NUM_BAD_TEXT);
    memset(text, '0', LONG);
    text[LONG / 2] = '.';
    text[LONG / 2 - 1] = '3';
    text[LONG / 2 + 1] = '5';
    assert_int_equal(num_read_decimal(&heap, text, LONG, &number), NUM_OK);
    assert_small(number, 7, 2);
    free(text);
}

/* 10^8000 has 26,576 bits; however many places follow, its fraction has at least as many. */
static void many_digits_before_many_places_are_too_large(void **state)
{
    enum { WHOLE = 8000, PLACES = 8000 };
    char *text = malloc(WHOLE + 1 + PLACES);
    struct num number;
    (void)state;
    assert_non_null(text);
    memset(text, '7', WHOLE + 1 + PLACES);
    text[WHOLE] = '.';
    assert_int_equal(num_read_decimal(&heap, text, WHOLE + 1 + PLACES, &number), NUM_TOO_LARGE);
    free(text);
}

static void decimals_are_written_with_exactly_the_places_asked_for(void **state)
{
    (void)state;
    assert_places(fraction(25, 2), 2, "12.50");
    assert_places(fraction(25, 2), 1, "12.5");
    assert_places(fraction(-1, 25), 2, "-0.04");
    assert_places(num_whole(0), 0, "0");
    assert_places(num_whole(0), 3, "0.000");
    assert_places(num_whole(1234567), 2, "1234567.00");
    for (unsigned places = 1; places <= 60; places++) {
        char expected[64] = "0.";
        memset(expected + 2, '6', places - 1);
        expected[1 + places] = '7';
        expected[2 + places] = 0;
        assert_places(fraction(2, 3), places, expected);
    }
}

static void ties_are_written_away_from_zero(void **state)
{
    (void)state;
    assert_places(read_text("2.675"), 2, "2.68");
    assert_places(read_text("2.665"), 2, "2.67");
    assert_places(minus(read_text("2.665")), 2, "-2.67");
    assert_places(fraction(1, 2), 0, "1");
    assert_places(fraction(-1, 2), 0, "-1");
    assert_places(read_text("0.995"), 2, "1.00");
    assert_places(read_text("99.9999"), 3, "100.000");
    assert_places(read_text("0.00000000000000000000000000000000000000000000000000000000000005"), 60,
                  "0.000000000000000000000000000000000000000000000000000000000000");
    assert_places(read_text("0.0000000000000000000000000000000000000000000000000000000000005"), 60,
                  "0.000000000000000000000000000000000000000000000000000000000001");
}

static void minus_zero_is_never_written(void **state)
{
    struct num tiny = minus(one_over(power_of_two(300, 0)));
    (void)state;
    assert_places(fraction(-1, 250), 2, "0.00");
    assert_places(fraction(-1, 200), 2, "-0.01");
    assert_places(fraction(-1, 3), 0, "0");
    assert_places(tiny, 60, "0.000000000000000000000000000000000000000000000000000000000000");
    assert_short(fraction(-1, 250), 2, "0");
    assert_short(tiny, 6, "0");
}

static void short_decimals_have_no_closing_zeros(void **state)
{
    (void)state;
    assert_short(fraction(25, 2), 6, "12.5");
    assert_short(fraction(1, 3), 6, "0.333333");
    assert_short(fraction(2, 3), 6, "0.666667");
    assert_short(num_whole(1200), 6, "1200");
    assert_short(num_whole(0), 6, "0");
    assert_short(read_text("1.9999999"), 6, "2");
    assert_short(read_text("0.5"), 0, "1");
    assert_short(read_text("0.1000001"), 6, "0.1");
    assert_short(minus(read_text("10.50")), 60, "-10.5");
}

static void a_number_is_written_with_the_decimal_mark_asked_for(void **state)
{
    char text[16];
    (void)state;
    num_write_places(fraction(-12345, 100), 3, ',', text, sizeof text);
    assert_string_equal(text, "-123,450");
    num_write_short(fraction(-12345, 100), 3, ',', text, sizeof text);
    assert_string_equal(text, "-123,45");
    num_write_places(num_whole(7), 0, ',', text, sizeof text);
    assert_string_equal(text, "7");
}

static void a_buffer_too_small_gets_what_fits_and_the_whole_length_is_told(void **state)
{
    char buffer[8];
    struct num number = fraction(-12345, 100);
    (void)state;
    memset(buffer, '#', sizeof buffer);
    assert_int_equal(num_write_places(number, 2, '.', buffer, 5), 7);
    assert_string_equal(buffer, "-123");
    assert_int_equal(buffer[5], '#');
    assert_int_equal(num_write_places(number, 2, '.', buffer, sizeof buffer), 7);
    assert_string_equal(buffer, "-123.45");
    assert_int_equal(num_write_places(number, 2, '.', NULL, 0), 7);
    assert_int_equal(num_write_short(number, 1, '.', NULL, 0), 6);
    assert_int_equal(num_write_top(number, NULL, 0), 5);
    memset(buffer, '#', sizeof buffer);
    assert_int_equal(num_write_bottom(number, buffer, 1), 2);
    assert_string_equal(buffer, "");
    assert_int_equal(buffer[1], '#');
}

static void the_largest_number_is_written_in_full(void **state)
{
    char expected[TEXT_MOST];
    char text[TEXT_MOST];
    struct num number = minus(power_of_two(NUM_BITS_MOST, -1));
    mpz_t value;
    (void)state;
    mpz_init(value);
    mpz_ui_pow_ui(value, 2, NUM_BITS_MOST);
    mpz_ui_sub(value, 1, value);
    mpz_get_str(expected, 10, value);
    mpz_clear(value);
    num_write_top(number, text, sizeof text);
    assert_string_equal(text, expected);
    strcat(expected, ".");
    memset(expected + strlen(expected), 0, 64);
    memset(expected + strlen(expected), '0', 60);
    assert_places(number, 60, expected);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        NUMBER_TEST(good_decimals_are_read_as_their_exact_fractions),
        NUMBER_TEST(bad_decimals_are_refused_and_leave_the_result_alone),
        NUMBER_TEST(a_decimal_is_read_to_its_length_and_no_further),
        NUMBER_TEST(the_longest_decimals_are_read_when_their_fraction_fits),
        NUMBER_TEST(endless_digits_are_too_large_but_endless_zeros_are_not),
        NUMBER_TEST(many_digits_before_many_places_are_too_large),
        NUMBER_TEST(decimals_are_written_with_exactly_the_places_asked_for),
        NUMBER_TEST(ties_are_written_away_from_zero),
        NUMBER_TEST(minus_zero_is_never_written),
        NUMBER_TEST(short_decimals_have_no_closing_zeros),
        NUMBER_TEST(a_number_is_written_with_the_decimal_mark_asked_for),
        NUMBER_TEST(a_buffer_too_small_gets_what_fits_and_the_whole_length_is_told),
        NUMBER_TEST(the_largest_number_is_written_in_full),
    };
    return cmocka_run_group_tests_name("numbers as text", tests, NULL, NULL);
}
