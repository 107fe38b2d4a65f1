/* Reading small rules and looking at a value of theirs, for the tests of this folder. */
#ifndef GROAT_READING_H
#define GROAT_READING_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "groat.h"

static inline void print_report(const char *rules, const groat_report *report)
{
    char text[2048];
    fprintf(stderr, "\n%s\n", rules);
    for (size_t i = 0; i < groat_report_count(report); i++) {
        groat_diagnostic_write(groat_report_at(report, i), text, sizeof text);
        fprintf(stderr, "%s", text);
    }
}

/* The rules as a method; what is wrong with them is printed and fails the test. */
static inline groat_method *read_rules(const char *rules)
{
    groat_report *report;
    groat_method *method =
        groat_method_read("test.rules", (groat_text){rules, strlen(rules)}, NULL, &report);
    assert_non_null(report);
    if (!method)
        print_report(rules, report);
    groat_report_free(report);
    assert_non_null(method);
    return method;
}

/* What a trouble proposes, as a person reads it. */
static inline const char *tried(const groat_trouble *trouble)
{
    static char help[sizeof trouble->help + 16];
    groat_trouble_help(trouble, help, sizeof help);
    return help;
}

/* The index of a rate that there must be. */
static inline size_t rate_of(const groat_method *method, const char *name)
{
    for (size_t i = 0; i < groat_method_rates(method); i++)
        if (strcmp(groat_method_rate(method, i).name, name) == 0)
            return i;
    fail_msg("there is no rate %s", name);
    return 0;
}

/* Whether the rules can be read. */
static inline bool can_be_read(const char *rules)
{
    groat_report *report;
    groat_method *method =
        groat_method_read("test.rules", (groat_text){rules, strlen(rules)}, NULL, &report);
    assert_non_null(report);
    groat_report_free(report);
    groat_method_free(method);
    return method != NULL;
}

/* Fails the test unless one of the errors stands at the place and begins with the words. */
static inline void assert_said(const char *rules, unsigned line, unsigned column, const char *words)
{
    groat_report *report;
    groat_method *method =
        groat_method_read("test.rules", (groat_text){rules, strlen(rules)}, NULL, &report);
    assert_non_null(report);
    assert_null(method);
    bool said = false;
    for (size_t i = 0; i < groat_report_count(report); i++) {
        const groat_diagnostic *each = groat_report_at(report, i);
        said = said || (each->line == line && each->column == column &&
                        strncmp(each->message, words, strlen(words)) == 0);
    }
    if (!said) {
        print_report(rules, report);
        fail_msg("nothing at %u:%u begins with: %s", line, column, words);
    }
    groat_report_free(report);
}

/* A named value of an empty record, priced once on the first channel. */
static inline void assert_named(const char *rules, const char *name, const char *top,
                                const char *bottom)
{
    groat_method *method = read_rules(rules);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_record *record = groat_record_new(method);
    assert_non_null(scratch);
    assert_non_null(record);
    const groat_order order = {.channel = 0, .quantity = 1};
    groat_outcome outcome = groat_price(scratch, method, record, &order);
    if (outcome != GROAT_PRICED)
        fail_msg("%s\n%s", rules, groat_result_reason(scratch));
    groat_value value = groat_result_named(scratch, name);
    char above[128], below[128];
    groat_value_top(value, above, sizeof above);
    groat_value_bottom(value, below, sizeof below);
    if (strcmp(above, top) != 0 || strcmp(below, bottom) != 0)
        fail_msg("%s\n%s is %s/%s, not %s/%s", rules, name, above, below, top, bottom);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
}

#endif
