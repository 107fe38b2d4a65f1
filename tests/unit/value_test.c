/* What a host takes out of a value. Every expected number is worked out by hand beside it. */
#include "language/reading.h"

static const char rules[] = "currency USD $\n"
                            "product { stuff money; finish text optional; due date optional }\n"
                            "let whole = 1 h\n"
                            "let third = stuff / 3\n"
                            "let endless = stuff / 21\n"
                            "let vast = stuff * 10_000_000_000 * 10_000_000_000\n"
                            "let tiny = stuff / 10_000_000_000 / 10_000_000_000\n"
                            "let dear = stuff > $1\n"
                            "let when = due\n"
                            "let word = finish\n"
                            "let loss = $0 - stuff\n"
                            "cost material = stuff\n"
                            "price { set stuff * 2 }\n";

struct priced {
    groat_method *method;
    groat_record *record;
    groat_scratch *scratch;
};

static struct priced price(const groat_reading *reading, const char *stuff)
{
    groat_report *report;
    groat_order order = {.quantity = 1};
    struct priced priced;
    priced.method =
        groat_method_read("test.rules", (groat_text){rules, strlen(rules)}, reading, &report);
    groat_report_free(report);
    assert_non_null(priced.method);
    priced.record = groat_record_new(priced.method);
    priced.scratch = groat_scratch_new(priced.method);
    groat_record_set(priced.record, 0, (groat_text){stuff, strlen(stuff)}, NULL, NULL);
    groat_record_set(priced.record, 1, (groat_text){"oiled", 5}, NULL, NULL);
    groat_record_set(priced.record, 2, (groat_text){"0000-03-11", 10}, NULL, NULL);
    if (groat_price(priced.scratch, priced.method, priced.record, &order) != GROAT_PRICED)
        fail_msg("%s", groat_result_reason(priced.scratch));
    return priced;
}

static void drop(struct priced priced)
{
    groat_scratch_free(priced.scratch);
    groat_record_free(priced.record);
    groat_method_free(priced.method);
}

static void assert_fraction(struct priced priced, const char *name, int64_t top, int64_t bottom)
{
    int64_t above, below;
    assert_true(groat_value_fraction(groat_result_named(priced.scratch, name), &above, &below));
    assert_int_equal(above, top);
    assert_int_equal(below, bottom);
}

static void assert_no_fraction(struct priced priced, const char *name)
{
    int64_t top = 7, bottom = 7;
    assert_false(groat_value_fraction(groat_result_named(priced.scratch, name), &top, &bottom));
    assert_int_equal(top, 7);
    assert_int_equal(bottom, 7);
}

static void assert_coins(groat_value value, int64_t expected)
{
    int64_t coins;
    assert_true(groat_value_coins(value, &coins));
    assert_int_equal(coins, expected);
}

static void assert_no_coins(struct priced priced, const char *name)
{
    int64_t coins = 7;
    assert_false(groat_value_coins(groat_result_named(priced.scratch, name), &coins));
    assert_int_equal(coins, 7);
}

static void a_number_is_two_whole_numbers_in_lowest_terms(void **state)
{
    (void)state;
    struct priced priced = price(NULL, "$4.50");
    assert_fraction(priced, "third", 3, 2);
    assert_fraction(priced, "loss", -9, 2);
    assert_fraction(priced, "whole", 3600, 1); /* seconds */
    assert_fraction(priced, "dear", 1, 1);
    assert_fraction(priced, "when", 10, 1); /* days after 0000-03-01 */
    drop(priced);
}

static void what_is_no_number_or_does_not_fit_is_no_fraction(void **state)
{
    (void)state;
    struct priced priced = price(NULL, "$4.50");
    assert_no_fraction(priced, "word");
    assert_no_fraction(priced, "nothing of that name");
    assert_no_fraction(priced, "vast"); /* 45 * 10^19 is above 2^63 */
    assert_no_fraction(priced, "tiny");
    drop(priced);
}

static void money_is_whole_smallest_units_where_it_is_whole(void **state)
{
    (void)state;
    struct priced priced = price(NULL, "$4.51");
    assert_coins(groat_result_figure(priced.scratch, GROAT_PRICE), 902);
    assert_coins(groat_result_named(priced.scratch, "loss"), -451);
    assert_no_coins(priced, "third"); /* $1.50333… */
    assert_no_coins(priced, "vast");
    assert_no_coins(priced, "tiny");
    assert_no_coins(priced, "whole"); /* an hour is no money */
    assert_no_coins(priced, "word");
    assert_no_coins(priced, "floor");
    drop(priced);
}

static void the_smallest_unit_of_unrounded_rules_is_a_millionth_of_it(void **state)
{
    (void)state;
    const groat_reading reading = {.unrounded = true};
    struct priced priced = price(&reading, "$4.51");
    assert_coins(groat_result_figure(priced.scratch, GROAT_PRICE), 902000000);
    drop(priced);
}

static void a_flag_is_yes_or_no_in_every_writer(void **state)
{
    (void)state;
    struct priced priced = price(NULL, "$4.50");
    groat_value flag = groat_result_named(priced.scratch, "dear");
    char text[8];
    groat_value_write(flag, 6, text, sizeof text);
    assert_string_equal(text, "yes");
    groat_value_places(flag, 6, text, sizeof text);
    assert_string_equal(text, "yes");
    groat_value_short(flag, 6, text, sizeof text);
    assert_string_equal(text, "yes");
    drop(priced);
}

/* 4.5 / 21 is 3 / 14, 0.2 and 142857 over and over: its 60th decimal is a 5, and a 7 follows. */
static void more_than_sixty_decimals_are_written_as_sixty(void **state)
{
    (void)state;
    struct priced priced = price(NULL, "$4.50");
    char sixty[80], more[80];
    groat_value value = groat_result_named(priced.scratch, "endless");
    assert_int_equal(groat_value_places(value, 60, sixty, sizeof sixty), 62);
    assert_int_equal(groat_value_places(value, 61, more, sizeof more), 62);
    assert_string_equal(sixty, more);
    assert_string_equal(sixty + 56, "714286");
    drop(priced);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_number_is_two_whole_numbers_in_lowest_terms),
        cmocka_unit_test(what_is_no_number_or_does_not_fit_is_no_fraction),
        cmocka_unit_test(money_is_whole_smallest_units_where_it_is_whole),
        cmocka_unit_test(a_flag_is_yes_or_no_in_every_writer),
        cmocka_unit_test(more_than_sixty_decimals_are_written_as_sixty),
        cmocka_unit_test(the_smallest_unit_of_unrounded_rules_is_a_millionth_of_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
