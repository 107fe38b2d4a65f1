/* Lists as CSV, RFC 4180: quotes only where a cell needs them, lines that end in a line feed. With
 * a decimal comma, cells are separated by semicolons, as spreadsheets of that habit have them. */
#include <string.h>

#include "listing/forms.h"
#include "study/taken.h"
#include "text/utf8.h"

static char separator(const struct listing *list)
{
    return list->plan.decimal_comma ? ';' : ',';
}

/* A cell that begins or ends with a space is quoted too, since readers drop those. */
static bool needs_quotes(const char *start, size_t length, char between)
{
    if (length > 0 && (start[0] == ' ' || start[length - 1] == ' '))
        return true;
    for (size_t i = 0; i < length; i++)
        if (start[i] == between || start[i] == '"' || start[i] == '\n' || start[i] == '\r')
            return true;
    return false;
}

/* Whether a spreadsheet would take a text for a formula and run it. */
static bool is_formula(const char *start, size_t length)
{
    return length > 0 && start[0] != '\0' && strchr("=+-@\t\r", start[0]);
}

/* Appends a text, without what steers a terminal or turns the direction of the text, and with
 * doubled quotes. */
static void put_letters(struct bytes *line, const char *start, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        uint32_t character;
        size_t hidden = text_hidden(start + i, length - i, &character);
        if (hidden > 0 && !strchr("\t\n\r", start[i])) {
            bytes_text(line, TEXT_REPLACEMENT);
            i += hidden - 1;
            continue;
        }
        if (start[i] == '"')
            bytes_char(line, '"');
        bytes_char(line, start[i]);
    }
}

static void put_text(struct listing *list, const char *start, size_t length)
{
    struct bytes *line = &list->line;
    bool quoted = needs_quotes(start, length, separator(list));
    bytes_text(line, quoted ? "\"" : "");
    if (!list->plan.raw && is_formula(start, length))
        bytes_char(line, '\'');
    put_letters(line, start, length);
    bytes_text(line, quoted ? "\"" : "");
}

static void put_value(struct listing *list, groat_value value)
{
    struct bytes text = {0};
    bytes_value(&text, value);
    list->line.failed |= text.failed;
    put_text(list, text.start, text.length);
    bytes_free(&text);
}

static void put_notes(struct listing *list)
{
    struct bytes joined = {0};
    for (const char *note = NULL; (note = form_note(list, note));) {
        bytes_text(&joined, joined.length > 0 ? "; " : "");
        bytes_text(&joined, note);
    }
    list->line.failed |= joined.failed;
    put_text(list, joined.start, joined.length);
    bytes_free(&joined);
}

static void put_amount(struct listing *list, enum listing_look look,
                       const struct listing_cell *cell)
{
    struct bytes *line = &list->line;
    char mark = listing_mark(&list->plan);
    unsigned coins = list->plan.currency.decimals;
    bool money = cell->value.kind == GROAT_KIND_MONEY && look != LISTING_MONEY_EXACT;
    if (list->plan.exact && !form_is_count(look))
        bytes_exact(line, cell->amount, money ? coins : 0, mark);
    else if (form_is_count(look))
        bytes_places(line, cell->amount, 0, mark);
    else if (look == LISTING_SHARE)
        bytes_places(line, cell->amount, LISTING_SHARE_PLACES, mark);
    else if (money)
        bytes_places(line, cell->amount, coins, mark);
    else
        bytes_short(line, cell->amount, LISTING_VALUE_PLACES, mark);
}

static void put_cell(struct listing *list, enum listing_look look, const struct listing_cell *cell)
{
    if (look == LISTING_NOTES)
        put_notes(list);
    else if (look == LISTING_TEXT)
        put_text(list, cell->text.start, cell->text.length);
    else if (taken_is_amount(cell->value.kind))
        put_amount(list, look, cell);
    else
        put_value(list, cell->value);
}

/* Ends the line, whose cells each have a separator behind them. */
static bool end_line(struct listing *list)
{
    if (list->line.length > 0)
        list->line.start[list->line.length - 1] = '\n';
    return form_flush(list);
}

static bool open_csv(struct listing *list)
{
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        const char *name = list->plan.columns[i].name;
        if (!name)
            continue;
        put_text(list, name, strlen(name));
        bytes_char(&list->line, separator(list));
    }
    return end_line(list);
}

static bool add_csv(struct listing *list, size_t group)
{
    (void)group;
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        if (!list->plan.columns[i].name)
            continue;
        put_cell(list, list->plan.columns[i].look, &list->row[i]);
        bytes_char(&list->line, separator(list));
    }
    return end_line(list);
}

static bool finish_csv(struct listing *list)
{
    (void)list;
    return true;
}

const struct form form_csv = {"csv", open_csv, add_csv, finish_csv, NULL, 0};
