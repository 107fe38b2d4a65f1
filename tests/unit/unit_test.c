/* Built-in units and currencies: what is known by which name, and what is asked about.
 *
 * tests/published/ compares every unit and every currency with an outside source; the few values
 * here are written by hand from the definitions. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/currency.h"
#include "unit/unit.h"

static const struct unit *find(const char *name)
{
    return unit_find(name, strlen(name));
}

static const char *question(const char *name)
{
    return unit_ambiguous(name, strlen(name));
}

static int decimals(const char *code)
{
    return currency_decimals(code, strlen(code));
}

static void assert_factor(const char *name, int64_t top, int64_t bottom)
{
    const struct unit *unit = find(name);
    assert_non_null(unit);
    struct num factor = unit_factor(unit);
    assert_int_equal(factor.top, top);
    assert_int_equal(factor.bottom, bottom);
}

static void assert_dimension(const char *name, struct dimension expected)
{
    const struct unit *unit = find(name);
    assert_non_null(unit);
    assert_true(dim_equal(unit_dimension(unit), expected));
}

static void every_unit_of_the_reference_is_known(void **state)
{
    (void)state;
    /* The list of the language's reference, in its order. */
    static const char *const names[] = {
        "s",     "min", "h",  "day",  "week",   "month",  "year",  "mm",     "cm",
        "m",     "in",  "ft", "yd",   "sqin",   "sqft",   "sqyd",  "sqcm",   "sqm",
        "bf",    "ml",  "cl", "l",    "usfloz", "uspint", "usgal", "ukfloz", "ukpint",
        "ukgal", "mg",  "g",  "kg",   "oz",     "lb",     "ozt",   "ct",     "Wh",
        "kWh",   "W",   "kW", "each", "pair",   "dozen",
    };
    size_t count = 0;
    const struct unit *table = unit_table(&count);
    assert_int_equal(count, sizeof names / sizeof names[0]);
    for (size_t i = 0; i < count; i++) {
        assert_string_equal(table[i].name, names[i]);
        assert_ptr_equal(find(names[i]), &table[i]);
    }
}

static void a_factor_holds_its_exact_fraction(void **state)
{
    (void)state;
    assert_factor("min", 60, 1);
    assert_factor("in", 127, 5);           /* 25.4 mm */
    assert_factor("lb", 45359237, 100000); /* 453.59237 g */
    assert_factor("ukgal", 4546090, 1);    /* 4.54609 l, in mm^3 */
    assert_factor("ct", 1, 5);             /* 0.2 g */
    assert_factor("W", 1, 3600);           /* watt-hours per second */
    assert_factor("dozen", 12, 1);
}

static int64_t greatest_divisor(int64_t a, int64_t b)
{
    return b == 0 ? a : greatest_divisor(b, a % b);
}

static void every_factor_is_above_zero_and_in_lowest_terms(void **state)
{
    (void)state;
    size_t count = 0;
    const struct unit *table = unit_table(&count);
    for (size_t i = 0; i < count; i++) {
        assert_true(table[i].top > 0 && table[i].bottom > 0);
        assert_int_equal(greatest_divisor(table[i].top, table[i].bottom), 1);
    }
}

static void units_measure_what_they_are_called_for(void **state)
{
    (void)state;
    struct dimension power;
    assert_true(dim_divide(dim_base(DIM_ENERGY), dim_base(DIM_TIME), &power));
    assert_dimension("week", dim_base(DIM_TIME));
    assert_dimension("yd", dim_base(DIM_LENGTH));
    assert_dimension("sqft", dim_base_power(DIM_LENGTH, 2));
    assert_dimension("bf", dim_base_power(DIM_LENGTH, 3));
    assert_dimension("usfloz", dim_base_power(DIM_LENGTH, 3));
    assert_dimension("oz", dim_base(DIM_MASS));
    assert_dimension("kWh", dim_base(DIM_ENERGY));
    assert_dimension("kW", power);
    assert_dimension("pair", dim_none());
}

static void unknown_names_and_parts_of_names_are_not_found(void **state)
{
    (void)state;
    assert_null(find("furlong"));
    assert_null(find(""));
    assert_null(find("doze"));
    assert_null(find("dozens"));
    assert_null(find("Min")); /* names are told apart by case */
    assert_null(find("wh"));
}

static void a_name_ends_at_its_length_not_at_a_zero_byte(void **state)
{
    (void)state;
    assert_ptr_equal(unit_find("mmx", 2), find("mm"));
    assert_ptr_equal(unit_find("mmx", 1), find("m"));
    assert_null(unit_find("m\0x", 3));
}

static void names_of_two_volumes_are_asked_about(void **state)
{
    (void)state;
    assert_string_equal(question("gal"), "usgal or ukgal");
    assert_string_equal(question("floz"), "usfloz or ukfloz");
    assert_string_equal(question("pint"), "uspint or ukpint");
    assert_string_equal(question("pt"), "uspint or ukpint");
    assert_non_null(strstr(question("qt"), "2 uspint"));
    assert_non_null(strstr(question("cup"), "250 ml"));
}

static void a_ton_is_asked_about_with_definitions_to_choose_from(void **state)
{
    (void)state;
    const char *text = question("ton");
    assert_non_null(strstr(text, "unit ton = 2000 lb"));
    assert_non_null(strstr(text, "unit ton = 2240 lb"));
    assert_non_null(strstr(text, "unit ton = 1000 kg"));
}

static void clear_and_unknown_names_are_not_asked_about(void **state)
{
    (void)state;
    size_t count = 0;
    const struct unit *table = unit_table(&count);
    for (size_t i = 0; i < count; i++) {
        assert_null(question(table[i].name));
    }
    assert_null(question("furlong"));
    assert_null(question(""));
    assert_null(unit_ambiguous("gal", 2));
}

static void a_currency_has_the_decimals_of_the_standard(void **state)
{
    (void)state;
    /* Values of ISO 4217 list one, published 2024-06-25. */
    assert_int_equal(decimals("USD"), 2);
    assert_int_equal(decimals("JPY"), 0);
    assert_int_equal(decimals("BHD"), 3);
    assert_int_equal(decimals("CLF"), 4);
    assert_int_equal(decimals("UYW"), 4);
    assert_int_equal(decimals("AED"), 2); /* the first of the list */
    assert_int_equal(decimals("ZWG"), 2); /* the last */
}

static void what_is_not_a_currency_with_decimals_is_refused(void **state)
{
    (void)state;
    assert_int_equal(decimals("XAU"), -1); /* gold: on the list, without decimals */
    assert_int_equal(decimals("XXX"), -1);
    assert_int_equal(decimals("AAA"), -1);
    assert_int_equal(decimals("ZZZ"), -1);
    assert_int_equal(decimals("usd"), -1);
    assert_int_equal(decimals("US"), -1);
    assert_int_equal(decimals("USDX"), -1);
    assert_int_equal(decimals(""), -1);
    assert_int_equal(currency_decimals("USDX", 3), 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_unit_of_the_reference_is_known),
        cmocka_unit_test(a_factor_holds_its_exact_fraction),
        cmocka_unit_test(every_factor_is_above_zero_and_in_lowest_terms),
        cmocka_unit_test(units_measure_what_they_are_called_for),
        cmocka_unit_test(unknown_names_and_parts_of_names_are_not_found),
        cmocka_unit_test(a_name_ends_at_its_length_not_at_a_zero_byte),
        cmocka_unit_test(names_of_two_volumes_are_asked_about),
        cmocka_unit_test(a_ton_is_asked_about_with_definitions_to_choose_from),
        cmocka_unit_test(clear_and_unknown_names_are_not_asked_about),
        cmocka_unit_test(a_currency_has_the_decimals_of_the_standard),
        cmocka_unit_test(what_is_not_a_currency_with_decimals_is_refused),
    };
    return cmocka_run_group_tests_name("units", tests, NULL, NULL);
}
