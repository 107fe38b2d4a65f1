/* The lines of a block's steps. */
#include "solve/line.h"

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

/* The line of a value that is the same at every price, where it lies. */
static void line_is_value(struct line *line, const struct value *value)
{
    line->fixed = value;
    line->measured = false;
    if (value->state == VALUE_ERROR)
        line_is_error(line, (enum fault)value->fault, value->origin);
    else
        line_is(line, value->state == VALUE_THERE ? LINE_FIXED : LINE_MISSING);
}

void walk_ready(struct walk *walk, const struct member_code *member)
{
    for (size_t i = 0; i < member->inputs_count; i++) {
        uint32_t step = member->inputs[i];
        line_is_value(&walk->lines[step], &walk->evaluation->values[step]);
        walk->lines[step].end = WALK_END;
    }
}

/* What an operation on two sides gives when one of them is not an amount. */
static void line_of_no_amount(const struct line *a, const struct line *b, struct line *out)
{
    if (a->kind == LINE_ERROR || b->kind == LINE_ERROR)
        *out = a->kind == LINE_ERROR ? *a : *b;
    else if (a->kind == LINE_MISSING || b->kind == LINE_MISSING)
        line_is(out, LINE_MISSING);
    else
        line_is(out, LINE_UNSURE);
}

/* ---- arithmetic ---- */

static void multiply(const struct line *a, const struct line *b, struct line *out)
{
    if (stretch_is_level(&a->top))
        line_is_stretch(out, stretch_multiply(b->top, &a->top));
    else if (stretch_is_level(&b->top))
        line_is_stretch(out, stretch_multiply(a->top, &b->top));
    else
        line_is(out, LINE_UNSURE);
}

static void ratio(const struct line *a, const struct line *b, bool is_margin, struct line *out)
{
    line_is(out, LINE_RATIO);
    out->is_margin = is_margin;
    out->top = a->top;
    out->bottom = b;
}

static void divide(const struct line *a, const struct line *b, struct line *out)
{
    if (!stretch_is_level(&b->top)) {
        ratio(a, b, false, out);
    } else if (b->top.low_at == 0 && b->top.high_at == 0) {
        line_is_error(out, FAULT_DIVIDED_BY_ZERO, 0);
    } else if (b->top.low_at <= 0 && b->top.high_at >= 0) {
        line_is(out, LINE_UNSURE);
    } else {
        struct stretch inverse = stretch_invert(&b->top);
        line_is_stretch(out, stretch_multiply(a->top, &inverse));
    }
}

/* Rounding to smallest units moves a value by at most half of one either way. */
static void round_line(const struct step *step, const struct line *a, const struct line *grid,
                       struct line *out)
{
    if (grid->kind != LINE_FIXED || num_sign(grid->fixed->number) <= 0) {
        line_is(out, LINE_UNSURE);
        return;
    }
    bool nearest = step->rounding == NUM_NEAREST || step->rounding == NUM_EVEN;
    double most = nearest ? grid->top.high_at / 2 : grid->top.high_at;
    line_is_stretch(out, stretch_widen(a->top, -most, most));
}

/* One minus a share that must stay below one. */
static void complement_line(struct walk *walk, const struct line *a, bool discount,
                            struct line *out)
{
    struct stretch rest = stretch_subtract((struct stretch){1, 0, 1, 0}, a->top);
    enum line_kind fits = stretch_above_zero(walk, &rest);
    if (discount)
        fits = line_and(fits, stretch_not_below_zero(walk, &a->top));
    if (fits == LINE_YES)
        line_is_stretch(out, rest);
    else if (fits == LINE_EITHER)
        line_is(out, LINE_UNSURE);
    else
        line_is_error(out, discount ? FAULT_DISCOUNT : FAULT_SHARE, 0);
}

/* The most that a line which falls and rises between them reaches on the walk, which is shortened
 * where the line would rise for ever. */
static double most_on_walk(struct walk *walk, const struct stretch *stretch)
{
    if (stretch->high_slope > 0 && walk->end == WALK_END && walk->from < WALK_FAR)
        walk->end = WALK_FAR;
    double most = stretch_high(stretch, walk->from);
    double last = stretch_high(stretch, walk->end == WALK_END ? COINS_MOST : walk->end - 1);
    return last <= most ? most : last; /* no number where one of them is none */
}

/* The larger or the smaller. Where rounding decides which, both are near each other on the whole
 * walk, and the first one with a wider band holds either. */
static void choose(struct walk *walk, const struct line *a, const struct line *b, bool larger,
                   struct line *out)
{
    struct stretch ahead = stretch_subtract(a->top, b->top);
    enum line_kind above = stretch_not_below_zero(walk, &ahead);
    if (above != LINE_EITHER) {
        *out = (above == LINE_YES) == larger ? *a : *b;
        return;
    }
    struct stretch behind = stretch_negate(ahead);
    double width = most_on_walk(walk, larger ? &behind : &ahead);
    if (width < INFINITY)
        line_is_stretch(out, stretch_widen(a->top, larger ? 0 : -width, larger ? width : 0));
    else
        line_is(out, LINE_UNSURE);
}

/* ---- conditions ---- */

enum line_kind line_order(struct walk *walk, const struct stretch *a, const struct stretch *b,
                          bool or_equal)
{
    struct stretch gap = stretch_subtract(*b, *a);
    return or_equal ? stretch_not_below_zero(walk, &gap) : stretch_above_zero(walk, &gap);
}

static enum line_kind order_of(struct walk *walk, enum operation operation, const struct stretch *a,
                               const struct stretch *b)
{
    if (operation != OP_EQUAL)
        return line_order(walk, a, b, operation == OP_UP_TO);
    return line_and(line_order(walk, a, b, true), line_order(walk, b, a, true));
}

/* top / bottom against a level amount, the bottom multiplied out by its sign. `first`: the ratio
 * stands on the left. */
static enum line_kind compare_ratio(struct walk *walk, enum operation operation,
                                    const struct line *ratio, const struct stretch *number,
                                    bool first)
{
    if (!stretch_is_level(number))
        return LINE_UNSURE;
    struct stretch side = stretch_multiply(ratio->bottom->top, number);
    enum line_kind positive = stretch_above_zero(walk, &ratio->bottom->top);
    if (positive == LINE_EITHER)
        return LINE_UNSURE;
    if (positive == LINE_NO && ratio->is_margin)
        return LINE_NO;
    if (positive == LINE_NO) {
        struct stretch turned = stretch_negate(ratio->bottom->top);
        if (stretch_above_zero(walk, &turned) != LINE_YES)
            return LINE_UNSURE;
        first = !first;
    }
    return first ? order_of(walk, operation, &ratio->top, &side)
                 : order_of(walk, operation, &side, &ratio->top);
}

static bool forgiven(const struct step *step, const struct line *side)
{
    return side->kind == LINE_ERROR && (side->fault == FAULT_NO_MARGIN ||
                                        (step->forgiving && side->fault == FAULT_DIVIDED_BY_ZERO));
}

static void compare(struct walk *walk, const struct step *step, const struct line *a,
                    const struct line *b, struct line *out)
{
    enum operation operation = (enum operation)step->operation;
    if (line_is_amount(a) && line_is_amount(b))
        line_is(out, order_of(walk, operation, &a->top, &b->top));
    else if (forgiven(step, a) || forgiven(step, b))
        line_is(out, LINE_NO);
    else if (a->kind == LINE_RATIO && line_is_amount(b))
        line_is(out, compare_ratio(walk, operation, a, &b->top, true));
    else if (b->kind == LINE_RATIO && line_is_amount(a))
        line_is(out, compare_ratio(walk, operation, b, &a->top, false));
    else
        line_of_no_amount(a, b, out);
}

/* `and` when `decides` is LINE_NO, `or` when it is LINE_YES; as the evaluation does it, where that
 * can be told. */
static enum line_kind either(const struct line *left, const struct line *right,
                             enum line_kind decides)
{
    enum line_kind a = line_answer(left), b = line_answer(right);
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
static void line_is_answer(struct line *out, enum line_kind answer, const struct line *a,
                           const struct line *b)
{
    const struct line *wrong = a->kind == LINE_ERROR ? a : b;
    if (answer == LINE_ERROR)
        line_is_error(out, (enum fault)wrong->fault, wrong->origin);
    else
        line_is(out, answer);
}

static void select_line(struct walk *walk, const struct step *step, struct line *out)
{
    const struct line *condition = walk_line(walk, step->a);
    switch (line_answer(condition)) {
    case LINE_YES: *out = *walk_line(walk, step->b); break;
    case LINE_NO: *out = *walk_line(walk, step->c); break;
    case LINE_EITHER: line_is(out, LINE_UNSURE); break;
    default: *out = *condition; break;
    }
}

static void is_missing(const struct line *a, struct line *out)
{
    if (a->kind == LINE_ERROR || a->kind == LINE_UNSURE)
        *out = *a;
    else
        line_is(out, a->kind == LINE_MISSING ? LINE_YES : LINE_NO);
}

/* ---- all of it ---- */

/* An operation of fixed sides is fixed, and worked out as ever. */
static void work_out(struct walk *walk, uint32_t index, const struct line *a, const struct line *b,
                     struct line *out)
{
    struct evaluation *e = walk->evaluation;
    const struct step *step = &e->program->steps[index];
    e->values[step->a] = *a->fixed;
    if (b)
        e->values[step->b] = *b->fixed;
    e->values[index] = evaluate_step(e, index);
    line_is_value(out, &e->values[index]);
}

static void one_sided(struct walk *walk, uint32_t index, struct line *out)
{
    const struct step *step = &walk->evaluation->program->steps[index];
    bool rounds = step->operation == OP_ROUND;
    const struct line *a = walk_amount(walk, step->a);
    const struct line *grid = rounds ? walk_amount(walk, step->b) : NULL;
    if (a->kind == LINE_FIXED && (!rounds || grid->kind == LINE_FIXED))
        work_out(walk, index, a, grid, out);
    else if (!line_is_amount(a))
        *out = *a;
    else if (rounds)
        round_line(step, a, grid, out);
    else
        complement_line(walk, a, step->b == 1, out);
    if (out->kind == LINE_RATIO)
        line_is(out, LINE_UNSURE);
}

static void arithmetic(enum operation operation, const struct line *a, const struct line *b,
                       struct line *out)
{
    switch (operation) {
    case OP_ADD: line_is_stretch(out, stretch_add(a->top, b->top)); break;
    case OP_SUBTRACT: line_is_stretch(out, stretch_subtract(a->top, b->top)); break;
    case OP_MULTIPLY: multiply(a, b, out); break;
    case OP_MARGIN: ratio(a, b, true, out); break;
    default: divide(a, b, out); break;
    }
}

static void two_amounts(struct walk *walk, uint32_t index, struct line *out)
{
    const struct step *step = &walk->evaluation->program->steps[index];
    enum operation operation = (enum operation)step->operation;
    enum line_rule rule = (enum line_rule)operation_traits[operation].line;
    const struct line *a = walk_amount(walk, step->a), *b = walk_amount(walk, step->b);
    bool chooses = rule == LINE_BY_CHOICE;
    if (a->kind == LINE_FIXED && b->kind == LINE_FIXED)
        work_out(walk, index, a, b, out);
    else if (rule == LINE_BY_COMPARISON)
        compare(walk, step, a, b, out);
    else if (chooses && (a->kind == LINE_MISSING || b->kind == LINE_MISSING))
        *out = a->kind == LINE_MISSING ? *b : *a;
    else if (!line_is_amount(a) || !line_is_amount(b))
        line_of_no_amount(a, b, out);
    else if (chooses)
        choose(walk, a, b, operation == OP_LARGER, out);
    else
        arithmetic(operation, a, b, out);
}

/* An operation that has its own way with lines. */
static void line_by_name(struct walk *walk, uint32_t index, struct line *out)
{
    const struct program *program = walk->evaluation->program;
    const struct step *step = &program->steps[index];
    const struct line *a, *b;
    switch ((enum operation)step->operation) {
    case OP_TRIAL: {
        struct stretch coin = stretch_of(program->shop->smallest);
        line_is_stretch(out, (struct stretch){0, coin.low_at, 0, coin.high_at});
        break;
    }
    case OP_TABLE: line_of_table(walk, &program->lookups[step->a], out); break;
    case OP_SLICED: line_of_slices(walk, &program->lookups[step->a], out); break;
    case OP_NOT:
        a = walk_line(walk, step->a);
        line_is_answer(out, line_not(line_answer(a)), a, a);
        break;
    case OP_IS_MISSING: is_missing(walk_line(walk, step->a), out); break;
    case OP_TEXT_EQUAL:
        a = walk_line(walk, step->a);
        b = walk_line(walk, step->b);
        if (a->kind == LINE_FIXED && b->kind == LINE_FIXED)
            work_out(walk, index, a, b, out);
        else
            line_of_no_amount(a, b, out);
        break;
    case OP_AND:
    case OP_OR:
        a = walk_line(walk, step->a);
        b = walk_line(walk, step->b);
        line_is_answer(out, either(a, b, step->operation == OP_AND ? LINE_NO : LINE_YES), a, b);
        break;
    case OP_OTHERWISE:
        a = walk_line(walk, step->a);
        *out = a->kind == LINE_MISSING ? *walk_line(walk, step->b) : *a;
        break;
    case OP_SELECT: select_line(walk, step, out); break;
    default: line_is(out, LINE_UNSURE); break;
    }
}

static void line_of(struct walk *walk, uint32_t index, struct line *out)
{
    const struct step *step = &walk->evaluation->program->steps[index];
    switch ((enum line_rule)operation_traits[step->operation].line) {
    case LINE_BY_NONE: line_is(out, LINE_UNSURE); break;
    case LINE_BY_NAME: line_by_name(walk, index, out); break;
    case LINE_BY_AMOUNT: one_sided(walk, index, out); break;
    case LINE_BY_AMOUNTS:
    case LINE_BY_CHOICE:
    case LINE_BY_COMPARISON: two_amounts(walk, index, out); break;
    }
}

void walk_block(struct walk *walk, const struct member_code *member)
{
    struct evaluation *e = walk->evaluation;
    evaluate_spend(e, member->block_count);
    for (size_t i = 0; i < member->block_count; i++) {
        struct line *line = &walk->lines[member->block[i]];
        walk->end = WALK_END;
        if (!evaluate_goes_on(e))
            line_is(line, LINE_UNSURE);
        else
            line_of(walk, member->block[i], line);
        line->end = walk->end;
    }
}
