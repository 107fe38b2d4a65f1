/* Tidying with little memory, with limits, and of texts made to hang it or to make it grow. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <time.h>

#include <cmocka.h>

#include "fault/counting.h"
#include "fault/rules_text.h"

/* ---- memory ---- */

static const char untidy[] = "currency  USD $\nproduct {\nname text\nwood money=$0 # of one\n"
                             "uses parts optional}\nlet f(a,b)=if a>b\nthen (a\n+b)\nelse b\n"
                             "\n\n\n\n# what\nrate a=1 ;rate b=2";

struct run {
    struct counting counting;
    groat_allocator allocator;
    groat_tidied *tidied;
    groat_report *report;
};

static void run(struct run *run, const char *rules, size_t fail_from)
{
    *run = (struct run){.counting = {.fail_from = fail_from, .fail_to = SIZE_MAX}};
    run->allocator = counting_allocator(&run->counting);
    groat_reading reading = {.allocator = &run->allocator};
    run->tidied = groat_tidy("a.rules", (groat_text){rules, strlen(rules)}, &reading, &run->report);
}

static void end_run(struct run *run)
{
    groat_tidied_free(run->tidied);
    groat_report_free(run->report);
    assert_false(run->counting.wrong_size);
    assert_int_equal(run->counting.live_blocks, 0);
    assert_int_equal(run->counting.live_bytes, 0);
}

static void when_memory_is_out_there_is_neither_a_text_nor_a_report(void **state)
{
    (void)state;
    static const char *const rules[] = {untidy, "let a = (b\n", ""};
    for (size_t k = 0; k < sizeof rules / sizeof *rules; k++) {
        struct run whole, part;
        run(&whole, rules[k], SIZE_MAX);
        assert_non_null(whole.report);
        assert_int_equal(whole.tidied != NULL, k != 1);
        size_t asked = whole.counting.asked;
        end_run(&whole);
        for (size_t n = 1; n <= asked; n++) {
            run(&part, rules[k], n);
            assert_null(part.tidied);
            assert_null(part.report);
            end_run(&part);
        }
    }
}

/* ---- limits ---- */

static bool refused(const char *rules, const groat_limits *limits, const char *words)
{
    groat_reading reading = {.limits = limits};
    groat_report *report;
    groat_tidied *tidied =
        groat_tidy("hostile.rules", (groat_text){rules, strlen(rules)}, &reading, &report);
    bool said = !tidied && report && report_says(report, words);
    groat_tidied_free(tidied);
    groat_report_free(report);
    return said;
}

static void the_limits_of_reading_hold(void **state)
{
    (void)state;
    groat_limits limits = groat_limits_default();
    limits.source_bytes = 20;
    assert_true(refused(untidy, &limits,
                        "hostile.rules is larger than a rules file may be, which is 20 bytes"));
    limits = groat_limits_default();
    limits.nesting = 5;
    assert_true(
        refused("let c = ((((((($1)))))))\n", &limits, "this is nested more than 5 levels deep"));
    limits = groat_limits_default();
    limits.memory_bytes = 100000;
    assert_true(
        refused(untidy, &limits, "need more memory than they may use, which is 100000 bytes"));
}

/* ---- texts made for it ---- */

enum { SECONDS_MOST = 20 };

/* Tidies, frees the text, and returns how long the tidy one is; 0 when it is refused, which is said
 * with the words. */
static size_t length_of(struct text rules, const char *words)
{
    groat_report *report;
    clock_t start = clock();
    groat_tidied *tidied =
        groat_tidy("hostile.rules", (groat_text){rules.start, rules.length}, NULL, &report);
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    if (seconds > 1)
        print_message("%.1f s\n", seconds);
    size_t length = tidied ? groat_tidied_text(tidied).length : 0;
    assert_non_null(report);
    if (!tidied != (words != NULL) || (words && !report_says(report, words))) {
        report_print(report);
        fail();
    }
    assert_true(seconds < SECONDS_MOST);
    groat_tidied_free(tidied);
    groat_report_free(report);
    text_free(&rules);
    return length;
}

static void four_megabytes_of_comments(void **state)
{
    (void)state;
    struct text rules = {0};
    text_repeat(&rules, "#\n", 2000000);
    assert_int_equal(length_of(rules, NULL), 4000000);
}

static void four_megabytes_of_blank_lines_and_of_spaces(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "#");
    text_repeat(&rules, " \r\n", 1300000);
    text_append(&rules, "#");
    assert_int_equal(length_of(rules, NULL), 6); /* #, two blank lines, # */
    rules = (struct text){0};
    text_repeat(&rules, " ", 4000000);
    assert_int_equal(length_of(rules, NULL), 0);
}

static void hundreds_of_thousands_of_lines_in_one_run(void **state)
{
    (void)state;
    struct text rules = {0};
    text_repeat(&rules, "rate a=1 #\n", 300000);
    assert_int_equal(length_of(rules, NULL), 300000 * strlen("rate a = 1  #\n"));
}

/* One wide line, or one comment far to the right, among many narrow ones would make the text grow by
 * the product of the two. */
static void one_wide_line_among_hundreds_of_thousands_of_narrow_ones(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "warn \"");
    text_repeat(&rules, "x", 1000000);
    text_append(&rules, "\" when a #\n");
    text_repeat(&rules, "warn \"\" when a #\n", 150000);
    assert_int_equal(length_of(rules, NULL), 1000000 + 150001 * strlen("warn \"\" when a  #\n"));
    rules = (struct text){0};
    text_append(&rules, "rate a = 1");
    text_repeat(&rules, " ", 1000000);
    text_append(&rules, "#\n");
    text_repeat(&rules, "rate a = 1 #\n", 200000);
    assert_int_equal(length_of(rules, NULL), 200001 * strlen("rate a = 1  #\n"));
}

static void comments_deep_in_parentheses_are_indented_no_further_than_so_much(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "let a = ");
    text_repeat(&rules, "(\n", 150);
    text_repeat(&rules, "#\n", 300000);
    text_append(&rules, "b");
    text_repeat(&rules, ")", 150);
    size_t length = length_of(rules, NULL);
    assert_true(length > 300000 * 62 && length < 300000 * 62 + 20000);
}

static void a_row_of_else_ifs_as_long_as_nesting_allows(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "let a =\nif b\nthen 0\n");
    text_repeat(&rules, "else if b\nthen 1\n", 150);
    text_append(&rules, "else 2\n");
    size_t line = strlen("        else if b\n        then 1\n");
    assert_int_equal(length_of(rules, NULL),
                     strlen("let a =\n    if b\n        then 0\n        else 2\n") + 150 * line);
}

static void a_megabyte_of_open_parentheses_is_refused(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "let a = ");
    text_repeat(&rules, "(", 1000000);
    length_of(rules, "nested too deeply");
}

static void what_takes_more_than_the_limit_is_refused(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "let a = ");
    text_repeat(&rules, "(\n", 150);
    text_repeat(&rules, "#\n", 1900000);
    text_append(&rules, "b");
    text_repeat(&rules, ")", 150);
    length_of(rules, "need more memory than they may use, which is 268435456 bytes");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(when_memory_is_out_there_is_neither_a_text_nor_a_report),
        cmocka_unit_test(the_limits_of_reading_hold),
        cmocka_unit_test(four_megabytes_of_comments),
        cmocka_unit_test(four_megabytes_of_blank_lines_and_of_spaces),
        cmocka_unit_test(hundreds_of_thousands_of_lines_in_one_run),
        cmocka_unit_test(one_wide_line_among_hundreds_of_thousands_of_narrow_ones),
        cmocka_unit_test(comments_deep_in_parentheses_are_indented_no_further_than_so_much),
        cmocka_unit_test(a_row_of_else_ifs_as_long_as_nesting_allows),
        cmocka_unit_test(a_megabyte_of_open_parentheses_is_refused),
        cmocka_unit_test(what_takes_more_than_the_limit_is_refused),
    };
    return cmocka_run_group_tests_name("tidying under stress", tests, NULL, NULL);
}
