/* The published figures of trade.rules, each an `expect` beside its source. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "groat.h"

static char text[1 << 16];

static void print_report(const groat_report *report)
{
    for (size_t i = 0; i < groat_report_count(report); i++) {
        char line[2000];
        groat_diagnostic_write(groat_report_at(report, i), line, sizeof line);
        print_message("%s", line);
    }
}

static groat_method *read_rules(const char *name)
{
    FILE *file = fopen(name, "rb");
    assert_non_null(file);
    size_t length = fread(text, 1, sizeof text, file);
    fclose(file);
    groat_report *report;
    groat_method *method = groat_method_read(name, (groat_text){text, length}, NULL, &report);
    assert_non_null(report);
    print_report(report);
    groat_report_free(report);
    return method;
}

static void every_published_figure_holds(void **state)
{
    (void)state;
    groat_method *method = read_rules("tests/published/trade.rules");
    assert_non_null(method);
    size_t count;
    groat_report *report = groat_method_check(method, &count);
    assert_non_null(report);
    print_report(report);
    assert_int_equal(groat_report_errors(report), 0);
    assert_true(count >= 20);
    groat_report_free(report);
    groat_method_free(method);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_published_figure_holds)};
    return cmocka_run_group_tests_name("published figures of the trade", tests, NULL, NULL);
}
