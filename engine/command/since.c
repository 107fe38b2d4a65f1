#include "command/since.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/file.h"
#include "command/headings.h"
#include "command/namesakes.h"
#include "command/say.h"

#define PRINTED "groat price RULES PRODUCTS --format csv --output LIST.csv"

/* How many wrong cells are said. */
#define WRONG_MOST 10

/* What every price list has in each line. The last is none that is read: a line that lacks it was
 * cut off, and its price may have been too. */
enum { PRODUCT, CHANNEL, QUANTITY, LIST, PRICE, TAKE_HOME, NEEDED };
static const char *const headings[NEEDED] = {"product", "channel", "quantity",
                                             "list",    "price",   "take_home"};

/* A list while it is read. */
struct reading {
    struct since *since;
    const groat_method *method;
    size_t columns[NEEDED];
    size_t outcome, notes; /* or SIZE_MAX */
    size_t wrong;          /* cells so far */
};

/* ---- columns ---- */

static bool match_columns(struct reading *reading)
{
    char begin[512];
    snprintf(begin, sizeof begin, "%.400s: this is not a price list: columns are missing",
             reading->since->name);
    struct say_list list = {.begin = begin};
    for (size_t i = 0; i < NEEDED; i++) {
        reading->columns[i] = headings_find(reading->since->sheet, headings[i]);
        if (reading->columns[i] == SIZE_MAX)
            say_list_item(&list, headings[i], strlen(headings[i]));
    }
    reading->outcome = headings_find(reading->since->sheet, "outcome");
    reading->notes = headings_find(reading->since->sheet, "notes");
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
    *quantity = 0;
    bool whole = cell.length > 0 && cell.length <= 18;
    for (size_t i = 0; whole && i < cell.length; i++) {
        whole = isdigit((unsigned char)cell.start[i]);
        *quantity = *quantity * 10 + (cell.start[i] - '0');
    }
    if (whole && *quantity > 0)
        return true;
    say_wrong(reading, row, QUANTITY, "a quantity must be a whole number, at least 1", "");
    return false;
}

/* A list is printed with decimal points, whatever a sheet has. */
static bool read_money(struct reading *reading, size_t row, int column, int64_t *coins)
{
    groat_trouble trouble = {0};
    groat_text cell = cell_of(reading, row, reading->columns[column]);
    groat_status status = groat_money_read(reading->method, cell, NULL, coins, &trouble);
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

static bool has_all(struct reading *reading, size_t row)
{
    int needed = reading->since->lines[row].outcome == GROAT_PRICED ? NEEDED : LIST;
    for (int i = 0; i < needed; i++) {
        if (cell_of(reading, row, reading->columns[i]).start)
            continue;
        say_wrong(reading, row, i, "the cell is empty; is the list incomplete?", "");
        return false;
    }
    return true;
}

/* Returns false when memory ran out; what is wrong with the line is counted. */
static bool read_line(struct reading *reading, size_t row)
{
    struct since_line *line = &reading->since->lines[row];
    struct sheet_error why;
    if (sheet_row_trouble(reading->since->sheet, row, &why)) {
        if (reading->wrong++ < WRONG_MOST) {
            say("%s:%zu:%zu: %s", reading->since->name, why.line, why.column, why.message);
            say_try(why.help);
        }
        return true;
    }
    line->outcome = outcome_of(reading, row);
    if (!has_all(reading, row))
        return true;
    line->number = sheet_row_line(reading->since->sheet, row);
    line->product = cell_of(reading, row, reading->columns[PRODUCT]);
    line->channel = text_of(reading, row, reading->columns[CHANNEL]);
    line->notes = text_of(reading, row, reading->notes);
    if (read_quantity(reading, row, &line->quantity) && line->outcome == GROAT_PRICED &&
        read_money(reading, row, LIST, &line->list))
        read_money(reading, row, PRICE, &line->price);
    return line->channel && line->notes;
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
    if (form == SHEET_JSON || form == SHEET_NDJSON) {
        say("%s: --since reads a list as csv, not as json", since->name);
        say_try(PRINTED);
        return false;
    }
    since->sheet = file_read_sheet(since->name, false, form, since->name);
    return since->sheet != NULL;
}

static bool read_lines(struct reading *reading)
{
    struct since *since = reading->since;
    since->count = sheet_row_count(since->sheet);
    since->lines = arena_take(&since->arena, since->count * sizeof *since->lines);
    bool kept = since->lines != NULL;
    for (size_t row = 0; row < since->count && kept; row++)
        kept = read_line(reading, row);
    if (!kept)
        say_no_memory();
    if (reading->wrong > WRONG_MOST)
        say("%s: and %zu more cells are wrong", since->name, reading->wrong - WRONG_MOST);
    return kept && reading->wrong == 0;
}

bool since_read(struct since *since, const char *name, const groat_method *method)
{
    struct reading reading = {.since = since, .method = method};
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
