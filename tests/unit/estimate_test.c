/* Estimates: every combination of the ends of a row's ranges. Expected figures are by hand; a whole
 * shop is held against an independent calculation in tests/oracle/scenarios/estimates. */
#include "language/reading.h"
#include "study/estimate.h"

static groat_method *method;
static groat_record *record;
static struct estimate *estimate;

static void use_rules(const char *rules)
{
    method = read_rules(rules);
    record = groat_record_new(method);
    estimate = estimate_open(method);
    assert_non_null(record);
    assert_non_null(estimate);
}

static int forget(void **state)
{
    (void)state;
    estimate_close(estimate);
    groat_record_free(record);
    groat_method_free(method);
    estimate = NULL;
    record = NULL;
    method = NULL;
    return 0;
}

static void set(const char *field, const char *cell)
{
    groat_trouble trouble;
    size_t index = groat_method_find_field(method, field);
    assert_true(index != SIZE_MAX);
    if (groat_record_set(record, index, (groat_text){cell, strlen(cell)}, NULL, &trouble) !=
        GROAT_OK)
        fail_msg("%s: %s", cell, trouble.message);
}

static const struct estimate_result *row_on(size_t channel)
{
    const groat_order order = {.channel = channel, .quantity = 1};
    return estimate_row(estimate, record, &order);
}

/* An amount as `top/bottom`; nothing where it is absent. */
static void assert_amount(struct amount amount, const char *expected)
{
    char top[64], bottom[64], text[140] = "";
    assert_int_equal(amount.there, expected != NULL);
    if (!expected)
        return;
    amount_top(amount, top, sizeof top);
    amount_bottom(amount, bottom, sizeof bottom);
    snprintf(text, sizeof text, "%s/%s", top, bottom);
    assert_string_equal(text, expected);
}

static void assert_result(const struct estimate_result *result, const char *lowest,
                          const char *highest, const char *mean)
{
    assert_int_equal(result->outcome, ESTIMATE_DONE);
    assert_amount(result->lowest, lowest);
    assert_amount(result->highest, highest);
    assert_amount(result->mean, mean);
}

/* (4 + 4 * 4.50 + 6) / 6 = 28 / 6 = 14/3. The price is twice the cost, $8 to $12. */
static void the_mean_weighs_the_likely_cost_four_times(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "product { wood money }\n"
              "cost c = wood\n"
              "price { set cost * 2 }\n");
    set("wood", "$4 to $6 likely $4.50");
    const struct estimate_result *result = row_on(0);
    assert_result(result, "8/1", "12/1", "14/3");
    assert_int_equal(result->corners, 2);
    assert_int_equal(result->ranges_count, 1);
    assert_int_equal(result->unpriced, 0);
}

/* 20 to 30 minutes, likely 24, at $30 to $36, in the middle $33: $10 to $18, likely $13.20.
 * (10 + 52.80 + 18) / 6 = 80.80 / 6 = 202/15. */
static void rates_and_fields_are_combined_with_one_another(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "product { bench time = 20 to 30 min likely 24 min }\n"
              "rate hourly = $30 to $36 per h\n"
              "pay c = bench * hourly\n"
              "price { set cost }\n");
    const struct estimate_result *result = row_on(0);
    assert_result(result, "10/1", "18/1", "202/15");
    assert_int_equal(result->corners, 4);
    assert_false(result->ranges[0].is_rate);
    assert_true(result->ranges[1].is_rate);
}

/* Two rates at their opposite ends: $3 - $2 at the least, $5 - $1 at the most. */
static void the_least_price_may_need_a_range_at_its_high_end(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "rate gross = $3 to $5\n"
              "rate back  = $1 to $2\n"
              "cost c = gross - back\n"
              "price { set cost }\n");
    assert_result(row_on(0), "1/1", "4/1", "5/2"); /* (1 + 4 * 2.50 + 4) / 6 */
}

static void a_row_without_ranges_is_its_own_estimate(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "product { wood money }\n"
              "rate unused = 2 to 3\n"
              "cost c = wood\n"
              "price { set cost * 2 }\n"
              "let other = unused\n");
    set("wood", "$7");
    const struct estimate_result *result = row_on(0);
    assert_result(result, "14/1", "14/1", "7/1");
    assert_int_equal(result->ranges_count, 0);
    assert_int_equal(result->corners, 1);
}

/* With ten ranges of $1 to $2 the price goes from $10 to $20; an eleventh is one too many. */
static void ten_ranges_are_combined_and_eleven_are_not(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "product { a money; b money; c money; d money; e money; f money; g money; h money }\n"
              "rate i = $1 to $2\n"
              "rate j = $1 to $2\n"
              "cost all = a + b + c + d + e + f + g + h + i + j\n"
              "channel one { }\n"
              "channel two { cost more_ = k }\n"
              "rate k = $1 to $2\n"
              "price { set cost }\n");
    for (char name[] = "a"; name[0] <= 'h'; name[0]++)
        set(name, "$1 to $2");
    const struct estimate_result *result = row_on(0);
    assert_result(result, "10/1", "20/1", "15/1");
    assert_int_equal(result->corners, 1024);
    result = row_on(1);
    assert_int_equal(result->outcome, ESTIMATE_TOO_MANY);
    assert_int_equal(result->ranges_count, 11);
    assert_int_equal(result->ranges[0].index, groat_method_find_field(method, "a"));
    assert_true(result->ranges[10].is_rate);
    assert_string_equal(groat_method_rate(method, result->ranges[10].index).name, "k");
    assert_amount(result->lowest, NULL);
    assert_amount(result->highest, NULL);
    assert_amount(result->mean, NULL);
    set("h", "$2 to $2");                             /* no range any more: ten are left */
    assert_result(row_on(1), "12/1", "22/1", "17/1"); /* ten of $1 to $2, and one of $2 */
}

/* The table charges $9 for 5 to 6 alone: the likely price of $9 lies above both ends' $1. */
static void a_price_between_the_ends_can_lie_outside_of_lowest_and_highest(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "product { weight number }\n"
              "table post by weight {\n"
              "    below 5   : $1\n"
              "    5 to 6    : $9\n"
              "    otherwise : $1\n"
              "}\n"
              "cost c = post\n"
              "price { set cost }\n");
    set("weight", "4 to 7 likely 5.5");
    assert_result(row_on(0), "1/1", "1/1", "19/3"); /* (1 + 36 + 1) / 6 */
}

static void what_is_refused_or_not_sold_at_an_end_is_counted_and_told(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "product { wood money; weight number = 1 }\n"
              "cost c = wood\n"
              "channel stall { refuse \"too dear\" when cost > $5 }\n"
              "channel post { only when weight < 3 }\n"
              "price { set cost }\n");
    set("wood", "$4 to $6");
    const struct estimate_result *result = row_on(0);
    assert_result(result, "4/1", "4/1", "5/1"); /* what is refused has its cost all the same */
    assert_int_equal(result->unpriced, 1);
    assert_string_equal(result->reason, "too dear");
    set("weight", "1 to 4 likely 2");
    result = row_on(1);
    assert_result(result, "4/1", "6/1", NULL); /* what is not sold has none */
    assert_int_equal(result->corners, 4);
    assert_int_equal(result->unpriced, 2);
    assert_string_equal(result->reason, "the product is not sold there");
    set("wood", "$6 to $7");
    result = row_on(0);
    assert_result(result, NULL, NULL, "13/2");
    assert_int_equal(result->unpriced, 2);
}

/* At its high end the first bound of the ladder stands above the second. */
static void rates_that_break_a_ladder_at_an_end_are_counted_and_told(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "rate bound = $5 to $20 likely $6\n"
              "cost c = $4.20\n"
              "rounding steps {\n"
              "    below bound : every $0.50\n"
              "    below $10   : every $1\n"
              "    otherwise   : every $5\n"
              "}\n"
              "price { set cost; round up to steps }\n");
    const struct estimate_result *result = row_on(0);
    assert_result(result, "9/2", "9/2", NULL);
    assert_int_equal(result->unpriced, 1);
    assert_string_equal(result->reason,
                        "with these rates, a table or a rounding is no longer valid");
}

static void the_record_is_likely_again_afterwards(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "product { wood money; glue money = $1 to $3 }\n"
              "cost c = wood + glue\n"
              "price { set cost }\n");
    groat_scratch *scratch = groat_scratch_new(method);
    set("wood", "$4 to $6 likely $4.50");
    row_on(0);
    const groat_order order = {.channel = 0, .quantity = 1};
    assert_int_equal(groat_price(scratch, method, record, &order), GROAT_PRICED);
    int64_t coins = 0;
    assert_true(groat_value_coins(groat_result_figure(scratch, GROAT_PRICE), &coins));
    assert_int_equal(coins, 650);
    assert_result(row_on(0), "5/1", "9/1", "20/3"); /* (5 + 26 + 9) / 6 */
    groat_scratch_free(scratch);
}

static void the_price_for_more_pieces_has_its_own_estimate(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "rate setup = $10 to $30\n"
              "cost c = $1 + setup per order\n"
              "price { set cost }\n");
    const groat_order ten = {.channel = 0, .quantity = 10};
    assert_result(row_on(0), "11/1", "31/1", "21/1");
    assert_result(estimate_row(estimate, record, &ten), "2/1", "4/1", "3/1");
}

/* Materials bear where the parts name them: many choices of rates, of 512 combinations each. The
 * nth material is n to 2n dollars the piece. */
static void many_choices_of_rates_follow_each_other(void **state)
{
    (void)state;
    use_rules("currency USD $\n"
              "materials {\n"
              "    m1 $1 to $2 each; m2 $2 to $4 each; m3 $3 to $6 each; m4 $4 to $8 each\n"
              "    m5 $5 to $10 each; m6 $6 to $12 each; m7 $7 to $14 each; m8 $8 to $16 each\n"
              "    m9 $9 to $18 each; m10 $10 to $20 each; m11 $11 to $22 each\n"
              "}\n"
              "product { uses parts }\n"
              "cost c = worth of uses\n"
              "price { set cost }\n");
    for (int turn = 0; turn < 2; turn++) {
        for (int without = 1; without <= 11; without += 5) {
            char cell[200] = "", lowest[32], highest[32], mean[32];
            int sum = 0, other = without == 11 ? 1 : without + 1;
            for (int n = 1; n <= 11; n++) {
                if (n == without || n == other)
                    continue;
                snprintf(cell + strlen(cell), sizeof cell - strlen(cell), "%sm%d 1",
                         cell[0] ? " + " : "", n);
                sum += n;
            }
            set("uses", cell);
            const struct estimate_result *result = row_on(0);
            snprintf(lowest, sizeof lowest, "%d/1", sum);
            snprintf(highest, sizeof highest, "%d/1", 2 * sum);
            snprintf(mean, sizeof mean, sum % 2 ? "%d/2" : "%d/1", sum % 2 ? 3 * sum : 3 * sum / 2);
            assert_int_equal(result->corners, 512);
            assert_result(result, lowest, highest, mean);
        }
    }
}

#define TEST(function) cmocka_unit_test_teardown(function, forget)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(the_mean_weighs_the_likely_cost_four_times),
        TEST(rates_and_fields_are_combined_with_one_another),
        TEST(the_least_price_may_need_a_range_at_its_high_end),
        TEST(a_row_without_ranges_is_its_own_estimate),
        TEST(ten_ranges_are_combined_and_eleven_are_not),
        TEST(a_price_between_the_ends_can_lie_outside_of_lowest_and_highest),
        TEST(what_is_refused_or_not_sold_at_an_end_is_counted_and_told),
        TEST(rates_that_break_a_ladder_at_an_end_are_counted_and_told),
        TEST(the_record_is_likely_again_afterwards),
        TEST(the_price_for_more_pieces_has_its_own_estimate),
        TEST(many_choices_of_rates_follow_each_other),
    };
    return cmocka_run_group_tests_name("estimate", tests, NULL, NULL);
}
