/* Arithmetic of stretches, and where one crosses zero. Every operation rounds outward by more than
 * the machine may have rounded inward. */
#include <math.h>

#include "solve/line.h"

/* A result is off by at most half a unit in its last place, 2^-53 of it, and a price as a double by
 * as much; where a result is too small for a double of full length, it is off by next to nothing. A
 * sum that is zero is exactly so. */
static double down(double value)
{
    return value == 0 ? 0 : value - fabs(value) * 0x1p-51 - 0x1p-1000;
}

static double up(double value)
{
    return value == 0 ? 0 : value + fabs(value) * 0x1p-51 + 0x1p-1000;
}

/* A product that is zero although no factor is was too small for a double. */
static double product_down(double a, double b)
{
    double product = a * b;
    return product == 0 && a != 0 && b != 0 ? -0x1p-1000 : down(product);
}

static double product_up(double a, double b)
{
    double product = a * b;
    return product == 0 && a != 0 && b != 0 ? 0x1p-1000 : up(product);
}

static double lesser(double a, double b)
{
    return a < b ? a : b;
}

static double greater(double a, double b)
{
    return a > b ? a : b;
}

struct stretch stretch_of(struct num number)
{
    struct stretch stretch = {0};
    num_bounds(number, &stretch.low_at, &stretch.high_at);
    return stretch;
}

bool stretch_is_level(const struct stretch *stretch)
{
    return stretch->low_slope == 0 && stretch->high_slope == 0;
}

struct stretch stretch_add(struct stretch a, struct stretch b)
{
    return (struct stretch){down(a.low_at + b.low_at), down(a.low_slope + b.low_slope),
                            up(a.high_at + b.high_at), up(a.high_slope + b.high_slope)};
}

struct stretch stretch_negate(struct stretch a)
{
    return (struct stretch){-a.high_at, -a.high_slope, -a.low_at, -a.low_slope};
}

struct stretch stretch_subtract(struct stretch a, struct stretch b)
{
    return stretch_add(a, stretch_negate(b));
}

struct stretch stretch_widen(struct stretch a, double low, double high)
{
    a.low_at = down(a.low_at + low);
    a.high_at = up(a.high_at + high);
    return a;
}

/* The least and the greatest of a bound times either end of a factor above zero. */
static double least_product(double bound, const struct stretch *factor)
{
    return product_down(bound, bound < 0 ? factor->high_at : factor->low_at);
}

static double greatest_product(double bound, const struct stretch *factor)
{
    return product_up(bound, bound < 0 ? factor->low_at : factor->high_at);
}

/* For each term of a line apart: t is above zero, so a bound on each is a bound on their sum. */
struct stretch stretch_multiply(struct stretch a, const struct stretch *factor)
{
    if (factor->low_at < 0 && factor->high_at <= 0) {
        struct stretch turned = stretch_negate(*factor);
        return stretch_negate(stretch_multiply(a, &turned));
    }
    if (factor->low_at < 0) { /* a factor around zero: either sign of it, together */
        struct stretch above = {0, 0, factor->high_at, 0}, below = {0, 0, -factor->low_at, 0};
        struct stretch plus = stretch_multiply(a, &above);
        struct stretch minus = stretch_negate(stretch_multiply(a, &below));
        return (struct stretch){
            lesser(plus.low_at, minus.low_at), lesser(plus.low_slope, minus.low_slope),
            greater(plus.high_at, minus.high_at), greater(plus.high_slope, minus.high_slope)};
    }
    return (struct stretch){least_product(a.low_at, factor), least_product(a.low_slope, factor),
                            greatest_product(a.high_at, factor),
                            greatest_product(a.high_slope, factor)};
}

struct stretch stretch_invert(const struct stretch *stretch)
{
    return (struct stretch){down(1 / stretch->high_at), 0, up(1 / stretch->low_at), 0};
}

double stretch_low(const struct stretch *stretch, int64_t price)
{
    return down(stretch->low_at + product_down(stretch->low_slope, (double)price));
}

double stretch_high(const struct stretch *stretch, int64_t price)
{
    return up(stretch->high_at + product_up(stretch->high_slope, (double)price));
}

/* ---- crossing zero ---- */

/* Shortens the walk to before the place where at + slope·t crosses zero, as near as that can be
 * told; the walk keeps its first price. `still` says whether a price is surely before the place. */
static void shorten_to_crossing(struct walk *walk, double at, double slope,
                                bool still(const struct stretch *, int64_t),
                                const struct stretch *stretch)
{
    double root = -at / slope;
    if (root >= (double)COINS_MOST)
        return; /* beyond every price */
    int64_t end = root > (double)walk->from ? (int64_t)root + 1 : walk->from + 1;
    while (end > walk->from + 1 && !still(stretch, end - 1))
        end--;
    if (end < walk->end)
        walk->end = end;
}

static bool surely_not_below(const struct stretch *stretch, int64_t price)
{
    return stretch_low(stretch, price) >= 0;
}

static bool surely_below(const struct stretch *stretch, int64_t price)
{
    return stretch_high(stretch, price) < 0;
}

static bool any(const struct stretch *stretch, int64_t price)
{
    (void)stretch;
    (void)price;
    return true;
}

enum line_kind stretch_not_below_zero(struct walk *walk, const struct stretch *stretch)
{
    if (surely_not_below(stretch, walk->from)) {
        if (stretch->low_slope < 0)
            shorten_to_crossing(walk, stretch->low_at, stretch->low_slope, surely_not_below,
                                stretch);
        return LINE_YES;
    }
    if (surely_below(stretch, walk->from)) {
        if (stretch->high_slope > 0)
            shorten_to_crossing(walk, stretch->high_at, stretch->high_slope, surely_below, stretch);
        return LINE_NO;
    }
    /* Rounding decides, until a slope has carried both lines across. */
    if (stretch->low_slope > 0)
        shorten_to_crossing(walk, stretch->low_at, stretch->low_slope, any, stretch);
    else if (stretch->high_slope < 0)
        shorten_to_crossing(walk, stretch->high_at, stretch->high_slope, any, stretch);
    return LINE_EITHER;
}

enum line_kind stretch_above_zero(struct walk *walk, const struct stretch *stretch)
{
    struct stretch negated = stretch_negate(*stretch);
    return line_not(stretch_not_below_zero(walk, &negated));
}
