/* Arithmetic of stretches, and where one crosses zero. */
#include "solve/line.h"

static void note(struct walk *walk, enum num_status status)
{
    if (status == NUM_OK || walk->failed)
        return;
    walk->failed = true;
    walk->fault = status == NUM_NO_MEMORY ? FAULT_NO_MEMORY : FAULT_TOO_LARGE;
}

static struct num sum(struct walk *walk, struct num a, struct num b)
{
    struct num out = a;
    note(walk, num_add(walk->evaluation->heap, a, b, &out));
    return out;
}

static struct num difference(struct walk *walk, struct num a, struct num b)
{
    struct num out = a;
    note(walk, num_subtract(walk->evaluation->heap, a, b, &out));
    return out;
}

static struct num product(struct walk *walk, struct num a, struct num b)
{
    struct num out = a;
    note(walk, num_multiply(walk->evaluation->heap, a, b, &out));
    return out;
}

struct stretch stretch_fixed(struct num number)
{
    struct num zero = num_whole(0);
    return (struct stretch){number, zero, zero, zero};
}

bool stretch_is_fixed(const struct stretch *stretch)
{
    return num_sign(stretch->slope) == 0 && num_sign(stretch->low) == 0 &&
           num_sign(stretch->high) == 0;
}

struct stretch stretch_add(struct walk *walk, struct stretch a, struct stretch b)
{
    return (struct stretch){sum(walk, a.at, b.at), sum(walk, a.slope, b.slope),
                            sum(walk, a.low, b.low), sum(walk, a.high, b.high)};
}

struct stretch stretch_subtract(struct walk *walk, struct stretch a, struct stretch b)
{
    return (struct stretch){difference(walk, a.at, b.at), difference(walk, a.slope, b.slope),
                            difference(walk, a.low, b.high), difference(walk, a.high, b.low)};
}

struct stretch stretch_scale(struct walk *walk, struct stretch a, struct num factor)
{
    struct num low = product(walk, a.low, factor), high = product(walk, a.high, factor);
    bool flips = num_sign(factor) < 0;
    return (struct stretch){product(walk, a.at, factor), product(walk, a.slope, factor),
                            flips ? high : low, flips ? low : high};
}

/* The value of at + slope·t + add at t = walk->from. */
static struct num value_at_start(struct walk *walk, const struct stretch *stretch, struct num add)
{
    struct num moved = product(walk, stretch->slope, num_whole(walk->from));
    return sum(walk, sum(walk, stretch->at, moved), add);
}

static void shorten(struct walk *walk, int64_t end)
{
    if (end < walk->end)
        walk->end = end;
}

/* Shortens the walk to before the first whole t at which at + slope·t + add has crossed zero in the
 * direction of the slope: at or above zero when it rises, below zero when it falls. At the walk's
 * start it has not crossed yet, so the place is beyond it. */
static void shorten_to_crossing(struct walk *walk, const struct stretch *stretch, struct num add)
{
    int direction = num_sign(stretch->slope);
    if (direction == 0)
        return;
    struct num root = sum(walk, stretch->at, add), whole;
    struct num_heap *heap = walk->evaluation->heap;
    note(walk, num_divide(heap, root, stretch->slope, &root));
    note(walk, num_negate(heap, root, &root));
    /* Rising: the first t not below the root. Falling: the first t above it. */
    enum num_rounding rounding = direction > 0 ? NUM_UP : NUM_DOWN;
    if (num_round(heap, root, rounding, &whole) != NUM_OK) {
        walk->failed = true;
        walk->fault = FAULT_TOO_LARGE;
        return;
    }
    int64_t crossing;
    if (num_to_int64(whole, &crossing) && crossing < COINS_MOST)
        shorten(walk, direction > 0 ? crossing : crossing + 1);
}

enum line_kind stretch_not_below_zero(struct walk *walk, const struct stretch *stretch)
{
    struct num least = value_at_start(walk, stretch, stretch->low);
    if (num_sign(least) >= 0) {
        if (num_sign(stretch->slope) < 0)
            shorten_to_crossing(walk, stretch, stretch->low);
        return LINE_YES;
    }
    struct num most = value_at_start(walk, stretch, stretch->high);
    if (num_sign(most) < 0) {
        if (num_sign(stretch->slope) > 0)
            shorten_to_crossing(walk, stretch, stretch->high);
        return LINE_NO;
    }
    /* Rounding decides until the slope has carried the whole band across. */
    shorten_to_crossing(walk, stretch, num_sign(stretch->slope) > 0 ? stretch->low : stretch->high);
    return LINE_EITHER;
}

enum line_kind stretch_above_zero(struct walk *walk, const struct stretch *stretch)
{
    struct stretch negated = stretch_scale(walk, *stretch, num_whole(-1));
    return line_not(stretch_not_below_zero(walk, &negated));
}
