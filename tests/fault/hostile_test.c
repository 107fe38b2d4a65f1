/* Rules files made to hang, crash or fill a host: each ends within seconds, with a clear error or
 * read as it should be. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <time.h>

#include <cmocka.h>

#include "fault/rules_text.h"

/* Far above what any of them takes, also under the sanitizers; far below what its like took before
 * it was found. */
enum { SECONDS_MOST = 20 };

#define SHOP "currency USD $\nprice { set $5 }\n"

/* Reads, and frees the text. The words are NULL where the rules are right. */
static void expect_of(struct text rules, const char *words)
{
    groat_report *report;
    clock_t start = clock();
    groat_reading reading = {0};
    groat_method *method = groat_method_read(
        "hostile.rules", (groat_text){rules.start, rules.length}, &reading, &report);
    size_t written = 0;
    assert_non_null(report);
    for (size_t i = 0; i < groat_report_count(report); i++)
        written += groat_diagnostic_write(groat_report_at(report, i), NULL, 0);
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    if (seconds > 1)
        print_message("%.1f s\n", seconds);
    bool as_expected = words ? !method && report_says(report, words) : method != NULL;
    if (!as_expected)
        report_print(report);
    assert_true(as_expected);
    assert_true(seconds < SECONDS_MOST);
    assert_true(written < 1 << 20);
    groat_report_free(report);
    groat_method_free(method);
    text_free(&rules);
}

static struct text shop(void)
{
    struct text rules = {0};
    text_append(&rules, SHOP);
    return rules;
}

/* ---- what the lexer and the grammar meet ---- */

static void a_megabyte_of_open_parentheses(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "currency USD $\nlet a = ");
    text_repeat(&rules, "(", 1000000);
    expect_of(rules, "nested too deeply");
}

static void a_megabyte_of_digits(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "cost a = $");
    text_repeat(&rules, "9", 1000000);
    expect_of(rules, "more digits than the engine can handle");
}

static void three_million_line_ends(void **state)
{
    (void)state;
    struct text rules = {0};
    text_repeat(&rules, "\n", 3000000);
    text_append(&rules, SHOP);
    expect_of(rules, NULL);
}

static void a_parenthesis_open_over_three_million_lines(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "let a = (");
    text_repeat(&rules, "\n", 3000000);
    expect_of(rules, "is not closed");
}

static void a_million_errors(void **state)
{
    (void)state;
    struct text rules = {0};
    text_repeat(&rules, "}\n", 1000000);
    expect_of(rules, "there are more errors and warnings than are shown");
}

static void errors_on_a_line_of_megabytes(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "currency USD $ ");
    text_repeat(&rules, " ", 1000000);
    text_repeat(&rules, "let @\x01", 300000);
    expect_of(rules, "this character is not part of the language");
}

static void a_unit_per_a_unit_per_a_unit_without_end(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "show a as h");
    text_repeat(&rules, " per h", 300000);
    text_append(&rules, " = 5\n");
    expect_of(rules, "`per` may be followed by at most");
}

static void sums_that_can_be_read_in_two_ways_and_are_long(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "cost a = $1");
    for (int i = 0; i < 190; i++) {
        text_append(&rules, " + $1 at margin 1%%");
        text_repeat(&rules, " ", 9000);
    }
    text_append(&rules, "\n");
    expect_of(rules, "can be read in two ways");
}

static void a_chain_of_not_and_one_of_amounts(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "let a = ");
    text_repeat(&rules, "not ", 300000);
    text_append(&rules, "yes\nlet b = ");
    text_repeat(&rules, "1 h ", 300000);
    text_append(&rules, "\n");
    expect_of(rules, "nested too deeply");
}

static void warnings_without_number_hide_no_error(void **state)
{
    (void)state;
    struct text rules = shop();
    for (int i = 0; i < 300; i++)
        text_append(&rules, "cost c%d = $1 marked up 20\n", i);
    text_append(&rules, "cost last = 5\n");
    expect_of(rules, "5 is a plain number; this needs money");
}

/* ---- names and what leans on them ---- */

static void ten_thousand_lets_in_a_forward_chain(void **state)
{
    (void)state;
    struct text rules = shop();
    for (int i = 0; i < 9990; i++)
        text_append(&rules, "let a%d = a%d + 1\n", i, i + 1);
    text_append(&rules, "let a9990 = 1\ncost c = $1 * a0\n");
    expect_of(rules, "depends on more than 200 levels of other definitions");
}

static void a_chain_of_units_longer_than_the_nesting(void **state)
{
    (void)state;
    struct text rules = shop();
    for (int i = 0; i < 900; i++)
        text_append(&rules, "unit u%d = 2 u%d\n", i, i + 1);
    text_append(&rules, "unit u900\n");
    expect_of(rules, "depends on more than 200 levels of other definitions");
}

static void a_product_of_units_beyond_all_numbers(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "unit u0 = 9999999 ft\n");
    for (int i = 1; i < 300; i++)
        text_append(&rules, "unit u%d = 99999999999999 u%d * 7919\n", i, i - 1);
    expect_of(rules, "more digits than the engine can handle");
}

static void functions_that_call_two_of_the_one_before(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "let f0(x) = x + 1\n");
    for (int i = 1; i < 60; i++)
        text_append(&rules, "let f%d(x) = f%d(x) + f%d(x)\n", i, i - 1, i - 1);
    text_append(&rules, "cost c = $1 * f59(1)\n");
    expect_of(rules, "need more steps than the limit allows");
}

/* Each call is of other dimensions, so that no check of a body serves twice. */
static void functions_of_ever_other_dimensions(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "let f0(x) = x / x\n");
    for (int i = 1; i < 30; i++)
        text_append(&rules, "unit u%d\nlet f%d(x) = f%d(x) + f%d(x * 1 u%d)\n", i, i, i - 1, i - 1,
                    i);
    text_append(&rules, "cost c = $1 * f29(1)\n");
    expect_of(rules, "need more steps than the limit allows");
}

static void a_function_of_thousands_of_values(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "let f(p");
    for (int i = 0; i < 50000; i++)
        text_append(&rules, ", p%d", i);
    text_append(&rules, ") = p\ncost c = $1 * f(1)\n");
    expect_of(rules, "a function may have at most 16 parameters");
}

static void names_unknown_among_thousands_that_are_like_them(void **state)
{
    (void)state;
    struct text rules = shop();
    char name[72];
    memset(name, 'n', sizeof name);
    for (int i = 0; i < 4000; i++)
        text_append(&rules, "let %.72s%d = 1\n", name, i + 1000);
    for (int i = 0; i < 5000; i++)
        text_append(&rules, "cost c%d = $1 * %.71sm%d\n", i, name, i + 1000);
    expect_of(rules, "is not known");
}

static void warnings_asked_for_that_are_like_thousands(void **state)
{
    (void)state;
    struct text rules = shop();
    char text[72];
    memset(text, 'w', sizeof text);
    for (int i = 0; i < 4000; i++)
        text_append(&rules, "warn \"%.72s%d\" when price > $1\n", text, i + 1000);
    text_append(&rules, "expect \"x\" {\n");
    for (int i = 0; i < 9000; i++)
        text_append(&rules, "then warned \"%.71sv%d\"\n", text, i + 1000);
    text_append(&rules, "}\n");
    expect_of(rules, "there is no warn with the text");
}

static void a_name_defined_a_hundred_thousand_times(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "#");
    text_repeat(&rules, "-", 2000000);
    text_append(&rules, "\nlet a = 1\n");
    text_repeat(&rules, "let a = 1\n", 100000);
    expect_of(rules, "is defined twice");
}

static void many_units_and_many_amounts_in_them(void **state)
{
    (void)state;
    struct text rules = shop();
    for (int i = 0; i < 999; i++)
        text_append(&rules, "unit u%d = 2 h\n", i);
    for (int i = 0; i < 300; i++) {
        text_append(&rules, "let l%d = 1 u998", i);
        text_repeat(&rules, " + 1 u998", 190);
        text_append(&rules, "\n");
    }
    expect_of(rules, NULL);
}

static void more_channels_and_units_than_any_shop_has(void **state)
{
    (void)state;
    struct text channels = shop(), units = shop();
    for (int i = 0; i < 100000; i++)
        text_append(&channels, "channel c%d {}\n", i);
    expect_of(channels, "a shop may have at most 1000 channels");
    for (int i = 0; i < 5000; i++)
        text_append(&units, "unit u%d = 2 h\n", i);
    expect_of(units, "a shop may define at most 1000 units");
}

/* ---- tables and ladders ---- */

static void a_rounding_of_endings_and_bands_without_number(void **state)
{
    (void)state;
    struct text endings = {0}, bands = {0};
    text_append(&endings, "currency USD $\nrounding r { otherwise : ends in 99");
    text_repeat(&endings, " or 99", 300000);
    text_append(&endings, " }\nprice { aim profit >= $5; round to r }\n");
    expect_of(endings, "a band may have at most 100 endings");
    text_append(&bands, "currency USD $\nrounding r {\n");
    for (int i = 1; i < 100000; i++)
        text_append(&bands, "below $%d : every $1\n", i);
    text_append(&bands, "}\nprice { aim profit >= $5; round to r }\n");
    expect_of(bands, "has more than 10000 bands");
}

/* Each row held against each, and each whole number between two of them, would take minutes. */
static void a_table_of_ten_thousand_rows(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "table t by quantity {\n");
    for (int i = 1; i <= 10000; i++)
        text_append(&rules, "up to %d : $%d\n", i * 1000, i);
    text_append(&rules, "}\ncost c = t\n");
    expect_of(rules, NULL);
}

static void a_sliced_table_of_ten_thousand_rows(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "table t by price sliced {\n");
    for (int i = 1; i <= 10000; i++)
        text_append(&rules, "up to $%d : 1%%\n", i);
    text_append(&rules, "}\nfee f = t\n");
    expect_of(rules, NULL);
}

static void a_table_looked_up_in_a_hundred_thousand_places(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "table t by quantity { otherwise : $1 }\n");
    for (int i = 0; i < 300; i++) {
        text_append(&rules, "cost c%d = t(%d)", i, i);
        for (int k = 1; k < 190; k++)
            text_append(&rules, " + t(%d)", i + 300 * k);
        text_append(&rules, "\n");
    }
    expect_of(rules, NULL);
}

static void a_hundred_thousand_otherwises(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "product { a money optional }\n");
    for (int i = 0; i < 300; i++) {
        text_append(&rules, "cost c%d = (a otherwise $1)", i);
        text_repeat(&rules, " + (a otherwise $1)", 190);
        text_append(&rules, "\n");
    }
    expect_of(rules, NULL);
}

/* ---- channels ---- */

static void a_thousand_channels_with_a_fee_each_and_shared_costs(void **state)
{
    (void)state;
    struct text rules = shop();
    for (int i = 0; i < 100; i++)
        text_append(&rules, "cost d%d = $%d\n", i, i);
    for (int i = 0; i < 1000; i++)
        text_append(&rules, "channel c%d { fee f%d = 1%% of price }\n", i, i);
    expect_of(rules, NULL);
}

static void a_thousand_channels_times_nine_thousand_definitions(void **state)
{
    (void)state;
    struct text costs = shop(), shows = shop();
    for (int i = 0; i < 8990; i++) {
        text_append(&costs, "cost d%d = $%d\n", i, i);
        text_append(&shows, "show s%d = %d\n", i, i);
    }
    for (int i = 0; i < 1000; i++) {
        text_append(&costs, "channel c%d {}\n", i);
        text_append(&shows, "channel c%d {}\n", i);
    }
    expect_of(costs, "these rules");
    expect_of(shows, "these rules");
}

static void literals_of_thousands_of_digits_on_hundreds_of_channels(void **state)
{
    (void)state;
    struct text rules = shop();
    for (int i = 0; i < 25; i++) {
        text_append(&rules, "cost c%d = $0.", i);
        text_repeat(&rules, "7", 2300);
        text_append(&rules, "%d\n", i);
    }
    for (int i = 0; i < 900; i++)
        text_append(&rules, "channel c_%d {}\n", i);
    expect_of(rules, "these rules");
}

static void a_thousand_channels_of_one_price(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "currency USD $\nprice { aim profit >= $5 }\n");
    for (int i = 0; i < 1000; i++)
        text_append(&rules, "channel c%d { fee f%d = %d%% of price }\n", i, i, i % 50);
    text_append(&rules, "same price on c0");
    for (int i = 1; i < 1000; i++)
        text_append(&rules, ", c%d", i);
    text_append(&rules, "\n");
    expect_of(rules, NULL);
}

static void expects_of_ten_thousand_on_a_hundred_channels(void **state)
{
    (void)state;
    struct text rules = shop();
    text_append(&rules, "rate r = 1\n");
    for (int i = 0; i < 100; i++)
        text_append(&rules, "channel c%d {}\n", i);
    for (int i = 0; i < 9000; i++)
        text_append(&rules, "expect \"e%d\" { r = 2; then price = $5; then price < $6 }\n", i);
    expect_of(rules, "these rules");
}

static void what_has_no_name_counts_too(void **state)
{
    (void)state;
    struct text rules = shop();
    for (int i = 0; i < 20000; i++)
        text_append(&rules, "warn \"%d\" when price > $1\n", i);
    expect_of(rules, "there are more than 10000 definitions");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_megabyte_of_open_parentheses),
        cmocka_unit_test(a_megabyte_of_digits),
        cmocka_unit_test(three_million_line_ends),
        cmocka_unit_test(a_parenthesis_open_over_three_million_lines),
        cmocka_unit_test(a_million_errors),
        cmocka_unit_test(errors_on_a_line_of_megabytes),
        cmocka_unit_test(a_unit_per_a_unit_per_a_unit_without_end),
        cmocka_unit_test(sums_that_can_be_read_in_two_ways_and_are_long),
        cmocka_unit_test(a_chain_of_not_and_one_of_amounts),
        cmocka_unit_test(warnings_without_number_hide_no_error),
        cmocka_unit_test(ten_thousand_lets_in_a_forward_chain),
        cmocka_unit_test(a_chain_of_units_longer_than_the_nesting),
        cmocka_unit_test(a_product_of_units_beyond_all_numbers),
        cmocka_unit_test(functions_that_call_two_of_the_one_before),
        cmocka_unit_test(functions_of_ever_other_dimensions),
        cmocka_unit_test(a_function_of_thousands_of_values),
        cmocka_unit_test(names_unknown_among_thousands_that_are_like_them),
        cmocka_unit_test(warnings_asked_for_that_are_like_thousands),
        cmocka_unit_test(a_name_defined_a_hundred_thousand_times),
        cmocka_unit_test(many_units_and_many_amounts_in_them),
        cmocka_unit_test(more_channels_and_units_than_any_shop_has),
        cmocka_unit_test(a_rounding_of_endings_and_bands_without_number),
        cmocka_unit_test(a_table_of_ten_thousand_rows),
        cmocka_unit_test(a_sliced_table_of_ten_thousand_rows),
        cmocka_unit_test(a_table_looked_up_in_a_hundred_thousand_places),
        cmocka_unit_test(a_hundred_thousand_otherwises),
        cmocka_unit_test(a_thousand_channels_with_a_fee_each_and_shared_costs),
        cmocka_unit_test(a_thousand_channels_times_nine_thousand_definitions),
        cmocka_unit_test(literals_of_thousands_of_digits_on_hundreds_of_channels),
        cmocka_unit_test(a_thousand_channels_of_one_price),
        cmocka_unit_test(expects_of_ten_thousand_on_a_hundred_channels),
        cmocka_unit_test(what_has_no_name_counts_too),
    };
    return cmocka_run_group_tests_name("hostile rules", tests, NULL, NULL);
}
