/* A value as a function of the price being tried.
 *
 * Between two bends every amount that depends on the price is a straight line in it, except for
 * rounding to smallest units. Here it is bounded by two lines, one certainly below it and one
 * certainly above, for every whole price t (in smallest units) from the walk's `from` up to, but
 * not including, the line's own `end`. The lines are in floating point, widened for every rounding
 * error, so they are never used as values: they only show that an aim certainly fails, certainly
 * holds, or must be tried.
 *
 * A line ends where one of its operands ends, or earlier: where a cap begins to apply, a table
 * changes row, or a comparison changes its answer. While a line is calculated, the walk's `end` is
 * the end of that line: reading an operand lowers `end` to the operand's end. A place where
 * rounding alone decides becomes a short line of its own, whose prices are tried one by one. */
#ifndef GROAT_LINE_H
#define GROAT_LINE_H

#include <assert.h>

#include "evaluate/evaluate.h"
#include "solve/stretch.h"

enum line_kind {
    LINE_AMOUNT, /* top */
    LINE_FIXED,  /* the same at every price: exactly `fixed`; `top` only if `measured` */
    LINE_RATIO,  /* top / bottom; a margin has a value only where its bottom is above zero */
    LINE_YES,
    LINE_NO,
    LINE_EITHER, /* a condition that depends on rounding at each price */
    LINE_MISSING,
    LINE_ERROR, /* the error is `fault` */
    LINE_UNSURE /* not known as a line here; prices must be tried */
};

struct line {
    uint8_t kind; /* enum line_kind */
    bool is_margin;
    bool measured; /* for a fixed number: `top` is set */
    uint8_t fault; /* enum fault; and the step in which it arose, or 0 */
    uint32_t origin;
    int64_t end;
    struct stretch top;
    union {
        const struct value *fixed;
        const struct line *bottom;
    };
};

/* There is no further bend. */
#define WALK_END INT64_MAX

/* Two lines that differ only by rounding may be parallel except for floating-point errors in their
 * slopes. Up to this price these errors are far less than a smallest unit. */
#define WALK_FAR ((int64_t)1 << 40)

struct walk {
    struct evaluation *evaluation;
    struct line *lines; /* by step; those of the block being walked are set */
    int64_t from, end;
};

/* Prepares the values that a block reads from outside; once for each record. */
void walk_ready(struct walk *walk, const struct member_code *member);
/* Calculates the lines of a block's steps from `walk->from` on. Each counts as a step; once the
 * steps run out, the remaining lines are LINE_UNSURE. */
void walk_block(struct walk *walk, const struct member_code *member);
/* The line of a step of the block, or of a step that the block reads. */
static inline const struct line *walk_line(struct walk *walk, uint32_t step)
{
    const struct line *line = &walk->lines[step];
    assert(step < walk->evaluation->program->count && line->end > walk->from);
    walk->end = line->end < walk->end ? line->end : walk->end;
    return line;
}
/* The same for a step that is a number: an amount with `top` set, unless it has no value. */
static inline const struct line *walk_amount(struct walk *walk, uint32_t step)
{
    struct line *line = &walk->lines[step];
    if (line->kind == LINE_FIXED && !line->measured) {
        line->top = stretch_of(line->fixed->number);
        line->measured = true;
    }
    return walk_line(walk, step);
}
/* Whether the line is an amount, fixed or not. */
static inline bool line_is_amount(const struct line *line)
{
    return line->kind <= LINE_FIXED;
}
/* LINE_YES, LINE_NO or LINE_EITHER for a condition. */
static inline enum line_kind line_answer(const struct line *line)
{
    if (line->kind == LINE_FIXED)
        return value_is_yes(*line->fixed) ? LINE_YES : LINE_NO;
    return (enum line_kind)line->kind;
}

/* ---- between the files of this room ---- */

/* Whether the stretch is at or above zero. Shortens the walk to where the answer is the same.
 * Returns LINE_YES, LINE_NO or LINE_EITHER. */
enum line_kind stretch_not_below_zero(struct walk *walk, const struct stretch *stretch);
enum line_kind stretch_above_zero(struct walk *walk, const struct stretch *stretch);

/* Sets a line's kind, and its end to the walk's. */
static inline void line_is(struct line *line, enum line_kind kind)
{
    line->kind = (uint8_t)kind;
}
static inline void line_is_stretch(struct line *line, struct stretch top)
{
    line->kind = LINE_AMOUNT;
    line->top = top;
}
static inline void line_is_error(struct line *line, enum fault fault, uint32_t origin)
{
    line->kind = LINE_ERROR;
    assert(fault != FAULT_NONE);
    line->fault = (uint8_t)fault;
    line->origin = origin;
}
void line_of_table(struct walk *walk, const struct lookup_code *lookup, struct line *out);
void line_of_slices(struct walk *walk, const struct lookup_code *lookup, struct line *out);
/* Whether amount `a` is below amount `b`, or, with `or_equal`, at it. */
enum line_kind line_order(struct walk *walk, const struct stretch *a, const struct stretch *b,
                          bool or_equal);
enum line_kind line_not(enum line_kind kind);
enum line_kind line_and(enum line_kind a, enum line_kind b);

#endif
