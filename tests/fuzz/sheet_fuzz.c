/* Feeds arbitrary bytes to the readers of sheets; the first byte selects the form. Beyond not
 * crashing it holds them to their contract: an error has a message and a place in the sheet, every
 * cell is readable, and CSV text that is written out again reads back the same. */
#include "sheet/sheet.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void demand(bool holds)
{
    if (!holds)
        abort();
}

static size_t count_lines(const char *bytes, size_t length)
{
    size_t lines = 1;
    for (size_t i = 0; i < length; i++)
        lines += bytes[i] == '\n' || bytes[i] == '\r';
    return lines;
}

static void check_error(const struct sheet_error *error, const char *bytes, size_t length)
{
    demand(memchr(error->message, 0, sizeof error->message) && error->message[0]);
    demand(memchr(error->help, 0, sizeof error->help) != NULL);
    demand((error->line == 0) == (error->column == 0));
    demand(error->line <= count_lines(bytes, length) && error->column <= length + 1);
    for (const char *at = error->message; *at; at++)
        demand((unsigned char)*at >= ' ' && *at != 0x7F);
}

/* A row or a cell that cannot be read says why. */
static void check_troubles(const struct sheet *sheet, const char *bytes, size_t length)
{
    struct sheet_error error;
    for (size_t row = 0; row < sheet_row_count(sheet); row++) {
        if (sheet_row_trouble(sheet, row, &error))
            check_error(&error, bytes, length);
        for (size_t column = 0; column < sheet_column_count(sheet) && column < 100; column++)
            if (sheet_cell_trouble(sheet, row, column, &error))
                check_error(&error, bytes, length);
    }
}

/* Bytes that come one at a time. */
struct drops {
    const char *bytes;
    size_t length;
};

static size_t give_one(void *context, char *bytes, size_t room, bool *last)
{
    struct drops *drops = context;
    (void)last;
    if (drops->length == 0 || room == 0)
        return 0;
    *bytes = *drops->bytes++;
    drops->length--;
    return 1;
}

/* Read in blocks of a row, the sheet has as many rows and columns. */
static void check_blocks(const struct sheet *sheet, enum sheet_form form, const char *bytes,
                         size_t length)
{
    struct drops drops = {bytes, length};
    struct sheet_error error;
    if (length > 500)
        return;
    struct sheet *again = sheet_open(form, 1, give_one, &drops, &error);
    enum sheet_step step = SHEET_ROWS;
    demand(again != NULL);
    while (step == SHEET_ROWS)
        step = sheet_next(again, &error);
    demand(step == SHEET_END);
    demand(sheet_row_count(again) == sheet_row_count(sheet));
    demand(sheet_column_count(again) == sheet_column_count(sheet));
    sheet_free(again);
}

/* Lines start at 1, do not go back and do not go past the sheet's last. */
static void check_lines(const struct sheet *sheet, const char *bytes, size_t length)
{
    size_t line = 1, last = count_lines(bytes, length);
    for (size_t row = 0; row < sheet_row_count(sheet); row++) {
        demand(sheet_row_line(sheet, row) >= line && sheet_row_line(sheet, row) <= last);
        line = sheet_row_line(sheet, row);
    }
}

struct page {
    char *text;
    size_t length, room;
};

static void write_byte(struct page *page, char byte)
{
    if (page->length == page->room) {
        page->room = page->room ? 2 * page->room : 256;
        page->text = realloc(page->text, page->room);
        demand(page->text != NULL);
    }
    page->text[page->length++] = byte;
}

static void write_cell(struct page *page, struct sheet_text text)
{
    write_byte(page, '"');
    for (size_t i = 0; i < text.length; i++) {
        if (text.start[i] == '"')
            write_byte(page, '"');
        write_byte(page, text.start[i]);
    }
    write_byte(page, '"');
}

static void demand_same(struct sheet_text left, struct sheet_text right)
{
    demand(left.length == right.length && (left.start == NULL) == (right.start == NULL));
    demand(left.length == 0 || memcmp(left.start, right.start, left.length) == 0);
}

/* Rows of the first sheet that hold nothing are passed over in the second. */
static void demand_same_rows(const struct sheet *sheet, const struct sheet *again)
{
    size_t columns = sheet_column_count(sheet), found = 0;
    demand(sheet_column_count(again) == columns);
    for (size_t row = 0; row < sheet_row_count(sheet); row++) {
        bool holds = false;
        for (size_t column = 0; column < columns; column++)
            holds = holds || sheet_cell(sheet, row, column).start;
        for (size_t column = 0; column < columns && holds; column++)
            demand_same(sheet_cell(sheet, row, column), sheet_cell(again, found, column));
        found += holds;
    }
    demand(found == sheet_row_count(again));
}

static void check_written(const struct sheet *sheet)
{
    size_t columns = sheet_column_count(sheet), rows = sheet_row_count(sheet);
    if (columns == 0 || columns * (rows + 1) > 100000)
        return;
    struct page page = {0};
    for (size_t column = 0; column < columns; column++) {
        write_cell(&page, sheet_heading(sheet, column));
        write_byte(&page, column + 1 < columns ? '\t' : '\n');
    }
    for (size_t row = 0; row < rows; row++) {
        for (size_t column = 0; column < columns; column++) {
            write_cell(&page, sheet_cell(sheet, row, column));
            write_byte(&page, column + 1 < columns ? '\t' : '\n');
        }
    }
    struct sheet_error error;
    struct sheet *again = sheet_read(SHEET_TSV, page.text, page.length, &error);
    free(page.text);
    demand(again != NULL);
    demand_same_rows(sheet, again);
    sheet_free(again);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size == 0)
        return 0;
    enum sheet_form form = (enum sheet_form)(data[0] % 4);
    const char *bytes = (const char *)data + 1;
    struct sheet_error error;
    struct sheet *sheet = sheet_read(form, bytes, size - 1, &error);
    if (sheet) {
        check_lines(sheet, bytes, size - 1);
        check_troubles(sheet, bytes, size - 1);
        check_blocks(sheet, form, bytes, size - 1);
        check_written(sheet);
    } else {
        check_error(&error, bytes, size - 1);
    }
    sheet_free(sheet);
    return 0;
}
