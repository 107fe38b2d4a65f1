/* What one price may take: rules of a few dozen kilobytes, made so that each price tried is as much
 * work as can be, meet the limit on steps. Before the work was counted by the size of its numbers,
 * each of these took seconds. Nothing here looks at a clock: what is held to is what was counted. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/rules_text.h"
#include "library/library.h"

/* ---- rules ---- */

/* Digits that make up no round number. */
static void print_digits(struct text *rules, size_t count)
{
    static unsigned state = 1;
    for (size_t i = 0; i < count; i++) {
        state = state * 1103515245 + 12345;
        text_append(rules, "%u", 1 + (state >> 16) % 9);
    }
}

/* An aim, and two numbers of 2,000 digits each. */
static struct text with_long_rates(void)
{
    struct text rules = {0};
    text_append(&rules, "currency USD $\nproduct { n number = 3 }\nprice { aim profit >= $500 }\n"
                        "rate a = 0.");
    print_digits(&rules, 2000);
    text_append(&rules, "\nrate b = 0.");
    print_digits(&rules, 2000);
    text_append(&rules, "\nlet p = price * a\n");
    return rules;
}

/* So many fees, each rounded to a cent: which of some hundred prices is the first that meets the aim,
 * only trying can tell. */
static void print_fees(struct text *rules, int count, const char *more)
{
    for (int i = 0; i < count; i++) {
        text_append(rules, "fee f%d = 0.1%03d%% of price", i, i);
        text_append(rules, more, i + 7);
        text_append(rules, "\n");
    }
}

/* ---- what is counted ---- */

/* A piece of work is counted before it is done; the largest there is on numbers of so many digits is
 * less than this, and no more than so many pieces are done before what they take is looked at. */
enum { PIECE_MOST = 12000, PIECES_MOST = 64 };

/* The steps that a price took, whatever came of it. */
static void expect_limit(struct text rules)
{
    groat_method *method = read_right(rules.start);
    assert_non_null(method);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    assert_non_null(scratch);
    groat_order order = {.channel = 0, .quantity = 1};
    groat_outcome outcome = groat_price(scratch, method, record, &order);
    const char *reason = groat_result_reason(scratch);
    bool met = outcome == GROAT_FAILED && strstr(reason, "takes more steps than the limit allows");
    if (!met)
        print_message("outcome %d: %s\n", (int)outcome, reason);
    assert_true(met);
    assert_int_equal(scratch->evaluation.steps_left, 0);
    assert_true(scratch->heap.effort <
                groat_limits_default().steps + (size_t)PIECE_MOST * PIECES_MOST);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
    text_free(&rules);
}

static void comparisons_of_long_numbers_are_counted(void **state)
{
    (void)state;
    struct text rules = with_long_rates();
    print_fees(&rules, 500, " * (if p > $1 * b * %d then 1 else 2)");
    expect_limit(rules);
}

static void the_larger_and_the_smaller_of_long_numbers_are_counted(void **state)
{
    (void)state;
    struct text rules = with_long_rates();
    print_fees(&rules, 500, " + (p at most $1 * b * %d) * 0");
    expect_limit(rules);
}

static void quotients_of_long_numbers_that_come_out_short_are_counted(void **state)
{
    (void)state;
    struct text rules = with_long_rates();
    print_fees(&rules, 190, " + p / (a * 1000000%03d)");
    expect_limit(rules);
}

static void products_that_come_out_too_long_are_counted(void **state)
{
    (void)state;
    struct text rules = with_long_rates();
    print_fees(&rules, 500, " + (if p > -$1 then $0 else p * (b * %d + 1 / 7919) * b * a)");
    expect_limit(rules);
}

static void rounding_long_numbers_is_counted(void **state)
{
    (void)state;
    struct text rules = with_long_rates();
    for (int i = 0; i < 2500; i++)
        text_append(&rules,
                    "let r%d = (n * a * %d + 1) rounded to (b)\nlet s%d = r%d * b + r%d / a\n", i,
                    i + 7, i, i, i);
    for (int i = 0; i < 2500; i++)
        text_append(&rules, "cost c%d = $1 * s%d\n", i, i);
    expect_limit(rules);
}

static void rows_with_long_bounds_are_counted(void **state)
{
    (void)state;
    struct text rules = with_long_rates();
    text_append(&rules, "table t by price {\n");
    for (int i = 1; i <= 300; i++)
        text_append(&rules, "up to $1 * b * %d : $%d\n", i, i);
    text_append(&rules, "otherwise : $0 }\n");
    print_fees(&rules, 300, " + t(p * %d) * 0");
    expect_limit(rules);
}

static void slices_are_counted_one_by_one(void **state)
{
    (void)state;
    struct text rules = with_long_rates();
    text_append(&rules, "table t by price sliced {\n");
    for (int i = 1; i <= 300; i++)
        text_append(&rules, "up to $%d : 0.1%%\n", i);
    text_append(&rules, "otherwise : 0 }\n");
    print_fees(&rules, 300, " + t(price * %d) / 400");
    expect_limit(rules);
}

static void numbers_that_pass_a_machine_word_on_the_way_are_counted(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "currency USD $\nprice { aim profit >= $500 }\n");
    for (int i = 0; i < 900; i++) {
        text_append(&rules, "fee f%d = price * 0.0009 / 1.", i);
        print_digits(&rules, 17);
        text_append(&rules, " + $1/");
        print_digits(&rules, 17);
        text_append(&rules, "\n");
    }
    expect_limit(rules);
}

static void looking_through_long_texts_is_counted(void **state)
{
    (void)state;
    struct text rules = {0}, word = {0};
    text_repeat(&word, "x", 30000);
    text_append(&rules, "currency USD $\nprice { aim profit >= $500 }\nproduct { s text = \"");
    text_add(&rules, word.start, word.length);
    text_append(&rules, "\" }\ntable t by s, price {\n\"");
    text_add(&rules, word.start, word.length);
    text_append(&rules, "\", up to $1 : $1\notherwise : $0 }\n");
    print_fees(&rules, 600, " + t(s, price + $%d)");
    text_free(&word);
    expect_limit(rules);
}

/* Bands without a price are passed over one by one, whoever looks for a price above them. */
static void looking_through_many_bands_is_counted(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules,
                "currency USD $\nproduct { n number = 3 }\nprice { set $5 }\nrounding r {\n");
    for (int i = 1; i < 9000; i++)
        text_append(&rules, "below $%d : every $900000\n", i);
    text_append(&rules, "otherwise : every $900000 }\n");
    for (int i = 0; i < 40; i++) {
        text_append(&rules, "cost c%d = $0", i);
        for (int k = 0; k < 90; k++)
            text_append(&rules, " + (n * $%d rounded up to r)", i * 90 + k + 1);
        text_append(&rules, "\n");
    }
    expect_limit(rules);
}

/* Forty rows whose bounds, and whose key, have 2,000 digits, looked up once by a column that is shown:
 * the last thing that is worked out. Some twenty rows or more lie below
 * the key. */
static struct text with_a_long_lookup(const char *sliced)
{
    struct text rules = with_long_rates();
    text_append(&rules, "table t by n %s {\n", sliced);
    for (int i = 1; i <= 40; i++)
        text_append(&rules, "up to b * %d : %d\n", i, i);
    text_append(&rules, "otherwise : 50 }\nshow row = t(n * a * 12)\n");
    return rules;
}

/* Whether the column has its value; otherwise the steps ran out, and that is said, or the rules could
 * not be read. */
static bool is_shown(const char *rules, size_t steps, size_t *ran_out)
{
    groat_limits limits = groat_limits_default();
    limits.steps = steps;
    groat_report *report;
    groat_method *method = read_with(rules, &limits, &report);
    groat_report_free(report);
    if (!method)
        return false;
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_order order = {.channel = 0, .quantity = 1};
    groat_outcome outcome = groat_price(scratch, method, record, &order);
    bool shown = outcome == GROAT_PRICED && groat_result_show(scratch, 0).presence == GROAT_THERE;
    if (!shown && (outcome != GROAT_FAILED ||
                   !strstr(groat_result_reason(scratch), "more steps than the limit allows")))
        fail_msg("with %zu steps, outcome %d: %s", steps, (int)outcome,
                 groat_result_reason(scratch));
    *ran_out += !shown;
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
    return shown;
}

static void a_lookup_that_runs_out_of_steps_says_so(void **state)
{
    (void)state;
    static const char *const kinds[] = {"", "sliced"};
    for (size_t i = 0; i < 2; i++) {
        struct text rules = with_a_long_lookup(kinds[i]);
        size_t ran_out = 0, steps = 1000;
        while (!is_shown(rules.start, steps, &ran_out))
            steps += steps / 8;
        assert_true(ran_out > 3);
        text_free(&rules);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(comparisons_of_long_numbers_are_counted),
        cmocka_unit_test(the_larger_and_the_smaller_of_long_numbers_are_counted),
        cmocka_unit_test(quotients_of_long_numbers_that_come_out_short_are_counted),
        cmocka_unit_test(products_that_come_out_too_long_are_counted),
        cmocka_unit_test(rounding_long_numbers_is_counted),
        cmocka_unit_test(rows_with_long_bounds_are_counted),
        cmocka_unit_test(slices_are_counted_one_by_one),
        cmocka_unit_test(numbers_that_pass_a_machine_word_on_the_way_are_counted),
        cmocka_unit_test(looking_through_long_texts_is_counted),
        cmocka_unit_test(looking_through_many_bands_is_counted),
        cmocka_unit_test(a_lookup_that_runs_out_of_steps_says_so),
    };
    return cmocka_run_group_tests_name("what a price may take", tests, NULL, NULL);
}
