/* Lists as CSV, RFC 4180: quotes only where a cell needs them, lines that end in a line feed. */
#include <string.h>

#include "listing/forms.h"
#include "study/taken.h"

/* A cell that begins or ends with a space is quoted too, since readers drop those. */
static bool needs_quotes(const char *start, size_t length)
{
    if (length > 0 && (start[0] == ' ' || start[length - 1] == ' '))
        return true;
    for (size_t i = 0; i < length; i++)
        if (start[i] == ',' || start[i] == '"' || start[i] == '\n' || start[i] == '\r')
            return true;
    return false;
}

static void put_text(struct bytes *line, const char *start, size_t length)
{
    if (!needs_quotes(start, length)) {
        bytes_put(line, start, length);
        return;
    }
    bytes_char(line, '"');
    for (size_t i = 0; i < length; i++) {
        if (start[i] == '"')
            bytes_char(line, '"');
        bytes_char(line, start[i]);
    }
    bytes_char(line, '"');
}

static void put_value(struct bytes *line, groat_value value)
{
    struct bytes text = {0};
    bytes_value(&text, value);
    line->failed |= text.failed;
    put_text(line, text.start, text.length);
    bytes_free(&text);
}

static void put_cell(struct listing *list, enum listing_look look, const struct listing_cell *cell)
{
    struct bytes *line = &list->line;
    if (look == LISTING_TEXT)
        put_text(line, cell->text.start, cell->text.length);
    else if (look == LISTING_WHOLE)
        bytes_places(line, cell->amount, 0, '.');
    else if (look == LISTING_SHARE)
        bytes_places(line, cell->amount, LISTING_SHARE_PLACES, '.');
    else if (cell->value.kind == GROAT_KIND_MONEY)
        bytes_places(line, cell->amount, list->plan.currency.decimals, '.');
    else if (taken_is_amount(cell->value.kind))
        bytes_short(line, cell->amount, LISTING_VALUE_PLACES, '.');
    else
        put_value(line, cell->value);
}

static void put_notes(struct listing *list)
{
    struct bytes joined = {0};
    for (const char *note = NULL; (note = form_note(list, note));) {
        bytes_text(&joined, joined.length > 0 ? "; " : "");
        bytes_text(&joined, note);
    }
    list->line.failed |= joined.failed;
    put_text(&list->line, joined.start, joined.length);
    bytes_free(&joined);
}

static bool open_csv(struct listing *list)
{
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        const char *name = list->plan.columns[i].name;
        if (!name)
            continue;
        put_text(&list->line, name, strlen(name));
        bytes_char(&list->line, ',');
    }
    bytes_text(&list->line, "notes\n");
    return form_flush(list);
}

static bool add_csv(struct listing *list, size_t group)
{
    (void)group;
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        if (!list->plan.columns[i].name)
            continue;
        put_cell(list, list->plan.columns[i].look, &list->cells[i]);
        bytes_char(&list->line, ',');
    }
    put_notes(list);
    bytes_char(&list->line, '\n');
    return form_flush(list);
}

static bool finish_csv(struct listing *list)
{
    (void)list;
    return true;
}

const struct form form_csv = {"csv", open_csv, add_csv, finish_csv, NULL, 0};
