/* Dimensions: products, quotients, their limit, and what they are called. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/dimension.h"

static const char *const declared[] = {"sheet", "bag"};

static void assert_described(struct dimension a, const char *expected)
{
    char text[128];
    size_t length = dim_describe(a, declared, 2, text, sizeof text);
    assert_string_equal(text, expected);
    assert_int_equal(length, strlen(expected));
}

static struct dimension quotient(struct dimension a, struct dimension b)
{
    struct dimension result;
    assert_true(dim_divide(a, b, &result));
    return result;
}

static struct dimension product(struct dimension a, struct dimension b)
{
    struct dimension result;
    assert_true(dim_multiply(a, b, &result));
    return result;
}

static void a_price_per_hour_times_a_time_is_money(void **state)
{
    (void)state;
    struct dimension hourly = quotient(dim_base(DIM_MONEY), dim_base(DIM_TIME));
    assert_false(dim_is_money(hourly));
    assert_true(dim_is_money(product(hourly, dim_base(DIM_TIME))));
}

static void a_length_times_an_area_is_a_volume(void **state)
{
    (void)state;
    struct dimension volume = product(dim_base(DIM_LENGTH), dim_base_power(DIM_LENGTH, 2));
    assert_true(dim_equal(volume, dim_base_power(DIM_LENGTH, 3)));
    assert_false(dim_equal(volume, dim_base(DIM_LENGTH)));
}

static void a_measure_divided_by_itself_is_a_plain_number(void **state)
{
    (void)state;
    struct dimension mass = dim_base(DIM_MASS);
    assert_false(dim_is_none(mass));
    assert_true(dim_is_none(quotient(mass, mass)));
    assert_true(dim_is_none(dim_none()));
}

static void only_money_to_the_first_power_is_money(void **state)
{
    (void)state;
    assert_true(dim_is_money(dim_base(DIM_MONEY)));
    assert_false(dim_is_money(dim_base_power(DIM_MONEY, 2)));
    assert_false(dim_is_money(dim_base_power(DIM_MONEY, -1)));
    assert_false(dim_is_money(product(dim_base(DIM_MONEY), dim_base(DIM_MASS))));
    assert_false(dim_is_money(dim_none()));
}

static void the_ninth_power_is_allowed_and_the_tenth_is_not(void **state)
{
    (void)state;
    struct dimension length = dim_base(DIM_LENGTH);
    struct dimension ninth = product(dim_base_power(DIM_LENGTH, 8), length);
    assert_true(dim_equal(ninth, dim_base_power(DIM_LENGTH, 9)));
    struct dimension out = dim_base(DIM_MASS);
    assert_false(dim_multiply(ninth, length, &out));
    assert_true(dim_equal(out, dim_base(DIM_MASS)));
    assert_false(dim_multiply(ninth, ninth, &out));
    assert_true(dim_equal(out, dim_base(DIM_MASS)));
}

static void the_limit_holds_below_zero_too(void **state)
{
    (void)state;
    struct dimension time = dim_base(DIM_TIME);
    struct dimension ninth = quotient(dim_base_power(DIM_TIME, -8), time);
    assert_true(dim_equal(ninth, dim_base_power(DIM_TIME, -9)));
    struct dimension out = dim_base(DIM_MASS);
    assert_false(dim_divide(ninth, time, &out));
    assert_false(dim_divide(ninth, dim_base_power(DIM_TIME, 9), &out));
    assert_true(dim_equal(out, dim_base(DIM_MASS)));
}

static void the_result_may_be_an_operands_variable(void **state)
{
    (void)state;
    struct dimension a = dim_base(DIM_LENGTH);
    assert_true(dim_multiply(a, a, &a));
    assert_true(dim_equal(a, dim_base_power(DIM_LENGTH, 2)));
}

static void the_last_declared_dimension_counts_like_any_other(void **state)
{
    (void)state;
    struct dimension last = dim_base(DIM_MOST - 1);
    assert_false(dim_is_none(last));
    assert_true(dim_equal(product(last, last), dim_base_power(DIM_MOST - 1, 2)));
}

static void single_measures_go_by_the_words_of_the_trade(void **state)
{
    (void)state;
    assert_described(dim_none(), "a plain number");
    assert_described(dim_base(DIM_MONEY), "money");
    assert_described(dim_base(DIM_TIME), "time");
    assert_described(dim_base(DIM_LENGTH), "length");
    assert_described(dim_base_power(DIM_LENGTH, 2), "area");
    assert_described(dim_base_power(DIM_LENGTH, 3), "volume");
    assert_described(dim_base_power(DIM_LENGTH, 4), "length to the power 4");
    assert_described(dim_base(DIM_MASS), "mass");
    assert_described(dim_base(DIM_ENERGY), "energy");
    assert_described(dim_base_power(DIM_TIME, 2), "time to the power 2");
}

static void prices_are_money_per_what_they_buy(void **state)
{
    (void)state;
    struct dimension money = dim_base(DIM_MONEY);
    assert_described(quotient(money, dim_base_power(DIM_LENGTH, 3)), "money per volume");
    assert_described(quotient(money, dim_base_power(DIM_LENGTH, 2)), "money per area");
    assert_described(quotient(money, dim_base(DIM_TIME)), "money per time");
    assert_described(quotient(money, dim_base(DIM_DECLARED)), "money per sheet");
    struct dimension rent = quotient(money, dim_base_power(DIM_LENGTH, 2));
    assert_described(quotient(rent, dim_base(DIM_TIME)), "money per area per time");
}

static void power_is_energy_per_time(void **state)
{
    (void)state;
    assert_described(quotient(dim_base(DIM_ENERGY), dim_base(DIM_TIME)), "energy per time");
}

static void declared_dimensions_go_by_their_names(void **state)
{
    (void)state;
    assert_described(dim_base(DIM_DECLARED), "sheet");
    assert_described(dim_base(DIM_DECLARED + 1), "bag");
    assert_described(quotient(dim_base(DIM_DECLARED), dim_base(DIM_TIME)), "sheet per time");
    assert_described(dim_base(DIM_DECLARED + 2), "a declared unit");
}

static void products_and_bare_divisors_can_be_described_too(void **state)
{
    (void)state;
    assert_described(product(dim_base(DIM_MONEY), dim_base(DIM_TIME)), "money times time");
    assert_described(dim_base_power(DIM_TIME, -1), "a plain number per time");
    assert_described(dim_base_power(DIM_LENGTH, -9), "a plain number per length to the power 9");
}

static void a_description_is_cut_to_its_buffer_and_gives_its_whole_length(void **state)
{
    (void)state;
    struct dimension volume = dim_base_power(DIM_LENGTH, 3);
    char text[8] = "*******";
    assert_int_equal(dim_describe(volume, NULL, 0, text, 4), 6);
    assert_string_equal(text, "vol");
    assert_int_equal(text[4], '*');
    assert_int_equal(dim_describe(volume, NULL, 0, text, 7), 6);
    assert_string_equal(text, "volume");
    assert_int_equal(dim_describe(volume, NULL, 0, text, 1), 6);
    assert_string_equal(text, "");
    assert_int_equal(dim_describe(volume, NULL, 0, NULL, 0), 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_price_per_hour_times_a_time_is_money),
        cmocka_unit_test(a_length_times_an_area_is_a_volume),
        cmocka_unit_test(a_measure_divided_by_itself_is_a_plain_number),
        cmocka_unit_test(only_money_to_the_first_power_is_money),
        cmocka_unit_test(the_ninth_power_is_allowed_and_the_tenth_is_not),
        cmocka_unit_test(the_limit_holds_below_zero_too),
        cmocka_unit_test(the_result_may_be_an_operands_variable),
        cmocka_unit_test(the_last_declared_dimension_counts_like_any_other),
        cmocka_unit_test(single_measures_go_by_the_words_of_the_trade),
        cmocka_unit_test(prices_are_money_per_what_they_buy),
        cmocka_unit_test(power_is_energy_per_time),
        cmocka_unit_test(declared_dimensions_go_by_their_names),
        cmocka_unit_test(products_and_bare_divisors_can_be_described_too),
        cmocka_unit_test(a_description_is_cut_to_its_buffer_and_gives_its_whole_length),
    };
    return cmocka_run_group_tests_name("dimensions", tests, NULL, NULL);
}
