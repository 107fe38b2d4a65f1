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
    text_print(&rules, SHOP);
    return rules;
}

/* ---- what the lexer and the grammar meet ---- */

static void a_megabyte_of_open_parentheses(void **state)
{
    (void)state;
    struct text rules = {0};
    text_print(&rules, "currency USD $\nlet a = ");
    text_repeat(&rules, "(", 1000000);
    expect_of(rules, "nests too deep");
}

static void a_megabyte_of_digits(void **state)
{
    (void)state;
    struct text rules = shop();
    text_print(&rules, "cost a = $");
    text_repeat(&rules, "9", 1000000);
    expect_of(rules, "more digits than the engine works with");
}

static void three_million_line_ends(void **state)
{
    (void)state;
    struct text rules = {0};
    text_repeat(&rules, "\n", 3000000);
    text_print(&rules, SHOP);
    expect_of(rules, NULL);
}

static void a_parenthesis_open_over_three_million_lines(void **state)
{
    (void)state;
    struct text rules = shop();
    text_print(&rules, "let a = (");
    text_repeat(&rules, "\n", 3000000);
    expect_of(rules, "is not closed");
}

static void a_million_errors(void **state)
{
    (void)state;
    struct text rules = {0};
    text_repeat(&rules, "}\n", 1000000);
    expect_of(rules, "there is more to say about these rules");
}

static void errors_on_a_line_of_megabytes(void **state)
{
    (void)state;
    struct text rules = {0};
    text_print(&rules, "currency USD $ ");
    text_repeat(&rules, " ", 1000000);
    text_repeat(&rules, "let @\x01", 300000);
    expect_of(rules, "this sign is not of the language");
}

static void a_unit_per_a_unit_per_a_unit_without_end(void **state)
{
    (void)state;
    struct text rules = shop();
    text_print(&rules, "show a as h");
    text_repeat(&rules, " per h", 300000);
    text_print(&rules, " = 5\n");
    expect_of(rules, "a unit is per at most");
}

static void sums_that_can_be_read_in_two_ways_and_are_long(void **state)
{
    (void)state;
    struct text rules = shop();
    text_print(&rules, "cost a = $1");
    for (int i = 0; i < 390; i++) {
        text_print(&rules, " + $1 at margin 1%%");
        text_repeat(&rules, " ", 9000);
    }
    text_print(&rules, "\n");
    expect_of(rules, "can be read in two ways");
}

static void a_chain_of_not_and_one_of_amounts(void **state)
{
    (void)state;
    struct text rules = shop();
    text_print(&rules, "let a = ");
    text_repeat(&rules, "not ", 300000);
    text_print(&rules, "yes\nlet b = ");
    text_repeat(&rules, "1 h ", 300000);
    text_print(&rules, "\n");
    expect_of(rules, "nests too deep");
}

static void warnings_without_number_hide_no_error(void **state)
{
    (void)state;
    struct text rules = shop();
    for (int i = 0; i < 300; i++)
        text_print(&rules, "cost c%d = $1 marked up 20\n", i);
    text_print(&rules, "cost last = 5\n");
    expect_of(rules, "5 is a plain number; this needs money");
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
    };
    return cmocka_run_group_tests_name("hostile rules", tests, NULL, NULL);
}
