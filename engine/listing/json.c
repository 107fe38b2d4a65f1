/* Lists as JSON: an array of objects, an object a line. Amounts are exact, and so are texts: in
 * decimals where that many are enough, otherwise `top/bottom`. */
#include <stdlib.h>
#include <string.h>

#include "listing/forms.h"
#include "listing/json.h"

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

/* The most decimals that an amount is written with. Ten to this power fits 64 bits. */
#define DECIMALS_MOST 18

/* How many decimals say a fraction with this denominator exactly; false where none or too many. */
static bool decimals_of(const char *bottom, unsigned *decimals)
{
    if (strlen(bottom) > DECIMALS_MOST + 1)
        return false;
    unsigned long long rest = strtoull(bottom, NULL, 10);
    unsigned twos = 0, fives = 0;
    for (; rest > 0 && rest % 2 == 0; rest /= 2)
        twos++;
    for (; rest > 0 && rest % 5 == 0; rest /= 5)
        fives++;
    *decimals = twos > fives ? twos : fives;
    return rest == 1 && *decimals <= DECIMALS_MOST;
}

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

static void put_amount(struct bytes *line, struct figure figure, unsigned decimals_least)
{
    struct amounts room;
    char bottom[DECIMALS_MOST + 4];
    unsigned decimals;
    amounts_open(&room);
    struct amount amount = bytes_amount(&room, figure);
    bytes_char(line, '"');
    bool fits = amount_bottom(amount, bottom, sizeof bottom) < sizeof bottom;
    if (fits && decimals_of(bottom, &decimals)) {
        bytes_places(line, figure, decimals > decimals_least ? decimals : decimals_least, '.');
    } else {
        put_digits(line, amount_top, amount);
        bytes_char(line, '/');
        put_digits(line, amount_bottom, amount);
    }
    bytes_char(line, '"');
    amounts_close(&room);
}

static void put_quoted(struct bytes *line, struct figure figure)
{
    struct bytes text = {0};
    bytes_shown(&text, figure, LISTING_VALUE_PLACES, '.');
    line->failed |= text.failed;
    json_text(line, text.start, text.length);
    bytes_free(&text);
}

void json_figure(struct bytes *line, struct figure figure, unsigned money_decimals)
{
    if (figure.value.presence != GROAT_THERE) {
        bytes_text(line, "null");
        return;
    }
    switch (figure.value.kind) {
    case GROAT_KIND_MONEY: put_amount(line, figure, money_decimals); break;
    case GROAT_KIND_NUMBER:
    case GROAT_KIND_QUANTITY: put_amount(line, figure, 0); break;
    case GROAT_KIND_FLAG: {
        char word[4] = "";
        groat_value_write(figure.value, 0, word, sizeof word);
        bytes_text(line, strcmp(word, "yes") == 0 ? "true" : "false");
        break;
    }
    default: put_quoted(line, figure);
    }
}

static void put_whole(struct bytes *line, const struct listing_cell *cell)
{
    if (cell->amount && !cell->amount->there)
        bytes_text(line, "null");
    else
        form_whole(line, cell);
}

static void put_cell(struct listing *list, enum listing_look look, const struct listing_cell *cell)
{
    switch (look) {
    case LISTING_TEXT:
        if (cell->text.start)
            json_text(&list->line, cell->text.start, cell->text.length);
        else
            bytes_text(&list->line, "null");
        break;
    case LISTING_WHOLE: put_whole(&list->line, cell); break;
    default: json_figure(&list->line, form_figure(look, cell), list->plan.currency.decimals);
    }
}

static bool open_json(struct listing *list)
{
    bytes_char(&list->line, '[');
    return form_flush(list);
}

static bool add_json(struct listing *list, const struct listing_row *row)
{
    struct bytes *line = &list->line;
    bytes_text(line, list->rows > 0 ? ",\n{" : "\n{");
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        const char *name = list->plan.columns[i].name;
        if (!name)
            continue;
        json_text(line, name, strlen(name));
        bytes_text(line, ": ");
        put_cell(list, list->plan.columns[i].look, &row->cells[i]);
        bytes_text(line, ", ");
    }
    bytes_text(line, "\"notes\": [");
    for (size_t i = 0; i < row->notes_count; i++) {
        if (i > 0)
            bytes_text(line, ", ");
        json_text(line, row->notes[i], strlen(row->notes[i]));
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
