/* The limits a host can set: each, when it is met, says so; and prices made to take for ever or to
 * leave the machine's numbers. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <time.h>

#include <cmocka.h>

#include "fault/rules_text.h"

#define SHOP "currency USD $\nprice { set $5 }\n"
#define AIMING "currency USD $\nprice { aim profit >= $5 }\n"

/* ---- while rules are read ---- */

static void source_bytes_limit_one_file(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.source_bytes = 20;
    assert_true(refused_with(
        SHOP, &limits, "hostile.rules is larger than a rules file may be, which is 20 bytes"));
    limits.source_bytes = strlen(SHOP);
    groat_report *report;
    groat_method *method = read_with(SHOP, &limits, &report);
    assert_non_null(method);
    groat_report_free(report);
    groat_method_free(method);
}

static void nesting_limits_an_expression_and_what_it_leans_on(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.nesting = 5;
    assert_true(refused_with(SHOP "cost c = ((((((($1)))))))\n", &limits,
                             "this is nested more than 5 levels deep"));
    assert_true(refused_with(SHOP
                             "let a = b\nlet b = c\nlet c = d\nlet d = e\nlet e = f\nlet f = 1\n"
                             "cost x = $1 * a\n",
                             &limits, "depends on more than 5 levels of other definitions"));
}

static void definitions_limit_a_method(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.definitions = 3;
    assert_true(refused_with(SHOP "cost a = $1\ncost b = $1\ncost c = $1\ncost d = $1\n", &limits,
                             "there are more than 3 definitions"));
}

static void table_rows_limit_one_table(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.table_rows = 2;
    assert_true(refused_with(SHOP "table t by quantity { 1 : $1\n 2 : $2\n 3 : $3 }\ncost c = t\n",
                             &limits, "the table t has more than 2 rows"));
}

static void number_bits_limit_a_literal(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.number_bits = 100;
    assert_true(refused_with(SHOP "cost c = $123456789012345678901234567890123456789\n", &limits,
                             "more digits than the engine can handle"));
}

static void steps_limit_a_method_when_it_is_read(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.steps = 10;
    assert_true(refused_with(SHOP "cost c = $1 + $2 + $3 + $4 + $5 + $6 + $7 + $8\n", &limits,
                             "these rules need more steps than the limit allows"));
}

static void memory_bytes_limit_a_method(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    for (size_t bytes = 0; bytes < 150000; bytes += 10000) {
        limits.memory_bytes = bytes;
        char words[100];
        snprintf(words, sizeof words,
                 "these rules need more memory than they may use, which is %zu bytes", bytes);
        assert_true(refused_with(SHOP, &limits, words));
    }
}

/* A record that is set again and again without being cleared holds all it was given. */
static void memory_bytes_limit_records(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.memory_bytes = (size_t)4 << 20;
    groat_report *report;
    groat_method *method = read_with(SHOP "product { label text optional }\n", &limits, &report);
    assert_non_null(method);
    groat_report_free(report);
    groat_record *record = groat_record_new(method);
    assert_non_null(record);
    struct text cell = {0};
    text_repeat(&cell, "x", 1 << 20);
    groat_text given = {cell.start, cell.length};
    groat_status status = GROAT_OK;
    for (int i = 0; i < 5 && status == GROAT_OK; i++)
        status = groat_record_set(record, 0, given, NULL, NULL);
    assert_int_equal(status, GROAT_NO_MEMORY);
    groat_record_clear(record);
    assert_int_equal(groat_record_set(record, 0, given, NULL, NULL), GROAT_OK);
    text_free(&cell);
    groat_record_free(record);
    groat_method_free(method);
}

/* Prices a product with a number of 2400 decimals, to which rules add something 1200 times, so that
 * pricing takes more memory than the rules do. */
static groat_reason price_many_digits(size_t memory_bytes)
{
    groat_limits limits = groat_limits_default();
    limits.memory_bytes = memory_bytes;
    struct text rules = {0}, cell = {0};
    text_append(&rules, "%s", SHOP "product { long number }\n");
    for (int i = 1; i <= 20; i++) {
        text_append(&rules, "show s%d = long + %d", i, i);
        text_repeat(&rules, " + 7", 60);
        text_append(&rules, "%s", "\n");
    }
    text_append(&cell, "0.");
    text_repeat(&cell, "7", 2400);
    groat_report *report;
    groat_method *method = read_with(rules.start, &limits, &report);
    groat_report_free(report);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_record *record = groat_record_new(method);
    groat_reason reason = GROAT_REASON_CALL; /* the limit is too low for the rules alone */
    if (scratch && record) {
        groat_text given = {cell.start, cell.length};
        assert_int_equal(groat_record_set(record, 0, given, NULL, NULL), GROAT_OK);
        groat_price(scratch, method, record, &(groat_order){0, 1, NULL});
        reason = groat_result_reason_kind(scratch);
    }
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
    text_free(&rules);
    text_free(&cell);
    return reason;
}

static void memory_bytes_limit_a_price_by_a_limits_own_reason(void **state)
{
    (void)state;
    bool limited = false;
    groat_reason reason = GROAT_REASON_CALL;
    for (size_t bytes = 64 << 10; reason != GROAT_REASON_NONE; bytes += bytes / 16) {
        reason = price_many_digits(bytes);
        assert_true(bytes < (size_t)64 << 20);
        assert_true(reason == GROAT_REASON_NONE || reason == GROAT_REASON_LIMIT ||
                    (reason == GROAT_REASON_CALL && !limited));
        limited = limited || reason == GROAT_REASON_LIMIT;
    }
    assert_true(limited);
}

/* ---- while a price is sought ---- */

/* Prices one piece without a record's fields; within seconds. What is said is the reason, or the
 * price. */
static groat_outcome price_of(const char *rules, const groat_limits *limits, int64_t quantity,
                              char *said, size_t size)
{
    groat_report *report;
    groat_method *method = read_with(rules, limits, &report);
    if (!method)
        report_print(report);
    assert_non_null(method);
    groat_report_free(report);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    assert_non_null(scratch);
    groat_order order = {.channel = 0, .quantity = quantity};
    clock_t start = clock();
    groat_outcome outcome = groat_price(scratch, method, record, &order);
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    if (seconds > 1)
        print_message("%.1f s\n", seconds);
    assert_true(seconds < 20);
    if (outcome == GROAT_PRICED)
        groat_value_write(groat_result_figure(scratch, GROAT_PRICE), 2, said, size);
    else
        snprintf(said, size, "%s", groat_result_reason(scratch));
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
    return outcome;
}

static bool fails_with(const char *rules, const groat_limits *limits, const char *words)
{
    char said[600];
    bool fails = price_of(rules, limits, 1, said, sizeof said) == GROAT_FAILED &&
                 strstr(said, words) != NULL;
    if (!fails)
        print_message("%s\n", said);
    return fails;
}

static bool costs(const char *rules, const char *price)
{
    char said[600];
    bool right =
        price_of(rules, NULL, 1, said, sizeof said) == GROAT_PRICED && strcmp(said, price) == 0;
    if (!right)
        print_message("%s\n", said);
    return right;
}

/* A fee that jumps at many prices, and never lets the aim hold. */
static struct text many_jumps(int count)
{
    struct text rules = {0};
    text_append(&rules, "currency USD $\nprice { aim profit >= $50 }\ntable t by price {\n");
    for (int i = 1; i < count; i++)
        text_append(&rules, "up to $%d : $%d\n", i * 10, i * 10 - 3);
    text_append(&rules, "otherwise : $1\n}\nfee f = t\n");
    return rules;
}

static void bends_limit_one_price(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    struct text rules = many_jumps(200);
    limits.bends = 20;
    assert_true(fails_with(rules.start, &limits, "more bends of the fees than the limit allows"));
    text_free(&rules);
}

/* Half the price is the fee: whether what is kept is more than that, rounding decides at each price. */
static void many_trials_between_two_bends_are_no_more_bends(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.trials = 100;
    limits.bends = 20;
    assert_true(fails_with("currency USD $\nfee half = 50% of price\nprice { aim keep > fees }\n",
                           &limits, "more trials than the limit allows"));
}

static void trials_limit_one_price(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.trials = 20;
    /* Three hundred fees are each rounded: by how much together, only trying can tell. */
    struct text rules = {0};
    text_append(&rules, "currency USD $\nprice { aim profit >= $5 }\n");
    for (int i = 0; i < 300; i++)
        text_append(&rules, "fee f%d = 0.%d%% of price\n", i, 100 + i);
    assert_true(fails_with(rules.start, &limits, "more trials than the limit allows"));
    text_free(&rules);
}

static void steps_limit_one_price(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    struct text rules = many_jumps(2000);
    limits.steps = 200000;
    assert_true(fails_with(rules.start, &limits, "more steps than the limit allows"));
    text_free(&rules);
}

/* In March the price on `first` takes most of the steps, and too few are left for the one on
 * `second`, which does not depend on the date. In May there are enough for both. On both the fee
 * takes all but $3 up to $1,000, and beyond it $1. */
static void what_ran_out_of_steps_is_worked_out_anew_the_next_time(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.steps = 20000;
    struct text rules = {0};
    text_append(&rules,
                "currency USD $\n"
                "channel stall { price { set $1 }\n"
                "    show one = list on first\n    show two = list on second }\n"
                "channel first { fee f = t; price { aim as_of >= 2027-05-01 or profit >= $50 } }\n"
                "channel second { fee f = t; price { aim profit >= $50; discount 0%% } }\n"
                "table t by price {\n");
    for (int i = 1; i <= 100; i++)
        text_append(&rules, "up to $%d : $%d\n", i * 10, i * 10 - 3);
    text_append(&rules, "otherwise : $1\n}\n");
    groat_report *report;
    groat_method *method = read_with(rules.start, &limits, &report);
    if (!method)
        report_print(report);
    assert_non_null(method);
    groat_report_free(report);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_order march = {0, 1, "2027-03-01"}, may = {0, 1, "2027-05-01"};
    char said[64];
    assert_int_equal(groat_price(scratch, method, record, &march), GROAT_FAILED);
    assert_non_null(strstr(groat_result_reason(scratch), "more steps than the limit allows"));
    assert_int_equal(groat_price(scratch, method, record, &may), GROAT_PRICED);
    groat_value_write(groat_result_show(scratch, 0), 2, said, sizeof said);
    assert_string_equal(said, "0.01");
    groat_value_write(groat_result_show(scratch, 1), 2, said, sizeof said);
    assert_string_equal(said, "1000.01");
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
    text_free(&rules);
}

/* A price within a limit on steps, by a new scratch; then by the same one, at once and after an
 * order of two. GROAT_REFUSED where the rules cannot be read. */
static groat_outcome price_thrice(const char *rules, size_t steps)
{
    groat_limits limits = groat_limits_default();
    limits.steps = steps;
    groat_report *report;
    groat_method *method = read_with(rules, &limits, &report);
    groat_report_free(report);
    if (!method)
        return GROAT_REFUSED;
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_order one = {0, 1, NULL}, two = {0, 2, NULL};
    groat_outcome first = groat_price(scratch, method, record, &one);
    assert_int_equal(groat_price(scratch, method, record, &one), first);
    groat_price(scratch, method, record, &two);
    assert_int_equal(groat_price(scratch, method, record, &one), first);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
    return first;
}

/* Found by halving: the least limit within which there is a price. */
static void a_limit_on_steps_is_the_same_for_a_scratch_that_was_used(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "currency USD $\nfee f = t\nshow share = $40 / quantity\n"
                        "price { aim profit >= $50; discount 0%% }\ntable t by price {\n");
    for (int i = 1; i <= 100; i++)
        text_append(&rules, "up to $%d : $%d\n", i * 10, i * 10 - 3);
    text_append(&rules, "otherwise : $1\n}\n");
    size_t fails = 0, priced = 200000;
    assert_int_equal(price_thrice(rules.start, priced), GROAT_PRICED);
    while (priced - fails > 1) {
        size_t middle = fails + (priced - fails) / 2;
        if (price_thrice(rules.start, middle) == GROAT_PRICED)
            priced = middle;
        else
            fails = middle;
    }
    for (size_t steps = priced - 3; steps < priced + 3; steps++)
        assert_int_equal(price_thrice(rules.start, steps),
                         steps < priced ? GROAT_FAILED : GROAT_PRICED);
    text_free(&rules);
}

static void number_bits_limit_what_is_worked_out(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.number_bits = 200;
    struct text rules = {0};
    text_append(&rules, "currency USD $\nproduct { n number = 1 }\nprice { set $5 }\ncost c = $1");
    for (int i = 0; i < 40; i++)
        text_append(&rules, " * (n + 1/%d)", 1000003 + 2 * i);
    text_append(&rules, "\n");
    assert_true(fails_with(rules.start, &limits, "more digits than the engine can handle"));
    text_free(&rules);
}

static void fees_over_all_of_the_price_leave_none(void **state)
{
    (void)state;
    assert_true(fails_with(AIMING "fee f = 120% of price\n", NULL, "no price meets the aim"));
    assert_true(fails_with(AIMING "fee f = 100.001% of price\n", NULL, "no price meets the aim"));
    assert_true(costs(AIMING "fee f = -100% of price\n", "2.50"));
}

static void costs_of_nothing_and_below_it_have_a_least_price(void **state)
{
    (void)state;
    assert_true(costs("currency USD $\ncost c = $0\nprice { aim margin >= 35% }\n", "0.01"));
    assert_true(
        costs("currency USD $\ncost c = -$50\nprice { aim margin >= 35% }\nfee f = 99% of price\n",
              "0.01"));
}

static void prices_near_the_largest_are_right_and_beyond_it_said_to_be(void **state)
{
    (void)state;
    assert_true(costs("currency USD $\ncost c = $9000000000000000\nprice { aim profit >= $5 }\n",
                      "9000000000000005.00"));
    assert_true(
        costs("currency USD $\nprice { set $11529215046068469.74 }\n", "11529215046068469.74"));
    assert_true(fails_with("currency USD $\nprice { set $11529215046068469.75 }\n", NULL,
                           "larger than the largest price that the engine can handle"));
    assert_true(fails_with("currency USD $\nprice { set $5; floor $99999999999999999999 }\n", NULL,
                           "larger than the largest price that the engine can handle"));
    char said[600];
    assert_int_equal(price_of("currency USD $\ncost c = $90000000000000000000\n"
                              "price { aim profit >= $5 }\n",
                              NULL, 1, said, sizeof said),
                     GROAT_FAILED);
}

static void ladders_of_huge_bounds_stay_within_prices(void **state)
{
    (void)state;
    assert_true(costs("currency USD $\nrounding r {\n"
                      "below $11000000000000000 : every $10000000000000000\n"
                      "otherwise : ends in .99 }\n"
                      "price { set $11000000000000000; round to r }\n",
                      "11000000000000000.99"));
    assert_true(fails_with("currency USD $\nrounding r { otherwise : every $10000000000000000 }\n"
                           "price { set $11000000000000000; round up to r }\n",
                           NULL, "cannot be rounded: there is no allowed price in that direction"));
    assert_true(
        refused_with("currency USD $\nrounding r { otherwise : every $99999999999999999999 }\n"
                     "price { set $5; round to r }\n",
                     NULL, "a whole number of the currency's smallest unit"));
    assert_true(
        refused_with("currency USD $\nrounding r { below $99999999999999999999 : every $1 }\n"
                     "price { set $5; round to r }\n",
                     NULL, "limit of this band is not a valid price"));
}

static void rates_of_thirty_decimals_end(void **state)
{
    (void)state;
    char said[600];
    groat_outcome outcome = price_of("currency USD $\nrate r = 0.000000000000000000000000000001\n"
                                     "price { aim profit >= $5 }\nfee f = price * (1 - r)\n",
                                     NULL, 1, said, sizeof said);
    assert_int_equal(outcome, GROAT_FAILED);
    assert_true(costs("currency USD $\nrate r = 0.000000000000000000000000000001\n"
                      "price { aim profit >= $5 }\nfee f = price * r\n",
                      "5.00"));
}

static void fractions_over_large_primes_are_exact(void **state)
{
    (void)state;
    static const int primes[] = {1000003, 1000033, 1000037, 1000039, 1000081, 1000099, 1000117};
    struct text rules = {0};
    text_append(&rules, AIMING);
    for (int i = 0; i < 7; i++)
        text_append(&rules, "cost p%d = $1 / %d\ncost m%d = $1 - $1 / %d\n", i, primes[i], i,
                    primes[i]);
    assert_true(costs(rules.start, "12.00"));
    text_free(&rules);
}

static void large_numbers_in_a_fee_end(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "currency USD $\nrate b = 0.");
    text_repeat(&rules, "7", 2000);
    text_append(&rules, "1\nprice { aim profit >= $500 }\n");
    for (int i = 0; i < 400; i++)
        text_append(&rules, "fee f%d = price * b * 0.%04d3 at most $1\n", i, i + 1);
    char said[600];
    price_of(rules.start, NULL, 1, said, sizeof said);
    assert_true(said[0] != '\0');
    text_free(&rules);
}

static void an_order_of_the_most_pieces_is_priced(void **state)
{
    (void)state;
    char said[600];
    static const char rules[] = AIMING "cost c = $7 per order\nfee f = $1 per order\n"
                                       "table t by quantity { up to 10 : 1%\n otherwise : 2% }\n"
                                       "price { discount t }\n";
    assert_int_equal(price_of(rules, NULL, INT64_MAX, said, sizeof said), GROAT_PRICED);
    assert_int_equal(price_of(rules, NULL, 0, said, sizeof said), GROAT_FAILED);
    assert_int_equal(price_of(rules, NULL, INT64_MIN, said, sizeof said), GROAT_FAILED);
}

static void a_thousand_channels_of_one_price_are_priced(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, AIMING);
    for (int i = 0; i < 1000; i++)
        text_append(&rules, "channel c%d { fee f%d = %d%% of price }\n", i, i, i % 50);
    text_append(&rules, "same price on c0");
    for (int i = 1; i < 1000; i++)
        text_append(&rules, ", c%d", i);
    text_append(&rules, "\n");
    assert_true(costs(rules.start, "9.80"));
    text_free(&rules);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(source_bytes_limit_one_file),
        cmocka_unit_test(nesting_limits_an_expression_and_what_it_leans_on),
        cmocka_unit_test(definitions_limit_a_method),
        cmocka_unit_test(table_rows_limit_one_table),
        cmocka_unit_test(number_bits_limit_a_literal),
        cmocka_unit_test(steps_limit_a_method_when_it_is_read),
        cmocka_unit_test(memory_bytes_limit_a_method),
        cmocka_unit_test(memory_bytes_limit_records),
        cmocka_unit_test(memory_bytes_limit_a_price_by_a_limits_own_reason),
        cmocka_unit_test(bends_limit_one_price),
        cmocka_unit_test(many_trials_between_two_bends_are_no_more_bends),
        cmocka_unit_test(trials_limit_one_price),
        cmocka_unit_test(steps_limit_one_price),
        cmocka_unit_test(what_ran_out_of_steps_is_worked_out_anew_the_next_time),
        cmocka_unit_test(a_limit_on_steps_is_the_same_for_a_scratch_that_was_used),
        cmocka_unit_test(number_bits_limit_what_is_worked_out),
        cmocka_unit_test(fees_over_all_of_the_price_leave_none),
        cmocka_unit_test(costs_of_nothing_and_below_it_have_a_least_price),
        cmocka_unit_test(prices_near_the_largest_are_right_and_beyond_it_said_to_be),
        cmocka_unit_test(ladders_of_huge_bounds_stay_within_prices),
        cmocka_unit_test(rates_of_thirty_decimals_end),
        cmocka_unit_test(fractions_over_large_primes_are_exact),
        cmocka_unit_test(large_numbers_in_a_fee_end),
        cmocka_unit_test(an_order_of_the_most_pieces_is_priced),
        cmocka_unit_test(a_thousand_channels_of_one_price_are_priced),
    };
    return cmocka_run_group_tests_name("limits", tests, NULL, NULL);
}
