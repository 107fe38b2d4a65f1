/* A value as a function of the price being tried.
 *
 * Between two bends every amount that depends on the price is a straight line in it, up to what
 * rounding to smallest units adds. Here it is held between two lines, one surely below it and one
 * surely above, for every whole price t (in smallest units) from the walk's `from` up to, not
 * including, an `end` of its own. The lines are in floating point, widened by every rounding of their
 * own, so they are never a value: they only show that an aim surely fails, surely holds, or has to be
 * tried.
 *
 * A line ends where one that it was made of ends, or sooner: where a cap takes hold, a table changes
 * row, or a comparison changes its answer. While a line is worked out the walk's `end` is how far it
 * reaches: to read a line is to rely on it, and brings `end` to where that one ends. A place where
 * rounding alone decides is a short stretch of its own, whose prices are then tried one by one. */
#ifndef GROAT_LINE_H
#define GROAT_LINE_H

#include <assert.h>

#include "evaluate/evaluate.h"
#include "solve/stretch.h"

enum line_kind {
    LINE_AMOUNT, /* top */
    LINE_FIXED,  /* the same at every price: `fixed`, exactly; `top` once it is measured */
    LINE_RATIO,  /* top / bottom; a margin exists only where its bottom is above zero */
    LINE_YES,
    LINE_NO,
    LINE_EITHER, /* a condition that rounding decides, price by price */
    LINE_MISSING,
    LINE_ERROR, /* `fault` says which */
    LINE_UNSURE /* not known as a line here; only trying tells */
};

struct line {
    uint8_t kind; /* enum line_kind */
    bool is_margin;
    bool measured; /* of a fixed number: `top` is set */
    uint8_t fault; /* enum fault; and the step in which it arose, or 0 */
    uint32_t origin;
    int64_t end;
    struct stretch top;
    union {
        const struct value *fixed;
        const struct line *bottom;
    };
};

/* No bend ahead. */
#define WALK_END INT64_MAX

/* Two lines that differ by rounding alone may run beside each other to the end, with slopes that
 * differ by the machine's rounding errors. Up to this price those come to far less than a smallest
 * unit. */
#define WALK_FAR ((int64_t)1 << 40)

struct walk {
    struct evaluation *evaluation;
    struct line *lines; /* by step; those of the block being walked are set */
    int64_t from, end;
};

/* Puts the values that a block reads and that are no part of it in place, once for a record. */
void walk_ready(struct walk *walk, const struct member_code *member);
/* The lines of a block's steps from `walk->from` on, each charged as a step. Nothing is sure of those
 * that come after the steps ran out. */
void walk_block(struct walk *walk, const struct member_code *member);
/* The line of a step of the block, or of one that it reads. */
static inline const struct line *walk_line(struct walk *walk, uint32_t step)
{
    const struct line *line = &walk->lines[step];
    assert(step < walk->evaluation->program->count && line->end > walk->from);
    walk->end = line->end < walk->end ? line->end : walk->end;
    return line;
}
/* The same of a step that is a number: an amount with its stretch, unless it has no value. */
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
/* The answer of a condition. */
static inline enum line_kind line_answer(const struct line *line)
{
    if (line->kind == LINE_FIXED)
        return value_is_yes(*line->fixed) ? LINE_YES : LINE_NO;
    return (enum line_kind)line->kind;
}

/* ---- between the files of this room ---- */

/* Whether the stretch is at or above zero on the whole walk, which is shortened to where that is
 * so. LINE_YES, LINE_NO or LINE_EITHER. */
enum line_kind stretch_not_below_zero(struct walk *walk, const struct stretch *stretch);
enum line_kind stretch_above_zero(struct walk *walk, const struct stretch *stretch);

/* What a line is; its end is the walk's. */
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
/* Whether amount `a` stands below (`or_equal`: or at) amount `b`. */
enum line_kind line_order(struct walk *walk, const struct stretch *a, const struct stretch *b,
                          bool or_equal);
enum line_kind line_not(enum line_kind kind);
enum line_kind line_and(enum line_kind a, enum line_kind b);

#endif
