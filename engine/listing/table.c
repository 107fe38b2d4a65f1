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
    return look == LISTING_TEXT || look == LISTING_WORD || look == LISTING_NOTES;
}

/* ---- rows ---- */

/* Ends the text of a cell, which has so many character cells from its decimal mark on. */
static void end_cell(struct listing *list, struct table_cell *cell, unsigned behind)
{
    const struct bytes *texts = &list->table->texts;
    size_t length = texts->failed ? 0 : texts->length - cell->start;
    cell->length = length > UINT_MAX ? UINT_MAX : (unsigned)length;
    cell->width = listing_width(table_text(list->table, cell), cell->length);
    cell->left = cell->width > behind ? cell->width - behind : 0;
}

static struct table_cell make_cell(struct listing *list, size_t column)
{
    struct table *table = list->table;
    const struct listing_cell *given = &list->row[column];
    struct table_cell cell = {.start = table->texts.length};
    enum listing_look look = list->plan.columns[column].look;
    if (look == LISTING_NOTES) {
        /* They stand below the row. */
    } else if (look == LISTING_TEXT) {
        bytes_plain(&table->texts, given->text.start, given->text.length);
    } else if (taken_is_amount(given->value.kind)) {
        cell.amount = amount_copy(&table->amounts, given->amount);
        cell.money = given->value.kind == GROAT_KIND_MONEY;
        table->texts.failed |= cell.amount.status == NUM_NO_MEMORY;
    } else if (given->value.presence == GROAT_THERE) {
        struct bytes text = {0};
        bytes_value(&text, given->value);
        table->texts.failed |= text.failed;
        bytes_plain(&table->texts, text.start, text.length);
        bytes_free(&text);
    }
    end_cell(list, &cell, 0);
    return cell;
}

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

/* Whether the notes are among the columns. */
static bool noted(const struct listing *list)
{
    for (size_t i = 0; i < list->plan.columns_count; i++)
        if (list->plan.columns[i].look == LISTING_NOTES)
            return true;
    return false;
}

static bool add_table(struct listing *list, size_t group)
{
    struct table *table = list->table;
    size_t columns = list->plan.columns_count;
    errno = ENOMEM; /* the only thing that can go wrong here */
    if (!grow(list))
        return false;
    struct table_cell *cells = table->cells + table->count * columns;
    for (size_t i = 0; i < columns; i++)
        cells[i] = make_cell(list, i);
    struct table_row row = {.notes = table->texts.length, .group = group};
    for (const char *note = NULL; noted(list) && (note = form_note(list, note));
         row.notes_count++) {
        bytes_plain(&table->texts, note, strlen(note));
        bytes_char(&table->texts, '\0');
    }
    if (table->texts.failed)
        return false;
    row.same =
        list->from[0] == 0 && table->count > 0 && table->rows[table->count - 1].group == group;
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
        struct amount number = cell_at(list, i, column)->amount;
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
    unsigned used = 0, decimals;
    for (size_t i = 0; i < list->table->count; i++) {
        struct amount number = amount_round_places(room, cell_at(list, i, column)->amount, places);
        if (amount_decimals(number, &decimals) && decimals > used)
            used = decimals;
    }
    return used;
}

/* How many decimals the amounts of a column have, all of them as many. */
static unsigned column_places(const struct listing *list, size_t column, struct amounts *room)
{
    unsigned coins = list->plan.currency.decimals;
    switch (list->plan.columns[column].look) {
    case LISTING_COINS:
    case LISTING_MONEY: return coins;
    case LISTING_SHARE: return PERCENT_PLACES;
    case LISTING_RATIO:
    case LISTING_NUMBER: {
        bool many = needs_many(list, column, room, PLACES_LARGE, PLACES_SMALL);
        return places_used(list, column, room, many ? PLACES_SMALL : PLACES_LARGE);
    }
    case LISTING_MONEY_PER: {
        unsigned most = coins > PLACES_SMALL ? coins : PLACES_SMALL;
        return needs_many(list, column, room, coins, most) ? most : coins;
    }
    default: return 0;
    }
}

/* ---- texts ---- */

/* Writes an amount, `0.205` as `20.5%` if so wanted; from then on the cell has it as it is written,
 * without the decimals that are not. Returns how many character cells
 * stand from the decimal mark on. */
static unsigned put_amount(struct listing *list, struct table_cell *cell, unsigned places,
                           bool percent)
{
    struct bytes *texts = &list->table->texts;
    if (percent)
        cell->amount = amount_times(&list->table->amounts, cell->amount, 100);
    struct amount written = amount_round_places(&list->table->amounts, cell->amount, places);
    if (written.there)
        cell->amount = written;
    else if (!cell->amount.there)
        return 0;
    unsigned behind = places > 0 ? places + 1 : 0;
    groat_currency currency = list->plan.currency;
    if (!cell->money) {
        bytes_grouped(texts, cell->amount, places, listing_marks(&list->plan));
        bytes_text(texts, percent ? "%" : "");
        return behind + percent;
    }
    size_t length = strlen(currency.symbol);
    bool word = text_sign_is_word(currency.symbol, length);
    currency.decimals = places;
    bytes_money(texts, cell->amount, currency, listing_marks(&list->plan));
    return behind + (word ? 1 + listing_width(currency.symbol, length) : 0);
}

/* Writes the amounts of a column. */
static void write_amounts(struct listing *list, size_t column)
{
    enum listing_look look = list->plan.columns[column].look;
    struct table *table = list->table;
    struct amounts room;
    amounts_open(&room);
    unsigned places = column_places(list, column, &room);
    amounts_close(&room);
    for (size_t i = 0; i < table->count; i++) {
        struct table_cell *cell = cell_at(list, i, column);
        if (!cell->amount.there)
            continue;
        bool coins = cell->money && look == LISTING_NUMBER;
        cell->money |= look == LISTING_MONEY_PER;
        cell->start = table->texts.length;
        end_cell(list, cell,
                 put_amount(list, cell, coins ? list->plan.currency.decimals : places,
                            look == LISTING_SHARE));
    }
}

/* ---- what a table can do without ---- */

static bool is_equal(const struct table_cell *a, const struct table_cell *b)
{
    return a->amount.there == b->amount.there && amount_compare(a->amount, b->amount) == 0;
}

/* Whether the cell of a row holds what the column is there for. */
static bool says_something(const struct listing *list, size_t row, size_t column)
{
    const struct table_cell *cell = cell_at(list, row, column);
    switch (list->plan.columns[column].omission &
            ~(unsigned)(LISTING_IF_ROOM | LISTING_IF_CHOSEN)) {
    case LISTING_UNLESS_ONE: return !amount_is_whole_number(cell->amount, 1);
    case LISTING_UNLESS_ZERO:
        return table_column_is_text(list, column) ? cell->length > 0
                                                  : amount_sign(cell->amount) != 0;
    case LISTING_UNLESS_NEXT: return !is_equal(cell, cell + 1);
    default: return true;
    }
}

static bool finish_table(struct listing *list)
{
    struct table *table = list->table;
    for (size_t column = 0; column < list->plan.columns_count; column++) {
        bool shown = list->plan.columns[column].heading;
        if (!table_column_is_text(list, column))
            write_amounts(list, column);
        for (size_t row = 0; row < table->count && shown && !table->needed[column]; row++)
            table->needed[column] = says_something(list, row, column);
    }
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
