/* Allowed prices, counted in the currency's smallest units. */
#include "evaluate/evaluate.h"

#include <assert.h>

/* `from` if it is a multiple of `every` plus the offset; otherwise the next such number up or
 * down. */
static int64_t to_multiple(int64_t from, int64_t every, int64_t offset, bool up)
{
    assert(every > 0 && from >= 0);
    int64_t behind = (from - offset) % every;
    if (behind < 0)
        behind += every;
    return up && behind > 0 ? from + (every - behind) : from - behind;
}

static int64_t rung_nearest(const struct rung *rung, int64_t from, bool up)
{
    if (rung->every)
        return to_multiple(from, rung->every, 0, up);
    int64_t nearest = up ? INT64_MAX : INT64_MIN;
    for (size_t i = 0; i < rung->count; i++) {
        int64_t point = to_multiple(from, rung->periods[i], rung->endings[i], up);
        nearest = (point < nearest) == up ? point : nearest;
    }
    return nearest;
}

bool ladder_next(const struct ladder *ladder, int64_t from, int64_t *price)
{
    if (from > COINS_MOST)
        return false;
    for (size_t i = 0; i < ladder->count; i++) {
        const struct rung *rung = &ladder->rungs[i];
        int64_t low = from > rung->from ? from : rung->from;
        if (low >= rung->to)
            continue;
        int64_t point = rung_nearest(rung, low, true);
        assert(point >= low);
        if (point < rung->to) {
            *price = point;
            return true;
        }
    }
    return false;
}

bool ladder_previous(const struct ladder *ladder, int64_t from, int64_t *price)
{
    for (size_t i = ladder->count; i-- > 0;) {
        const struct rung *rung = &ladder->rungs[i];
        int64_t high = from < rung->to - 1 ? from : rung->to - 1;
        if (high < rung->from)
            continue;
        int64_t point = rung_nearest(rung, high, false);
        assert(point <= high);
        if (point >= rung->from) {
            *price = point;
            return true;
        }
    }
    return false;
}

bool coins_round(struct num_heap *heap, struct num coins, enum num_rounding rounding, int64_t *out)
{
    struct num whole;
    return num_round(heap, coins, rounding, &whole) == NUM_OK && num_to_int64(whole, out) &&
           (*out < COINS_MOST) && (*out > -COINS_MOST);
}

bool ladder_round(struct num_heap *heap, const struct ladder *ladder, struct num coins,
                  enum num_rounding rounding, int64_t *price)
{
    int64_t up, down, above = 0, below = 0;
    if (!coins_round(heap, coins, NUM_UP, &up) || !coins_round(heap, coins, NUM_DOWN, &down))
        return false;
    bool has_above = ladder_next(ladder, up > 1 ? up : 1, &above);
    bool has_below = down >= 1 && ladder_previous(ladder, down, &below);
    if (rounding == NUM_UP || (rounding != NUM_DOWN && !has_below)) {
        *price = above;
        return has_above;
    }
    if (rounding == NUM_DOWN || !has_above) {
        *price = below;
        return has_below;
    }
    struct num over, under;
    if (num_subtract(heap, num_whole(above), coins, &over) != NUM_OK ||
        num_subtract(heap, coins, num_whole(below), &under) != NUM_OK)
        return false;
    *price = num_order(heap, over, under) <= 0 ? above : below;
    return true;
}
