/* Tables as lines of the price: the row that holds from here on, and where the next one begins. */
#include "solve/line.h"

#include <string.h>

/* A cell held against lines takes so many times as long as one held against a value. */
enum { LINE_WORK = 4 };

static enum line_kind text_matches(const struct walk *walk, const struct cell_code *cell,
                                   const struct line *key)
{
    if (key->kind != LINE_FIXED)
        return LINE_EITHER;
    size_t length = key->fixed.text.length;
    if (cell->kind == CELL_TEXTS) {
        for (const char *const *text = cell->texts; *text; text++)
            if (strlen(*text) == length && memcmp(*text, key->fixed.text.start, length) == 0)
                return LINE_YES;
        return LINE_NO;
    }
    struct value bound = walk->evaluation->values[cell->bound];
    bool same = bound.state == VALUE_THERE && bound.text.length == length &&
                memcmp(bound.text.start, key->fixed.text.start, length) == 0;
    return same ? LINE_YES : LINE_NO;
}

/* A flag as an amount, 0 or 1, so that cells of yes and no compare like others. */
static struct line key_amount(const struct line *key)
{
    if (key->kind == LINE_YES || key->kind == LINE_NO)
        return line_amount(stretch_of(num_whole(key->kind == LINE_YES)));
    struct line amount = *key;
    if (key->kind == LINE_FIXED)
        amount = line_amount(stretch_of(key->fixed.number));
    return amount;
}

static enum line_kind matches(struct walk *walk, const struct cell_code *cell,
                              const struct line *raw)
{
    if (cell->kind == CELL_ANY)
        return LINE_YES;
    if (cell->kind == CELL_TEXTS || cell->is_text)
        return text_matches(walk, cell, raw);
    struct line key = key_amount(raw);
    const struct line *bound = walk_amount(walk, cell->bound);
    if (!line_is_amount(bound))
        return LINE_NO;
    if (key.kind != LINE_AMOUNT)
        return LINE_EITHER;
    switch (cell->kind) {
    case CELL_UP_TO: return line_order(walk, &key, bound, true);
    case CELL_BELOW: return line_order(walk, &key, bound, false);
    case CELL_OVER: return line_order(walk, bound, &key, false);
    case CELL_OR_MORE: return line_order(walk, bound, &key, true);
    case CELL_RANGE: {
        const struct line *upper = walk_amount(walk, cell->upper);
        if (!line_is_amount(upper))
            return LINE_NO;
        return line_and(line_order(walk, bound, &key, true), line_order(walk, &key, upper, true));
    }
    default:
        return line_and(line_order(walk, bound, &key, true), line_order(walk, &key, bound, true));
    }
}

/* An error or a missing key decides at once; LINE_AMOUNT when every key can be compared. */
static struct line keys_kind(const struct walk *walk, const struct lookup_code *lookup)
{
    struct line worst = line_of_kind(LINE_AMOUNT);
    for (size_t k = 0; k < lookup->table->keys; k++) {
        const struct line *key = walk_line(walk, lookup->keys[k]);
        if (key->kind == LINE_ERROR)
            return *key;
        if (key->kind == LINE_UNSURE || key->kind == LINE_EITHER || key->kind == LINE_RATIO)
            worst = line_of_kind(LINE_UNSURE);
        else if (key->kind == LINE_MISSING && worst.kind == LINE_AMOUNT)
            worst = *key;
    }
    return worst;
}

struct line line_table(struct walk *walk, const struct lookup_code *lookup)
{
    const struct table_code *table = lookup->table;
    evaluate_spend(walk->evaluation, LINE_WORK * table->work);
    struct line keys = keys_kind(walk, lookup);
    if (keys.kind != LINE_AMOUNT)
        return keys;
    const struct cell_code *cell = table->cells;
    for (size_t row = 0; row < table->rows; row++, cell += table->keys) {
        enum line_kind match = LINE_YES;
        for (size_t k = 0; k < table->keys && match != LINE_NO; k++)
            match = line_and(match, matches(walk, &cell[k], walk_line(walk, lookup->keys[k])));
        if (match == LINE_YES)
            return *walk_line(walk, lookup->values[row]);
        if (match == LINE_EITHER)
            return line_of_kind(LINE_UNSURE);
    }
    return (struct line){.kind = LINE_ERROR, .fixed = value_error(FAULT_NO_ROW, 0)};
}

/* The full slices below the key and the part of its own: a line with the own slice's value for a
 * slope, as long as the key stays in it. */
struct line line_sliced(struct walk *walk, const struct lookup_code *lookup)
{
    const struct line *given = walk_line(walk, lookup->keys[0]);
    if (given->kind == LINE_FIXED && num_sign(given->fixed.number) == 0)
        return *given;
    struct line key = key_amount(given);
    if (key.kind != LINE_AMOUNT)
        return key.kind == LINE_RATIO ? line_of_kind(LINE_UNSURE) : key;
    enum line_kind fits = stretch_not_below_zero(walk, &key.top);
    if (fits != LINE_YES)
        return fits == LINE_EITHER
                   ? line_of_kind(LINE_UNSURE)
                   : (struct line){.kind = LINE_ERROR, .fixed = value_error(FAULT_NEGATIVE_KEY, 0)};
    const struct slices *slices = &walk->evaluation->settled->slices[lookup->table->number];
    evaluate_spend(walk->evaluation, LINE_WORK * lookup->table->work);
    struct stretch sum = {0}, lower = {0};
    for (size_t i = 0; i < slices->count; i++) {
        const struct slice *slice = &slices->items[i];
        struct line upper = key;
        enum line_kind inside = LINE_YES;
        if (!slice->endless) {
            upper.top = stretch_of(slice->upper);
            inside = line_order(walk, &key, &upper, true);
        }
        if (inside == LINE_EITHER)
            return line_of_kind(LINE_UNSURE);
        if (slice->row < 0)
            return (struct line){.kind = LINE_ERROR, .fixed = value_error(FAULT_NO_ROW, 0)};
        struct line value = key_amount(walk_line(walk, lookup->values[slice->row]));
        if (value.kind != LINE_AMOUNT || !stretch_is_level(&value.top))
            return value.kind == LINE_AMOUNT ? line_of_kind(LINE_UNSURE) : value;
        struct stretch part = stretch_subtract(inside == LINE_YES ? key.top : upper.top, lower);
        sum = stretch_add(sum, stretch_multiply(part, &value.top));
        if (inside == LINE_YES)
            break;
        lower = upper.top;
    }
    return line_amount(sum);
}
