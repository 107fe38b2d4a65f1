/* Keeping the rows of a table: its cells as they will be printed. */
#include "listing/table.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "study/taken.h"

/* The numbers of a column have so many decimals where one of them is 1 or more, and at most so many
 * where none is. A table is for the eye; the other forms have them all. */
#define PLACES_LARGE 2
#define PLACES_SMALL 4

#define PERCENT_PLACES 1 /* of a share, as a percentage */

bool table_column_is_text(const struct listing *list, size_t column)
{
    enum listing_look look = list->plan.columns[column].look;
    return look == LISTING_TEXT || look == LISTING_WORD;
}

/* ---- texts ---- */

/* `0.205` as `20.5%`. */
static void put_percentage(struct bytes *texts, struct figure figure)
{
    struct amounts room;
    amounts_open(&room);
    struct amount share = figure.amount ? *figure.amount : taken(&room, figure.value);
    struct amount percent = amount_times(&room, share, 100);
    texts->failed |= percent.status == NUM_NO_MEMORY;
    if (percent.there) {
        bytes_places(texts, bytes_figure(&percent, GROAT_KIND_NUMBER), PERCENT_PLACES);
        bytes_char(texts, '%');
    }
    amounts_close(&room);
}

static void put_places(struct bytes *texts, struct figure figure, unsigned places)
{
    bytes_places(texts, figure, places);
}

static void put_money(struct listing *list, struct figure figure, unsigned places)
{
    groat_currency currency = list->plan.currency;
    currency.decimals = places;
    bytes_money(&list->table->texts, figure, currency);
}

static void put_value(struct listing *list, struct figure figure)
{
    struct bytes *texts = &list->table->texts;
    if (figure.value.presence != GROAT_THERE)
        return;
    if (figure.value.kind == GROAT_KIND_MONEY) {
        bytes_money(texts, figure, list->plan.currency);
        return;
    }
    struct bytes text = {0};
    bytes_shown(&text, figure, LISTING_VALUE_PLACES);
    texts->failed |= text.failed;
    bytes_plain(texts, text.start, text.length);
    bytes_free(&text);
}

/* ---- cells ---- */

static void put_cell(struct listing *list, enum listing_look look, const struct listing_cell *cell)
{
    struct bytes *texts = &list->table->texts;
    struct figure figure = form_figure(look, cell);
    switch (look) {
    case LISTING_TEXT: bytes_plain(texts, cell->text.start, cell->text.length); break;
    case LISTING_WHOLE: form_whole(texts, cell); break;
    case LISTING_MONEY:
    case LISTING_NUMBER:
    case LISTING_MONEY_PER:
    case LISTING_WORD: put_value(list, figure); break;
    case LISTING_SHARE:
        if (figure.value.presence == GROAT_THERE)
            put_percentage(texts, figure);
        break;
    }
}

/* The decimal mark in a cell of numbers: the last one, since a symbol may hold a point too. */
static char *find_mark(char *start, size_t length)
{
    for (size_t i = length; i > 1; i--)
        if (start[i - 1] == '.' && start[i - 2] >= '0' && start[i - 2] <= '9')
            return start + i - 1;
    return NULL;
}

/* Where a number without a mark would have it: behind its last digit. */
static size_t end_of_digits(const char *start, size_t length)
{
    for (size_t i = length; i > 0; i--)
        if (start[i - 1] >= '0' && start[i - 1] <= '9')
            return i;
    return length;
}

/* Measures a cell's text. */
static void measure(const struct listing *list, struct table_cell *cell, bool is_text)
{
    char *text = list->table->texts.start + cell->start;
    if (list->table->texts.failed || cell->length == 0)
        return;
    cell->width = cell->left = listing_width(text, cell->length);
    if (is_text)
        return;
    char *mark = find_mark(text, cell->length);
    size_t left = mark ? (size_t)(mark - text) : end_of_digits(text, cell->length);
    if (mark && list->plan.decimal_comma)
        *mark = ',';
    cell->left = listing_width(text, left);
}

static unsigned length_from(const struct bytes *texts, size_t start)
{
    size_t length = texts->failed ? 0 : texts->length - start;
    return length > UINT_MAX ? UINT_MAX : (unsigned)length;
}

static bool is_number(enum listing_look look, struct figure figure)
{
    return (look == LISTING_NUMBER || look == LISTING_MONEY_PER) &&
           figure.value.presence == GROAT_THERE &&
           (figure.value.kind == GROAT_KIND_NUMBER || figure.value.kind == GROAT_KIND_QUANTITY);
}

/* A number is put with many decimals and again with few, until its column is known. */
static struct table_cell number_cell(struct listing *list, enum listing_look look,
                                     struct figure figure)
{
    struct bytes *texts = &list->table->texts;
    unsigned few = list->plan.currency.decimals;
    struct table_cell cell = {.start = texts->length};
    if (look == LISTING_MONEY_PER)
        put_money(list, figure, few > PLACES_SMALL ? few : PLACES_SMALL);
    else
        put_places(texts, figure, PLACES_SMALL);
    cell.length = length_from(texts, cell.start);
    if (look == LISTING_MONEY_PER)
        put_money(list, figure, few);
    else
        put_places(texts, figure, PLACES_LARGE);
    cell.coarse = length_from(texts, cell.start) - cell.length;
    return cell;
}

static struct table_cell make_cell(struct listing *list, size_t column,
                                   const struct listing_cell *given)
{
    enum listing_look look = list->plan.columns[column].look;
    struct figure figure = form_figure(look, given);
    if (is_number(look, figure))
        return number_cell(list, look, figure);
    struct table_cell cell = {.start = list->table->texts.length};
    put_cell(list, look, given);
    cell.length = length_from(&list->table->texts, cell.start);
    measure(list, &cell, table_column_is_text(list, column));
    return cell;
}

static bool same_cells(const struct table *table, const struct table_cell *a,
                       const struct table_cell *b)
{
    return a->length == b->length &&
           memcmp(table_text(table, a), table_text(table, b), a->length) == 0;
}

/* Nothing but zeros, in whatever currency. */
static bool is_zero(const struct table *table, const struct table_cell *cell)
{
    const char *text = table_text(table, cell);
    for (size_t i = 0; i < cell->length; i++)
        if (text[i] >= '1' && text[i] <= '9')
            return false;
    return true;
}

static bool is_one(const struct table *table, const struct table_cell *cell)
{
    return cell->length == 1 && table_text(table, cell)[0] == '1';
}

static bool says_something(const struct listing *list, const struct table_cell *cells,
                           size_t column)
{
    const struct table *table = list->table;
    if (!list->plan.columns[column].heading)
        return false;
    switch (list->plan.columns[column].omission & ~(unsigned)LISTING_IF_ROOM) {
    case LISTING_UNLESS_ONE: return !is_one(table, &cells[column]);
    case LISTING_UNLESS_ZERO: return !is_zero(table, &cells[column]);
    case LISTING_UNLESS_NEXT: return !same_cells(table, &cells[column], &cells[column + 1]);
    default: return true;
    }
}

/* ---- rows ---- */

static bool grow(struct listing *list)
{
    struct table *table = list->table;
    if (table->count < table->room)
        return true;
    size_t columns = list->plan.columns_count;
    size_t room = table->room ? table->room * 2 : 64;
    struct table_cell *cells = realloc(table->cells, room * columns * sizeof *cells);
    if (cells)
        table->cells = cells;
    struct table_row *rows = realloc(table->rows, room * sizeof *rows);
    if (rows)
        table->rows = rows;
    if (cells && rows)
        table->room = room;
    return cells && rows;
}

static bool open_table(struct listing *list)
{
    list->table = calloc(1, sizeof *list->table);
    if (!list->table)
        return false;
    list->table->needed = calloc(list->plan.columns_count + 1, sizeof *list->table->needed);
    return list->table->needed != NULL;
}

static bool add_table(struct listing *list, const struct listing_row *given)
{
    struct table *table = list->table;
    size_t columns = list->plan.columns_count;
    errno = ENOMEM; /* the only thing that can go wrong here */
    if (!grow(list))
        return false;
    struct table_cell *cells = table->cells + table->count * columns;
    for (size_t i = 0; i < columns; i++)
        cells[i] = make_cell(list, i, &given->cells[i]);
    struct table_row row = {.notes = table->texts.length,
                            .notes_count = (unsigned)given->notes_count,
                            .group = given->group};
    for (size_t i = 0; i < given->notes_count; i++) {
        bytes_plain(&table->texts, given->notes[i], strlen(given->notes[i]));
        bytes_char(&table->texts, '\0');
    }
    if (table->texts.failed)
        return false;
    row.same = table->count > 0 && table->rows[table->count - 1].group == given->group;
    for (size_t i = 0; i < columns; i++)
        table->needed[i] = table->needed[i] || says_something(list, cells, i);
    table->rows[table->count++] = row;
    return true;
}

/* ---- decimals ---- */

/* The text of a number with fewer decimals. */
static struct table_cell coarse_cell(const struct table_cell *cell)
{
    return (struct table_cell){.start = cell->start + cell->length, .length = cell->coarse};
}

/* Whether there is a digit above zero before the decimal mark. */
static bool is_large(const struct table *table, const struct table_cell *cell)
{
    const char *text = table_text(table, cell);
    for (size_t i = 0; i < cell->length && text[i] != '.'; i++)
        if (text[i] >= '1' && text[i] <= '9')
            return true;
    return false;
}

/* The zeros that close a number's decimals, with its mark where it has no others. */
static unsigned closing_zeros(const struct table *table, const struct table_cell *cell)
{
    const char *text = table_text(table, cell);
    unsigned count = 0;
    while (count < cell->length && text[cell->length - 1 - count] == '0')
        count++;
    return count < cell->length && text[cell->length - 1 - count] == '.' ? count + 1 : count;
}

/* Whether the numbers of a column need their many decimals: none is large, or one would be nothing
 * but zeros with few. */
static bool needs_many(const struct table *table, size_t columns, size_t column)
{
    bool large = false;
    for (size_t i = 0; i < table->count; i++) {
        const struct table_cell *cell = &table->cells[i * columns + column];
        if (cell->coarse == 0)
            continue;
        struct table_cell coarse = coarse_cell(cell);
        large = large || is_large(table, &coarse);
        if (is_zero(table, &coarse) && !is_zero(table, cell))
            return true;
    }
    return !large;
}

/* Settles with how many decimals the numbers of a column are written: all of them with as many. */
static void settle_decimals(struct listing *list, size_t column)
{
    struct table *table = list->table;
    size_t columns = list->plan.columns_count;
    bool many = needs_many(table, columns, column);
    unsigned spare = list->plan.columns[column].look == LISTING_NUMBER ? UINT_MAX : 0;
    for (size_t i = 0; i < table->count && !many; i++) {
        struct table_cell *cell = &table->cells[i * columns + column];
        if (cell->coarse > 0) {
            *cell = coarse_cell(cell);
            cell->coarse = cell->length;
        }
    }
    for (size_t i = 0; i < table->count; i++) {
        const struct table_cell *cell = &table->cells[i * columns + column];
        unsigned zeros = cell->coarse > 0 ? closing_zeros(table, cell) : spare;
        spare = zeros < spare ? zeros : spare;
    }
    for (size_t i = 0; i < table->count; i++) {
        struct table_cell *cell = &table->cells[i * columns + column];
        if (cell->coarse == 0)
            continue;
        cell->coarse = 0;
        cell->length -= spare;
        measure(list, cell, false);
    }
}

static bool finish_table(struct listing *list)
{
    for (size_t i = 0; i < list->plan.columns_count; i++)
        if (!table_column_is_text(list, i))
            settle_decimals(list, i);
    return table_print(list);
}

static void free_table(struct listing *list)
{
    if (!list->table)
        return;
    bytes_free(&list->table->texts);
    free(list->table->cells);
    free(list->table->rows);
    free(list->table->needed);
    free(list->table);
}

const struct form form_table = {"table", open_table, add_table, finish_table, free_table, 0};
