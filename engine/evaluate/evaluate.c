#include "evaluate/evaluate.h"

#include <assert.h>
#include <string.h>

#include "number/small.h"

/* Texts are compared so many bytes in the time of a step. */
enum { TEXT_BYTES_A_STEP = 512 };

/* ---- helpers of the operations ---- */

static struct value of_status(enum num_status status, struct num number, uint32_t step)
{
    switch (status) {
    case NUM_OK: return value_number(number);
    case NUM_DIVIDED_BY_ZERO: return value_error(FAULT_DIVIDED_BY_ZERO, step);
    case NUM_NO_MEMORY: return value_error(FAULT_NO_MEMORY, step);
    case NUM_TOO_LARGE:
    case NUM_BAD_TEXT: break;
    }
    return value_error(FAULT_TOO_LARGE, step);
}

/* An operation on two values that needs both: an error wins over a missing one. */
static bool both_there(struct value a, struct value b, struct value *out)
{
    if (a.state == VALUE_THERE && b.state == VALUE_THERE)
        return true;
    *out = a.state == VALUE_ERROR ? a : b.state == VALUE_ERROR ? b : value_missing();
    return false;
}

static struct value calculate(struct evaluation *e, num_operation *operation, struct value a,
                              struct value b, uint32_t step)
{
    struct value out;
    if (!both_there(a, b, &out))
        return out;
    struct num number = a.number;
    return of_status(operation(e->heap, a.number, b.number, &number), number, step);
}

/* Inside an aim a comparison with a share that does not exist is false, not an error; a comparison
 * with a margin that does not exist is false everywhere. */
static bool forgives(const struct step *step, struct value side)
{
    return side.state == VALUE_ERROR && (side.fault == FAULT_NO_MARGIN ||
                                         (step->forgiving && side.fault == FAULT_DIVIDED_BY_ZERO));
}

static inline bool order_meets(const struct step *step, int order)
{
    switch ((enum operation)step->operation) {
    case OP_EQUAL: return order == 0;
    case OP_BELOW: return order < 0;
    default: return order <= 0;
    }
}

static struct value compare(struct evaluation *e, const struct step *step, struct value a,
                            struct value b)
{
    struct value out;
    if (forgives(step, a) || forgives(step, b))
        return value_flag(false);
    if (!both_there(a, b, &out))
        return out;
    return value_flag(order_meets(step, num_order(e->heap, a.number, b.number)));
}

static struct value compare_texts(struct evaluation *e, struct value a, struct value b)
{
    struct value out;
    if (!both_there(a, b, &out))
        return out;
    if (a.text.length != b.text.length)
        return value_flag(false);
    evaluate_spend(e, a.text.length / TEXT_BYTES_A_STEP);
    return value_flag(memcmp(a.text.start, b.text.start, a.text.length) == 0);
}

/* `or` is yes if either side is, whatever the other; `and` is no if either is. */
static struct value either(struct value a, struct value b, bool decides)
{
    bool a_decides = a.state == VALUE_THERE && value_is_yes(a) == decides;
    bool b_decides = b.state == VALUE_THERE && value_is_yes(b) == decides;
    struct value out;
    if (a_decides)
        return a;
    if (a.state == VALUE_ERROR)
        return a;
    if (b_decides)
        return b;
    return both_there(a, b, &out) ? b : out;
}

/* The larger or the smaller of two; the other where one is missing. */
static struct value choose(struct evaluation *e, const struct step *step, struct value a,
                           struct value b)
{
    if (a.state == VALUE_MISSING)
        return b;
    if (b.state == VALUE_MISSING)
        return a;
    struct value out;
    if (!both_there(a, b, &out))
        return out;
    bool a_larger = num_order(e->heap, a.number, b.number) >= 0;
    return a_larger == (step->operation == OP_LARGER) ? a : b;
}

static struct value select_value(struct value condition, struct value yes, struct value no)
{
    assert(condition.state != VALUE_THERE || condition.number.bottom == 1);
    if (condition.state != VALUE_THERE)
        return condition;
    return value_is_yes(condition) ? yes : no;
}

static struct value complement_of(struct evaluation *e, const struct step *step, struct value a,
                                  uint32_t index)
{
    if (a.state != VALUE_THERE)
        return a;
    bool discount = step->b == 1;
    if (num_order(e->heap, a.number, num_whole(1)) >= 0 || (discount && num_sign(a.number) < 0))
        return value_error(discount ? FAULT_DISCOUNT : FAULT_SHARE, index);
    return calculate(e, num_subtract, value_number(num_whole(1)), a, index);
}

static struct value round_value(struct evaluation *e, const struct step *step, struct value a,
                                struct value grid, uint32_t index)
{
    struct value out;
    if (!both_there(a, grid, &out))
        return out;
    if (num_sign(grid.number) <= 0)
        return value_error(FAULT_GRID, index);
    struct num number = a.number;
    enum num_status status =
        num_round_to(e->heap, a.number, grid.number, (enum num_rounding)step->rounding, &number);
    return of_status(status, number, index);
}

static struct value to_ladder(struct evaluation *e, const struct step *step, struct value a,
                              uint32_t index)
{
    if (a.state != VALUE_THERE)
        return a;
    const struct ladder *ladder = &e->settled->ladders[step->b];
    struct num smallest = e->program->shop->smallest, coins;
    int64_t price;
    evaluate_spend(e, 2 * ladder->work);
    enum num_status status = num_divide(e->heap, a.number, smallest, &coins);
    if (status != NUM_OK)
        return of_status(status, a.number, index);
    if (!ladder_round(e->heap, ladder, coins, (enum num_rounding)step->rounding, &price))
        return value_error(FAULT_LADDER_ENDS, index);
    return calculate(e, num_multiply, value_number(num_whole(price)), value_number(smallest),
                     index);
}

static struct value pinned(struct evaluation *e, struct value a, uint32_t index)
{
    if (a.state != VALUE_THERE)
        return a;
    struct num number = a.number;
    enum num_status status =
        num_round_to(e->heap, a.number, e->program->shop->smallest, NUM_NEAREST, &number);
    if (status == NUM_OK && num_sign(number) <= 0)
        return value_error(FAULT_NOT_ABOVE_ZERO, index);
    return of_status(status, number, index);
}

static struct value margin(struct evaluation *e, struct value profit, struct value net,
                           uint32_t index)
{
    struct value out;
    if (!both_there(profit, net, &out))
        return out;
    if (num_sign(net.number) <= 0)
        return value_error(FAULT_NO_MARGIN, index);
    return calculate(e, num_divide, profit, net, index);
}

static struct value field(struct evaluation *e, const struct step *step, uint32_t index)
{
    struct value given = e->fields ? e->fields[step->a] : value_missing();
    if (given.state != VALUE_MISSING)
        return given;
    if (step->b != NO_STEP)
        return e->values[step->b];
    return step->c ? value_missing() : value_error(FAULT_REQUIRED, index);
}

/* ---- parts ---- */

/* By way of its density where it is given by mass and bought by volume, or the other way round. */
struct value evaluate_part(struct evaluation *e, const struct part *part, uint32_t index)
{
    const struct rate_code *material = &e->program->rates[part->material];
    struct value amount = value_number(part->amount);
    if (part->as_mass)
        amount = calculate(e, num_divide, amount, e->values[material->density], index);
    if (part->as_volume)
        amount = calculate(e, num_multiply, amount, e->values[material->density], index);
    return calculate(e, num_multiply, amount, e->values[material->step], index);
}

static struct value worth(struct evaluation *e, struct value parts, uint32_t index)
{
    if (parts.state != VALUE_THERE)
        return parts;
    struct value sum = value_number(num_whole(0));
    evaluate_spend(e, parts.parts->count);
    for (size_t i = 0; i < parts.parts->count; i++) {
        if (!evaluate_goes_on(e))
            return value_error(FAULT_TOO_MANY_STEPS, index);
        sum = calculate(e, num_add, sum, evaluate_part(e, &parts.parts->items[i], index), index);
    }
    return sum;
}

/* ---- tables ---- */

bool evaluate_text_cell(struct evaluation *e, const struct cell_code *cell, struct value key)
{
    if (cell->kind != CELL_TEXTS)
        return value_is_yes(compare_texts(e, key, e->values[cell->bound]));
    for (const char *const *text = cell->texts; *text; text++)
        if (strlen(*text) == key.text.length && memcmp(*text, key.text.start, key.text.length) == 0)
            return true;
    return false;
}

static bool cell_matches(struct evaluation *e, const struct cell_code *cell, struct value key)
{
    if (cell->kind == CELL_ANY)
        return true;
    if (cell->kind == CELL_TEXTS || cell->is_text)
        return evaluate_text_cell(e, cell, key);
    struct value bound = e->values[cell->bound];
    if (bound.state != VALUE_THERE)
        return false;
    int order = num_order(e->heap, key.number, bound.number);
    switch (cell->kind) {
    case CELL_UP_TO: return order <= 0;
    case CELL_BELOW: return order < 0;
    case CELL_OVER: return order > 0;
    case CELL_OR_MORE: return order >= 0;
    case CELL_RANGE:
        return order >= 0 && e->values[cell->upper].state == VALUE_THERE &&
               num_order(e->heap, key.number, e->values[cell->upper].number) <= 0;
    default: return order == 0;
    }
}

int32_t evaluate_row(struct evaluation *e, const struct lookup_code *lookup, struct value *why)
{
    const struct table_code *table = lookup->table;
    bool missing = false;
    for (size_t k = 0; k < table->keys; k++) {
        struct value key = e->values[lookup->keys[k]];
        if (key.state == VALUE_ERROR) {
            *why = key;
            return ROW_UNKNOWN;
        }
        missing = missing || key.state == VALUE_MISSING;
    }
    *why = value_missing();
    if (missing)
        return ROW_UNKNOWN;
    const struct cell_code *cell = table->cells;
    for (size_t row = 0; row < table->rows; row++, cell += table->keys) {
        if (!evaluate_goes_on(e)) {
            *why = value_error(FAULT_TOO_MANY_STEPS, lookup->keys[0]);
            return ROW_UNKNOWN;
        }
        bool matches = true;
        for (size_t k = 0; k < table->keys && matches; k++)
            matches = cell_matches(e, &cell[k], e->values[lookup->keys[k]]);
        if (matches)
            return (int32_t)row;
    }
    return ROW_NONE;
}

static struct value look_up(struct evaluation *e, const struct lookup_code *lookup, uint32_t index)
{
    struct value why;
    evaluate_spend(e, lookup->table->work);
    int32_t row = evaluate_row(e, lookup, &why);
    if (row == ROW_UNKNOWN)
        return why;
    return row == ROW_NONE ? value_error(FAULT_NO_ROW, index) : e->values[lookup->values[row]];
}

/* Each part of the amount from zero to the key at its own row's value. */
static struct value look_up_sliced(struct evaluation *e, const struct lookup_code *lookup,
                                   uint32_t index)
{
    struct value key = e->values[lookup->keys[0]];
    evaluate_spend(e, lookup->table->work);
    if (key.state != VALUE_THERE)
        return key;
    if (num_sign(key.number) < 0)
        return value_error(FAULT_NEGATIVE_KEY, index);
    const struct slices *slices = &e->settled->slices[lookup->table->number];
    struct value sum = value_number(num_whole(0)), lower = sum;
    for (size_t i = 0; i < slices->count && num_order(e->heap, lower.number, key.number) < 0; i++) {
        const struct slice *slice = &slices->items[i];
        bool last = slice->endless || num_order(e->heap, key.number, slice->upper) <= 0;
        struct value upper = last ? key : value_number(slice->upper);
        if (slice->row == ROW_NONE)
            return value_error(FAULT_NO_ROW, index);
        if (!evaluate_goes_on(e))
            return value_error(FAULT_TOO_MANY_STEPS, index);
        struct value width = calculate(e, num_subtract, upper, lower, index);
        struct value part =
            calculate(e, num_multiply, width, e->values[lookup->values[slice->row]], index);
        sum = calculate(e, num_add, sum, part, index);
        lower = upper;
    }
    return sum;
}

/* ---- running ---- */

struct value evaluate_step(struct evaluation *e, uint32_t index)
{
    const struct step *step = &e->program->steps[index];
    const struct value *v = e->values;
    switch ((enum operation)step->operation) {
    case OP_CONSTANT: return e->program->constants[step->a];
    case OP_FIELD: return field(e, step, index);
    case OP_RATE:
        if (e->settled->overrides && e->settled->overrides[step->b].state == VALUE_THERE)
            return e->settled->overrides[step->b];
        return v[step->a];
    case OP_QUANTITY: return value_number(e->quantity);
    case OP_AS_OF:
        return e->as_of.state == VALUE_THERE ? e->as_of : value_error(FAULT_NO_DATE, index);
    case OP_TRIAL: return v[index]; /* put there by the search */
    case OP_ADD: return calculate(e, num_add, v[step->a], v[step->b], index);
    case OP_SUBTRACT: return calculate(e, num_subtract, v[step->a], v[step->b], index);
    case OP_MULTIPLY: return calculate(e, num_multiply, v[step->a], v[step->b], index);
    case OP_DIVIDE: return calculate(e, num_divide, v[step->a], v[step->b], index);
    case OP_COMPLEMENT: return complement_of(e, step, v[step->a], index);
    case OP_ROUND: return round_value(e, step, v[step->a], v[step->b], index);
    case OP_LADDER: return to_ladder(e, step, v[step->a], index);
    case OP_LARGER:
    case OP_SMALLER: return choose(e, step, v[step->a], v[step->b]);
    case OP_EQUAL:
    case OP_BELOW:
    case OP_UP_TO: return compare(e, step, v[step->a], v[step->b]);
    case OP_TEXT_EQUAL: return compare_texts(e, v[step->a], v[step->b]);
    case OP_AND: return either(v[step->a], v[step->b], false);
    case OP_OR: return either(v[step->a], v[step->b], true);
    case OP_NOT:
        return v[step->a].state == VALUE_THERE ? value_flag(!value_is_yes(v[step->a])) : v[step->a];
    case OP_IS_MISSING:
        return v[step->a].state == VALUE_ERROR ? v[step->a]
                                               : value_flag(v[step->a].state == VALUE_MISSING);
    case OP_OTHERWISE: return v[step->a].state == VALUE_MISSING ? v[step->b] : v[step->a];
    case OP_SELECT: return select_value(v[step->a], v[step->b], v[step->c]);
    case OP_MARGIN: return margin(e, v[step->a], v[step->b], index);
    case OP_TABLE: return look_up(e, &e->program->lookups[step->a], index);
    case OP_SLICED: return look_up_sliced(e, &e->program->lookups[step->a], index);
    case OP_WORTH: return worth(e, v[step->a], index);
    case OP_PIN: return pinned(e, v[step->a], index);
    case OP_PRICE: return e->find(e, step->a, index);
    case OPERATIONS_COUNT: break;
    }
    return value_missing();
}

/* Two small numbers into a third, or into an answer, for operations that are SMALL. False when it
 * takes more. */
static inline bool small_result(const struct step *step, const struct num *a, const struct num *b,
                                struct num *out)
{
    int order;
    switch ((enum operation)step->operation) {
    case OP_ADD: return num_small_add(a, b, out);
    case OP_SUBTRACT: return num_small_subtract(a, b, out);
    case OP_MULTIPLY: return num_small_multiply(a, b, out);
    case OP_DIVIDE: return num_small_divide(a, b, out);
    case OP_MARGIN: return b->top > 0 && num_small_divide(a, b, out);
    case OP_ROUND: return step->rounding == NUM_NEAREST && num_small_nearest(a, b, out);
    default: break;
    }
    if (!num_small_compare(a, b, &order))
        return false;
    switch ((enum operation)step->operation) {
    case OP_LARGER: a = order >= 0 ? a : b; return num_small_keep(a->top, a->bottom, out);
    case OP_SMALLER: a = order >= 0 ? b : a; return num_small_keep(a->top, a->bottom, out);
    default: return num_small_keep(order_meets(step, order), 1, out);
    }
}

/* Works out a step into its place. What most steps of a price are is done here, in line: an
 * operation on two small numbers that are there. */
static inline void run_step(struct evaluation *e, uint32_t index)
{
    assert(index < e->program->count);
    const struct step *step = &e->program->steps[index];
    struct value *out = &e->values[index];
    if (SMALL_OPERATIONS >> step->operation & 1) {
        assert(step->a < index && step->b < index);
        const struct value *a = &e->values[step->a], *b = &e->values[step->b];
        if (a->state == VALUE_THERE && b->state == VALUE_THERE &&
            small_result(step, &a->number, &b->number, &out->number)) {
            out->state = VALUE_THERE;
            return;
        }
    }
    *out = evaluate_step(e, index);
}

static void fail_list(struct evaluation *e, const uint32_t *steps, size_t count)
{
    e->steps_left = 0;
    for (size_t i = 0; i < count; i++)
        e->values[steps[i]] = value_error(FAULT_TOO_MANY_STEPS, steps[i]);
}

/* Steps between two looks at what large numbers cost. */
enum { LIST_PART = 16 };

void evaluate_list(struct evaluation *e, const uint32_t *steps, size_t count)
{
    if (count > e->steps_left) {
        fail_list(e, steps, count);
        return;
    }
    e->steps_left -= count;
    for (size_t done = 0; done < count;) {
        size_t end = count - done > LIST_PART ? done + LIST_PART : count;
        for (; done < end; done++) {
            assert(done == 0 || steps[done - 1] < steps[done]);
            run_step(e, steps[done]);
        }
        if (!evaluate_goes_on(e)) {
            fail_list(e, steps + done, count - done);
            return;
        }
    }
}
