/* What may be asked beside the price: a given price, the price without loss, goals. Every expected
 * figure is worked out by hand beside it. */
#include "language/reading.h"

static const char rules[] =
    "currency USD $\n"
    "product {\n"
    "    stuff money; hours time as h = 1 h; low money optional; high money optional\n"
    "    promised money optional\n"
    "}\n"
    "cost material = stuff\n"
    "pay hand = hours * $10 per h\n"
    "channel stall { fee card = 2% of paid + $0.10 }\n"
    "channel market {\n"
    "    only when stuff > $1\n"
    "    fee commission = 10% of price\n"
    "    tax included 20%\n"
    "}\n"
    "channel several { price { discount if quantity >= 5 then 10% else 0% } }\n"
    "channel greedy { fee all = 120% of price }\n"
    "channel fixed { price { set cost * 2; round to $5; pin promised } }\n"
    "price { aim profit >= $3; floor low; ceiling high; round up to $5 }\n"
    "refuse \"a loss\" when profit < $0\n"
    "goal \"a saw\" { needs $100; gives take_home }\n"
    "goal \"an income\" {\n"
    "    needs $500 per month; gives take_home; takes hours; has 40 h per month\n"
    "}\n";

static groat_method *method;
static groat_record *record;
static groat_scratch *scratch;

static int open_shop(void **state)
{
    (void)state;
    method = read_rules(rules);
    record = groat_record_new(method);
    scratch = groat_scratch_new(method);
    return method && record && scratch ? 0 : -1;
}

static int close_shop(void **state)
{
    (void)state;
    groat_scratch_free(scratch);
    groat_record_free(record);
    groat_method_free(method);
    return 0;
}

static void set(const char *field, const char *cell)
{
    groat_trouble trouble;
    size_t index = groat_method_find_field(method, field);
    if (groat_record_set(record, index, (groat_text){cell, strlen(cell)}, NULL, &trouble) !=
        GROAT_OK)
        fail_msg("%s", trouble.message);
}

static groat_order on(const char *channel, int64_t quantity)
{
    return (groat_order){groat_method_find_channel(method, channel), quantity, NULL};
}

static void assert_value(groat_value value, const char *expected)
{
    char text[64];
    groat_value_short(value, 8, text, sizeof text);
    assert_string_equal(text, expected);
}

static void assert_figure(groat_figure figure, const char *expected)
{
    assert_value(groat_result_figure(scratch, figure), expected);
}

static void at_a_given_price_everything_is_worked_out(void **state)
{
    (void)state;
    groat_order stall = on("stall", 1);
    groat_record_clear(record);
    set("stuff", "$20");
    assert_int_equal(groat_price_at(scratch, method, record, &stall, 3350), GROAT_PRICED);
    assert_figure(GROAT_LIST, "33.5");
    assert_figure(GROAT_PRICE, "33.5");
    assert_figure(GROAT_FEES, "0.77"); /* 2% is 0.67, and 0.10 */
    assert_figure(GROAT_KEEP, "32.73");
    assert_figure(GROAT_COST, "30");
    assert_figure(GROAT_PROFIT, "2.73");
    assert_figure(GROAT_TAKE_HOME, "12.73");
    assert_int_equal(groat_result_footing(scratch), GROAT_ON_GIVEN);
    assert_int_equal(groat_result_aim(scratch), GROAT_AIM_MISSED);
    assert_int_equal(groat_price_at(scratch, method, record, &stall, 3500), GROAT_PRICED);
    assert_figure(GROAT_PROFIT, "4.2");
    assert_int_equal(groat_result_aim(scratch), GROAT_AIM_MET);
}

static void the_price_found_rests_on_the_aim_and_meets_it(void **state)
{
    (void)state;
    groat_order stall = on("stall", 1);
    groat_record_clear(record);
    set("stuff", "$20");
    set("low", "$10");
    assert_int_equal(groat_price(scratch, method, record, &stall), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "35"); /* at 30: 30 - 0.70 - 30 is not 3 */
    assert_figure(GROAT_FLOOR, "10");
    assert_int_equal(groat_result_figure(scratch, GROAT_CEILING).presence, GROAT_MISSING);
    assert_int_equal(groat_result_footing(scratch), GROAT_ON_AIM);
    assert_int_equal(groat_result_aim(scratch), GROAT_AIM_MET);
    set("high", "$33");
    assert_int_equal(groat_price(scratch, method, record, &stall), GROAT_REFUSED);
    assert_figure(GROAT_PRICE, "30");
    assert_figure(GROAT_CEILING, "33");
    assert_int_equal(groat_result_footing(scratch), GROAT_ON_CEILING);
    assert_int_equal(groat_result_aim(scratch), GROAT_AIM_MISSED);
}

static void a_given_price_takes_no_heed_of_discount_pin_and_set(void **state)
{
    (void)state;
    groat_order several = on("several", 5), fixed = on("fixed", 1);
    groat_record_clear(record);
    set("stuff", "$20");
    set("promised", "$42.42");
    assert_int_equal(groat_price_at(scratch, method, record, &several, 4000), GROAT_PRICED);
    assert_figure(GROAT_LIST, "40");
    assert_figure(GROAT_PRICE, "40");
    assert_int_equal(groat_price_at(scratch, method, record, &fixed, 4000), GROAT_PRICED);
    assert_figure(GROAT_PROFIT, "10");
    assert_int_equal(groat_result_aim(scratch), GROAT_AIM_NONE);
    assert_int_equal(groat_price(scratch, method, record, &fixed), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "42.42");
    assert_int_equal(groat_result_footing(scratch), GROAT_ON_PIN);
}

static void what_the_rules_refuse_at_a_given_price_still_has_figures(void **state)
{
    (void)state;
    groat_order stall = on("stall", 1);
    groat_record_clear(record);
    set("stuff", "$20");
    assert_int_equal(groat_price_at(scratch, method, record, &stall, 2500), GROAT_REFUSED);
    assert_string_equal(groat_result_reason(scratch), "a loss");
    assert_figure(GROAT_PROFIT, "-5.6"); /* 25 - 0.50 - 0.10 - 30 */
}

static void the_price_without_loss_is_the_least_whole_cent(void **state)
{
    (void)state;
    groat_order stall = on("stall", 1), market = on("market", 1), several = on("several", 5);
    groat_record_clear(record);
    set("stuff", "$20");
    /* 30.71 - 0.71 is 30.00; 30.70 - 0.71 is 29.99 */
    assert_int_equal(groat_price_without_loss(scratch, method, record, &stall), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "30.71");
    assert_figure(GROAT_PROFIT, "0");
    /* tax is a sixth: 40.91 - 6.82 - 4.09 is 30.00; 40.90 - 6.82 - 4.09 is 29.99 */
    assert_int_equal(groat_price_without_loss(scratch, method, record, &market), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "40.91");
    assert_int_equal(groat_price_without_loss(scratch, method, record, &several), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "30");
    set("high", "$25"); /* a ceiling is no reason to lose */
    assert_int_equal(groat_price_without_loss(scratch, method, record, &stall), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "30.71");
}

static void where_every_price_loses_the_reason_is_told(void **state)
{
    (void)state;
    groat_order greedy = on("greedy", 1);
    groat_record_clear(record);
    set("stuff", "$20");
    set("high", "$90"); /* holds the price; refused there, and worked out */
    assert_int_equal(groat_price_without_loss(scratch, method, record, &greedy), GROAT_FAILED);
    assert_string_equal(
        groat_result_reason(scratch),
        "no price avoids a loss: of each $1 more, fees and tax take $1.20 (test.rules:15)");
    assert_int_equal(groat_result_figure(scratch, GROAT_PRICE).presence, GROAT_MISSING);
}

static void what_is_not_sold_has_no_price_of_any_kind(void **state)
{
    (void)state;
    groat_order market = on("market", 1);
    groat_record_clear(record);
    set("stuff", "$1");
    assert_int_equal(groat_price_at(scratch, method, record, &market, 100), GROAT_NOT_SOLD);
    assert_int_equal(groat_price_without_loss(scratch, method, record, &market), GROAT_NOT_SOLD);
    assert_int_equal(groat_price_for_goal(scratch, method, record, &market, 1), GROAT_NOT_SOLD);
    assert_int_equal(groat_result_goal(scratch, 0, GROAT_NEEDS).presence, GROAT_MISSING);
}

static void a_goal_has_its_lines_in_base_units(void **state)
{
    (void)state;
    char text[32];
    groat_order stall = on("stall", 1);
    groat_record_clear(record);
    set("stuff", "$20");
    assert_int_equal(groat_method_goals(method), 2);
    assert_string_equal(groat_method_goal(method, 0).text, "a saw");
    assert_false(groat_method_goal(method, 0).per_time);
    assert_false(groat_method_goal(method, 0).limited);
    assert_true(groat_method_goal(method, 1).per_time);
    assert_true(groat_method_goal(method, 1).limited);
    assert_int_equal(groat_method_goal(method, 1).line, 20);
    assert_int_equal(groat_price(scratch, method, record, &stall), GROAT_PRICED);
    assert_value(groat_result_goal(scratch, 0, GROAT_NEEDS), "100");
    assert_value(groat_result_goal(scratch, 0, GROAT_GIVES), "14.2"); /* 4.20 and 10 of pay */
    assert_int_equal(groat_result_goal(scratch, 0, GROAT_TAKES).presence, GROAT_MISSING);
    assert_value(groat_result_goal(scratch, 1, GROAT_TAKES), "3600");
    /* 40 h is 144000 s; a month is 365.2425 days / 12, 2629746 s */
    groat_value has = groat_result_goal(scratch, 1, GROAT_HAS);
    groat_value_top(has, text, sizeof text);
    assert_string_equal(text, "8000");
    groat_value_bottom(has, text, sizeof text);
    assert_string_equal(text, "146097");
}

static void the_price_for_a_goal_is_the_least_allowed_one_that_reaches_it(void **state)
{
    (void)state;
    groat_order stall = on("stall", 1);
    groat_record_clear(record);
    set("stuff", "$20");
    set("hours", "2 h");
    assert_int_equal(groat_price(scratch, method, record, &stall), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "45"); /* 24 for 2 h: 480 a month */
    /* 25 is needed: 46.02 at least, so 50, which gives 50 - 1.10 - 20 */
    assert_int_equal(groat_price_for_goal(scratch, method, record, &stall, 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "50");
    assert_value(groat_result_goal(scratch, 1, GROAT_GIVES), "28.9");
    set("low", "$57");
    assert_int_equal(groat_price_for_goal(scratch, method, record, &stall, 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "60");
    set("high", "$48"); /* a ceiling is the host's to see */
    set("low", "");
    assert_int_equal(groat_price_for_goal(scratch, method, record, &stall, 1), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "50");
    /* without a limit on what there is, the price is the usual one */
    assert_int_equal(groat_price_for_goal(scratch, method, record, &stall, 0), GROAT_PRICED);
    assert_figure(GROAT_PRICE, "45");
}

static void money_from_outside_is_whole_smallest_units(void **state)
{
    (void)state;
    const struct {
        const char *text;
        bool comma;
        int64_t coins; /* 0: refused */
        const char *message;
    } cases[] = {
        {"$45", false, 4500, ""},
        {" 1,234.50 ", false, 123450, ""},
        {"1.234,50", true, 123450, ""},
        {"0.01", false, 1, ""},
        {"$0", false, 0, "a price must be above zero"},
        {"-5", false, 0, "a price must be above zero"},
        {"$1.005", false, 0, "a price must be a whole number of the currency's smallest unit"},
        {"", false, 0, "there is no price here"},
        {"45 min", false, 0, "this is time; price is money"},
        {"$2 to $3", false, 0, "a price must be a single amount, not a range"},
        {"90000000000000000000", false, 0,
         "this is larger than the largest price that the engine can handle"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        int64_t coins = 0;
        groat_trouble trouble = {0};
        groat_cells cells = {cases[i].comma};
        groat_status status = groat_money_read(
            method, (groat_text){cases[i].text, strlen(cases[i].text)}, &cells, &coins, &trouble);
        assert_string_equal(trouble.message, cases[i].message);
        assert_int_equal(status, cases[i].coins ? GROAT_OK : GROAT_BAD_VALUE);
        if (cases[i].coins)
            assert_int_equal(coins, cases[i].coins);
    }
}

static void a_price_that_is_none_is_refused(void **state)
{
    (void)state;
    groat_order stall = on("stall", 1);
    groat_record_clear(record);
    set("stuff", "$20");
    assert_int_equal(groat_price_at(scratch, method, record, &stall, 0), GROAT_FAILED);
    assert_int_equal(groat_price_at(scratch, method, record, &stall, -7), GROAT_FAILED);
    assert_int_equal(groat_price_at(scratch, method, record, &stall, INT64_MAX), GROAT_FAILED);
    assert_int_equal(groat_result_figure(scratch, GROAT_PRICE).presence, GROAT_MISSING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(at_a_given_price_everything_is_worked_out),
        cmocka_unit_test(the_price_found_rests_on_the_aim_and_meets_it),
        cmocka_unit_test(a_given_price_takes_no_heed_of_discount_pin_and_set),
        cmocka_unit_test(what_the_rules_refuse_at_a_given_price_still_has_figures),
        cmocka_unit_test(the_price_without_loss_is_the_least_whole_cent),
        cmocka_unit_test(where_every_price_loses_the_reason_is_told),
        cmocka_unit_test(what_is_not_sold_has_no_price_of_any_kind),
        cmocka_unit_test(a_goal_has_its_lines_in_base_units),
        cmocka_unit_test(the_price_for_a_goal_is_the_least_allowed_one_that_reaches_it),
        cmocka_unit_test(money_from_outside_is_whole_smallest_units),
        cmocka_unit_test(a_price_that_is_none_is_refused),
    };
    return cmocka_run_group_tests(tests, open_shop, close_shop);
}
