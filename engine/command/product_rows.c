#include <stdio.h>

#include "command/product_rows.h"
#include "command/say.h"

/* ---- messages about rows ---- */

const char *products_file(const struct products *products)
{
    return products->name;
}

const char *products_place(struct products *products, size_t row)
{
    groat_text label = products_label(products, row);
    snprintf(products->place, sizeof products->place, "%.300s:%zu: %.*s", products->name,
             sheet_row_line(products->sheet, row), say_length(label, PRODUCTS_SHOWN_MOST),
             label.start);
    return products->place;
}

bool products_say(struct products *products, const char *kind)
{
    return telling_begin(&products->telling, products->tally, kind);
}

struct telling *products_telling(struct products *products)
{
    return &products->telling;
}

void products_end_saying(struct products *products)
{
    if (!products->shared)
        telling_say(&products->telling, products->tally);
}

/* What is wrong with a cell, what the cell says, if anything, and what to try. */
static void tell_wrong(struct products *products, size_t row, groat_text cell, const char *column,
                       const char *message, const char *help)
{
    telling_line(&products->telling, "%s, column %s%s: %s", products_place(products, row), column,
                 say_cell(cell).text, message);
    if (help[0])
        telling_line(&products->telling, "Try: %s", help);
}

/* Keeps what is wrong with the first wrong cell of a row. */
static void note_wrong(struct products *products, groat_text cell, const char *column,
                       const char *message)
{
    if (!products->wrong[0])
        snprintf(products->wrong, sizeof products->wrong, "column %.100s%s: %s", column,
                 say_cell(cell).text, message);
}

static void say_wrong(struct products *products, size_t row, groat_text cell, const char *column,
                      const char *message, const char *help)
{
    char kind[512];
    note_wrong(products, cell, column, message);
    if (products->quiet)
        return;
    snprintf(kind, sizeof kind, "column %.200s: %.280s", column, message);
    if (products_say(products, kind))
        tell_wrong(products, row, cell, column, message, help);
    products_end_saying(products);
}

/* A row of which no cell can be read. */
bool product_row_is_fine(struct products *products, size_t row)
{
    struct sheet_error why;
    if (!sheet_row_trouble(products->sheet, row, &why))
        return true;
    snprintf(products->wrong, sizeof products->wrong, "%s", why.message);
    if (!products->quiet && products_say(products, why.message)) {
        telling_line(&products->telling, "%s:%zu:%zu: %s", products->name, why.line, why.column,
                     why.message);
        if (why.help[0])
            telling_line(&products->telling, "Try: %s", why.help);
    }
    products_end_saying(products);
    return false;
}

/* Only the first is said and the others are counted: a sheet with decimal commas has the doubt in
 * nearly every cell. */
static void say_doubt(struct products *products, size_t row, groat_text cell, const char *column,
                      const groat_trouble *trouble, const char *help)
{
    char option[sizeof trouble->help + 80];
    note_wrong(products, cell, column, trouble->message);
    if (row >= products->doubts_rows)
        products->doubts++;
    if (products->quiet)
        return;
    snprintf(option, sizeof option, "%s%s", help,
             products->decimal_comma ? "" : "; or --decimal comma for a sheet with decimal commas");
    if (telling_begin_once(&products->telling, products->tally, "a decimal mark in doubt"))
        tell_wrong(products, row, cell, column, trouble->message, option);
    products_end_saying(products);
}

/* Says what is wrong with a cell that was read; whether nothing was. */
static bool cell_is_fine(struct products *products, size_t row, groat_text cell, const char *column,
                         groat_status status, const groat_trouble *trouble)
{
    char help[sizeof trouble->help + 16];
    if (status == GROAT_OK)
        return true;
    groat_trouble_help(trouble, help, sizeof help);
    if (status == GROAT_NO_MEMORY)
        say_wrong(products, row, cell, column, "there is no memory left", "");
    else if (trouble->kind == GROAT_TROUBLE_DOUBTFUL_MARK)
        say_doubt(products, row, cell, column, trouble, help);
    else
        say_wrong(products, row, cell, column, trouble->message, help);
    return false;
}

static bool fill_absent(struct products *products, size_t row, size_t field)
{
    groat_field about = groat_method_field(products->method, field);
    struct sheet_error why;
    size_t column = products->headings.columns[field];
    if (sheet_cell_trouble(products->sheet, row, column, &why)) {
        say_wrong(products, row, (groat_text){0}, about.column, why.message, why.help);
        return false;
    }
    if (about.required)
        say_wrong(products, row, (groat_text){0}, about.column,
                  "a value is required, but the cell is empty", "");
    return !about.required;
}

static bool fill_field(struct products *products, size_t row, size_t field, groat_record *record)
{
    groat_text cell = product_cell(products, row, products->headings.columns[field]);
    if (!cell.start)
        return fill_absent(products, row, field);
    groat_cells cells = {.decimal_comma = products->decimal_comma};
    groat_trouble trouble;
    groat_status status = groat_record_set(record, field, cell, &cells, &trouble);
    return status == GROAT_OK ||
           cell_is_fine(products, row, cell, groat_method_field(products->method, field).column,
                        status, &trouble);
}

/* Reads the row's price out of the column that --at names. */
static bool fill_asked(struct products *products, size_t row)
{
    if (products->asked_column == SIZE_MAX)
        return true;
    groat_text cell = product_cell(products, row, products->asked_column);
    products->asked = 0;
    if (!cell.start)
        return true;
    groat_cells cells = {.decimal_comma = products->decimal_comma};
    groat_trouble trouble = {0};
    groat_status status =
        groat_money_read(products->method, cell, &cells, &products->asked, &trouble);
    return cell_is_fine(products, row, cell, products->asked_name, status, &trouble);
}

bool products_fill(struct products *products, size_t row, groat_record *record)
{
    products->wrong[0] = '\0';
    bool whole = product_row_is_fine(products, row);
    groat_record_clear(record);
    if (!whole)
        return false;
    for (size_t i = 0; i < products->headings.fields_count; i++)
        whole = fill_field(products, row, i, record) && whole;
    whole = fill_asked(products, row) && whole;
    if (row >= products->doubts_rows)
        products->doubts_rows = row + 1;
    return whole;
}

const char *products_wrong(const struct products *products)
{
    return products->wrong;
}

bool products_asked(const struct products *products, int64_t *coins)
{
    *coins = products->asked;
    return products->asked > 0;
}
