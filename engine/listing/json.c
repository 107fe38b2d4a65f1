/* Lists as JSON: an array of objects, an object a line. Amounts are exact, and so are texts: in
 * decimals where that many are enough, otherwise `top/bottom`. */
#include <stdlib.h>
#include <string.h>

#include "listing/forms.h"
#include "listing/json.h"
#include "study/taken.h"

void json_text(struct bytes *line, const char *start, size_t length)
{
    static const char digits[] = "0123456789abcdef";
    bytes_char(line, '"');
    for (size_t i = 0; i < length; i++) {
        unsigned char letter = (unsigned char)start[i];
        if (letter == '"' || letter == '\\') {
            bytes_char(line, '\\');
            bytes_char(line, start[i]);
        } else if (letter == '\n') {
            bytes_text(line, "\\n");
        } else if (letter == '\t') {
            bytes_text(line, "\\t");
        } else if (letter < 0x20) {
            bytes_text(line, "\\u00");
            bytes_char(line, digits[letter >> 4]);
            bytes_char(line, digits[letter & 15]);
        } else {
            bytes_char(line, start[i]);
        }
    }
    bytes_char(line, '"');
}

/* The most decimals that an amount is written with. */
#define DECIMALS_MOST 18

/* Digits of any length. */
static void put_digits(struct bytes *line, size_t (*write)(struct amount, char *, size_t),
                       struct amount amount)
{
    size_t length = write(amount, NULL, 0);
    char *digits = malloc(length + 1);
    line->failed |= !digits;
    if (digits) {
        write(amount, digits, length + 1);
        bytes_put(line, digits, length);
    }
    free(digits);
}

void json_amount(struct bytes *line, struct amount amount, unsigned decimals_least)
{
    unsigned decimals;
    if (!amount.there) {
        line->failed |= amount.status == NUM_NO_MEMORY;
        bytes_text(line, "null");
        return;
    }
    bytes_char(line, '"');
    if (amount_decimals(amount, &decimals) && decimals <= DECIMALS_MOST) {
        bytes_places(line, amount, decimals > decimals_least ? decimals : decimals_least, '.');
    } else {
        put_digits(line, amount_top, amount);
        bytes_char(line, '/');
        put_digits(line, amount_bottom, amount);
    }
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

static void put_cell(struct listing *list, enum listing_look look, const struct listing_cell *cell)
{
    struct bytes *line = &list->line;
    if (look == LISTING_TEXT && cell->text.start)
        json_text(line, cell->text.start, cell->text.length);
    else if (look == LISTING_TEXT)
        bytes_text(line, "null");
    else if (look == LISTING_WHOLE && cell->amount.there)
        bytes_places(line, cell->amount, 0, '.');
    else if (taken_is_amount(cell->value.kind))
        json_amount(line, cell->amount,
                    cell->value.kind == GROAT_KIND_MONEY ? list->plan.currency.decimals : 0);
    else
        json_value(line, cell->value);
}

static bool open_json(struct listing *list)
{
    bytes_char(&list->line, '[');
    return form_flush(list);
}

static bool add_json(struct listing *list, size_t group)
{
    struct bytes *line = &list->line;
    (void)group;
    bytes_text(line, list->rows > 0 ? ",\n{" : "\n{");
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        if (!list->plan.columns[i].name)
            continue;
        json_text(line, list->plan.columns[i].name, strlen(list->plan.columns[i].name));
        bytes_text(line, ": ");
        put_cell(list, list->plan.columns[i].look, &list->cells[i]);
        bytes_text(line, ", ");
    }
    bytes_text(line, "\"notes\": [");
    const char *before = "";
    for (const char *note = NULL; (note = form_note(list, note)); before = ", ") {
        bytes_text(line, before);
        json_text(line, note, strlen(note));
    }
    bytes_text(line, "]}");
    return form_flush(list);
}

static bool finish_json(struct listing *list)
{
    bytes_text(&list->line, list->rows > 0 ? "\n]\n" : "]\n");
    return form_flush(list);
}

const struct form form_json = {"json", open_json, add_json, finish_json, NULL, 1};
