/* Rates given from outside: literals, changes, points on a way. Expected fractions are by hand. */
#include "language/reading.h"

static const char rules[] = "currency USD $\n"
                            "rate hourly = $24 per h\n"
                            "rate offcuts = 15%\n"
                            "rate pieces = 24\n"
                            "rate machine_hour = hourly / 4\n"
                            "rate colour = \"oak\"\n"
                            "cost time = 1 h * (hourly + machine_hour) * offcuts * pieces\n"
                            "let named = colour\n"
                            "show named\n"
                            "price { set cost }\n"
                            "expect \"a rate below zero\" {\n"
                            "    pieces = -50%\n"
                            "    then error\n"
                            "}\n";

static void assert_rate(const groat_method *method, const char *name, const char *top,
                        const char *bottom)
{
    char text[64];
    groat_value value = groat_method_rate_value(method, rate_of(method, name));
    assert_int_equal(value.presence, GROAT_THERE);
    groat_value_top(value, text, sizeof text);
    assert_string_equal(text, top);
    groat_value_bottom(value, text, sizeof text);
    assert_string_equal(text, bottom);
}

static void assert_amount(const groat_method *method, const char *name, const char *expected)
{
    char text[64];
    size_t length = groat_method_rate_amount(method, rate_of(method, name), text, sizeof text);
    assert_string_equal(text, expected);
    assert_int_equal(length, strlen(expected));
}

static groat_method *with(const groat_method *method, groat_rate_value given)
{
    groat_trouble trouble;
    groat_method *made = groat_method_with_rates(method, &given, 1, &trouble);
    if (!made)
        fail_msg("%s", trouble.message);
    return made;
}

static void assert_refused(const groat_method *method, groat_rate_value given, const char *message)
{
    groat_trouble trouble;
    assert_null(groat_method_with_rates(method, &given, 1, &trouble));
    assert_string_equal(trouble.message, message);
}

static void a_rate_is_told_exactly_and_for_a_person(void **state)
{
    (void)state;
    groat_method *method = read_rules(rules);
    assert_rate(method, "hourly", "1", "150"); /* $24 in 3600 seconds */
    assert_rate(method, "offcuts", "3", "20");
    assert_rate(method, "machine_hour", "1", "600");
    assert_amount(method, "hourly", "$24 per h");
    assert_amount(method, "offcuts", "15%");
    assert_amount(method, "machine_hour", "$6.00 per h");
    assert_amount(method, "colour", "\"oak\"");
    groat_method_free(method);
}

/* Money whose sign is a word is written as any unit is. */
static void money_per_time_keeps_its_time_where_the_sign_is_a_word(void **state)
{
    (void)state;
    groat_method *method = read_rules("currency NOK kr\n"
                                      "rate hourly = 280 kr per h\n"
                                      "rate helper = hourly / 4\n"
                                      "cost time = 1 h * (hourly + helper)\n"
                                      "price { set cost }\n");
    groat_method *dearer = with(method, (groat_rate_value){.rate = "hourly", .value = "+10%"});
    assert_amount(method, "hourly", "280 kr per h");
    assert_amount(method, "helper", "70.00 kr per h");
    assert_amount(dearer, "hourly", "308.00 kr per h");
    groat_method_free(dearer);
    groat_method_free(method);
}

static void a_change_is_a_share_of_what_the_rate_is(void **state)
{
    (void)state;
    groat_method *method = read_rules(rules);
    groat_method *dearer = with(method, (groat_rate_value){.rate = "hourly", .value = "+10%"});
    assert_rate(dearer, "hourly", "11", "1500"); /* $26.40 an hour */
    assert_rate(dearer, "machine_hour", "11", "6000");
    assert_amount(dearer, "hourly", "$26.40 per h");
    groat_method *again = with(dearer, (groat_rate_value){.rate = "hourly", .value = "-12.5%"});
    assert_rate(again, "hourly", "77", "12000"); /* 26.40 less an eighth is 23.10 */
    groat_method *lost = with(method, (groat_rate_value){.rate = "offcuts", .value = "+1%"});
    assert_rate(lost, "offcuts", "303", "2000"); /* 15.15%, not 16% */
    groat_method_free(lost);
    groat_method_free(again);
    groat_method_free(dearer);
    groat_method_free(method);
}

static void several_changes_hold_in_the_given_order(void **state)
{
    (void)state;
    groat_method *method = read_rules(rules);
    const groat_rate_value raised[] = {{.rate = "hourly", .value = "$30 per h"},
                                       {.rate = "hourly", .value = "+10%"}};
    groat_method *both = groat_method_with_rates(method, raised, 2, NULL);
    assert_amount(both, "hourly", "$33.00 per h");
    assert_rate(both, "hourly", "11", "1200"); /* $33 in 3600 seconds */
    const groat_rate_value twice[] = {{.rate = "offcuts", .value = "+10%"},
                                      {.rate = "offcuts", .value = "+10%"}};
    groat_method *more = groat_method_with_rates(method, twice, 2, NULL);
    assert_rate(more, "offcuts", "363", "2000"); /* 15% * 1.21 = 18.15% */
    /* machine_hour is a quarter of hourly: 26.40 / 4 * 1.05 = $6.93, but if it is changed first it
     * is $6.30, and no longer follows. */
    const groat_rate_value leading[] = {{.rate = "hourly", .value = "+10%"},
                                        {.rate = "machine_hour", .value = "+5%"}};
    groat_method *led = groat_method_with_rates(method, leading, 2, NULL);
    assert_rate(led, "machine_hour", "77", "40000"); /* 6.93 / 3600 */
    const groat_rate_value trailing[] = {{.rate = "machine_hour", .value = "+5%"},
                                         {.rate = "hourly", .value = "+10%"}};
    groat_method *trailed = groat_method_with_rates(method, trailing, 2, NULL);
    assert_rate(trailed, "machine_hour", "7", "4000"); /* 6.30 / 3600 */
    groat_method_free(trailed);
    groat_method_free(led);
    groat_method_free(more);
    groat_method_free(both);
    groat_method_free(method);
}

/* A table may be out of order between two changes that together leave it in order. */
static void a_change_may_follow_one_that_alone_is_not_valid(void **state)
{
    (void)state;
    groat_method *method = read_rules("currency USD $\n"
                                      "rate low = $10\n"
                                      "rate high = $20\n"
                                      "rounding steps {\n"
                                      "    below low : every $0.05\n"
                                      "    below high : every $0.50\n"
                                      "}\n"
                                      "price { set $5; round to steps }\n");
    const groat_rate_value values[] = {{.rate = "low", .value = "$25"},
                                       {.rate = "high", .value = "+50%"}};
    groat_trouble trouble;
    groat_method *made = groat_method_with_rates(method, values, 2, &trouble);
    assert_non_null(made);
    assert_amount(made, "high", "$30.00");
    groat_method_free(made);
    assert_null(groat_method_with_rates(method, values, 1, &trouble));
    assert_int_equal(trouble.kind, GROAT_TROUBLE_RULES);
    groat_method_free(method);
}

static void no_change_makes_a_rate_negative(void **state)
{
    (void)state;
    groat_method *method = read_rules(rules);
    const char *message = "hourly: a fall by more than 100% would make this rate negative";
    assert_refused(method, (groat_rate_value){.rate = "hourly", .value = "-150%"}, message);
    assert_refused(method, (groat_rate_value){"hourly", "+0%", "-100.01%", 1, 2}, message);
    groat_method *none = with(method, (groat_rate_value){.rate = "hourly", .value = "-100%"});
    assert_rate(none, "hourly", "0", "1");
    groat_method *below = with(method, (groat_rate_value){.rate = "pieces", .value = "-24"});
    groat_method *further = with(below, (groat_rate_value){.rate = "pieces", .value = "+50%"});
    assert_rate(further, "pieces", "-36", "1"); /* one that is negative may be so */
    groat_method_free(further);
    groat_method_free(below);
    groat_method_free(none);
    groat_method_free(method);
}

static void a_rate_may_be_a_point_on_the_way_between_two(void **state)
{
    (void)state;
    groat_method *method = read_rules(rules);
    groat_method *third = with(
        method, (groat_rate_value){"hourly", "$20 per h", "$30 per h", 1, 3}); /* 70/3 an hour */
    assert_rate(third, "hourly", "7", "1080");
    groat_method *end = with(method, (groat_rate_value){"hourly", "$20 per h", "$30 per h", 3, 3});
    assert_rate(end, "hourly", "1", "120");
    groat_method *down = with(method, (groat_rate_value){"offcuts", "10%", "5%", 1, 2});
    assert_rate(down, "offcuts", "3", "40");
    groat_method_free(down);
    groat_method_free(end);
    groat_method_free(third);
    groat_method_free(method);
}

static void a_rate_that_is_a_plain_number_is_given_as_one(void **state)
{
    (void)state;
    groat_method *method = read_rules(rules);
    groat_method *fewer = with(method, (groat_rate_value){.rate = "pieces", .value = "7"});
    assert_rate(fewer, "pieces", "7", "1");
    groat_method_free(fewer);
    groat_method_free(method);
}

static void what_cannot_be_a_rate_is_refused_with_the_reason(void **state)
{
    (void)state;
    groat_method *method = read_rules(rules);
    assert_refused(method, (groat_rate_value){.rate = "colour", .value = "+10%"},
                   "colour: only a number can be changed by a percentage");
    assert_refused(method, (groat_rate_value){"colour", "oak", "ash", 1, 2},
                   "colour: only a number can be moved toward another value");
    assert_refused(method, (groat_rate_value){"hourly", "$20 per h", "$30 per h", 1, 0},
                   "hourly: the number of steps must be at least 1");
    assert_refused(method, (groat_rate_value){"hourly", "$20 per h", "3 min", 1, 2},
                   "hourly: this is time; hourly is money per time");
    assert_refused(method, (groat_rate_value){.rate = "hourly", .value = ""},
                   "hourly: a rate needs a value");
    groat_method_free(method);
}

static void a_rate_that_is_a_percentage_needs_its_sign(void **state)
{
    (void)state;
    groat_method *method = read_rules(rules);
    assert_refused(method, (groat_rate_value){.rate = "offcuts", .value = "8"},
                   "offcuts: a percentage needs a % sign");
    groat_method_free(method);
}

static void what_is_tried_is_the_number_that_was_given(void **state)
{
    (void)state;
    static const struct {
        const char *rate, *value, *help;
    } cases[] = {
        {"offcuts", "8", "8%"},
        {"offcuts", "0.08", "8%"},
        {"offcuts", "8 %", "8%"},
        {"offcuts", "+8 %", "+8%"},
        {"hourly", "25", "$25 per h"},
        {"hourly", "$25", "$25 per h"},
        {"hourly", "$25/h", "$25 per h"},
        {"hourly", "5 per h", "$5 per h"},
        {"hourly", "25,50", "$25.50 per h"},
        {"hourly", "1,500", "$1,500 per h"},
        {"hourly", "10%", "+10%"},
        {"hourly", "10 %", "+10%"},
        {"hourly", " per h", "for example $24 per h"},
        {"hourly", "2 kg", "for example $24 per h"},
        {"machine_hour", "dear", "for example $6.00 per h"},
        {"pieces", "$20", "20"},
        {"pieces", "many", "for example 24"},
    };
    groat_method *method = read_rules(rules);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        groat_trouble trouble;
        groat_rate_value given = {.rate = cases[i].rate, .value = cases[i].value};
        assert_null(groat_method_with_rates(method, &given, 1, &trouble));
        if (strcmp(tried(&trouble), cases[i].help) != 0)
            fail_msg("%s=%s: Try: %s, not %s", cases[i].rate, cases[i].value, tried(&trouble),
                     cases[i].help);
    }
    groat_method_free(method);
}

/* There a rate is a literal: -50% of a piece make a price below zero, half as many would not. */
static void an_expect_gives_rates_as_literals(void **state)
{
    (void)state;
    size_t count;
    groat_method *method = read_rules(rules);
    groat_report *report = groat_method_check(method, &count);
    assert_int_equal(count, 1);
    assert_int_equal(groat_report_errors(report), 0);
    groat_report_free(report);
    groat_method_free(method);
}

static void assert_limit(const groat_method *method, size_t goal, const char *amount,
                         const char *per)
{
    groat_limit limit;
    assert_int_equal(groat_method_goal_limit(method, goal, &limit), GROAT_OK);
    assert_string_equal(limit.amount, amount);
    assert_string_equal(limit.per, per);
}

#define GOAL(text, has)                                                                            \
    "goal \"" text "\" { needs $600 per month; gives profit; takes bench; has " has " }\n"

static void what_a_goal_has_is_an_amount_and_the_unit_of_time_that_has_it(void **state)
{
    (void)state;
    groat_method *method =
        read_rules("currency USD $\n"
                   "product { name text; bench time as min; free time as h }\n"
                   "rate hours = 30 h per week\n"
                   "price { set $20 }\n" GOAL("literal", "40 h per month") GOAL("rate", "hours")
                       GOAL("fortnight", "9 h per 2 week") GOAL("record", "free per week"));
    assert_limit(method, 0, "40 h", "month");
    assert_limit(method, 1, "30 h", "week");
    assert_limit(method, 2, "9 h per 2 week", "");
    assert_limit(method, 3, "", "");
    groat_method *less =
        with(method, (groat_rate_value){.rate = "hours", .value = "20 h per week"});
    assert_limit(less, 0, "40 h", "month");
    assert_limit(less, 1, "0.119", ""); /* 20 h of the 168 in a week: the rules say it no more */
    groat_method_free(less);
    groat_method_free(method);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_rate_is_told_exactly_and_for_a_person),
        cmocka_unit_test(money_per_time_keeps_its_time_where_the_sign_is_a_word),
        cmocka_unit_test(a_change_is_a_share_of_what_the_rate_is),
        cmocka_unit_test(several_changes_hold_in_the_given_order),
        cmocka_unit_test(a_change_may_follow_one_that_alone_is_not_valid),
        cmocka_unit_test(no_change_makes_a_rate_negative),
        cmocka_unit_test(a_rate_may_be_a_point_on_the_way_between_two),
        cmocka_unit_test(a_rate_that_is_a_plain_number_is_given_as_one),
        cmocka_unit_test(what_cannot_be_a_rate_is_refused_with_the_reason),
        cmocka_unit_test(a_rate_that_is_a_percentage_needs_its_sign),
        cmocka_unit_test(what_is_tried_is_the_number_that_was_given),
        cmocka_unit_test(an_expect_gives_rates_as_literals),
        cmocka_unit_test(what_a_goal_has_is_an_amount_and_the_unit_of_time_that_has_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
