/* What the tests of both families of sheets share: reading a text, and a table of wrong sheets in
 * which each row is a test named by a sentence. */
#ifndef GROAT_SHEET_CHECKS_H
#define GROAT_SHEET_CHECKS_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
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

/* Text that comes a few bytes at a time, through memory of exactly its size, so that a sanitizer sees
 * a read past the end. */
struct drops {
    const char *bytes;
    size_t length, most;
};

static inline size_t give_drops(void *context, char *bytes, size_t room, bool *last)
{
    struct drops *drops = context;
    size_t count = drops->length < drops->most ? drops->length : drops->most;
    count = count < room ? count : room;
    (void)last;
    if (count > 0)
        memcpy(bytes, drops->bytes, count);
    drops->bytes += count;
    drops->length -= count;
    return count;
}

static inline void expect_same_text(struct sheet_text left, struct sheet_text right)
{
    assert_int_equal(left.start == NULL, right.start == NULL);
    assert_int_equal(left.length, right.length);
    if (left.length > 0)
        assert_memory_equal(left.start, right.start, left.length);
}

static inline void expect_same_error(const struct sheet_error *left,
                                     const struct sheet_error *right)
{
    assert_string_equal(left->message, right->message);
    assert_string_equal(left->help, right->help);
    assert_int_equal(left->line, right->line);
    assert_int_equal(left->column, right->column);
}

/* A row in hand is that of the whole sheet. */
static inline void expect_same_row(const struct sheet *sheet, const struct sheet *whole, size_t row)
{
    struct sheet_error left, right;
    assert_int_equal(sheet_row_line(sheet, row), sheet_row_line(whole, row));
    bool wrong = sheet_row_trouble(whole, row, &right);
    assert_int_equal(sheet_row_trouble(sheet, row, &left), wrong);
    if (wrong)
        expect_same_error(&left, &right);
    for (size_t column = 0; column < sheet_column_count(whole); column++) {
        expect_same_text(sheet_cell(sheet, row, column), sheet_cell(whole, row, column));
        wrong = sheet_cell_trouble(whole, row, column, &right);
        assert_int_equal(sheet_cell_trouble(sheet, row, column, &left), wrong);
        if (wrong)
            expect_same_error(&left, &right);
    }
}

/* The sheet in blocks of a row is the same as whole, or broken in the same way. */
static inline void expect_same_in_blocks(enum sheet_form form, const char *bytes, size_t length,
                                         size_t most, const struct sheet *whole,
                                         const struct sheet_error *broken)
{
    struct drops drops = {bytes, length, most};
    struct sheet_error error = {0};
    struct sheet *sheet = sheet_open(form, 1, give_drops, &drops, &error);
    enum sheet_step step = sheet ? SHEET_ROWS : SHEET_BROKEN;
    size_t row = 0;
    for (; step == SHEET_ROWS; step = sheet_next(sheet, &error)) {
        assert_int_equal(sheet_first_row(sheet), row);
        for (; whole && row < sheet_row_count(sheet); row++)
            expect_same_row(sheet, whole, row);
        row = sheet_row_count(sheet);
    }
    assert_int_equal(step, whole ? SHEET_END : SHEET_BROKEN);
    if (!whole)
        expect_same_error(&error, broken);
    if (whole) {
        assert_int_equal(row, sheet_row_count(whole));
        assert_int_equal(sheet_column_count(sheet), sheet_column_count(whole));
    }
    sheet_free(sheet);
}

/* Reads a sheet whole and, unless it is long, in blocks too, whose borders are then everywhere. */
static inline struct sheet *read_bytes(enum sheet_form form, const char *bytes, size_t length,
                                       struct sheet_error *error)
{
    char *copy = malloc(length ? length : 1);
    assert_non_null(copy);
    memcpy(copy, bytes, length);
    struct sheet *sheet = sheet_read(form, copy, length, error);
    for (size_t most = 1; most <= 5 && length < 2000; most++)
        expect_same_in_blocks(form, copy, length, most, sheet, error);
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

/* The sheet is broken, or its first row or cell that cannot be read says why. */
static inline void expect_wrong(void **state)
{
    const struct wrong_sheet *wrong = *state;
    struct sheet_error error = {99, 99, "left as it was", "left as it was"};
    struct sheet *sheet = read_bytes(wrong->form, wrong->bytes, wrong->length, &error);
    bool found = !sheet;
    for (size_t row = 0; sheet && row < sheet_row_count(sheet); row++) {
        found = found || sheet_row_trouble(sheet, row, &error);
        for (size_t column = 0; !found && column < sheet_column_count(sheet); column++)
            found = sheet_cell_trouble(sheet, row, column, &error);
    }
    sheet_free(sheet);
    assert_true(found);
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
