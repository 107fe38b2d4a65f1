/* Warnings on tables: rows that an earlier one hides, and amounts between two rows that none takes.
 * Judged with the rates as they stand in the file. */
#include <string.h>

#include "compile/compile.h"

/* What a cell takes of an ordered key: from low to high, each end in or out. */
struct reach {
    bool has_low, has_high, low_in, high_in;
    struct num low, high;
};

static bool reach_of(const struct settled *settled, const struct cell_code *cell,
                     struct reach *reach)
{
    *reach = (struct reach){0};
    if (cell->kind == CELL_ANY)
        return true;
    if (cell->kind == CELL_TEXTS || cell->is_text || cell->bound == NO_STEP ||
        settled->values[cell->bound].state != VALUE_THERE)
        return false;
    struct num bound = settled->values[cell->bound].number;
    reach->has_low = cell->kind != CELL_UP_TO && cell->kind != CELL_BELOW;
    reach->has_high = cell->kind != CELL_OVER && cell->kind != CELL_OR_MORE;
    reach->low_in = cell->kind != CELL_OVER;
    reach->high_in = cell->kind != CELL_BELOW;
    reach->low = reach->high = bound;
    if (cell->kind == CELL_RANGE) {
        if (settled->values[cell->upper].state != VALUE_THERE)
            return false;
        reach->high = settled->values[cell->upper].number;
    }
    return true;
}

static bool text_within(const struct settled *settled, const struct cell_code *cell,
                        const char *text)
{
    if (cell->kind == CELL_TEXTS) {
        for (const char *const *each = cell->texts; *each; each++)
            if (strcmp(*each, text) == 0)
                return true;
        return false;
    }
    struct value bound = settled->values[cell->bound];
    return bound.state == VALUE_THERE && bound.text.length == strlen(text) &&
           memcmp(bound.text.start, text, bound.text.length) == 0;
}

/* Every row is held against every other, and a point for each whole number: of very long tables
 * only the first rows are looked at. A warning is a courtesy; it may not take for ever. */
enum { WARNING_WORK_MOST = 10000000 };

static bool spend(struct compile *compile, size_t work)
{
    bool goes_on = work <= compile->warning_work;
    compile->warning_work = goes_on ? compile->warning_work - work : 0;
    return goes_on;
}

/* Whether everything that `inner` takes is taken by `outer`. */
static bool covers(const struct settled *settled, const struct cell_code *outer,
                   const struct cell_code *inner)
{
    if (outer->kind == CELL_ANY)
        return true;
    if (inner->kind == CELL_TEXTS) {
        for (const char *const *each = inner->texts; *each; each++)
            if (!text_within(settled, outer, *each))
                return false;
        return true;
    }
    if (inner->is_text) {
        struct value text = settled->values[inner->bound];
        return text.state == VALUE_THERE && text_within(settled, outer, text.text.start);
    }
    struct reach a, b;
    if (!reach_of(settled, outer, &a) || !reach_of(settled, inner, &b))
        return false;
    int low = a.has_low && b.has_low ? num_compare(a.low, b.low) : 0;
    int high = a.has_high && b.has_high ? num_compare(a.high, b.high) : 0;
    bool low_fits = !a.has_low || (b.has_low && (low < 0 || (low == 0 && (a.low_in || !b.low_in))));
    bool high_fits =
        !a.has_high || (b.has_high && (high > 0 || (high == 0 && (a.high_in || !b.high_in))));
    return low_fits && high_fits;
}

static void warn_of_hidden(struct compile *compile, const struct settled *settled,
                           const struct table_code *table)
{
    for (size_t row = 1; row < table->rows && spend(compile, row * table->keys); row++) {
        for (size_t earlier = 0; earlier < row; earlier++) {
            bool all = true;
            for (size_t k = 0; k < table->keys && all; k++)
                all = covers(settled, &table->cells[earlier * table->keys + k],
                             &table->cells[row * table->keys + k]);
            if (!all)
                continue;
            diagnostics_warning(
                compile->diagnostics, table->statements[row]->span, NULL,
                "this row can never match: the row in line %u matches everything that it would",
                span_place(table->statements[earlier]->span).line);
            break;
        }
    }
}

/* ---- gaps ---- */

/* Whether some row takes the point, or what lies just above it. */
static bool taken(const struct settled *settled, const struct table_code *table, struct num at,
                  bool just_above)
{
    for (size_t row = 0; row < table->rows; row++) {
        struct reach reach;
        if (!reach_of(settled, &table->cells[row], &reach))
            return true;
        int low = reach.has_low ? num_compare(at, reach.low) : 1;
        int high = reach.has_high ? num_compare(at, reach.high) : -1;
        bool above_low = low > 0 || (low == 0 && (reach.low_in || just_above));
        bool below_high = high < 0 || (high == 0 && reach.high_in && !just_above);
        if (above_low && below_high)
            return true;
    }
    return false;
}

/* The next bound above, if any: a gap matters only between two rows. */
static bool bound_above(const struct settled *settled, const struct table_code *table,
                        struct num at, struct num *next)
{
    bool found = false;
    for (size_t row = 0; row < table->rows; row++) {
        struct reach reach;
        if (!reach_of(settled, &table->cells[row], &reach))
            return false;
        const struct num ends[] = {reach.low, reach.high};
        const bool has[] = {reach.has_low, reach.has_high};
        for (int k = 0; k < 2; k++)
            if (has[k] && num_compare(ends[k], at) > 0 &&
                (!found || num_compare(ends[k], *next) < 0)) {
                *next = ends[k];
                found = true;
            }
    }
    return found;
}

/* Of a count only whole numbers matter: `up to 4` and `5 or more` leave nothing out. */
static bool gap_after(struct compile *compile, const struct settled *settled,
                      const struct table_code *table, struct num at, struct num next,
                      bool whole_numbers)
{
    if (!whole_numbers)
        return !taken(settled, table, at, true);
    int64_t from, to;
    if (!num_to_int64(at, &from) || !num_to_int64(next, &to) ||
        (uint64_t)to - (uint64_t)from > 1000)
        return false;
    for (int64_t point = from + 1; point < to && spend(compile, table->rows); point++)
        if (!taken(settled, table, num_whole(point), false))
            return true;
    return false;
}

static bool is_count(const struct compile *compile, const struct table_code *table)
{
    const struct symbol *symbol = shop_find(compile->shop, NO_CHANNEL, table->name);
    const struct expression *key = symbol->statement->keys;
    if (key->kind != EXPRESSION_NAME)
        return false;
    if (strcmp(key->name.text, "quantity") == 0)
        return true;
    const struct symbol *field = shop_find(compile->shop, NO_CHANNEL, key->name.text);
    return field && field->kind == SYMBOL_FIELD &&
           strcmp(field->statement->unit->name.text, "count") == 0;
}

static void warn_of_gap(struct compile *compile, const struct settled *settled,
                        const struct table_code *table)
{
    bool whole = is_count(compile, table);
    for (size_t row = 0; row < table->rows && spend(compile, 4 * table->rows); row++) {
        struct reach reach;
        struct num next;
        if (!reach_of(settled, &table->cells[row], &reach) || !reach.has_high)
            continue;
        bool above = bound_above(settled, table, reach.high, &next);
        bool at_end = !taken(settled, table, reach.high, false) &&
                      (!whole || num_is_whole(reach.high)) &&
                      (above || taken(settled, table, reach.high, true));
        if (at_end || (above && gap_after(compile, settled, table, reach.high, next, whole))) {
            diagnostics_warning(
                compile->diagnostics, table->statements[row]->span,
                "otherwise : …, as the last row",
                "the table %s has a gap: no row matches what lies between this row and the next",
                table->name);
            diagnostics_help_is(compile->diagnostics, HELP_ELSEWHERE);
        }
    }
}

/* Comparing numbers past a machine word takes too long for a courtesy. */
static bool has_large_bound(const struct settled *settled, const struct table_code *table)
{
    for (size_t i = 0; i < table->rows * table->keys; i++) {
        const uint32_t bounds[] = {table->cells[i].bound, table->cells[i].upper};
        for (int k = 0; k < 2 && !table->cells[i].is_text; k++)
            if (bounds[k] != NO_STEP && settled->values[bounds[k]].state == VALUE_THERE &&
                settled->values[bounds[k]].number.bottom == 0)
                return true;
    }
    return false;
}

void warn_of_tables(struct compile *compile, const struct settled *settled)
{
    compile->warning_work = WARNING_WORK_MOST;
    for (size_t i = 0; i < compile->program->tables_count; i++) {
        const struct table_code *table = compile->program->tables[i];
        if (has_large_bound(settled, table))
            continue;
        warn_of_hidden(compile, settled, table);
        if (table->keys == 1 && table->rows > 0 && !table->cells[0].is_text &&
            table->cells[0].kind != CELL_TEXTS)
            warn_of_gap(compile, settled, table);
    }
}
