#define _POSIX_C_SOURCE 200809L

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "command/namesakes.h"
#include "command/product_rows.h"
#include "command/say.h"
#include "text/money.h"

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
    struct say_names headings = {sheet_column_count(sheet), heading_at, sheet, false};
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

/* ---- names that are there twice ---- */

enum { NAMES_SAID = 5 };

/* Takes the names of the rows in hand, of a sheet that is longer than a block. */
static void take_names(struct products *products)
{
    for (size_t row = products_first(products); row < products_count(products); row++) {
        groat_text name = products_name(products, row);
        if (!name.start || labels_take(&products->labels, name) != LABEL_KNOWN)
            continue;
        if (products->twice++ < NAMES_SAID)
            say("%.300s:%zu: warning: %.*s has the same name as a line before it; explain, sweep "
                "and effect --since find products by name",
                products->name, products_line(products, row), say_length(name, PRODUCTS_SHOWN_MOST),
                name.start);
    }
}

/* Says which names are there twice; whether the sheet can be used all the same. */
static bool check_names(struct products *products, const struct request *request)
{
    if (products->open && !sheet_is_over(products->sheet)) {
        take_names(products);
        return true;
    }
    return namesakes_none(products, request->since != NULL) || !request->since;
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

/* Matches the sheet that `products` has with the method. Frees both when memory runs out. */
static struct products *match(struct products *products, const groat_method *method)
{
    products->method = method;
    products->asked_column = SIZE_MAX;
    products->tally = tally_open();
    if (!headings_open(&products->headings, products->name, products->sheet, method) ||
        !products->tally) {
        say_no_memory();
        products_free(products);
        return NULL;
    }
    products->label_column = find_label(products);
    return products;
}

static struct products *make_products(struct products like)
{
    struct products *products = calloc(1, sizeof *products);
    if (products)
        *products = like;
    else
        say_no_memory();
    return products;
}

static bool open_sheet(struct products *products, const struct request *request, bool once)
{
    enum sheet_form form;
    const char *path = request->products;
    if (!form_of(request, &form))
        return false;
    products->sheet = once ? file_open_sheet(&products->incoming, path, true, form, products->name)
                           : file_read_sheet(path, true, form, products->name);
    products->open = once && products->sheet;
    products->unsaid =
        once && form == SHEET_NDJSON && products->sheet && !sheet_is_over(products->sheet);
    return products->sheet;
}

/* Says what there is to say of the headings; whether the sheet can be used with them. */
static bool check_headings(struct products *products, const struct request *request)
{
    bool known = find_asked(products, request->at);
    if (products->unsaid)
        return known;
    if (known)
        headings_say_unused(&products->headings, products->asked_column);
    bool whole = headings_has_required(&products->headings, NULL);
    for (size_t row = 0; row < products_count(products) && !whole; row++)
        product_row_is_fine(products, row); /* which may be why */
    return whole && known;
}

struct products *products_open(const struct request *request, const groat_method *method, bool once)
{
    bool standard = strcmp(request->products, "-") == 0;
    const char *name = standard ? "standard input" : request->products;
    struct products like = {
        .name = name, .decimal_comma = request->decimal_comma, .incoming = {.descriptor = -1}};
    struct products *products = make_products(like);
    if (!products)
        return NULL;
    if (!open_sheet(products, request, once)) {
        products_free(products);
        return NULL;
    }
    products = match(products, method);
    if (products && check_headings(products, request) && check_names(products, request))
        return products;
    products_free(products);
    return NULL;
}

struct products *products_again(const struct products *first, const groat_method *method,
                                const char *rules)
{
    struct products like = {.name = first->name,
                            .sheet = first->sheet,
                            .decimal_comma = first->decimal_comma,
                            .quiet = true,
                            .borrowed = true,
                            .incoming = {.descriptor = -1}};
    struct products *products = make_products(like);
    products = products ? match(products, method) : NULL;
    if (!products || headings_has_required(&products->headings, rules))
        return products;
    products_free(products);
    return NULL;
}

void products_free(struct products *products)
{
    if (!products)
        return;
    if (!products->borrowed) {
        sheet_free(products->sheet);
        file_close_sheet(&products->incoming);
    }
    if (!products->shared) {
        headings_free(&products->headings);
        labels_free(&products->labels);
        tally_close(products->tally);
    }
    telling_free(&products->telling);
    free(products);
}

/* ---- the next rows ---- */

bool products_next(struct products *products)
{
    if (!products->open)
        return false;
    enum sheet_step step = file_next_rows(products->sheet, &products->incoming);
    products->open = step == SHEET_ROWS;
    products->broken = step == SHEET_BROKEN;
    if (products->open && headings_grow(&products->headings)) {
        products->label_column = find_label(products);
        take_names(products);
        return true;
    }
    if (products->open)
        say_no_memory();
    products->broken = products->broken || products->open;
    products->open = false;
    return false;
}

bool products_are_broken(const struct products *products)
{
    return products->broken;
}

bool products_are_over(const struct products *products)
{
    return !products->open || sheet_is_over(products->sheet);
}

/* ---- the same rows for another thread ---- */

struct products *products_share(const struct products *first)
{
    struct products *shared = calloc(1, sizeof *shared);
    if (!shared)
        return NULL;
    *shared = *first;
    shared->borrowed = shared->shared = true;
    shared->telling = (struct telling){0};
    shared->doubts = 0;
    return shared;
}

void products_follow(struct products *shared, const struct products *first)
{
    shared->headings = first->headings;
    shared->label_column = first->label_column;
}

void products_tell(struct products *products, struct products *shared)
{
    products->doubts += shared->doubts;
    shared->doubts = 0;
    telling_say(&shared->telling, products->tally);
}

/* ---- at the end ---- */

void products_say_again(const struct products *products)
{
    headings_say_again(&products->headings);
}

void products_say_rest(struct products *products)
{
    const char *mark = products->decimal_comma ? "point" : "comma";
    tally_say_rest(products->tally, products->name);
    if (products->twice > NAMES_SAID)
        say("and %zu more products have the same name as another", products->twice - NAMES_SAID);
    if (products->unsaid)
        headings_say_unused(&products->headings, products->asked_column);
    if (products->doubts < 2)
        return;
    say("%s: %zu cells have a decimal %s", products->name, products->doubts, mark);
    say("Try: --decimal %s", mark);
}

/* ---- rows ---- */

size_t products_first(const struct products *products)
{
    return sheet_first_row(products->sheet);
}

size_t products_count(const struct products *products)
{
    return sheet_row_count(products->sheet);
}

size_t products_line(const struct products *products, size_t row)
{
    return sheet_row_line(products->sheet, row);
}

groat_text products_name(const struct products *products, size_t row)
{
    return product_cell(products, row, products->label_column);
}

groat_text products_label(struct products *products, size_t row)
{
    groat_text cell = product_cell(products, row, products->label_column);
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
    struct say_names names = {products_count(products), label_at, products, true};
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
