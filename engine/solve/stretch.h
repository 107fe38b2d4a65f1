/* Arithmetic of stretches: a value between two straight lines of the price. Every operation widens
 * its result by more than its rounding error. The functions are inline because a search does little
 * else. */
#ifndef GROAT_STRETCH_H
#define GROAT_STRETCH_H

#include <assert.h>
#include <math.h>

#include "number/number.h"

/* low_at + low_slope·t <= value(t) <= high_at + high_slope·t, for t above zero. */
struct stretch {
    double low_at, low_slope, high_at, high_slope;
};

/* The error of a result is at most half a unit in its last place, 2^-53 of it, and so is that of a
 * price as a double. A result too small for a normal double has a negligible error. A sum that is
 * zero is exact. */
static inline double stretch_margin(double value)
{
    return fabs(value) * 0x1p-51 + (value != 0 ? 0x1p-1000 : 0);
}

static inline double stretch_down(double value)
{
    return value - stretch_margin(value);
}

static inline double stretch_up(double value)
{
    return value + stretch_margin(value);
}

/* A product that is zero although no factor is was too small for a double. */
static inline double stretch_product_down(double a, double b)
{
    double product = a * b;
    return product == 0 && a != 0 && b != 0 ? -0x1p-1000 : stretch_down(product);
}

static inline double stretch_product_up(double a, double b)
{
    double product = a * b;
    return product == 0 && a != 0 && b != 0 ? 0x1p-1000 : stretch_up(product);
}

static inline struct stretch stretch_of(struct num number)
{
    struct stretch stretch = {0};
    num_bounds(number, &stretch.low_at, &stretch.high_at);
    assert(stretch.low_at <= stretch.high_at);
    return stretch;
}

/* Whether it has no slope. */
static inline bool stretch_is_level(const struct stretch *stretch)
{
    return stretch->low_slope == 0 && stretch->high_slope == 0;
}

static inline struct stretch stretch_add(struct stretch a, struct stretch b)
{
    return (struct stretch){
        stretch_down(a.low_at + b.low_at), stretch_down(a.low_slope + b.low_slope),
        stretch_up(a.high_at + b.high_at), stretch_up(a.high_slope + b.high_slope)};
}

static inline struct stretch stretch_negate(struct stretch a)
{
    return (struct stretch){-a.high_at, -a.high_slope, -a.low_at, -a.low_slope};
}

static inline struct stretch stretch_subtract(struct stretch a, struct stretch b)
{
    return stretch_add(a, stretch_negate(b));
}

static inline struct stretch stretch_widen(struct stretch a, double low, double high)
{
    a.low_at = stretch_down(a.low_at + low);
    a.high_at = stretch_up(a.high_at + high);
    return a;
}

/* Multiplies by a level factor that is certainly not below zero. Each term of a line is bounded
 * separately: because t is above zero, the sum of the bounds is a bound on the sum. */
static inline struct stretch stretch_scale(struct stretch a, double least, double most)
{
    assert(!(least < 0) && !(most < least));
    return (struct stretch){stretch_product_down(a.low_at, a.low_at < 0 ? most : least),
                            stretch_product_down(a.low_slope, a.low_slope < 0 ? most : least),
                            stretch_product_up(a.high_at, a.high_at < 0 ? least : most),
                            stretch_product_up(a.high_slope, a.high_slope < 0 ? least : most)};
}

/* Multiplies by a level factor that may have either sign. */
struct stretch stretch_scale_around_zero(struct stretch a, const struct stretch *factor);

/* `factor` must be level: a number between two bounds. */
static inline struct stretch stretch_multiply(struct stretch a, const struct stretch *factor)
{
    if (!(factor->low_at < 0))
        return stretch_scale(a, factor->low_at, factor->high_at);
    if (factor->high_at <= 0)
        return stretch_negate(stretch_scale(a, -factor->high_at, -factor->low_at));
    return stretch_scale_around_zero(a, factor);
}

/* The inverse of a level stretch that does not contain zero. */
static inline struct stretch stretch_invert(const struct stretch *stretch)
{
    assert(stretch_is_level(stretch) && !(stretch->low_at <= 0 && stretch->high_at >= 0));
    return (struct stretch){stretch_down(1 / stretch->high_at), 0, stretch_up(1 / stretch->low_at),
                            0};
}

/* The bounds at a price. */
static inline double stretch_low(const struct stretch *stretch, int64_t price)
{
    return stretch_down(stretch->low_at + stretch_product_down(stretch->low_slope, (double)price));
}

static inline double stretch_high(const struct stretch *stretch, int64_t price)
{
    return stretch_up(stretch->high_at + stretch_product_up(stretch->high_slope, (double)price));
}

#endif
