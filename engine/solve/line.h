/* A value as a function of the price being tried.
 *
 * Between two bends every amount that depends on the price is a straight line in it, up to what
 * rounding to smallest units adds: value(t) lies in [at + slope·t + low, at + slope·t + high], for
 * every whole t from the walk's `from` up to, not including, its `end`; t counts smallest units.
 * Working out a step's line may bring `end` nearer: to where a cap takes hold, a table changes row,
 * or a comparison changes its answer. A place where rounding alone decides is a short stretch of its
 * own, whose prices are then tried one by one. */
#ifndef GROAT_LINE_H
#define GROAT_LINE_H

#include "evaluate/evaluate.h"

struct stretch {
    struct num at, slope, low, high;
};

enum line_kind {
    LINE_AMOUNT, /* top */
    LINE_RATIO,  /* top / bottom; a margin exists only where its bottom is above zero */
    LINE_YES,
    LINE_NO,
    LINE_EITHER, /* a condition that rounding decides, price by price */
    LINE_FIXED,  /* a text, or parts: the same at every price */
    LINE_MISSING,
    LINE_ERROR,
    LINE_UNSURE /* not known as a line here; only trying tells */
};

struct line {
    enum line_kind kind;
    bool is_margin;
    bool is_flag;
    struct stretch top, bottom;
    struct value fixed;
};

/* No bend ahead. */
#define WALK_END INT64_MAX

struct walk {
    struct evaluation *evaluation;
    struct line *lines; /* by step; those of the block being walked are set */
    int64_t from, end;
    bool failed; /* a number beyond the limit, or no memory */
    enum fault fault;
};

/* The lines of a block's steps from `walk->from` on. */
void walk_block(struct walk *walk, const uint32_t *steps, size_t count);
/* The line of any step: of the block, or as the value it has. */
struct line walk_line(const struct walk *walk, uint32_t step);

/* ---- between the files of this room ---- */

struct stretch stretch_fixed(struct num number);
bool stretch_is_fixed(const struct stretch *stretch);
struct stretch stretch_add(struct walk *walk, struct stretch a, struct stretch b);
struct stretch stretch_subtract(struct walk *walk, struct stretch a, struct stretch b);
struct stretch stretch_scale(struct walk *walk, struct stretch a, struct num factor);
/* Whether the stretch is at or above zero on the whole walk, which is shortened to where that is
 * so. LINE_YES, LINE_NO or LINE_EITHER. */
enum line_kind stretch_not_below_zero(struct walk *walk, const struct stretch *stretch);
enum line_kind stretch_above_zero(struct walk *walk, const struct stretch *stretch);

struct line line_of_kind(enum line_kind kind);
struct line line_flag(enum line_kind kind);
struct line line_compare(struct walk *walk, const struct step *step, struct line a, struct line b);
struct line line_table(struct walk *walk, const struct lookup_code *lookup);
struct line line_sliced(struct walk *walk, const struct lookup_code *lookup);
/* Whether number `a` stands below (`or_equal`: or at) number `b`. */
enum line_kind line_order(struct walk *walk, struct line a, struct line b, bool or_equal);
enum line_kind line_not(enum line_kind kind);
enum line_kind line_and(enum line_kind a, enum line_kind b);

#endif
