/* A value as a function of the price being tried.
 *
 * Between two bends every amount that depends on the price is a straight line in it, up to what
 * rounding to smallest units adds. Here it is held between two lines, one surely below it and one
 * surely above, for every whole price t (in smallest units) from the walk's `from` up to, not
 * including, its `end`. The lines are in floating point, widened by every rounding of their own, so
 * they are never a value: they only show that an aim surely fails, surely holds, or has to be tried.
 *
 * Working out a step's line may bring `end` nearer: to where a cap takes hold, a table changes row,
 * or a comparison changes its answer. A place where rounding alone decides is a short stretch of its
 * own, whose prices are then tried one by one. */
#ifndef GROAT_LINE_H
#define GROAT_LINE_H

#include "evaluate/evaluate.h"

/* low_at + low_slope·t <= value(t) <= high_at + high_slope·t, for t above zero. */
struct stretch {
    double low_at, low_slope, high_at, high_slope;
};

enum line_kind {
    LINE_AMOUNT, /* top */
    LINE_RATIO,  /* top / bottom; a margin exists only where its bottom is above zero */
    LINE_YES,
    LINE_NO,
    LINE_EITHER, /* a condition that rounding decides, price by price */
    LINE_FIXED,  /* the same at every price: `fixed`, exactly; `top` once it is measured */
    LINE_MISSING,
    LINE_ERROR, /* `fixed` says which */
    LINE_UNSURE /* not known as a line here; only trying tells */
};

struct line {
    enum line_kind kind;
    bool is_margin;
    bool measured; /* of a fixed number: `top` is set */
    struct stretch top, bottom;
    struct value fixed;
};

/* No bend ahead. */
#define WALK_END INT64_MAX

struct walk {
    struct evaluation *evaluation;
    struct line *lines; /* by step; those of the block being walked are set */
    int64_t from, end;
};

/* Puts the values that a block reads and that are no part of it in place, once for a record. */
void walk_ready(struct walk *walk, const struct member_code *member);
/* The lines of a block's steps from `walk->from` on. */
void walk_block(struct walk *walk, const struct member_code *member);
/* The line of a step of the block, or of one that it reads. */
static inline const struct line *walk_line(const struct walk *walk, uint32_t step)
{
    return &walk->lines[step];
}
/* The same of a step that is a number: an amount with its stretch, unless it has no value. */
const struct line *walk_amount(struct walk *walk, uint32_t step);
/* Whether the line is an amount, fixed or not. */
static inline bool line_is_amount(const struct line *line)
{
    return line->kind == LINE_AMOUNT || line->kind == LINE_FIXED;
}

/* ---- between the files of this room ---- */

struct stretch stretch_of(struct num number);
bool stretch_is_level(const struct stretch *stretch); /* has no slope at all */
struct stretch stretch_add(struct stretch a, struct stretch b);
struct stretch stretch_negate(struct stretch a);
struct stretch stretch_subtract(struct stretch a, struct stretch b);
/* `factor` is level: a number between its bounds. */
struct stretch stretch_multiply(struct stretch a, const struct stretch *factor);
/* One over a level stretch that does not hold zero. */
struct stretch stretch_invert(const struct stretch *stretch);
struct stretch stretch_widen(struct stretch a, double low, double high);
/* The bounds at a price. */
double stretch_low(const struct stretch *stretch, int64_t price);
double stretch_high(const struct stretch *stretch, int64_t price);
/* Whether the stretch is at or above zero on the whole walk, which is shortened to where that is
 * so. LINE_YES, LINE_NO or LINE_EITHER. */
enum line_kind stretch_not_below_zero(struct walk *walk, const struct stretch *stretch);
enum line_kind stretch_above_zero(struct walk *walk, const struct stretch *stretch);

struct line line_of_kind(enum line_kind kind);
struct line line_amount(struct stretch top);
struct line line_table(struct walk *walk, const struct lookup_code *lookup);
struct line line_sliced(struct walk *walk, const struct lookup_code *lookup);
/* Whether amount `a` stands below (`or_equal`: or at) amount `b`. */
enum line_kind line_order(struct walk *walk, const struct line *a, const struct line *b,
                          bool or_equal);
enum line_kind line_not(enum line_kind kind);
enum line_kind line_and(enum line_kind a, enum line_kind b);

#endif
