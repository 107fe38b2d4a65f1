#define _POSIX_C_SOURCE 200809L
#include "command/products.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "command/file.h"
#include "command/headings.h"
#include "command/namesakes.h"
#include "command/say.h"
#include "text/money.h"

struct products {
    const char *name; /* of the file, in messages */
    const groat_method *method;
    struct sheet *sheet;
    struct headings headings;
    size_t label_column; /* or SIZE_MAX */
    size_t asked_column; /* that --at names; or SIZE_MAX */
    const char *asked_name;
    int64_t asked; /* the price that --at asks about; 0: there is none */
    bool decimal_comma;
    size_t doubts;      /* cells whose comma, or point, may divide thousands or begin decimals */
    size_t doubts_rows; /* so far they are counted */
    bool quiet;         /* says nothing about rows */
    bool borrowed;      /* the sheet is another's */
    char label[32];
    char place[512];
    char wrong[512]; /* the first wrong cell of the row that was filled in last; or empty */
};

/* ---- the prices asked ---- */

/* Whether a text was meant as an amount rather than as a heading. */
static bool begins_as_money(const struct products *products, const char *text)
{
    const char *symbol = groat_method_currency(products->method).symbol;
    return strchr("0123456789.,+-", text[0]) || strncmp(text, symbol, strlen(symbol)) == 0;
}

static void money_example(const groat_method *method, char *text, size_t size)
{
    groat_currency currency = groat_method_currency(method);
    text_money(text, size, currency.symbol[0] ? currency.symbol : currency.code, "45");
}

static groat_text heading_at(void *sheet, size_t column)
{
    struct sheet_text heading = sheet_heading(sheet, column);
    return (groat_text){heading.start, heading.length};
}

/* Says that there is no such column, and which is the nearest. */
static void say_no_column(const struct products *products, const char *wanted)
{
    char nearest[SAY_NEAREST_BYTES], begin[512];
    struct sheet *sheet = products->sheet;
    struct say_names headings = {sheet_column_count(sheet), heading_at, sheet};
    snprintf(begin, sizeof begin, "%.400s: the columns are", products->name);
    say("%s: %s is neither a column of the sheet nor a price", products->name, wanted);
    if (say_nearest(&headings, wanted, nearest))
        say("Try: --at '%s'", nearest);
    else
        say_names(&headings, begin, SIZE_MAX);
}

/* What --at names: a price for every row, or a column. False after saying why it is neither. */
static bool find_asked(struct products *products, const char *at)
{
    groat_cells cells = {.decimal_comma = products->decimal_comma};
    groat_trouble trouble = {0};
    if (!at)
        return true;
    groat_status status = groat_money_read(products->method, (groat_text){at, strlen(at)}, &cells,
                                           &products->asked, &trouble);
    if (status == GROAT_OK)
        return true;
    products->asked = 0;
    products->asked_name = at;
    products->asked_column = headings_find(products->sheet, at);
    if (products->asked_column != SIZE_MAX)
        return true;
    bool own = trouble.help_kind == GROAT_HELP_VALUE || trouble.help_kind == GROAT_HELP_ADVICE;
    if (status == GROAT_NO_MEMORY) {
        say_no_memory();
    } else if (own || begins_as_money(products, at)) {
        say("groat: --at %s: %s", at, trouble.message);
        char example[64];
        money_example(products->method, example, sizeof example);
        say("Try: %s--at '%s'", own ? "" : "for example ", own ? trouble.help : example);
    } else {
        say_no_column(products, at);
    }
    return false;
}

/* ---- opening ---- */

/* The file of a spreadsheet itself, told by its ending. */
static bool is_spreadsheet(const char *name)
{
    static const char *const endings[] = {".xlsx", ".xls", ".xlsm", ".ods"};
    const char *point = strrchr(name, '.');
    for (size_t i = 0; point && i < sizeof endings / sizeof *endings; i++)
        if (strcasecmp(point, endings[i]) == 0)
            return true;
    return false;
}

static bool form_of(const struct request *request, enum sheet_form *form)
{
    const char *name = request->products;
    *form = request->from;
    if (request->from_given || sheet_form_of_name(name, form))
        return true;
    if (is_spreadsheet(name)) {
        say("%s: this is a spreadsheet's own file, not text", name);
        say_try("save it as CSV in UTF-8");
    } else if (strcmp(name, "-") == 0)
        say("groat: standard input needs --from csv, tsv, json or ndjson");
    else
        say("%s: this does not end in .csv, .tsv, .json or .ndjson; say with --from what it is",
            name);
    return false;
}

/* The column that labels the products. */
static size_t find_label(const struct products *products)
{
    for (size_t i = 0; i < products->headings.fields_count; i++) {
        groat_field field = groat_method_field(products->method, i);
        if (strcmp(field.name, "name") == 0 && field.kind == GROAT_KIND_TEXT)
            return products->headings.columns[i];
    }
    return SIZE_MAX;
}

/* Takes over the sheet when it is not borrowed, also when it fails. */
static struct products *make_products(struct sheet *sheet, const groat_method *method,
                                      struct products like)
{
    struct products *products = calloc(1, sizeof *products);
    if (!products) {
        say_no_memory();
        if (!like.borrowed)
            sheet_free(sheet);
        return NULL;
    }
    *products = like;
    products->sheet = sheet;
    products->method = method;
    products->asked_column = SIZE_MAX;
    if (!headings_open(&products->headings, like.name, sheet, method)) {
        say_no_memory();
        products_free(products);
        return NULL;
    }
    products->label_column = find_label(products);
    return products;
}

struct products *products_open(const struct request *request, const groat_method *method)
{
    bool standard = strcmp(request->products, "-") == 0;
    const char *name = standard ? "standard input" : request->products;
    enum sheet_form form;
    struct sheet *sheet = NULL;
    if (form_of(request, &form))
        sheet = file_read_sheet(request->products, true, form, name);
    if (!sheet)
        return NULL;
    struct products like = {.name = name, .decimal_comma = request->decimal_comma};
    struct products *products = make_products(sheet, method, like);
    if (!products)
        return NULL;
    bool known = find_asked(products, request->at);
    if (known)
        headings_say_unused(&products->headings, products->asked_column);
    bool whole = headings_has_required(&products->headings, NULL) && known;
    if (whole && (namesakes_none(products, request->since != NULL) || !request->since))
        return products;
    products_free(products);
    return NULL;
}

struct products *products_again(const struct products *first, const groat_method *method,
                                const char *rules)
{
    struct products like = {.name = first->name,
                            .decimal_comma = first->decimal_comma,
                            .quiet = true,
                            .borrowed = true};
    struct products *products = make_products(first->sheet, method, like);
    if (!products || headings_has_required(&products->headings, rules))
        return products;
    products_free(products);
    return NULL;
}

void products_free(struct products *products)
{
    if (!products)
        return;
    if (!products->borrowed)
        sheet_free(products->sheet);
    headings_free(&products->headings);
    free(products);
}

void products_say_again(const struct products *products)
{
    headings_say_again(&products->headings);
}

void products_say_doubts(const struct products *products)
{
    const char *mark = products->decimal_comma ? "point" : "comma";
    if (products->doubts < 2)
        return;
    say("%s: %zu cells have a decimal %s", products->name, products->doubts, mark);
    say("Try: --decimal %s", mark);
}

/* ---- rows ---- */

size_t products_count(const struct products *products)
{
    return sheet_row_count(products->sheet);
}

/* An absent cell, or one of a column that is not there, has no start. */
static groat_text cell_of(const struct products *products, size_t row, size_t column)
{
    struct sheet_text cell = sheet_cell(products->sheet, row, column);
    return (groat_text){cell.start, cell.length};
}

size_t products_line(const struct products *products, size_t row)
{
    return sheet_row_line(products->sheet, row);
}

groat_text products_name(const struct products *products, size_t row)
{
    return cell_of(products, row, products->label_column);
}

groat_text products_label(struct products *products, size_t row)
{
    groat_text cell = cell_of(products, row, products->label_column);
    if (cell.start)
        return cell;
    int length = snprintf(products->label, sizeof products->label, "row %zu", row + 1);
    return (groat_text){products->label, (size_t)length};
}

/* ---- the one product that is named ---- */

bool products_is(struct products *products, size_t row, const char *name)
{
    if (!name)
        return true;
    groat_text label = products_label(products, row);
    return label.length == strlen(name) && memcmp(label.start, name, label.length) == 0;
}

size_t products_named(struct products *products, const char *name)
{
    size_t count = 0;
    for (size_t row = 0; row < products_count(products); row++)
        count += products_is(products, row, name);
    return count;
}

static groat_text label_at(void *products, size_t row)
{
    return products_label(products, row);
}

void products_propose(struct products *products, const char *wanted)
{
    enum { PRODUCTS_SAID = 10 };
    struct say_names names = {products_count(products), label_at, products};
    say_try_names(&names, wanted, "groat: the products are", PRODUCTS_SAID);
}

bool products_have(struct products *products, const char *name)
{
    if (!name || products_named(products, name) > 0)
        return true;
    say("groat: the sheet has no product %s", name);
    products_propose(products, name);
    return false;
}

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

/* What is wrong with a cell, and what the cell says, if anything. */
static void say_wrong(struct products *products, size_t row, groat_text cell, const char *column,
                      const char *message)
{
    if (!products->quiet)
        say("%s, column %s%s: %s", products_place(products, row), column, say_cell(cell).text,
            message);
}

/* Keeps what is wrong with the first wrong cell of a row. */
static void note_wrong(struct products *products, groat_text cell, const char *column,
                       const char *message)
{
    if (!products->wrong[0])
        snprintf(products->wrong, sizeof products->wrong, "column %.100s%s: %s", column,
                 say_cell(cell).text, message);
}

/* Whether a cell is one more with the same doubt, which is not said again: a sheet with decimal
 * commas has it in nearly every cell. */
static bool one_more_doubt(struct products *products, size_t row, const groat_trouble *trouble)
{
    if (trouble->kind != GROAT_TROUBLE_DOUBTFUL_MARK)
        return false;
    if (row >= products->doubts_rows)
        products->doubts++;
    return products->doubts > 1;
}

/* Of a mark that may be either, the option that says which it is. */
static void say_try_cell(const struct products *products, const groat_trouble *trouble)
{
    if (trouble->kind == GROAT_TROUBLE_DOUBTFUL_MARK && !products->decimal_comma)
        say("Try: %s; or --decimal comma for a sheet with decimal commas", trouble->help);
    else
        say_try_of(trouble);
}

/* Says what is wrong with a cell that was read; whether nothing was. */
static bool cell_is_fine(struct products *products, size_t row, groat_text cell, const char *column,
                         groat_status status, const groat_trouble *trouble)
{
    const char *message = status == GROAT_NO_MEMORY ? "there is no memory left" : trouble->message;
    if (status != GROAT_OK)
        note_wrong(products, cell, column, message);
    if (status == GROAT_BAD_VALUE && !one_more_doubt(products, row, trouble)) {
        say_wrong(products, row, cell, column, message);
        if (!products->quiet)
            say_try_cell(products, trouble);
    } else if (status == GROAT_NO_MEMORY) {
        say_wrong(products, row, cell, column, message);
    }
    return status == GROAT_OK;
}

static bool fill_field(struct products *products, size_t row, size_t field, groat_record *record)
{
    groat_text cell = cell_of(products, row, products->headings.columns[field]);
    groat_field about = groat_method_field(products->method, field);
    if (!cell.start) {
        static const char empty[] = "a value is required, but the cell is empty";
        if (about.required) {
            note_wrong(products, cell, about.column, empty);
            say_wrong(products, row, cell, about.column, empty);
        }
        return !about.required;
    }
    groat_cells cells = {.decimal_comma = products->decimal_comma};
    groat_trouble trouble = {0};
    groat_status status = groat_record_set(record, field, cell, &cells, &trouble);
    return cell_is_fine(products, row, cell, about.column, status, &trouble);
}

/* Reads the row's price out of the column that --at names. */
static bool fill_asked(struct products *products, size_t row)
{
    if (products->asked_column == SIZE_MAX)
        return true;
    groat_text cell = cell_of(products, row, products->asked_column);
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
    bool whole = true;
    products->wrong[0] = '\0';
    groat_record_clear(record);
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
