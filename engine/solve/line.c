/* The lines of a block's steps. */
#include "solve/line.h"

#include <string.h>

struct line line_of_kind(enum line_kind kind)
{
    return (struct line){.kind = kind};
}

struct line line_flag(enum line_kind kind)
{
    return (struct line){.kind = kind, .is_flag = true};
}

static struct line line_amount(struct stretch top)
{
    return (struct line){.kind = LINE_AMOUNT, .top = top};
}

enum line_kind line_not(enum line_kind kind)
{
    return kind == LINE_YES ? LINE_NO : kind == LINE_NO ? LINE_YES : kind;
}

enum line_kind line_and(enum line_kind a, enum line_kind b)
{
    if (a == LINE_NO || b == LINE_NO)
        return LINE_NO;
    return a == LINE_YES && b == LINE_YES ? LINE_YES : LINE_EITHER;
}

struct line walk_line(const struct walk *walk, uint32_t step)
{
    const struct evaluation *e = walk->evaluation;
    if (e->program->steps[step].on_trial)
        return walk->lines[step];
    struct value value = e->values[step];
    if (value.state == VALUE_MISSING)
        return line_of_kind(LINE_MISSING);
    struct line line = {.kind = LINE_ERROR, .fixed = value};
    if (value.state == VALUE_ERROR)
        return line;
    line.kind = LINE_FIXED;
    return line;
}

/* A fixed value as an amount, where an amount is needed. */
static struct line as_amount(struct line line)
{
    if (line.kind == LINE_FIXED) {
        line.kind = LINE_AMOUNT;
        line.top = stretch_fixed(line.fixed.number);
    }
    return line;
}

static struct line as_flag(struct line line)
{
    if (line.kind == LINE_FIXED)
        return line_flag(value_is_yes(line.fixed) ? LINE_YES : LINE_NO);
    return line;
}

/* What an operation on two sides gives when one is not an amount; LINE_AMOUNT when both are. */
static struct line neither_amount(struct line a, struct line b)
{
    if (a.kind == LINE_ERROR || b.kind == LINE_ERROR)
        return a.kind == LINE_ERROR ? a : b;
    if (a.kind == LINE_MISSING || b.kind == LINE_MISSING)
        return line_of_kind(LINE_MISSING);
    if (a.kind != LINE_AMOUNT || b.kind != LINE_AMOUNT)
        return line_of_kind(LINE_UNSURE);
    return line_of_kind(LINE_AMOUNT);
}

/* ---- arithmetic ---- */

static struct line multiply(struct walk *walk, struct line a, struct line b)
{
    if (stretch_is_fixed(&a.top))
        return line_amount(stretch_scale(walk, b.top, a.top.at));
    if (stretch_is_fixed(&b.top))
        return line_amount(stretch_scale(walk, a.top, b.top.at));
    return line_of_kind(LINE_UNSURE);
}

static struct line divide(struct walk *walk, struct line a, struct line b)
{
    if (!stretch_is_fixed(&b.top))
        return (struct line){.kind = LINE_RATIO, .top = a.top, .bottom = b.top};
    struct num factor;
    struct line zero = {.kind = LINE_ERROR, .fixed = value_error(FAULT_DIVIDED_BY_ZERO, 0)};
    if (num_divide(walk->evaluation->heap, num_whole(1), b.top.at, &factor) != NUM_OK)
        return zero;
    return line_amount(stretch_scale(walk, a.top, factor));
}

/* Rounding to smallest units moves a value by at most half of one either way. */
static struct line round_line(struct walk *walk, struct line a, const struct step *step)
{
    struct num_heap *heap = walk->evaluation->heap;
    struct line grid = as_amount(walk_line(walk, step->b));
    struct line kind = neither_amount(a, grid);
    if (kind.kind != LINE_AMOUNT)
        return kind;
    if (!stretch_is_fixed(&grid.top) || num_sign(grid.top.at) <= 0)
        return line_of_kind(LINE_UNSURE);
    struct num half, rounded;
    if (stretch_is_fixed(&a.top))
        return num_round_to(heap, a.top.at, grid.top.at, (enum num_rounding)step->rounding,
                            &rounded) == NUM_OK
                   ? line_amount(stretch_fixed(rounded))
                   : line_of_kind(LINE_UNSURE);
    if (step->rounding != NUM_NEAREST && step->rounding != NUM_EVEN)
        return line_of_kind(LINE_UNSURE);
    if (num_divide(heap, grid.top.at, num_whole(2), &half) != NUM_OK)
        return line_of_kind(LINE_UNSURE);
    struct stretch band = {num_whole(0), num_whole(0), half, half};
    if (num_negate(heap, half, &band.low) != NUM_OK)
        return line_of_kind(LINE_UNSURE);
    return line_amount(stretch_add(walk, a.top, band));
}

/* One minus a share that must stay below one. */
static struct line remainder_line(struct walk *walk, struct line a, bool discount)
{
    struct line one = line_amount(stretch_fixed(num_whole(1)));
    struct stretch rest = stretch_subtract(walk, one.top, a.top);
    enum line_kind fits = stretch_above_zero(walk, &rest);
    if (discount)
        fits = line_and(fits, stretch_not_below_zero(walk, &a.top));
    if (fits == LINE_YES)
        return line_amount(rest);
    if (fits == LINE_EITHER)
        return line_of_kind(LINE_UNSURE);
    return (struct line){.kind = LINE_ERROR,
                         .fixed = value_error(discount ? FAULT_DISCOUNT : FAULT_SHARE, 0)};
}

/* The larger or the smaller. Where rounding decides which, both are within the band's width of each
 * other, and the first one with a wider band covers both. */
static struct line choose(struct walk *walk, struct line a, struct line b, bool larger)
{
    if (a.kind == LINE_MISSING)
        return b;
    if (b.kind == LINE_MISSING)
        return a;
    struct line kind = neither_amount(a, b);
    if (kind.kind != LINE_AMOUNT)
        return kind;
    struct stretch gap = stretch_subtract(walk, a.top, b.top);
    enum line_kind above = stretch_not_below_zero(walk, &gap);
    if (above != LINE_EITHER)
        return (above == LINE_YES) == larger ? a : b;
    struct stretch width = {num_whole(0), num_whole(0), num_whole(0), num_whole(0)};
    struct num_heap *heap = walk->evaluation->heap;
    if (num_subtract(heap, gap.high, gap.low, &width.high) != NUM_OK)
        return line_of_kind(LINE_UNSURE);
    if (!larger) {
        if (num_negate(heap, width.high, &width.low) != NUM_OK)
            return line_of_kind(LINE_UNSURE);
        width.high = num_whole(0);
    }
    return line_amount(stretch_add(walk, a.top, width));
}

/* ---- conditions ---- */

enum line_kind line_order(struct walk *walk, struct line a, struct line b, bool or_equal)
{
    struct stretch gap = stretch_subtract(walk, b.top, a.top);
    return or_equal ? stretch_not_below_zero(walk, &gap) : stretch_above_zero(walk, &gap);
}

static enum line_kind order_of(struct walk *walk, enum operation operation, struct line a,
                               struct line b)
{
    if (operation != OP_EQUAL)
        return line_order(walk, a, b, operation == OP_UP_TO);
    return line_and(line_order(walk, a, b, true), line_order(walk, b, a, true));
}

/* top / bottom against a number, the bottom multiplied out by its sign. `first`: the ratio stands on
 * the left. */
static struct line compare_ratio(struct walk *walk, enum operation operation, struct line ratio,
                                 struct line number, bool first)
{
    if (number.kind != LINE_AMOUNT || !stretch_is_fixed(&number.top))
        return line_of_kind(LINE_UNSURE);
    struct line top = line_amount(ratio.top);
    struct line side = line_amount(stretch_scale(walk, ratio.bottom, number.top.at));
    enum line_kind positive = stretch_above_zero(walk, &ratio.bottom);
    if (positive == LINE_EITHER)
        return line_of_kind(LINE_UNSURE);
    if (positive == LINE_NO && ratio.is_margin)
        return line_flag(LINE_NO);
    if (positive == LINE_NO) {
        struct stretch turned = stretch_scale(walk, ratio.bottom, num_whole(-1));
        enum line_kind negative = stretch_above_zero(walk, &turned);
        if (negative != LINE_YES)
            return line_of_kind(LINE_UNSURE);
        first = !first;
    }
    return line_flag(first ? order_of(walk, operation, top, side)
                           : order_of(walk, operation, side, top));
}

static bool forgiven(const struct step *step, const struct line *side)
{
    return side->kind == LINE_ERROR &&
           (side->fixed.fault == FAULT_NO_MARGIN ||
            (step->forgiving && side->fixed.fault == FAULT_DIVIDED_BY_ZERO));
}

struct line line_compare(struct walk *walk, const struct step *step, struct line a, struct line b)
{
    if (forgiven(step, &a) || forgiven(step, &b))
        return line_flag(LINE_NO);
    enum operation operation = (enum operation)step->operation;
    if (a.kind == LINE_RATIO && b.kind == LINE_AMOUNT)
        return compare_ratio(walk, operation, a, b, true);
    if (b.kind == LINE_RATIO && a.kind == LINE_AMOUNT)
        return compare_ratio(walk, operation, b, a, false);
    struct line kind = neither_amount(a, b);
    if (kind.kind != LINE_AMOUNT)
        return kind;
    return line_flag(order_of(walk, operation, a, b));
}

static bool is_answer(struct line line)
{
    return line.kind == LINE_YES || line.kind == LINE_NO || line.kind == LINE_EITHER;
}

/* `and` when `decides` is LINE_NO, `or` when it is LINE_YES. */
static struct line either(struct line a, struct line b, enum line_kind decides)
{
    if (a.kind == decides)
        return a;
    if (a.kind == LINE_ERROR || a.kind == LINE_UNSURE)
        return a;
    if (b.kind == decides)
        return a.kind == LINE_EITHER || is_answer(a) || a.kind == LINE_MISSING ? b : a;
    if (b.kind == LINE_ERROR || b.kind == LINE_UNSURE)
        return a.kind == LINE_EITHER ? line_of_kind(LINE_UNSURE) : b;
    if (a.kind == LINE_MISSING || b.kind == LINE_MISSING)
        return a.kind == LINE_EITHER || b.kind == LINE_EITHER ? line_of_kind(LINE_UNSURE)
                                                              : line_of_kind(LINE_MISSING);
    return a.kind == LINE_EITHER || b.kind == LINE_EITHER ? line_flag(LINE_EITHER) : b;
}

static struct line select_line(struct line condition, struct line yes, struct line no)
{
    switch (condition.kind) {
    case LINE_YES: return yes;
    case LINE_NO: return no;
    case LINE_EITHER: return line_of_kind(LINE_UNSURE);
    default: return condition;
    }
}

static struct line is_missing(struct line a)
{
    if (a.kind == LINE_ERROR || a.kind == LINE_UNSURE)
        return a;
    return line_flag(a.kind == LINE_MISSING ? LINE_YES : LINE_NO);
}

static struct line same_text(struct line a, struct line b)
{
    if (a.kind != LINE_FIXED || b.kind != LINE_FIXED)
        return line_of_kind(a.kind == LINE_ERROR || b.kind == LINE_ERROR ? LINE_ERROR
                                                                         : LINE_UNSURE);
    bool same = a.fixed.text.length == b.fixed.text.length &&
                memcmp(a.fixed.text.start, b.fixed.text.start, a.fixed.text.length) == 0;
    return line_flag(same ? LINE_YES : LINE_NO);
}

/* ---- all of it ---- */

static struct line arithmetic(struct walk *walk, const struct step *step, struct line a,
                              struct line b)
{
    struct line kind = neither_amount(a, b);
    if (kind.kind != LINE_AMOUNT)
        return kind;
    switch ((enum operation)step->operation) {
    case OP_ADD: return line_amount(stretch_add(walk, a.top, b.top));
    case OP_SUBTRACT: return line_amount(stretch_subtract(walk, a.top, b.top));
    case OP_MULTIPLY: return multiply(walk, a, b);
    case OP_MARGIN:
        if (stretch_is_fixed(&b.top)) {
            if (num_sign(b.top.at) > 0)
                return divide(walk, a, b);
            return (struct line){.kind = LINE_ERROR, .fixed = value_error(FAULT_NO_MARGIN, 0)};
        }
        return (struct line){.kind = LINE_RATIO, .is_margin = true, .top = a.top, .bottom = b.top};
    default: return divide(walk, a, b);
    }
}

static struct line one_sided(struct walk *walk, const struct step *step, struct line a)
{
    if (a.kind != LINE_AMOUNT)
        return a.kind == LINE_RATIO ? line_of_kind(LINE_UNSURE) : a;
    switch ((enum operation)step->operation) {
    case OP_NEGATE: return line_amount(stretch_scale(walk, a.top, num_whole(-1)));
    case OP_REMAINDER: return remainder_line(walk, a, step->b == 1);
    default: return round_line(walk, a, step);
    }
}

static struct line line_of(struct walk *walk, uint32_t index)
{
    const struct evaluation *e = walk->evaluation;
    const struct step *step = &e->program->steps[index];
    struct line a, b;
    switch ((enum operation)step->operation) {
    case OP_TRIAL: {
        struct num zero = num_whole(0);
        return line_amount((struct stretch){zero, e->program->shop->smallest, zero, zero});
    }
    case OP_TABLE: return line_table(walk, &e->program->lookups[step->a]);
    case OP_SLICED: return line_sliced(walk, &e->program->lookups[step->a]);
    case OP_NEGATE:
    case OP_REMAINDER:
    case OP_ROUND: return one_sided(walk, step, as_amount(walk_line(walk, step->a)));
    case OP_NOT:
        a = as_flag(walk_line(walk, step->a));
        a.kind = line_not(a.kind);
        return a;
    case OP_IS_MISSING: return is_missing(walk_line(walk, step->a));
    default: break;
    }
    a = walk_line(walk, step->a);
    b = walk_line(walk, step->b);
    switch ((enum operation)step->operation) {
    case OP_ADD:
    case OP_SUBTRACT:
    case OP_MULTIPLY:
    case OP_DIVIDE:
    case OP_MARGIN: return arithmetic(walk, step, as_amount(a), as_amount(b));
    case OP_LARGER: return choose(walk, as_amount(a), as_amount(b), true);
    case OP_SMALLER: return choose(walk, as_amount(a), as_amount(b), false);
    case OP_EQUAL:
    case OP_BELOW:
    case OP_UP_TO: return line_compare(walk, step, as_amount(a), as_amount(b));
    case OP_TEXT_EQUAL: return same_text(a, b);
    case OP_AND: return either(as_flag(a), as_flag(b), LINE_NO);
    case OP_OR: return either(as_flag(a), as_flag(b), LINE_YES);
    case OP_OTHERWISE: return a.kind == LINE_MISSING ? b : a;
    case OP_SELECT: return select_line(as_flag(a), b, walk_line(walk, step->c));
    default: return line_of_kind(LINE_UNSURE);
    }
}

void walk_block(struct walk *walk, const uint32_t *steps, size_t count)
{
    for (size_t i = 0; i < count; i++)
        walk->lines[steps[i]] = line_of(walk, steps[i]);
}
