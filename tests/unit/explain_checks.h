/* One price or figure explained, and what the explanation says, for the tests of explanations. */
#ifndef GROAT_EXPLAIN_CHECKS_H
#define GROAT_EXPLAIN_CHECKS_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "groat.h"

/* ---- asking ---- */

static groat_method *method;
static groat_record *record;
static groat_scratch *scratch;
static groat_explanation *explanation;
static groat_outcome outcome;

static inline void read_rules(const char *name, const char *rules)
{
    groat_report *report;
    method = groat_method_read(name, (groat_text){rules, strlen(rules)}, NULL, &report);
    if (!method)
        fail_msg("%s", groat_report_at(report, 0)->message);
    groat_report_free(report);
    record = groat_record_new(method);
    scratch = groat_scratch_new(method);
    assert_non_null(record);
    assert_non_null(scratch);
}

static inline void read_file(const char *name)
{
    static char rules[1 << 16];
    FILE *file = fopen(name, "rb");
    assert_non_null(file);
    rules[fread(rules, 1, sizeof rules - 1, file)] = '\0';
    fclose(file);
    read_rules(name, rules);
}

/* `field=cell|field=cell` */
static inline void set_fields(const char *fields)
{
    char text[512];
    groat_trouble trouble;
    snprintf(text, sizeof text, "%s", fields);
    for (char *part = strtok(text, "|"); part; part = strtok(NULL, "|")) {
        char *cell = strchr(part, '=');
        *cell++ = '\0';
        size_t field = groat_method_find_field(method, part);
        assert_true(field != SIZE_MAX);
        groat_text whole = {cell, strlen(cell)};
        if (groat_record_set(record, field, whole, NULL, &trouble) != GROAT_OK)
            fail_msg("%s: %s", part, trouble.message);
    }
}

static inline void explain_with(const groat_method *with, const char *channel, int64_t quantity,
                                const char *name)
{
    groat_order order = {groat_method_find_channel(with, channel), quantity, NULL};
    groat_explanation_free(explanation);
    explanation = name ? groat_explain_name(scratch, with, record, &order, name, &outcome)
                       : groat_explain(scratch, with, record, &order, &outcome);
    assert_non_null(explanation);
}

static inline void explain(const char *channel, int64_t quantity, const char *name)
{
    explain_with(method, channel, quantity, name);
}

static inline int forget(void **state)
{
    (void)state;
    groat_explanation_free(explanation);
    groat_scratch_free(scratch);
    groat_record_free(record);
    groat_method_free(method);
    explanation = NULL;
    return 0;
}

/* ---- answers ---- */

static inline const groat_line *line_of(const char *name)
{
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++) {
        const groat_line *line = groat_explanation_line(explanation, i);
        if (strcmp(line->name, name) == 0)
            return line;
    }
    return NULL;
}

static inline void assert_line(const char *name, const char *worked, const char *amount)
{
    const groat_line *line = line_of(name);
    if (!line)
        fail_msg("there is no line %s", name);
    if (worked)
        assert_string_equal(line->worked ? line->worked : line->written, worked);
    if (amount)
        assert_string_equal(line->amount, amount);
}

static inline void assert_miss(size_t index, const char *channel, const char *name,
                               const char *text)
{
    assert_true(index < groat_explanation_below(explanation).misses);
    const groat_line *miss = groat_explanation_miss(explanation, index);
    assert_string_equal(miss->channel, channel);
    assert_string_equal(miss->name, name);
    assert_string_equal(miss->worked ? miss->worked : miss->written, text);
}

static inline void assert_below(groat_footing footing, const char *price, size_t misses)
{
    groat_below below = groat_explanation_below(explanation);
    assert_int_equal(below.footing, footing);
    assert_int_equal(below.exists, price != NULL);
    if (price)
        assert_string_equal(below.price, price);
    assert_int_equal(below.misses, misses);
}

static inline void assert_exact(const char *name, const char *top, const char *bottom)
{
    char text[64];
    groat_value_top(line_of(name)->value, text, sizeof text);
    assert_string_equal(text, top);
    groat_value_bottom(line_of(name)->value, text, sizeof text);
    assert_string_equal(text, bottom);
}

#define TEST(function) cmocka_unit_test_teardown(function, forget)

#endif
