/* Keeping the rows of a table: its cells as they will be printed. */
#include "listing/table.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "study/taken.h"
#include "text/money.h"

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

/* Each of these returns how many character cells stand from the decimal mark on. */

static unsigned put_decimals(struct listing *list, struct figure figure, unsigned places)
{
    bytes_places(&list->table->texts, figure, places, listing_mark(&list->plan));
    return places > 0 ? places + 1 : 0;
}

/* `0.205` as `20.5%`. */
static unsigned put_percentage(struct listing *list, struct figure figure)
{
    struct amounts room;
    amounts_open(&room);
    struct amount percent = amount_times(&room, bytes_amount(&room, figure), 100);
    list->table->texts.failed |= percent.status == NUM_NO_MEMORY;
    unsigned behind = 0;
    if (percent.there) {
        behind = put_decimals(list, bytes_figure(&percent, GROAT_KIND_NUMBER), PERCENT_PLACES) + 1;
        bytes_char(&list->table->texts, '%');
    }
    amounts_close(&room);
    return behind;
}

static unsigned put_money(struct listing *list, struct figure figure, unsigned places)
{
    groat_currency currency = list->plan.currency;
    size_t length = strlen(currency.symbol);
    currency.decimals = places;
    bytes_money(&list->table->texts, figure, currency, listing_mark(&list->plan));
    bool word = text_sign_is_word(currency.symbol, length);
    return (places > 0 ? places + 1 : 0) + (word ? 1 + listing_width(currency.symbol, length) : 0);
}

static unsigned put_value(struct listing *list, struct figure figure)
{
    if (figure.value.kind == GROAT_KIND_MONEY)
        return put_money(list, figure, list->plan.currency.decimals);
    struct bytes text = {0};
    bytes_shown(&text, figure, LISTING_VALUE_PLACES, listing_mark(&list->plan));
    list->table->texts.failed |= text.failed;
    bytes_plain(&list->table->texts, text.start, text.length);
    bytes_free(&text);
    return 0;
}

/* ---- cells ---- */

static unsigned put_cell(struct listing *list, enum listing_look look,
                         const struct listing_cell *cell)
{
    struct figure figure = form_figure(look, cell);
    if (look == LISTING_TEXT)
        bytes_plain(&list->table->texts, cell->text.start, cell->text.length);
    else if (look == LISTING_WHOLE)
        form_whole(&list->table->texts, cell);
    else if (figure.value.presence == GROAT_THERE)
        return look == LISTING_SHARE ? put_percentage(list, figure) : put_value(list, figure);
    return 0;
}

/* Ends the text of a cell, which has so many character cells from its decimal mark on. */
static void end_cell(struct listing *list, struct table_cell *cell, unsigned behind)
{
    const struct bytes *texts = &list->table->texts;
    size_t length = texts->failed ? 0 : texts->length - cell->start;
    cell->length = length > UINT_MAX ? UINT_MAX : (unsigned)length;
    cell->width = listing_width(table_text(list->table, cell), cell->length);
    cell->left = cell->width > behind ? cell->width - behind : 0;
}

static bool is_number(enum listing_look look, struct figure figure)
{
    return (look == LISTING_NUMBER || look == LISTING_MONEY_PER) &&
           figure.value.presence == GROAT_THERE &&
           (figure.value.kind == GROAT_KIND_NUMBER || figure.value.kind == GROAT_KIND_QUANTITY);
}

static struct table_cell make_cell(struct listing *list, size_t column,
                                   const struct listing_cell *given)
{
    struct table *table = list->table;
    enum listing_look look = list->plan.columns[column].look;
    struct figure figure = form_figure(look, given);
    struct table_cell cell = {.start = table->texts.length};
    if (is_number(look, figure)) {
        cell.number = figure.amount ? amount_copy(&table->amounts, *figure.amount)
                                    : taken(&table->amounts, figure.value);
        table->texts.failed |= cell.number.status == NUM_NO_MEMORY;
        return cell;
    }
    unsigned behind = put_cell(list, look, given);
    end_cell(list, &cell, table_column_is_text(list, column) ? 0 : behind);
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
    amounts_open(&list->table->amounts);
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
    table->rows[table->count++] = row;
    return true;
}

/* ---- decimals ---- */

/* The cell of the column in the row. */
static struct table_cell *cell_at(const struct listing *list, size_t row, size_t column)
{
    return &list->table->cells[row * list->plan.columns_count + column];
}

/* Whether the numbers of a column need their many decimals: none is large, or one would be nothing
 * but zeros with few. */
static bool needs_many(const struct listing *list, size_t column, struct amounts *room,
                       unsigned few, unsigned many)
{
    bool large = false;
    for (size_t i = 0; i < list->table->count; i++) {
        struct amount number = cell_at(list, i, column)->number;
        struct amount coarse = amount_round_places(room, number, few);
        large = large || amount_compare(amount_size(room, coarse), amount_whole(1)) >= 0;
        if (amount_sign(coarse) == 0 && amount_sign(amount_round_places(room, number, many)) != 0)
            return true;
    }
    return !large;
}

/* How many of the decimals are not zeros in every number of the column. */
static unsigned places_used(const struct listing *list, size_t column, struct amounts *room,
                            unsigned places)
{
    unsigned used = 0;
    for (size_t i = 0; i < list->table->count; i++) {
        struct amount number = amount_round_places(room, cell_at(list, i, column)->number, places);
        while (used < places &&
               amount_compare(amount_round_places(room, number, used), number) != 0)
            used++;
    }
    return used;
}

/* Writes the numbers of a column, all of them with as many decimals. */
static void write_numbers(struct listing *list, size_t column)
{
    struct amounts room;
    bool money = list->plan.columns[column].look == LISTING_MONEY_PER;
    unsigned few = money ? list->plan.currency.decimals : PLACES_LARGE;
    unsigned many = few > PLACES_SMALL ? few : PLACES_SMALL;
    amounts_open(&room);
    unsigned places = needs_many(list, column, &room, few, many) ? many : few;
    if (!money)
        places = places_used(list, column, &room, places);
    amounts_close(&room);
    for (size_t i = 0; i < list->table->count; i++) {
        struct table_cell *cell = cell_at(list, i, column);
        if (!cell->number.there)
            continue;
        struct figure figure = bytes_figure(&cell->number, GROAT_KIND_NUMBER);
        cell->start = list->table->texts.length;
        end_cell(list, cell,
                 money ? put_money(list, figure, places) : put_decimals(list, figure, places));
    }
}

static bool finish_table(struct listing *list)
{
    struct table *table = list->table;
    for (size_t i = 0; i < list->plan.columns_count; i++)
        if (list->plan.columns[i].look == LISTING_NUMBER ||
            list->plan.columns[i].look == LISTING_MONEY_PER)
            write_numbers(list, i);
    for (size_t i = 0; i < table->count; i++)
        for (size_t j = 0; j < list->plan.columns_count; j++)
            table->needed[j] = table->needed[j] || says_something(list, cell_at(list, i, 0), j);
    errno = ENOMEM;
    return !table->texts.failed && table_print(list);
}

static void free_table(struct listing *list)
{
    if (!list->table)
        return;
    bytes_free(&list->table->texts);
    amounts_close(&list->table->amounts);
    free(list->table->cells);
    free(list->table->rows);
    free(list->table->needed);
    free(list->table);
}

const struct form form_table = {"table", open_table, add_table, finish_table, free_table, 0};
