#define _POSIX_C_SOURCE 200809L
#include "command/since.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "command/file.h"
#include "command/namesakes.h"
#include "command/say.h"
#include "text/utf8.h"

#define PRINTED "groat price RULES PRODUCTS --format csv --output LIST.csv"

/* How many wrong cells are said. */
#define WRONG_MOST 10

/* What is read of a line. A list that was made by hand may have no more than the first two. The
 * last is none that is read: where a list has it, a line that lacks it was cut off, and its price
 * may have been too. */
enum { PRODUCT, PRICE, NEEDED, CHANNEL = NEEDED, QUANTITY, LIST, TAKE_HOME, HEADINGS };
static const char *const headings[HEADINGS] = {"product",  "price", "channel",
                                               "quantity", "list",  "take_home"};

/* A list while it is read. */
struct reading {
    struct since *since;
    const groat_method *method;
    bool decimal_comma;
    size_t columns[HEADINGS]; /* or SIZE_MAX */
    size_t outcome, notes;    /* or SIZE_MAX */
    size_t wrong;             /* cells so far */
};

/* ---- columns ---- */

/* The column of this heading, in capitals or not; SIZE_MAX if there is none. */
static size_t find_heading(const struct sheet *sheet, const char *wanted)
{
    for (size_t i = 0; i < sheet_column_count(sheet); i++) {
        struct sheet_text heading = sheet_heading(sheet, i);
        if (heading.length == strlen(wanted) &&
            strncasecmp(heading.start, wanted, heading.length) == 0)
            return i;
    }
    return SIZE_MAX;
}

static bool match_columns(struct reading *reading)
{
    char begin[512];
    snprintf(begin, sizeof begin, "%.400s: this is not a price list: columns are missing",
             reading->since->name);
    struct say_list list = {.begin = begin};
    for (size_t i = 0; i < HEADINGS; i++) {
        reading->columns[i] = find_heading(reading->since->sheet, headings[i]);
        if (i < NEEDED && reading->columns[i] == SIZE_MAX)
            say_list_item(&list, headings[i], strlen(headings[i]));
    }
    reading->outcome = find_heading(reading->since->sheet, "outcome");
    reading->notes = find_heading(reading->since->sheet, "notes");
    bool all = list.count == 0;
    say_list_end(&list);
    if (!all)
        say_try(PRINTED);
    return all;
}

/* ---- cells ---- */

static groat_text cell_of(const struct reading *reading, size_t row, size_t column)
{
    struct sheet_text cell = sheet_cell(reading->since->sheet, row, column);
    return (groat_text){cell.start, cell.length};
}

static void say_wrong(struct reading *reading, size_t row, int column, const char *message,
                      const char *help)
{
    if (reading->wrong++ >= WRONG_MOST)
        return;
    struct say_cell said = say_cell(cell_of(reading, row, reading->columns[column]));
    say("%s:%zu: column %s%s: %s", reading->since->name, sheet_row_line(reading->since->sheet, row),
        headings[column], said.text, message);
    say_try(help);
}

static bool read_quantity(struct reading *reading, size_t row, int64_t *quantity)
{
    groat_text cell = cell_of(reading, row, reading->columns[QUANTITY]);
    *quantity = reading->columns[QUANTITY] == SIZE_MAX;
    if (*quantity == 1)
        return true;
    bool whole = cell.length > 0 && cell.length <= 18;
    for (size_t i = 0; whole && i < cell.length; i++) {
        whole = text_is_digit(cell.start[i]);
        *quantity = *quantity * 10 + (cell.start[i] - '0');
    }
    if (whole && *quantity > 0)
        return true;
    say_wrong(reading, row, QUANTITY, "a quantity must be a whole number, at least 1", "");
    return false;
}

/* A list may have decimal points, whatever a sheet has; with --decimal comma, commas as well. */
static bool read_money(struct reading *reading, size_t row, int column, int64_t *coins)
{
    groat_trouble trouble = {0};
    groat_text cell = cell_of(reading, row, reading->columns[column]);
    groat_status status = groat_money_read(reading->method, cell, NULL, coins, &trouble);
    const groat_cells commas = {.decimal_comma = true};
    if (status == GROAT_BAD_VALUE && reading->decimal_comma)
        status = groat_money_read(reading->method, cell, &commas, coins, NULL);
    if (status == GROAT_OK)
        return true;
    if (status == GROAT_NO_MEMORY)
        say_wrong(reading, row, column, "there is no memory left", "");
    else
        say_wrong(reading, row, column, trouble.message,
                  "write it as groat price does, for example 20.00");
    return false;
}

/* NULL when memory runs out. */
static const char *text_of(struct reading *reading, size_t row, size_t column)
{
    groat_text cell = cell_of(reading, row, column);
    return arena_text(&reading->since->arena, cell.start, cell.length);
}

/* What became of the order of a line: a list without that column has prices alone. */
static groat_outcome outcome_of(const struct reading *reading, size_t row)
{
    groat_text cell = cell_of(reading, row, reading->outcome);
    static const struct {
        const char *word;
        groat_outcome outcome;
    } without[] = {
        {"refused", GROAT_REFUSED}, {"failed", GROAT_FAILED}, {"not sold", GROAT_NOT_SOLD}};
    for (size_t i = 0; cell.start && i < sizeof without / sizeof *without; i++)
        if (strlen(without[i].word) == cell.length &&
            memcmp(cell.start, without[i].word, cell.length) == 0)
            return without[i].outcome;
    return GROAT_PRICED;
}

/* Whether the line has what each of its kind has: prices only where there is one. */
static bool has_all(struct reading *reading, const struct since_line *line, size_t row)
{
    static const bool of_price[HEADINGS] = {[PRICE] = true, [LIST] = true, [TAKE_HOME] = true};
    for (int i = 0; i < HEADINGS; i++) {
        if (reading->columns[i] == SIZE_MAX || cell_of(reading, row, reading->columns[i]).start ||
            (of_price[i] && line->outcome != GROAT_PRICED))
            continue;
        say_wrong(reading, row, i, "the cell is empty; is the list incomplete?", "");
        return false;
    }
    return true;
}

/* A product's name, without the mark that keeps a spreadsheet from running it. */
static groat_text product_of(const struct reading *reading, size_t row)
{
    groat_text cell = cell_of(reading, row, reading->columns[PRODUCT]);
    bool guarded = cell.length > 1 && cell.start[0] == '\'' && strchr("=+-@\t\r", cell.start[1]);
    return guarded ? (groat_text){cell.start + 1, cell.length - 1} : cell;
}

/* Adds a line: where the list names no channel, it is one for each. */
static void add_line(struct reading *reading, struct since_line line)
{
    struct since *since = reading->since;
    if (reading->columns[CHANNEL] != SIZE_MAX) {
        since->lines[since->count++] = line;
        return;
    }
    for (size_t i = 0; i < groat_method_channels(reading->method); i++) {
        line.channel = groat_method_channel(reading->method, i);
        since->lines[since->count++] = line;
    }
}

/* Returns false when memory ran out; what is wrong with the line is counted. */
static bool read_line(struct reading *reading, size_t row)
{
    struct since_line line = {.outcome = outcome_of(reading, row)};
    struct sheet_error why;
    if (sheet_row_trouble(reading->since->sheet, row, &why)) {
        if (reading->wrong++ < WRONG_MOST) {
            say("%s:%zu:%zu: %s", reading->since->name, why.line, why.column, why.message);
            say_try(why.help);
        }
        return true;
    }
    if (!has_all(reading, &line, row))
        return true;
    line.number = sheet_row_line(reading->since->sheet, row);
    line.product = product_of(reading, row);
    line.channel = text_of(reading, row, reading->columns[CHANNEL]);
    line.notes = text_of(reading, row, reading->notes);
    bool read = read_quantity(reading, row, &line.quantity);
    if (read && line.outcome == GROAT_PRICED) {
        bool listed = reading->columns[LIST] != SIZE_MAX;
        read = (!listed || read_money(reading, row, LIST, &line.list)) &&
               read_money(reading, row, PRICE, &line.price);
        line.list = listed ? line.list : line.price;
    }
    if (read && line.channel && line.notes)
        add_line(reading, line);
    return line.channel && line.notes;
}

/* ---- two lines about the same ---- */

static int compare_keys(const struct since_line *a, const struct since_line *b)
{
    int order = namesakes_compare(a->product, b->product);
    if (order == 0)
        order = strcmp(a->channel, b->channel);
    return order != 0 ? order : (a->quantity > b->quantity) - (a->quantity < b->quantity);
}

static int compare_lines(const void *a, const void *b)
{
    const struct since_line *left = *(const struct since_line *const *)a;
    const struct since_line *right = *(const struct since_line *const *)b;
    int order = compare_keys(left, right);
    return order != 0 ? order : (left->number > right->number) - (left->number < right->number);
}

static bool say_twice(const struct since *since, const struct since_line *first,
                      const struct since_line *second)
{
    say("%s:%zu: %.*s on %s for %lld is given twice: it is also on line %zu", since->name,
        second->number, say_length(second->product, SAY_CELL_MOST), second->product.start,
        second->channel, (long long)second->quantity, first->number);
    return false;
}

static bool has_no_doubles(struct since *since)
{
    const struct since_line **sorted =
        arena_take(&since->arena, since->count * sizeof(const struct since_line *));
    if (!sorted) {
        say_no_memory();
        return false;
    }
    for (size_t i = 0; i < since->count; i++)
        sorted[i] = &since->lines[i];
    qsort(sorted, since->count, sizeof *sorted, compare_lines);
    bool single = true;
    for (size_t i = 1; i < since->count && single; i++)
        if (compare_keys(sorted[i - 1], sorted[i]) == 0)
            single = say_twice(since, sorted[i - 1], sorted[i]);
    return single;
}

/* ---- the whole ---- */

static bool open_sheet(struct since *since)
{
    enum sheet_form form = SHEET_CSV;
    sheet_form_of_name(since->name, &form);
    since->sheet = file_read_sheet(since->name, false, form, since->name);
    return since->sheet != NULL;
}

static bool read_lines(struct reading *reading)
{
    struct since *since = reading->since;
    size_t rows = sheet_row_count(since->sheet);
    size_t most = rows;
    if (reading->columns[CHANNEL] == SIZE_MAX)
        most *= groat_method_channels(reading->method);
    since->lines = arena_take(&since->arena, most * sizeof *since->lines);
    bool kept = since->lines != NULL;
    for (size_t row = 0; row < rows && kept; row++)
        kept = read_line(reading, row);
    if (!kept)
        say_no_memory();
    if (reading->wrong > WRONG_MOST)
        say("%s: and %zu more cells are wrong", since->name, reading->wrong - WRONG_MOST);
    return kept && reading->wrong == 0;
}

bool since_read(struct since *since, const char *name, const groat_method *method,
                bool decimal_comma)
{
    struct reading reading = {.since = since, .method = method, .decimal_comma = decimal_comma};
    *since = (struct since){.name = name, .memory = memory_standard()};
    arena_open(&since->arena, &since->memory);
    return open_sheet(since) && match_columns(&reading) && read_lines(&reading) &&
           has_no_doubles(since);
}

void since_close(struct since *since)
{
    arena_close(&since->arena);
    sheet_free(since->sheet);
}
