/* Lists as JSON: an object with a header and the rows, an object a line; or as NDJSON, the rows
 * alone. Every amount is a text, and all of a column are written with as many decimals. */
#include "listing/json.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "listing/forms.h"
#include "study/taken.h"
#include "text/utf8.h"

/* ---- texts ---- */

static void put_escape(struct bytes *line, uint32_t character)
{
    bytes_format(line, "\\u%04" PRIx32, character);
}

void json_text(struct bytes *line, const char *start, size_t length)
{
    bytes_char(line, '"');
    for (size_t i = 0; i < length; i++) {
        uint32_t character;
        size_t hidden = text_hidden(start + i, length - i, &character);
        if (start[i] == '"' || start[i] == '\\') {
            bytes_char(line, '\\');
            bytes_char(line, start[i]);
        } else if (start[i] == '\n') {
            bytes_text(line, "\\n");
        } else if (start[i] == '\t') {
            bytes_text(line, "\\t");
        } else if (hidden > 0) {
            put_escape(line, character);
            i += hidden - 1;
        } else {
            bytes_char(line, start[i]);
        }
    }
    bytes_char(line, '"');
}

/* ---- amounts ---- */

void json_figure(struct bytes *line, struct amount amount, unsigned places, bool exact)
{
    if (!amount.there) {
        line->failed |= amount.status == NUM_NO_MEMORY;
        bytes_text(line, "null");
        return;
    }
    bytes_char(line, '"');
    if (exact)
        bytes_exact(line, amount, places, '.');
    else
        bytes_places(line, amount, places, '.');
    bytes_char(line, '"');
}

void json_value(struct bytes *line, groat_value value)
{
    int64_t top = 0, bottom;
    if (value.presence != GROAT_THERE) {
        bytes_text(line, "null");
    } else if (value.kind == GROAT_KIND_FLAG) {
        groat_value_fraction(value, &top, &bottom);
        bytes_text(line, top == 1 ? "true" : "false");
    } else {
        struct bytes text = {0};
        bytes_value(&text, value);
        line->failed |= text.failed;
        json_text(line, text.start, text.length);
        bytes_free(&text);
    }
}

/* ---- the header ---- */

void json_key(struct bytes *line, const char *key)
{
    json_text(line, key, strlen(key));
    bytes_text(line, ": ");
}

void json_header(struct bytes *line, groat_currency currency, const char *as_of)
{
    bytes_text(line, "{\"currency\": ");
    json_text(line, currency.code, strlen(currency.code));
    bytes_format(line, ", \"decimals\": %u, \"as_of\": ", currency.decimals);
    if (as_of)
        json_text(line, as_of, strlen(as_of));
    else
        bytes_text(line, "null");
    bytes_text(line, ", \"units\": ");
}

/* The unit of a column of amounts; false for a column of others. */
static bool put_unit(struct bytes *unit, const struct listing *list, size_t column)
{
    const struct listing_column *about = &list->plan.columns[column];
    const char *code = list->plan.currency.code;
    switch (about->look) {
    case LISTING_MONEY:
    case LISTING_COINS:
    case LISTING_MONEY_EXACT: bytes_text(unit, code); return true;
    case LISTING_MONEY_PER: bytes_format(unit, "%s %s", code, about->unit); return true;
    case LISTING_RATIO:
    case LISTING_SHARE: bytes_text(unit, about->measure ? about->measure : "ratio"); return true;
    case LISTING_PIECES: bytes_text(unit, "pieces"); return true;
    case LISTING_NUMBER:
        bytes_text(unit, about->measure ? about->measure : about->unit ? about->unit : "number");
        return true;
    case LISTING_WHOLE: bytes_text(unit, "number"); return true;
    default: return false;
    }
}

static void put_units(struct listing *list)
{
    const char *before = "";
    bytes_char(&list->line, '{');
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        struct bytes unit = {0};
        if (list->plan.columns[i].name && put_unit(&unit, list, i)) {
            bytes_text(&list->line, before);
            json_key(&list->line, list->plan.columns[i].name);
            json_text(&list->line, unit.start, unit.length);
            before = ", ";
        }
        list->line.failed |= unit.failed;
        bytes_free(&unit);
    }
    bytes_char(&list->line, '}');
}

/* ---- rows ---- */

static void put_notes(struct listing *list)
{
    const char *before = "";
    bytes_char(&list->line, '[');
    for (const char *note = NULL; (note = form_note(list, note)); before = ", ") {
        bytes_text(&list->line, before);
        json_text(&list->line, note, strlen(note));
    }
    bytes_char(&list->line, ']');
}

static void put_cell(struct listing *list, const struct listing_column *column,
                     const struct listing_cell *cell)
{
    struct bytes *line = &list->line;
    if (column->look == LISTING_NOTES)
        put_notes(list);
    else if (column->look == LISTING_TEXT && cell->text.start)
        json_text(line, cell->text.start, cell->text.length);
    else if (column->look == LISTING_TEXT)
        bytes_text(line, "null");
    else if (form_is_count(column->look) && cell->amount.there)
        bytes_places(line, cell->amount, 0, '.');
    else if (taken_is_amount(cell->value.kind))
        json_figure(line, cell->amount, form_json_places(list, column, cell),
                    list->plan.exact || column->look == LISTING_MONEY_EXACT);
    else
        json_value(line, cell->value);
}

static void put_row(struct listing *list)
{
    const char *before = "{";
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        const struct listing_column *column = &list->plan.columns[i];
        if (!column->name)
            continue;
        bytes_text(&list->line, before);
        json_key(&list->line, column->name);
        put_cell(list, column, &list->row[i]);
        before = ", ";
    }
    bytes_char(&list->line, '}');
}

static bool open_json(struct listing *list)
{
    json_header(&list->line, list->plan.currency, list->plan.as_of);
    put_units(list);
    bytes_text(&list->line, ",\n\"rows\": [");
    return form_flush(list);
}

static bool add_json(struct listing *list, size_t group)
{
    (void)group;
    bytes_text(&list->line, list->rows > 0 ? ",\n" : "\n");
    put_row(list);
    return form_flush(list);
}

static bool finish_json(struct listing *list)
{
    bytes_text(&list->line, list->rows > 0 ? "\n]" : "]");
    if (list->summary.length > 0) {
        bytes_text(&list->line, ",\n\"summary\": ");
        bytes_put(&list->line, list->summary.start, list->summary.length);
    }
    bytes_text(&list->line, "}\n");
    list->line.failed |= list->summary.failed;
    return form_flush(list);
}

const struct form form_json = {"json", open_json, add_json, finish_json, NULL, 1};

/* ---- rows alone ---- */

static bool open_ndjson(struct listing *list)
{
    (void)list;
    return true;
}

static bool add_ndjson(struct listing *list, size_t group)
{
    (void)group;
    put_row(list);
    bytes_char(&list->line, '\n');
    return form_flush(list);
}

const struct form form_ndjson = {"ndjson", open_ndjson, add_ndjson, open_ndjson, NULL, 0};
