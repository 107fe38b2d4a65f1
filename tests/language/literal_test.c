/* Literals in rules: the exact value of every form.
 *
 * The expected fractions are worked out by hand, in base units: seconds, millimetres, grams,
 * watt-hours and the currency. An inch is 25.4 mm, a pound 453.59237 g, a board foot 144 cubic
 * inches, a US gallon 231 of them. */
#include "language/reading.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

struct literal_case {
    const char *literal, *top, *bottom;
};

static void assert_literals(const char *currency, const struct literal_case *cases, size_t count)
{
    char rules[512];
    for (size_t i = 0; i < count; i++) {
        snprintf(rules, sizeof rules,
                 "currency %s\nunit sheet\nproduct { p money = 1 %.3s }\nprice { set p }\n"
                 "let x = %s\n",
                 currency, currency, cases[i].literal);
        assert_named(rules, "x", cases[i].top, cases[i].bottom);
    }
}

static void a_number_is_written_with_digits_a_point_and_low_lines(void **state)
{
    (void)state;
    static const struct literal_case cases[] = {
        {"12", "12", "1"},
        {"12.50", "25", "2"},
        {".99", "99", "100"},
        {"1_850", "1850", "1"},
        {"1_000_000.25", "4000001", "4"},
        {"0.1", "1", "10"},
        {"007", "7", "1"},
        {"-3", "-3", "1"},
        {"0", "0", "1"},
        {"0.333", "333", "1000"},
    };
    assert_literals("USD $", cases, COUNT(cases));
}

static void a_percentage_is_a_hundredth(void **state)
{
    (void)state;
    static const struct literal_case cases[] = {
        {"6.5%", "13", "200"}, {"100%", "1", "1"}, {"0%", "0", "1"},
        {".5%", "1", "200"},   {"250%", "5", "2"}, {"-12%", "-3", "25"},
    };
    assert_literals("USD $", cases, COUNT(cases));
}

static void money_has_its_sign_before_or_after_or_its_code(void **state)
{
    (void)state;
    static const struct literal_case dollars[] = {
        {"$7.80", "39", "5"},    {"7.80 USD", "39", "5"}, {"7.80USD", "39", "5"},
        {"$ 7.80", "39", "5"},   {"7.80 $", "39", "5"},   {"7.80$", "39", "5"},
        {"USD 7.80", "39", "5"}, {"-$0.04", "-1", "25"},  {"$.99", "99", "100"},
        {"$1_250", "1250", "1"},
    };
    static const struct literal_case crowns[] = {
        {"45 kr", "45", "1"},
        {"45kr", "45", "1"},
        {"kr 45", "45", "1"},
        {"45 SEK", "45", "1"},
    };
    static const struct literal_case others[] = {{"0.50 z\xC5\x82", "1", "2"}, {"1 PLN", "1", "1"}};
    static const struct literal_case pounds[] = {{"\xC2\xA3"
                                                  "3.20",
                                                  "16", "5"}};
    static const struct literal_case bare[] = {{"3.20 CHF", "16", "5"}, {"CHF 3.20", "16", "5"}};
    assert_literals("USD $", dollars, COUNT(dollars));
    assert_literals("SEK kr", crowns, COUNT(crowns));
    assert_literals("PLN z\xC5\x82", others, COUNT(others));
    assert_literals("GBP \xC2\xA3", pounds, COUNT(pounds));
    assert_literals("CHF", bare, COUNT(bare));
}

static void a_quantity_has_its_unit_with_or_without_a_space(void **state)
{
    (void)state;
    static const struct literal_case cases[] = {
        {"25 min", "1500", "1"},
        {"25min", "1500", "1"},
        {"1.5 h", "5400", "1"},
        {"2 day", "172800", "1"},
        {"1 week", "604800", "1"},
        {"1 year", "31556952", "1"},
        {"1 month", "2629746", "1"}, /* 365.2425 days, a twelfth */
        {"12 mm", "12", "1"},
        {"2.5 cm", "25", "1"},
        {"1 ft", "1524", "5"},
        {"144 in^3", "294967152", "125"},
        {"1 bf", "294967152", "125"},
        {"2 sqft", "4645152", "25"},
        {"2 ft^2", "4645152", "25"},
        {"15 ml", "15000", "1"},
        {"1 usgal", "473176473", "125"},
        {"2 lb", "45359237", "50000"},
        {"5 ct", "1", "1"},
        {"2 kWh", "2000", "1"},
        {"18 kW", "5", "1"}, /* 18000 Wh in 3600 s */
        {"2.5 sheet", "5", "2"},
        {"3 dozen", "36", "1"},
        {"2 pair", "4", "1"},
    };
    assert_literals("USD $", cases, COUNT(cases));
}

static void an_amount_may_have_several_units(void **state)
{
    (void)state;
    static const struct literal_case cases[] = {
        {"1 h 20 min", "4800", "1"},          {"1h 20min", "4800", "1"},
        {"1 h 20 min 30 s", "4830", "1"},     {"5 ft 3 in", "8001", "5"}, /* 63 in, 1600.2 mm */
        {"2 lb 3 oz", "317514659", "320000"}, /* 35 sixteenths of 453.59237 g */
    };
    assert_literals("USD $", cases, COUNT(cases));
}

static void a_fraction_stands_before_a_unit(void **state)
{
    (void)state;
    static const struct literal_case cases[] = {
        {"3/4 in", "381", "20"},   /* 19.05 mm */
        {"1-1/2 in", "381", "10"}, /* 38.1 mm */
        {"3/4in", "381", "20"},      {"1/2 h", "1800", "1"},
        {"3/4 sheet", "3", "4"},     {"6 in - 1/2 in", "1397", "10"}, /* 5.5 in */
        {"2 * 3/4 in", "381", "10"}, {"(3/4 in)", "381", "20"},
    };
    assert_literals("USD $", cases, COUNT(cases));
}

static void elsewhere_a_slash_divides_and_a_dash_subtracts(void **state)
{
    (void)state;
    static const struct literal_case cases[] = {
        {"3/4", "3", "4"}, {"1-1/2", "1", "2"},   {"10 in/2", "127", "1"},
        {"3-1", "2", "1"}, {"$85/30", "17", "6"}, {"3/4 * 2", "3", "2"},
    };
    assert_literals("USD $", cases, COUNT(cases));
}

static void an_amount_may_be_per_something(void **state)
{
    (void)state;
    static const struct literal_case cases[] = {
        {"$26 per h", "13", "1800"},      {"$26 per 30 min", "13", "900"},
        {"$18 per 5 l", "9", "2500000"}, /* a litre is a million cubic millimetres */
        {"$9.60 per 200", "6", "125"},    {"$3 per dozen", "1", "4"},
        {"$3 per 2 dozen", "1", "8"},     {"$0.40 each", "2", "5"},
        {"12 USD per 4 kg", "3", "1000"}, {"$36 per h per kg", "1", "100000"},
        {"90 kg per h", "25", "1"},
    };
    assert_literals("USD $", cases, COUNT(cases));
}

/* The value of `let x`, as a sheet shows it. */
static void assert_written(const char *literal, const char *written)
{
    char rules[512], text[128];
    snprintf(rules, sizeof rules, "currency USD $\nprice { set $1 }\nlet x = %s\n", literal);
    groat_method *method = read_rules(rules);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_record *record = groat_record_new(method);
    const groat_order order = {.channel = 0, .quantity = 1};
    assert_int_equal(groat_price(scratch, method, record, &order), GROAT_PRICED);
    groat_value_write(groat_result_named(scratch, "x"), 2, text, sizeof text);
    assert_string_equal(text, written);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
}

static void flags_dates_and_texts_are_what_they_say(void **state)
{
    (void)state;
    assert_written("yes", "yes");
    assert_written("no", "no");
    assert_written("2027-01-31", "2027-01-31");
    assert_written("2024-02-29", "2024-02-29");
    assert_written("2000-02-29", "2000-02-29");
    assert_written("0001-01-01", "0001-01-01");
    assert_written("9999-12-31", "9999-12-31");
    assert_written("\"larch\"", "larch");
    assert_written("\"\"", "");
    assert_written("\"a \\\"b\\\" \\\\ c # d\"", "a \"b\" \\ c # d");
    assert_written("\"L\xC3\xA4rche\"", "L\xC3\xA4rche");
}

static void dates_are_in_order(void **state)
{
    (void)state;
    assert_written("2027-01-31 < 2027-02-01", "yes");
    assert_written("1999-12-31 > 2000-01-01", "no");
    assert_written("2024-03-01 = 2024-02-29", "no");
}

static void days_that_are_none_are_refused(void **state)
{
    (void)state;
    static const char *const dates[] = {"2027-02-29", "1900-02-29", "2027-04-31", "2027-13-01",
                                        "2027-00-10", "2027-01-00", "2027-1-31",  "2027-01-3"};
    char rules[256];
    for (size_t i = 0; i < COUNT(dates); i++) {
        snprintf(rules, sizeof rules, "currency USD $\nprice { set $1 }\nlet x = %s\n", dates[i]);
        assert_said(rules, 3, 9,
                    i < 6 ? "there is no such day in the calendar" : "a date needs four digits");
    }
}

static void there_is_no_exponent(void **state)
{
    (void)state;
    assert_said("currency USD $\nprice { set $1 }\nlet x = 1e3\n", 3, 10, "e3 is not a unit");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_number_is_written_with_digits_a_point_and_low_lines),
        cmocka_unit_test(a_percentage_is_a_hundredth),
        cmocka_unit_test(money_has_its_sign_before_or_after_or_its_code),
        cmocka_unit_test(a_quantity_has_its_unit_with_or_without_a_space),
        cmocka_unit_test(an_amount_may_have_several_units),
        cmocka_unit_test(a_fraction_stands_before_a_unit),
        cmocka_unit_test(elsewhere_a_slash_divides_and_a_dash_subtracts),
        cmocka_unit_test(an_amount_may_be_per_something),
        cmocka_unit_test(flags_dates_and_texts_are_what_they_say),
        cmocka_unit_test(dates_are_in_order),
        cmocka_unit_test(days_that_are_none_are_refused),
        cmocka_unit_test(there_is_no_exponent),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
