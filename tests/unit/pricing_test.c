/* What single lines of a method come to. Every expected figure is worked out by hand beside it. */
#include "language/reading.h"

static groat_method *method;
static groat_record *record;
static groat_scratch *scratch;

static void close_method(void)
{
    groat_scratch_free(scratch);
    groat_record_free(record);
    groat_method_free(method);
    method = NULL;
    record = NULL;
    scratch = NULL;
}

/* Reads a method of one channel, or of several, and sets its first field. */
static void use(const char *rules, const char *cell)
{
    groat_trouble trouble;
    close_method();
    method = read_rules(rules);
    record = groat_record_new(method);
    scratch = groat_scratch_new(method);
    assert_true(record && scratch);
    if (cell &&
        groat_record_set(record, 0, (groat_text){cell, strlen(cell)}, NULL, &trouble) != GROAT_OK)
        fail_msg("%s", trouble.message);
}

static groat_outcome price_on(const char *channel, int64_t quantity)
{
    groat_order order = {groat_method_find_channel(method, channel), quantity, NULL};
    return groat_price(scratch, method, record, &order);
}

static void assert_figure(groat_figure figure, const char *expected)
{
    char text[64];
    groat_value_places(groat_result_figure(scratch, figure), 2, text, sizeof text);
    assert_string_equal(text, expected);
}

static int close_last(void **state)
{
    (void)state;
    close_method();
    return 0;
}

/* The price found for one is not the price for six at which the fee is taken: $3 in six parts. */
static void a_choice_that_follows_the_quantity_is_made_anew_for_the_order(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { post flag }\n"
        "channel stall { fee f = if post then 10% of price else $3 / quantity }\n"
        "price { aim keep >= $9; discount 0% }\n",
        "no");
    assert_int_equal(price_on("stall", 6), GROAT_PRICED);
    assert_figure(GROAT_LIST, "12.00");
    assert_figure(GROAT_PRICE, "12.00");
    assert_figure(GROAT_FEES, "0.50");
    assert_int_equal(price_on("stall", 1), GROAT_PRICED);
    assert_figure(GROAT_FEES, "3.00");
}

/* In an aim such a comparison would not hold and the price be found; 10 / 2 is above 3. */
static void a_warning_that_divides_by_zero_makes_the_row_an_error(void **state)
{
    (void)state;
    static const char rules[] = "currency USD $\n"
                                "product { a number }\n"
                                "channel stall { }\n"
                                "price { set $5 }\n"
                                "warn \"many\" when 10 / a > 3\n";
    use(rules, "0");
    assert_int_equal(price_on("stall", 1), GROAT_FAILED);
    assert_non_null(strstr(groat_result_reason(scratch), "divides by zero"));
    use(rules, "2");
    assert_int_equal(price_on("stall", 1), GROAT_PRICED);
    assert_int_equal(groat_result_notes(scratch), 1);
}

static void an_aim_that_divides_by_zero_does_not_hold_at_that_price(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { a money }\n"
        "channel stall { }\n"
        "price { aim not ($10 / (price - a) > 0%); round up to $1 }\n",
        "$1");
    /* At $1 nothing is divided, so the comparison does not hold and its contrary does. */
    assert_int_equal(price_on("stall", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "1.00");
}

/* The shop's own list for the product is $20; three quarters of it are $15. */
static void a_ceiling_may_follow_the_list_price_of_another_channel(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { stuff money }\n"
        "cost material = stuff\n"
        "channel shop { price { set cost * 2 } }\n"
        "channel outlet { price { aim profit >= $8; ceiling list on shop marked down 25% } }\n",
        "$10");
    assert_int_equal(price_on("outlet", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "15.00");
    assert_non_null(strstr(groat_result_note(scratch, 0), "held to the ceiling"));
    use("currency USD $\n"
        "product { stuff money }\n"
        "cost material = stuff\n"
        "channel shop { price { set cost * 2 } }\n"
        "channel outlet { price { aim profit >= $4; ceiling list on shop marked down 25% } }\n",
        "$10");
    assert_int_equal(price_on("outlet", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "14.00");
}

/* What is blamed is the slope where it is not above zero, though a part of the aim is capped as well:
 * fees of all of the price leave nothing of each further dollar. */
static void a_slope_of_nothing_is_told_before_a_part_that_holds_low_prices_only(void **state)
{
    (void)state;
    static const struct {
        const char *fee, *reason;
    } cases[] = {
        {"100%", "leaves $0.00 after fees"},
        {"125%", "leaves -$0.25 after fees"},
        {"50%", "holds only at lower prices"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char rules[300];
        snprintf(rules, sizeof rules,
                 "currency USD $\nproduct { stuff money }\ncost material = stuff\n"
                 "channel stall { fee all = %s of price }\n"
                 "price { aim profit >= $50 and price <= $12 }\n",
                 cases[i].fee);
        use(rules, "$10");
        assert_int_equal(price_on("stall", 1), GROAT_FAILED);
        if (!strstr(groat_result_reason(scratch), cases[i].reason))
            fail_msg("%s: %s", cases[i].fee, groat_result_reason(scratch));
    }
}

/* Half a cent goes away from zero. */
static void a_pin_is_rounded_to_the_nearest_cent(void **state)
{
    (void)state;
    static const char rules[] = "currency USD $\n"
                                "product { agreed money }\n"
                                "channel stall { }\n"
                                "price { set $5; pin agreed }\n";
    use(rules, "$12.345");
    assert_int_equal(price_on("stall", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "12.35");
    use(rules, "$12.344");
    assert_int_equal(price_on("stall", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "12.34");
}

static void an_aim_that_is_in_error_at_every_price_says_what_the_error_is(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { colour text }\n"
        "table least by colour { \"red\" : $3; \"blue\" : $4 }\n"
        "channel stall { }\n"
        "price { aim price >= least }\n",
        "green");
    assert_int_equal(price_on("stall", 1), GROAT_FAILED);
    assert_non_null(
        strstr(groat_result_reason(scratch), "the table least has no row for \"green\""));
}

/* Eight times $10 of stuff, and half of the $10 that a sale at $20 leaves. */
static void each_line_of_a_goal_may_be_worked_out_of_the_record(void **state)
{
    (void)state;
    char text[64];
    use("currency USD $\n"
        "product { stuff money }\n"
        "cost material = stuff\n"
        "channel stall { }\n"
        "price { set cost * 2 }\n"
        "goal \"a kiln\" {\n"
        "    needs stuff * 8\n"
        "    gives profit / 2\n"
        "}\n",
        "$10");
    assert_int_equal(price_on("stall", 1), GROAT_PRICED);
    groat_value_short(groat_result_goal(scratch, 0, GROAT_NEEDS), 4, text, sizeof text);
    assert_string_equal(text, "80");
    groat_value_short(groat_result_goal(scratch, 0, GROAT_GIVES), 4, text, sizeof text);
    assert_string_equal(text, "5");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_choice_that_follows_the_quantity_is_made_anew_for_the_order),
        cmocka_unit_test(a_warning_that_divides_by_zero_makes_the_row_an_error),
        cmocka_unit_test(an_aim_that_divides_by_zero_does_not_hold_at_that_price),
        cmocka_unit_test(a_ceiling_may_follow_the_list_price_of_another_channel),
        cmocka_unit_test(a_slope_of_nothing_is_told_before_a_part_that_holds_low_prices_only),
        cmocka_unit_test(each_line_of_a_goal_may_be_worked_out_of_the_record),
        cmocka_unit_test(a_pin_is_rounded_to_the_nearest_cent),
        cmocka_unit_test(an_aim_that_is_in_error_at_every_price_says_what_the_error_is),
    };
    return cmocka_run_group_tests_name("single lines of a method", tests, NULL, close_last);
}
