/* The lines of a block's steps. */
#include "solve/line.h"

#include <math.h>
#include <string.h>

struct line line_of_kind(enum line_kind kind)
{
    return (struct line){.kind = kind};
}

struct line line_amount(struct stretch top)
{
    return (struct line){.kind = LINE_AMOUNT, .top = top};
}

static struct line line_error(enum fault fault)
{
    return (struct line){.kind = LINE_ERROR, .fixed = value_error(fault, 0)};
}

static struct line line_of_value(struct value value)
{
    enum line_kind kind = value.state == VALUE_THERE     ? LINE_FIXED
                          : value.state == VALUE_MISSING ? LINE_MISSING
                                                         : LINE_ERROR;
    return (struct line){.kind = kind, .fixed = value};
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

void walk_ready(struct walk *walk, const struct member_code *member)
{
    for (size_t i = 0; i < member->inputs_count; i++) {
        uint32_t step = member->inputs[i];
        walk->lines[step] = line_of_value(walk->evaluation->values[step]);
    }
}

const struct line *walk_amount(struct walk *walk, uint32_t step)
{
    struct line *line = &walk->lines[step];
    if (line->kind == LINE_FIXED && !line->measured) {
        line->top = stretch_of(line->fixed.number);
        line->measured = true;
    }
    return line;
}

/* The answer of a condition. */
static enum line_kind answer_of(const struct line *line)
{
    if (line->kind == LINE_FIXED)
        return value_is_yes(line->fixed) ? LINE_YES : LINE_NO;
    return line->kind;
}

/* What an operation on two sides gives when one is not an amount; LINE_AMOUNT when both are. */
static struct line neither_amount(const struct line *a, const struct line *b)
{
    if (a->kind == LINE_ERROR || b->kind == LINE_ERROR)
        return a->kind == LINE_ERROR ? *a : *b;
    if (a->kind == LINE_MISSING || b->kind == LINE_MISSING)
        return line_of_kind(LINE_MISSING);
    return line_of_kind(line_is_amount(a) && line_is_amount(b) ? LINE_AMOUNT : LINE_UNSURE);
}

/* ---- arithmetic ---- */

static struct line multiply(const struct line *a, const struct line *b)
{
    if (stretch_is_level(&a->top))
        return line_amount(stretch_multiply(b->top, &a->top));
    if (stretch_is_level(&b->top))
        return line_amount(stretch_multiply(a->top, &b->top));
    return line_of_kind(LINE_UNSURE);
}

static struct line divide(const struct line *a, const struct line *b)
{
    if (!stretch_is_level(&b->top))
        return (struct line){.kind = LINE_RATIO, .top = a->top, .bottom = b->top};
    if (b->top.low_at == 0 && b->top.high_at == 0)
        return line_error(FAULT_DIVIDED_BY_ZERO);
    if (b->top.low_at <= 0 && b->top.high_at >= 0)
        return line_of_kind(LINE_UNSURE);
    struct stretch inverse = stretch_invert(&b->top);
    return line_amount(stretch_multiply(a->top, &inverse));
}

static struct line margin(const struct line *profit, const struct line *net)
{
    struct line ratio = {
        .kind = LINE_RATIO, .is_margin = true, .top = profit->top, .bottom = net->top};
    return ratio;
}

/* Rounding to smallest units moves a value by at most half of one either way. */
static struct line round_line(const struct walk *walk, const struct line *a,
                              const struct step *step)
{
    const struct line *grid = walk_line(walk, step->b);
    if (!line_is_amount(a) || grid->kind != LINE_FIXED || num_sign(grid->fixed.number) <= 0)
        return a->kind == LINE_ERROR || a->kind == LINE_MISSING ? *a : line_of_kind(LINE_UNSURE);
    struct stretch unit = stretch_of(grid->fixed.number);
    bool nearest = step->rounding == NUM_NEAREST || step->rounding == NUM_EVEN;
    double most = nearest ? unit.high_at / 2 : unit.high_at;
    return line_amount(stretch_widen(a->top, -most, most));
}

/* One minus a share that must stay below one. */
static struct line remainder_line(struct walk *walk, const struct line *a, bool discount)
{
    struct stretch rest = stretch_subtract(stretch_of(num_whole(1)), a->top);
    enum line_kind fits = stretch_above_zero(walk, &rest);
    if (discount)
        fits = line_and(fits, stretch_not_below_zero(walk, &a->top));
    if (fits == LINE_YES)
        return line_amount(rest);
    if (fits == LINE_EITHER)
        return line_of_kind(LINE_UNSURE);
    return line_error(discount ? FAULT_DISCOUNT : FAULT_SHARE);
}

/* Two lines that rounding alone tells apart may lie beside each other to the end, their slopes off by
 * the machine's roundings. Up to this price those come to far less than a smallest unit. */
#define FAR_PRICE ((int64_t)1 << 40)

/* The most that a line which falls and rises between them reaches on the walk, which is shortened
 * where the line would rise for ever. */
static double most_on_walk(struct walk *walk, const struct stretch *stretch)
{
    if (stretch->high_slope > 0 && walk->end == WALK_END && walk->from < FAR_PRICE)
        walk->end = FAR_PRICE;
    double most = stretch_high(stretch, walk->from);
    double last = stretch_high(stretch, walk->end == WALK_END ? COINS_MOST : walk->end - 1);
    return last <= most ? most : last; /* no number where one of them is none */
}

/* The larger or the smaller. Where rounding decides which, both are near each other on the whole
 * walk, and the first one with a wider band holds either. */
static struct line choose(struct walk *walk, const struct line *a, const struct line *b,
                          bool larger)
{
    if (a->kind == LINE_MISSING)
        return *b;
    if (b->kind == LINE_MISSING)
        return *a;
    struct line kind = neither_amount(a, b);
    if (kind.kind != LINE_AMOUNT)
        return kind;
    struct stretch ahead = stretch_subtract(a->top, b->top);
    enum line_kind above = stretch_not_below_zero(walk, &ahead);
    if (above != LINE_EITHER)
        return (above == LINE_YES) == larger ? *a : *b;
    struct stretch behind = stretch_negate(ahead);
    double width = most_on_walk(walk, larger ? &behind : &ahead);
    if (!(width < INFINITY))
        return line_of_kind(LINE_UNSURE);
    return line_amount(stretch_widen(a->top, larger ? 0 : -width, larger ? width : 0));
}

/* ---- conditions ---- */

enum line_kind line_order(struct walk *walk, const struct line *a, const struct line *b,
                          bool or_equal)
{
    struct stretch gap = stretch_subtract(b->top, a->top);
    return or_equal ? stretch_not_below_zero(walk, &gap) : stretch_above_zero(walk, &gap);
}

static enum line_kind order_of(struct walk *walk, enum operation operation, const struct line *a,
                               const struct line *b)
{
    if (operation != OP_EQUAL)
        return line_order(walk, a, b, operation == OP_UP_TO);
    return line_and(line_order(walk, a, b, true), line_order(walk, b, a, true));
}

/* top / bottom against a level amount, the bottom multiplied out by its sign. `first`: the ratio
 * stands on the left. */
static struct line compare_ratio(struct walk *walk, enum operation operation,
                                 const struct line *ratio, const struct line *number, bool first)
{
    if (!stretch_is_level(&number->top))
        return line_of_kind(LINE_UNSURE);
    struct line top = line_amount(ratio->top);
    struct line side = line_amount(stretch_multiply(ratio->bottom, &number->top));
    enum line_kind positive = stretch_above_zero(walk, &ratio->bottom);
    if (positive == LINE_EITHER)
        return line_of_kind(LINE_UNSURE);
    if (positive == LINE_NO && ratio->is_margin)
        return line_of_kind(LINE_NO);
    if (positive == LINE_NO) {
        struct stretch turned = stretch_negate(ratio->bottom);
        if (stretch_above_zero(walk, &turned) != LINE_YES)
            return line_of_kind(LINE_UNSURE);
        first = !first;
    }
    return line_of_kind(first ? order_of(walk, operation, &top, &side)
                              : order_of(walk, operation, &side, &top));
}

static bool forgiven(const struct step *step, const struct line *side)
{
    return side->kind == LINE_ERROR &&
           (side->fixed.fault == FAULT_NO_MARGIN ||
            (step->forgiving && side->fixed.fault == FAULT_DIVIDED_BY_ZERO));
}

static struct line compare(struct walk *walk, const struct step *step, const struct line *a,
                           const struct line *b)
{
    if (forgiven(step, a) || forgiven(step, b))
        return line_of_kind(LINE_NO);
    enum operation operation = (enum operation)step->operation;
    if (a->kind == LINE_RATIO && line_is_amount(b))
        return compare_ratio(walk, operation, a, b, true);
    if (b->kind == LINE_RATIO && line_is_amount(a))
        return compare_ratio(walk, operation, b, a, false);
    struct line kind = neither_amount(a, b);
    if (kind.kind != LINE_AMOUNT)
        return kind;
    return line_of_kind(order_of(walk, operation, a, b));
}

/* `and` when `decides` is LINE_NO, `or` when it is LINE_YES; as the evaluation does it, where that can
 * be told. */
static enum line_kind either(const struct line *left, const struct line *right,
                             enum line_kind decides)
{
    enum line_kind a = answer_of(left), b = answer_of(right);
    if (a == decides || a == LINE_ERROR || a == LINE_UNSURE)
        return a;
    if (b == decides)
        return b;
    if (b == LINE_ERROR || b == LINE_UNSURE)
        return a == LINE_EITHER ? LINE_UNSURE : b;
    if (a == LINE_MISSING || b == LINE_MISSING)
        return a == LINE_EITHER || b == LINE_EITHER ? LINE_UNSURE : LINE_MISSING;
    return a == LINE_EITHER || b == LINE_EITHER ? LINE_EITHER : b;
}

/* An answer as a line; an error keeps what it is. */
static struct line line_of_answer(enum line_kind answer, const struct line *a, const struct line *b)
{
    if (answer != LINE_ERROR)
        return line_of_kind(answer);
    return a->kind == LINE_ERROR ? *a : *b;
}

static struct line select_line(const struct line *condition, const struct line *yes,
                               const struct line *no)
{
    switch (answer_of(condition)) {
    case LINE_YES: return *yes;
    case LINE_NO: return *no;
    case LINE_EITHER: return line_of_kind(LINE_UNSURE);
    default: return *condition;
    }
}

static struct line is_missing(const struct line *a)
{
    if (a->kind == LINE_ERROR || a->kind == LINE_UNSURE)
        return *a;
    return line_of_kind(a->kind == LINE_MISSING ? LINE_YES : LINE_NO);
}

static struct line same_text(const struct line *a, const struct line *b)
{
    if (a->kind != LINE_FIXED || b->kind != LINE_FIXED)
        return a->kind == LINE_ERROR || b->kind == LINE_ERROR || a->kind == LINE_MISSING ||
                       b->kind == LINE_MISSING
                   ? neither_amount(a, b)
                   : line_of_kind(LINE_UNSURE);
    bool same = a->fixed.text.length == b->fixed.text.length &&
                memcmp(a->fixed.text.start, b->fixed.text.start, a->fixed.text.length) == 0;
    return line_of_kind(same ? LINE_YES : LINE_NO);
}

/* ---- all of it ---- */

/* An operation of fixed sides is fixed, and worked out as ever. */
static bool all_fixed(const struct line *a, const struct line *b)
{
    return a->kind == LINE_FIXED && b->kind == LINE_FIXED;
}

static struct line work_out(const struct walk *walk, uint32_t index, const struct line *a,
                            const struct line *b)
{
    struct evaluation *e = walk->evaluation;
    const struct step *step = &e->program->steps[index];
    e->values[step->a] = a->fixed;
    if (b)
        e->values[step->b] = b->fixed;
    return line_of_value(evaluate_step(e, index));
}

static struct line arithmetic(enum operation operation, const struct line *a, const struct line *b)
{
    struct line kind = neither_amount(a, b);
    if (kind.kind != LINE_AMOUNT)
        return kind;
    switch (operation) {
    case OP_ADD: return line_amount(stretch_add(a->top, b->top));
    case OP_SUBTRACT: return line_amount(stretch_subtract(a->top, b->top));
    case OP_MULTIPLY: return multiply(a, b);
    case OP_MARGIN: return margin(a, b);
    default: return divide(a, b);
    }
}

static struct line one_sided(struct walk *walk, uint32_t index)
{
    const struct step *step = &walk->evaluation->program->steps[index];
    const struct line *a = walk_amount(walk, step->a);
    bool rounds = step->operation == OP_ROUND;
    if (a->kind == LINE_FIXED)
        return work_out(walk, index, a, rounds ? walk_line(walk, step->b) : NULL);
    if (a->kind != LINE_AMOUNT)
        return a->kind == LINE_RATIO ? line_of_kind(LINE_UNSURE) : *a;
    switch ((enum operation)step->operation) {
    case OP_NEGATE: return line_amount(stretch_negate(a->top));
    case OP_REMAINDER: return remainder_line(walk, a, step->b == 1);
    default: return round_line(walk, a, step);
    }
}

static struct line two_amounts(struct walk *walk, uint32_t index)
{
    const struct step *step = &walk->evaluation->program->steps[index];
    const struct line *a = walk_amount(walk, step->a), *b = walk_amount(walk, step->b);
    enum operation operation = (enum operation)step->operation;
    if (all_fixed(a, b))
        return work_out(walk, index, a, b);
    switch (operation) {
    case OP_LARGER: return choose(walk, a, b, true);
    case OP_SMALLER: return choose(walk, a, b, false);
    case OP_EQUAL:
    case OP_BELOW:
    case OP_UP_TO: return compare(walk, step, a, b);
    default: return arithmetic(operation, a, b);
    }
}

static struct line line_of(struct walk *walk, uint32_t index)
{
    const struct evaluation *e = walk->evaluation;
    const struct step *step = &e->program->steps[index];
    const struct line *a = walk_line(walk, step->a), *b = walk_line(walk, step->b);
    switch ((enum operation)step->operation) {
    case OP_TRIAL: {
        struct stretch coin = stretch_of(e->program->shop->smallest);
        return line_amount((struct stretch){0, coin.low_at, 0, coin.high_at});
    }
    case OP_TABLE: return line_table(walk, &e->program->lookups[step->a]);
    case OP_SLICED: return line_sliced(walk, &e->program->lookups[step->a]);
    case OP_NEGATE:
    case OP_REMAINDER:
    case OP_ROUND: return one_sided(walk, index);
    case OP_ADD:
    case OP_SUBTRACT:
    case OP_MULTIPLY:
    case OP_DIVIDE:
    case OP_MARGIN:
    case OP_LARGER:
    case OP_SMALLER:
    case OP_EQUAL:
    case OP_BELOW:
    case OP_UP_TO: return two_amounts(walk, index);
    case OP_NOT: return line_of_answer(line_not(answer_of(a)), a, a);
    case OP_IS_MISSING: return is_missing(a);
    case OP_TEXT_EQUAL: return same_text(a, b);
    case OP_AND: return line_of_answer(either(a, b, LINE_NO), a, b);
    case OP_OR: return line_of_answer(either(a, b, LINE_YES), a, b);
    case OP_OTHERWISE: return a->kind == LINE_MISSING ? *b : *a;
    case OP_SELECT: return select_line(a, b, walk_line(walk, step->c));
    default: return line_of_kind(LINE_UNSURE);
    }
}

void walk_block(struct walk *walk, const struct member_code *member)
{
    for (size_t i = 0; i < member->block_count; i++)
        walk->lines[member->block[i]] = line_of(walk, member->block[i]);
}
