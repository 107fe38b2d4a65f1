/* The sales that a sum takes, against the published formula of the break-even point and its worked
 * figures.
 *
 *   [Saylor]   Small Business Management in the 21st Century (Saylor Foundation), table 10.1
 *              "Break-Even Point Analysis": Q = fixed costs / (selling price - variable cost).
 *   [OpenStax] Principles of Accounting, volume 2, section 3.2 "Calculate a Break-Even Point in Units
 *              and Dollars": fixed costs / contribution margin per unit. Its worked figures here are
 *              values from memory.
 *
 * That part of a unit cannot be sold, so that units are rounded up, is common practice. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <cmocka.h>

#include "study/goals.h"

static const char rules[] = "currency USD $\n"
                            "product {\n"
                            "    name     text\n"
                            "    fixed    money\n"
                            "    selling  money\n"
                            "    variable money\n"
                            "}\n"
                            "cost unit_cost = variable\n"
                            "price { set selling }\n"
                            "goal \"break even\" {\n"
                            "    needs fixed\n"
                            "    gives price - cost\n"
                            "}\n";

struct question {
    const char *fixed, *selling, *variable;
    const char *units; /* as the study writes them; empty: never */
};

static void set(groat_record *record, size_t field, const char *cell)
{
    groat_trouble trouble;
    groat_text text = {cell, strlen(cell)};
    assert_int_equal(groat_record_set(record, field, text, NULL, &trouble), GROAT_OK);
}

static void expect_units(const groat_method *method, const struct question *question)
{
    struct goals goals;
    groat_outcome outcome;
    groat_order order = {0, 1, NULL};
    char units[32];
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    assert_true(record && scratch);
    set(record, 0, "a unit");
    set(record, 1, question->fixed);
    set(record, 2, question->selling);
    set(record, 3, question->variable);
    goals_open(&goals, method, (struct amount){0});
    assert_true(goals_add(&goals, scratch, record, &order, 0, &outcome));
    assert_int_equal(outcome, GROAT_PRICED);
    assert_int_equal(goals.count, 1);
    amount_places(goals.rows[0]->sales, 0, '.', units, sizeof units);
    assert_string_equal(units, question->units);
    goals_close(&goals);
    groat_scratch_free(scratch);
    groat_record_free(record);
}

static void expect_all(const struct question *questions, size_t count)
{
    groat_report *report;
    groat_method *method =
        groat_method_read("rules", (groat_text){rules, strlen(rules)}, NULL, &report);
    assert_non_null(method);
    for (size_t i = 0; i < count; i++)
        expect_units(method, &questions[i]);
    groat_method_free(method);
    groat_report_free(report);
}

static void sales_for_a_sum_are_the_published_break_even_points(void **state)
{
    (void)state;
    static const struct question published[] = {
        {"$33000", "$23.00", "$9.25", "2400"},  /* [Saylor], new equipment */
        {"$15000", "$23.00", "$11.00", "1250"}, /* [Saylor], second-hand equipment */
        {"$18000", "$100", "$20", "225"},       /* [OpenStax], from memory */
    };
    expect_all(published, sizeof published / sizeof *published);
}

static void around_a_break_even_point_a_part_of_a_unit_is_a_whole_one(void **state)
{
    (void)state;
    static const struct question around[] = {
        {"$33000.01", "$23.00", "$9.25", "2401"}, {"$32999.99", "$23.00", "$9.25", "2400"},
        {"$33000", "$22.99", "$9.25", "2402"}, /* 33000 / 13.74 = 2401.7 */
        {"$33000", "$23.01", "$9.25", "2399"}, /* 33000 / 13.76 = 2398.3 */
        {"$33000", "$9.26", "$9.25", "3300000"},  {"$33000", "$9.25", "$9.25", ""},
    };
    expect_all(around, sizeof around / sizeof *around);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sales_for_a_sum_are_the_published_break_even_points),
        cmocka_unit_test(around_a_break_even_point_a_part_of_a_unit_is_a_whole_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
