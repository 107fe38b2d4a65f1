/* Sliced tables as stretches from bound to bound, each with the first row that takes it. */
#include <assert.h>
#include <string.h>

#include "compile/compile.h"
#include "evaluate/evaluate.h"

/* Every bound above zero of any row, ascending, each once; and for each stretch that ends at one,
 * and the endless one after the last, the next that no row has taken yet. */
struct slicing {
    const struct settled *settled;
    struct num *bounds;
    size_t count;
    size_t *free;
    struct slice *slices;
};

static const struct num *bound_at(const struct settled *settled, uint32_t step)
{
    const struct value *value = step == NO_STEP ? NULL : &settled->values[step];
    return value && value->state == VALUE_THERE ? &value->number : NULL;
}

static int by_size(const void *left, const void *right)
{
    const struct num *a = left, *b = right;
    return num_compare(*a, *b);
}

static void collect_bounds(struct slicing *slicing, const struct table_code *table)
{
    size_t count = 0;
    for (size_t row = 0; row < table->rows; row++) {
        const uint32_t steps[] = {table->cells[row].bound, table->cells[row].upper};
        for (int k = 0; k < 2; k++) {
            const struct num *bound = bound_at(slicing->settled, steps[k]);
            if (bound && num_sign(*bound) > 0)
                slicing->bounds[count++] = *bound;
        }
    }
    memory_sort(slicing->bounds, count, sizeof *slicing->bounds, by_size);
    for (size_t i = 0; i < count; i++)
        if (i == 0 || !num_equal(slicing->bounds[i], slicing->bounds[slicing->count - 1]))
            slicing->bounds[slicing->count++] = slicing->bounds[i];
}

/* How many stretches lie below the bound. */
static size_t stretches_below(const struct slicing *slicing, const struct num *bound)
{
    size_t low = 0, high = slicing->count;
    if (num_sign(*bound) <= 0)
        return 0;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (num_compare(slicing->bounds[middle], *bound) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low + 1;
}

/* The stretches [first, end) that the cell takes. A single point has no width. */
static void reach_of(const struct slicing *slicing, const struct cell_code *cell, size_t *first,
                     size_t *end)
{
    const struct num *bound = bound_at(slicing->settled, cell->bound);
    const struct num *upper = bound_at(slicing->settled, cell->upper);
    bool from = cell->kind == CELL_OVER || cell->kind == CELL_OR_MORE || cell->kind == CELL_RANGE;
    bool to = cell->kind == CELL_UP_TO || cell->kind == CELL_BELOW;
    *first = 0;
    *end = slicing->count + 1;
    if (cell->kind == CELL_ANY)
        return;
    if (!bound || (!from && !to) || (cell->kind == CELL_RANGE && !upper)) {
        *end = 0;
        return;
    }
    if (from)
        *first = stretches_below(slicing, bound);
    if (to)
        *end = stretches_below(slicing, bound);
    if (cell->kind == CELL_RANGE)
        *end = stretches_below(slicing, upper);
}

static size_t first_free(struct slicing *slicing, size_t at)
{
    size_t found = at;
    while (slicing->free[found] != found)
        found = slicing->free[found];
    while (slicing->free[at] != found) {
        size_t next = slicing->free[at];
        slicing->free[at] = found;
        at = next;
    }
    return found;
}

static void take_row(struct slicing *slicing, const struct cell_code *cell, int32_t row)
{
    size_t first, end;
    reach_of(slicing, cell, &first, &end);
    if (first >= end)
        return;
    for (size_t at = first_free(slicing, first); at < end; at = first_free(slicing, at)) {
        slicing->slices[at].row = row;
        slicing->free[at] = at + 1;
    }
}

__attribute__((unused)) static bool bounds_ascend(const struct slicing *slicing)
{
    for (size_t i = 1; i < slicing->count; i++)
        if (num_compare(slicing->bounds[i - 1], slicing->bounds[i]) >= 0)
            return false;
    return true;
}

struct slices slices_of(const struct settled *settled, const struct table_code *table,
                        struct arena *arena)
{
    size_t most = 2 * table->rows + 1;
    struct slicing slicing = {.settled = settled,
                              .bounds = arena_take(arena, most * sizeof *slicing.bounds),
                              .free = arena_take(arena, (most + 1) * sizeof *slicing.free),
                              .slices = arena_take(arena, most * sizeof *slicing.slices)};
    if (!slicing.bounds || !slicing.free || !slicing.slices)
        return (struct slices){0};
    collect_bounds(&slicing, table);
    for (size_t i = 0; i <= slicing.count; i++) {
        bool endless = i == slicing.count;
        slicing.slices[i] =
            (struct slice){endless ? num_whole(0) : slicing.bounds[i], endless, ROW_NONE};
        slicing.free[i] = i;
    }
    slicing.free[slicing.count + 1] = slicing.count + 1;
    assert(slicing.count < most && bounds_ascend(&slicing));
    for (size_t row = 0; row < table->rows; row++)
        take_row(&slicing, &table->cells[row], (int32_t)row);
    return (struct slices){slicing.slices, slicing.count + 1};
}
