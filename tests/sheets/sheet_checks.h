/* What the tests of both families of sheets share: reading a text, and a table of wrong sheets in
 * which each row is a test named by a sentence. */
#ifndef GROAT_SHEET_CHECKS_H
#define GROAT_SHEET_CHECKS_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>

#include "sheet/sheet.h"

/* A sheet's bytes with their length, so that they may hold a zero byte. */
#define BYTES(literal) literal, sizeof(literal) - 1

struct wrong_sheet {
    const char *sentence;
    enum sheet_form form;
    const char *bytes;
    size_t length;
    size_t line, column;
    const char *message;
    const char *help;
};

/* Copied to memory of exactly its size, so that a sanitizer sees a read past the end. */
static inline struct sheet *read_bytes(enum sheet_form form, const char *bytes, size_t length,
                                       struct sheet_error *error)
{
    char *copy = malloc(length ? length : 1);
    assert_non_null(copy);
    memcpy(copy, bytes, length);
    struct sheet *sheet = sheet_read(form, copy, length, error);
    free(copy);
    return sheet;
}

static inline struct sheet *read_fine(enum sheet_form form, const char *text)
{
    struct sheet_error error = {0};
    struct sheet *sheet = read_bytes(form, text, strlen(text), &error);
    if (!sheet)
        fail_msg("%zu:%zu: %s", error.line, error.column, error.message);
    return sheet;
}

static inline void expect_text(struct sheet_text text, const char *expected)
{
    if (!expected) {
        assert_null(text.start);
        assert_int_equal(text.length, 0);
        return;
    }
    if (!text.start || text.length != strlen(expected) ||
        memcmp(text.start, expected, text.length) != 0)
        fail_msg("`%.*s` is not `%s`", (int)text.length, text.start ? text.start : "", expected);
}

/* `expected` is the headings and then every row's cells, NULL for an absent one. */
static inline void expect_sheet(enum sheet_form form, const char *text, size_t rows, size_t columns,
                                const char *const *expected)
{
    struct sheet *sheet = read_fine(form, text);
    assert_int_equal(sheet_row_count(sheet), rows);
    assert_int_equal(sheet_column_count(sheet), columns);
    for (size_t column = 0; column < columns; column++)
        expect_text(sheet_heading(sheet, column), *expected++);
    for (size_t row = 0; row < rows; row++)
        for (size_t column = 0; column < columns; column++)
            expect_text(sheet_cell(sheet, row, column), *expected++);
    sheet_free(sheet);
}

#define EXPECT(form, text, rows, columns, ...)                                                     \
    expect_sheet(form, text, rows, columns, (const char *const[]){__VA_ARGS__})

static inline void expect_wrong(void **state)
{
    const struct wrong_sheet *wrong = *state;
    struct sheet_error error = {99, 99, "left as it was", "left as it was"};
    assert_null(read_bytes(wrong->form, wrong->bytes, wrong->length, &error));
    assert_string_equal(error.message, wrong->message);
    assert_string_equal(error.help, wrong->help);
    assert_int_equal(error.line, wrong->line);
    assert_int_equal(error.column, wrong->column);
}

/* Runs the tests and, as tests of their own, the wrong sheets. */
static inline int run_with_wrong(const char *group, const struct CMUnitTest *tests,
                                 size_t test_count, struct wrong_sheet *wrong, size_t wrong_count)
{
    struct CMUnitTest *all = calloc(test_count + wrong_count, sizeof *all);
    if (!all)
        return 1;
    memcpy(all, tests, test_count * sizeof *tests);
    for (size_t i = 0; i < wrong_count; i++)
        all[test_count + i] =
            (struct CMUnitTest){wrong[i].sentence, expect_wrong, NULL, NULL, &wrong[i]};
    /* What cmocka_run_group_tests expands to, with a count that is known only now. */
    int failed = _cmocka_run_group_tests(group, all, test_count + wrong_count, NULL, NULL);
    free(all);
    return failed;
}

#endif
