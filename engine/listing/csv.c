/* Lists as CSV, RFC 4180: quotes only where a cell needs them, lines that end in a line feed. */
#include <string.h>

#include "listing/forms.h"

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

static void put_shown(struct listing *list, struct figure figure)
{
    struct bytes *line = &list->line;
    if (figure.value.kind == GROAT_KIND_MONEY) {
        bytes_places(line, figure, list->plan.currency.decimals, '.');
        return;
    }
    if (figure.value.kind != GROAT_KIND_TEXT) {
        bytes_shown(line, figure, LISTING_VALUE_PLACES, '.');
        return;
    }
    struct bytes text = {0};
    bytes_shown(&text, figure, LISTING_VALUE_PLACES, '.');
    line->failed |= text.failed;
    put_text(line, text.start, text.length);
    bytes_free(&text);
}

static void put_cell(struct listing *list, enum listing_look look, const struct listing_cell *cell)
{
    struct bytes *line = &list->line;
    struct figure figure = form_figure(look, cell);
    switch (look) {
    case LISTING_TEXT: put_text(line, cell->text.start, cell->text.length); break;
    case LISTING_WHOLE: form_whole(line, cell); break;
    case LISTING_MONEY: bytes_places(line, figure, list->plan.currency.decimals, '.'); break;
    case LISTING_SHARE: bytes_places(line, figure, LISTING_SHARE_PLACES, '.'); break;
    case LISTING_NUMBER:
    case LISTING_MONEY_PER:
    case LISTING_WORD: put_shown(list, figure); break;
    }
}

static void put_notes(struct bytes *line, const char *const *notes, size_t count)
{
    struct bytes joined = {0};
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            bytes_text(&joined, "; ");
        bytes_text(&joined, notes[i]);
    }
    line->failed |= joined.failed;
    put_text(line, joined.start, joined.length);
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

static bool add_csv(struct listing *list, const struct listing_row *row)
{
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        if (!list->plan.columns[i].name)
            continue;
        put_cell(list, list->plan.columns[i].look, &row->cells[i]);
        bytes_char(&list->line, ',');
    }
    put_notes(&list->line, row->notes, row->notes_count);
    bytes_char(&list->line, '\n');
    return form_flush(list);
}

static bool finish_csv(struct listing *list)
{
    (void)list;
    return true;
}

const struct form form_csv = {"csv", open_csv, add_csv, finish_csv, NULL, 0};
