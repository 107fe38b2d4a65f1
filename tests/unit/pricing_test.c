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
        {"100%", "fees and tax take $1.00"},
        {"125%", "fees and tax take $1.25"},
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

/* 10% of the first $10 and 20% of the other $20 are $5; half of the first $20 are $10. */
static void each_sliced_table_has_its_own_slices(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { stuff money }\n"
        "table rent by stuff sliced { up to $10 : 10%; otherwise : 20% }\n"
        "table share by stuff sliced { up to $20 : 50%; otherwise : 0% }\n"
        "cost a = rent\n"
        "cost b = share\n"
        "price { set cost }\n",
        "$30");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_COST, "15.00");
}

/* Of $30, the rows are the first that take a part of it. */
static void a_row_of_a_sliced_table_takes_the_part_that_it_names(void **state)
{
    (void)state;
    static const struct {
        const char *rows, *sum;
    } cases[] = {
        {"$10 to $20 : 50%; up to $40 : 10%; otherwise : 0%", "7.00"}, /* 1 + 5 + 1 */
        {"over $10 : 50%; otherwise : 10%", "11.00"},                  /* 1 + 10 */
        {"$10 or more : 50%; otherwise : 10%", "11.00"},
        {"below $10 : 50%; otherwise : 10%", "7.00"},                   /* 5 + 2 */
        {"$25 to $50 : 20%; $5 to $10 : 40%; otherwise : 10%", "5.00"}, /* 0.5 + 2 + 1.5 + 1 */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char rules[300];
        snprintf(rules, sizeof rules,
                 "currency USD $\nproduct { stuff money }\n"
                 "table rent by stuff sliced { %s }\ncost a = rent\nprice { set cost }\n",
                 cases[i].rows);
        use(rules, "$30");
        assert_int_equal(price_on("direct", 1), GROAT_PRICED);
        assert_figure(GROAT_COST, cases[i].sum);
    }
}

static void a_pin_that_rounds_to_nothing_is_no_price(void **state)
{
    (void)state;
    static const char rules[] = "currency USD $\n"
                                "product { agreed money }\n"
                                "channel stall { }\n"
                                "price { set $5; pin agreed }\n";
    use(rules, "$0.004");
    assert_int_equal(price_on("stall", 1), GROAT_FAILED);
    use(rules, "$0.005");
    assert_int_equal(price_on("stall", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "0.01");
}

/* A third of $10 is nearer to $3.33; two thirds are nearer to $6.67. */
static void a_set_price_without_a_round_line_goes_to_the_nearest_cent(void **state)
{
    (void)state;
    static const char rules[] =
        "currency USD $\nproduct { stuff money }\nprice { set stuff / 3 }\n";
    use(rules, "$10");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "3.33");
    use(rules, "$20");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "6.67");
}

/* $10 of stuff and $4 of profit are $14. */
static void a_price_at_the_ceiling_that_the_aim_asks_for_is_not_held_to_it(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { stuff money }\n"
        "cost material = stuff\n"
        "channel stall { }\n"
        "price { aim profit >= $4; ceiling $14 }\n",
        "$10");
    assert_int_equal(price_on("stall", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "14.00");
    assert_int_equal(groat_result_notes(scratch), 0);
}

/* The parameter stands behind a definition that is met for the first time: $10 + $2. */
static void a_function_knows_its_parameter_behind_another_name(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { stuff money }\n"
        "let together(x) = stuff + x\n"
        "cost material = together($2)\n"
        "price { set cost }\n",
        "$10");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_COST, "12.00");
}

static void a_condition_on_what_is_missing_makes_sure_of_that_name(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { stuff money optional }\n"
        "cost material = if stuff is missing then $4 else stuff\n"
        "price { set cost }\n",
        NULL);
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_COST, "4.00");
}

/* 0% of the price is a fee of nothing: price / f compares with nothing at any price, so that the
 * contrary holds at all of them. */
static void an_aim_that_divides_by_a_fee_of_nothing_is_decided_by_its_contrary(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { part number }\n"
        "channel stall { fee f = part * price }\n"
        "price { aim not (price / f > 1) and price >= $3; round up to $1 }\n",
        "0");
    assert_int_equal(price_on("stall", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "3.00");
}

/* $3 an order are half a dollar for each of six. */
static void the_price_without_loss_is_that_of_the_order(void **state)
{
    (void)state;
    use("currency USD $\n"
        "product { stuff money }\n"
        "cost material = stuff\n"
        "channel stall { fee f = $3 per order }\n"
        "price { set cost * 2; discount 0% }\n",
        "$10");
    groat_order order = {groat_method_find_channel(method, "stall"), 6, NULL};
    assert_int_equal(groat_price_without_loss(scratch, method, record, &order), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "10.50");
    order.quantity = 1;
    assert_int_equal(groat_price_without_loss(scratch, method, record, &order), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "13.00");
}

static void assert_fails(const char *rules, const char *cell, const char *reason)
{
    use(rules, cell);
    assert_int_equal(price_on("direct", 1), GROAT_FAILED);
    if (!strstr(groat_result_reason(scratch), reason))
        fail_msg("%s, not %s", groat_result_reason(scratch), reason);
}

static void a_share_of_all_and_a_grid_of_nothing_are_errors_of_the_row(void **state)
{
    (void)state;
    static const char share[] = "currency USD $\nproduct { part percent }\n"
                                "price { set $10 at margin part }\n";
    static const char grid[] = "currency USD $\nproduct { step money }\n"
                               "price { set $7 rounded up to (step) }\n";
    assert_fails(share, "100%", "below 100%");
    use(share, "50%");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "20.00");
    assert_fails(grid, "$0", "above zero");
    use(grid, "$5");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "10.00");
}

/* What is missing has no row and is missing; what divides by zero has none either, and says that. */
static void a_key_without_a_value_has_no_row(void **state)
{
    (void)state;
    static const char rules[] = "currency USD $\nproduct { spare number optional }\n"
                                "let key = 10 / spare\n"
                                "table t by key { up to 5 : $7; 6 or more : $8 }\n"
                                "cost c = t otherwise $2\nprice { set cost }\n";
    use(rules, NULL);
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_COST, "2.00");
    use(rules, "2");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_COST, "7.00");
    assert_fails(rules, "0", "divides by zero");
    /* in an aim such a comparison does not hold, and its contrary does */
    use("currency USD $\nproduct { spare number }\nlet key = 10 / spare\n"
        "table t by key { up to 5 : 7; 6 or more : 8 }\n"
        "price { aim not (t > 5) and price >= $3 }\n",
        "0");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "3.00");
}

/* A fee of a fifth leaves 80% at most, at any price: none is too high. */
static void an_aim_that_no_price_meets_is_not_said_to_hold_at_lower_ones(void **state)
{
    (void)state;
    use("currency USD $\nproduct { stuff money }\ncost c = stuff\nfee f = 20% of price\n"
        "price { aim margin >= 90% }\n",
        "$1");
    assert_int_equal(price_on("direct", 1), GROAT_FAILED);
    assert_null(strstr(groat_result_reason(scratch), "lower prices"));
}

/* $12.125 goes away from zero, as whoever writes $12.13 means it. */
static void an_expected_amount_is_compared_at_its_decimals(void **state)
{
    (void)state;
    size_t count;
    use("currency USD $\nproduct { stuff money }\nlet half = stuff / 2\nprice { set $20 }\n"
        "expect \"half of it\" { stuff = $24.25; then half = $12.13 and half = $12.125 }\n",
        NULL);
    groat_report *report = groat_method_check(method, &count);
    assert_int_equal(count, 1);
    assert_int_equal(groat_report_errors(report), 0);
    groat_report_free(report);
}

/* Eight screws at $20 per 200 are $0.80, at $30 they are $1.20. */
static void parts_follow_the_price_of_their_material_in_a_scratch_that_was_used(void **state)
{
    (void)state;
    groat_trouble trouble;
    const groat_rate_value dearer = {.rate = "screws", .value = "$30 per 200"};
    use("currency USD $\nproduct { uses parts }\nmaterials { screws $20 per 200 }\n"
        "cost fixed = worth of uses\nprice { set cost * 2 }\n",
        "screws 8");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_COST, "0.80");
    groat_method *other = groat_method_with_rates(method, &dearer, 1, &trouble);
    assert_non_null(other);
    assert_int_equal(groat_price(scratch, other, record, &(groat_order){.quantity = 1}),
                     GROAT_PRICED);
    assert_figure(GROAT_COST, "1.20");
    assert_figure(GROAT_PRICE, "2.40");
    assert_int_equal(price_on("direct", 1), GROAT_PRICED);
    assert_figure(GROAT_COST, "0.80");
    groat_method_free(other);
}

/* ---- one price for two channels ---- */

#define TWO(near, far)                                                                             \
    "currency USD $\nproduct { stuff money }\ncost material = stuff\n"                             \
    "channel near { " near " }\nchannel far { " far " }\nsame price on near, far\n"

/* What the second channel asks for counts as much as what the first does. */
static void one_price_for_two_channels_is_right_for_the_second(void **state)
{
    (void)state;
    static const struct {
        const char *rules, *price;
    } cases[] = {
        {TWO("price { set cost * 2 }", "price { set cost * 3 }"), "30.00"},
        {TWO("price { set cost * 3 }", "price { set cost * 2 }"), "30.00"},
        {TWO("price { set $12; floor $13 }", "price { set $12; floor $18 }"), "18.00"},
        {TWO("price { set $30; ceiling $28 }", "price { set $30; ceiling $25 }"), "25.00"},
        {TWO("price { aim profit >= $4 }", "fee f = $3; price { aim profit >= $4 }"), "17.00"},
        {TWO("price { aim profit >= $4; floor $15 }", "price { aim profit >= $4; floor $16 }"),
         "16.00"},
        /* the first does not sell it, and has no say */
        {TWO("only when stuff > $20; price { set $40 }", "price { set $15 }"), "15.00"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        use(cases[i].rules, "$10");
        if (price_on("far", 1) != GROAT_PRICED)
            fail_msg("%s: %s", cases[i].rules, groat_result_reason(scratch));
        assert_figure(GROAT_PRICE, cases[i].price);
    }
}

/* The first channel's aim holds from $14 on; of the second's, one part holds up to $12 only. */
static void one_price_for_two_channels_may_fail_for_a_part_of_the_second_s_aim(void **state)
{
    (void)state;
    use(TWO("price { aim profit >= $4 }", "price { aim profit >= $1 and price <= $12 }"), "$10");
    assert_int_equal(price_on("near", 1), GROAT_FAILED);
    assert_non_null(strstr(groat_result_reason(scratch), "holds only at lower prices"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(each_sliced_table_has_its_own_slices, close_last),
        cmocka_unit_test_teardown(a_row_of_a_sliced_table_takes_the_part_that_it_names, close_last),
        cmocka_unit_test_teardown(a_pin_that_rounds_to_nothing_is_no_price, close_last),
        cmocka_unit_test_teardown(a_set_price_without_a_round_line_goes_to_the_nearest_cent,
                                  close_last),
        cmocka_unit_test_teardown(a_price_at_the_ceiling_that_the_aim_asks_for_is_not_held_to_it,
                                  close_last),
        cmocka_unit_test_teardown(a_function_knows_its_parameter_behind_another_name, close_last),
        cmocka_unit_test_teardown(a_condition_on_what_is_missing_makes_sure_of_that_name,
                                  close_last),
        cmocka_unit_test_teardown(
            an_aim_that_divides_by_a_fee_of_nothing_is_decided_by_its_contrary, close_last),
        cmocka_unit_test_teardown(the_price_without_loss_is_that_of_the_order, close_last),
        cmocka_unit_test_teardown(a_share_of_all_and_a_grid_of_nothing_are_errors_of_the_row,
                                  close_last),
        cmocka_unit_test_teardown(a_key_without_a_value_has_no_row, close_last),
        cmocka_unit_test_teardown(an_aim_that_no_price_meets_is_not_said_to_hold_at_lower_ones,
                                  close_last),
        cmocka_unit_test_teardown(an_expected_amount_is_compared_at_its_decimals, close_last),
        cmocka_unit_test_teardown(
            parts_follow_the_price_of_their_material_in_a_scratch_that_was_used, close_last),
        cmocka_unit_test_teardown(one_price_for_two_channels_is_right_for_the_second, close_last),
        cmocka_unit_test_teardown(
            one_price_for_two_channels_may_fail_for_a_part_of_the_second_s_aim, close_last),
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
