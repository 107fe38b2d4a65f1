/* Where a stretch crosses zero, and the one product that takes more than a line. */
#include "solve/line.h"

#include <assert.h>

static double lesser(double a, double b)
{
    return a < b ? a : b;
}

static double greater(double a, double b)
{
    return a > b ? a : b;
}

struct stretch stretch_scale_around_zero(struct stretch a, const struct stretch *factor)
{
    struct stretch plus = stretch_scale(a, 0, factor->high_at);
    struct stretch minus = stretch_negate(stretch_scale(a, 0, -factor->low_at));
    return (struct stretch){
        lesser(plus.low_at, minus.low_at), lesser(plus.low_slope, minus.low_slope),
        greater(plus.high_at, minus.high_at), greater(plus.high_slope, minus.high_slope)};
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
    /* Where prices are large, so are the roundings: ever longer steps back. */
    for (int64_t back = 1; end > walk->from + 1 && !still(stretch, end - 1); back *= 2)
        end = end - walk->from > back ? end - back : walk->from + 1;
    assert(end > walk->from);
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
