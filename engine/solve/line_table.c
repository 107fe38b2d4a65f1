/* Tables as lines of the price: the row that holds from here on, and where the next one begins. */
#include "solve/line.h"

/* A cell held against lines takes so many times as long as one held against a value. */
enum { LINE_WORK = 4 };

/* A key as an amount; a flag is 0 or 1, so that cells of yes and no compare like others. */
static bool key_stretch(const struct line *key, struct stretch *out)
{
    if (key->kind == LINE_YES || key->kind == LINE_NO)
        *out = stretch_of(num_whole(key->kind == LINE_YES));
    else if (key->kind == LINE_FIXED)
        *out = stretch_of(key->fixed->number);
    else if (key->kind == LINE_AMOUNT)
        *out = key->top;
    else
        return false;
    return true;
}

static enum line_kind matches(struct walk *walk, const struct cell_code *cell,
                              const struct line *raw)
{
    if (cell->kind == CELL_ANY)
        return LINE_YES;
    if (cell->kind == CELL_TEXTS || cell->is_text) {
        if (raw->kind != LINE_FIXED)
            return LINE_EITHER;
        return evaluate_text_cell(walk->evaluation, cell, *raw->fixed) ? LINE_YES : LINE_NO;
    }
    struct stretch key;
    const struct line *bound = walk_amount(walk, cell->bound);
    if (!line_is_amount(bound))
        return LINE_NO;
    if (!key_stretch(raw, &key))
        return LINE_EITHER;
    switch (cell->kind) {
    case CELL_UP_TO: return line_order(walk, &key, &bound->top, true);
    case CELL_BELOW: return line_order(walk, &key, &bound->top, false);
    case CELL_OVER: return line_order(walk, &bound->top, &key, false);
    case CELL_OR_MORE: return line_order(walk, &bound->top, &key, true);
    case CELL_RANGE: {
        const struct line *upper = walk_amount(walk, cell->upper);
        if (!line_is_amount(upper))
            return LINE_NO;
        return line_and(line_order(walk, &bound->top, &key, true),
                        line_order(walk, &key, &upper->top, true));
    }
    default:
        return line_and(line_order(walk, &bound->top, &key, true),
                        line_order(walk, &key, &bound->top, true));
    }
}

/* Whether every key can be compared. Where one is in error or missing, that is what comes of it. */
static bool keys_are_there(struct walk *walk, const struct lookup_code *lookup, struct line *out)
{
    bool there = true;
    for (size_t k = 0; k < lookup->table->keys; k++) {
        const struct line *key = walk_line(walk, lookup->keys[k]);
        if (key->kind == LINE_ERROR) {
            *out = *key;
            return false;
        }
        if (key->kind == LINE_UNSURE || key->kind == LINE_EITHER || key->kind == LINE_RATIO)
            line_is(out, LINE_UNSURE);
        else if (key->kind == LINE_MISSING && (there || out->kind == LINE_MISSING))
            line_is(out, LINE_MISSING);
        else if (key->kind != LINE_MISSING)
            continue;
        there = false;
    }
    return there;
}

void line_of_table(struct walk *walk, const struct lookup_code *lookup, struct line *out)
{
    const struct table_code *table = lookup->table;
    evaluate_spend(walk->evaluation, LINE_WORK * table->work);
    if (!keys_are_there(walk, lookup, out))
        return;
    const struct cell_code *cell = table->cells;
    for (size_t row = 0; row < table->rows; row++, cell += table->keys) {
        enum line_kind match = LINE_YES;
        for (size_t k = 0; k < table->keys && match != LINE_NO; k++)
            match = line_and(match, matches(walk, &cell[k], &walk->lines[lookup->keys[k]]));
        if (match == LINE_YES)
            *out = *walk_line(walk, lookup->values[row]);
        else if (match == LINE_EITHER)
            line_is(out, LINE_UNSURE);
        if (match != LINE_NO)
            return;
    }
    line_is_error(out, FAULT_NO_ROW, 0);
}

/* What the part of an amount that lies in one slice adds: a line with the slice's value for a
 * slope. False when it cannot be told, and then `*out` says why. */
static bool add_slice(const struct line *value, struct stretch part, struct stretch *sum,
                      struct line *out)
{
    struct stretch factor;
    if (!key_stretch(value, &factor)) {
        *out = *value;
        return false;
    }
    if (!stretch_is_level(&factor)) {
        line_is(out, LINE_UNSURE);
        return false;
    }
    *sum = stretch_add(*sum, stretch_multiply(part, &factor));
    return true;
}

/* The full slices below the key and the part of its own, as long as the key stays in it. */
static void line_in_slices(struct walk *walk, const struct lookup_code *lookup,
                           const struct stretch *key, struct line *out)
{
    const struct slices *slices = &walk->evaluation->settled->slices[lookup->table->number];
    struct stretch sum = {0}, lower = {0};
    for (size_t i = 0; i < slices->count; i++) {
        const struct slice *slice = &slices->items[i];
        struct stretch upper = slice->endless ? *key : stretch_of(slice->upper);
        enum line_kind inside = slice->endless ? LINE_YES : line_order(walk, key, &upper, true);
        if (inside == LINE_EITHER) {
            line_is(out, LINE_UNSURE);
            return;
        }
        if (slice->row == ROW_NONE) {
            line_is_error(out, FAULT_NO_ROW, 0);
            return;
        }
        const struct line *value = walk_line(walk, lookup->values[slice->row]);
        struct stretch part = stretch_subtract(inside == LINE_YES ? *key : upper, lower);
        if (!add_slice(value, part, &sum, out))
            return;
        if (inside == LINE_YES)
            break;
        lower = upper;
    }
    line_is_stretch(out, sum);
}

void line_of_slices(struct walk *walk, const struct lookup_code *lookup, struct line *out)
{
    const struct line *given = walk_line(walk, lookup->keys[0]);
    struct stretch key;
    if (given->kind == LINE_FIXED && num_sign(given->fixed->number) == 0) {
        *out = *given;
        return;
    }
    if (!key_stretch(given, &key)) {
        *out = *given;
        if (given->kind == LINE_RATIO)
            line_is(out, LINE_UNSURE);
        return;
    }
    evaluate_spend(walk->evaluation, lookup->table->work);
    switch (stretch_not_below_zero(walk, &key)) {
    case LINE_YES: line_in_slices(walk, lookup, &key, out); break;
    case LINE_NO: line_is_error(out, FAULT_NEGATIVE_KEY, 0); break;
    default: line_is(out, LINE_UNSURE); break;
    }
}
