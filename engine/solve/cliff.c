/* Where what is kept falls as the price rises. */
#include "solve/cliff.h"

#include "solve/line.h"

/* One look ahead. */
struct lookout {
    struct evaluation *e;
    const struct member_code *member;
    struct walk walk;
    struct num kept; /* at the price itself */
    size_t pieces_left;
};

/* What is kept at a price, by working it all out; false when it is nothing that can be compared. */
static bool keep_at(struct lookout *lookout, int64_t price, struct num *kept)
{
    struct evaluation *e = lookout->e;
    const struct member_code *member = lookout->member;
    struct num money;
    if (num_multiply(e->heap, num_whole(price), e->program->shop->smallest, &money) != NUM_OK)
        return false;
    e->values[member->trial] = value_number(money);
    evaluate_list(e, member->block, member->block_count);
    struct value value = e->values[member->keep];
    *kept = value.number;
    return value.state == VALUE_THERE;
}

/* Whether from `from` up to the walk's end surely as much is kept (LINE_YES), surely less (LINE_NO),
 * or rounding decides. */
static enum line_kind compare_from(struct lookout *lookout, int64_t from)
{
    struct walk *walk = &lookout->walk;
    walk->from = from;
    walk->end = WALK_END;
    walk_block(walk, lookout->member);
    const struct line *keep = walk_amount(walk, lookout->member->keep);
    if (!line_is_amount(keep)) {
        walk->end = from + 1;
        return LINE_EITHER;
    }
    struct stretch gap = stretch_subtract(keep->top, stretch_of(lookout->kept));
    return stretch_not_below_zero(walk, &gap);
}

/* The first price from `from` to `to` with surely less kept; false when there is none. */
static bool find_start(struct lookout *lookout, int64_t from, int64_t to, int64_t *start)
{
    while (from <= to && lookout->pieces_left-- > 0) {
        struct num_mark mark = num_heap_mark(lookout->e->heap);
        enum line_kind answer = compare_from(lookout, from);
        num_heap_rewind(lookout->e->heap, mark);
        if (answer == LINE_NO) {
            *start = from;
            return true;
        }
        if (lookout->walk.end == WALK_END)
            return false;
        from = lookout->walk.end;
    }
    return false;
}

/* The last price, from a start on, up to which less is kept; false when that never ends. */
static bool find_end(struct lookout *lookout, int64_t from, int64_t *last)
{
    while (lookout->pieces_left-- > 0) {
        struct num_mark mark = num_heap_mark(lookout->e->heap);
        enum line_kind answer = compare_from(lookout, from);
        struct num kept = num_whole(0);
        bool less = answer == LINE_NO;
        if (answer == LINE_EITHER) {
            less = keep_at(lookout, from, &kept) && num_compare(kept, lookout->kept) < 0;
            lookout->walk.end = from + 1;
        }
        num_heap_rewind(lookout->e->heap, mark);
        if (!less) {
            *last = from - 1;
            return true;
        }
        if (lookout->walk.end == WALK_END)
            return false;
        from = lookout->walk.end;
    }
    return false;
}

bool cliff_above(struct evaluation *evaluation, const struct member_code *member, int64_t price,
                 struct cliff *cliff)
{
    if (!member->jumps || price >= COINS_MOST / 2)
        return false;
    struct lookout lookout = {.e = evaluation, .member = member, .pieces_left = CLIFF_PIECES_MOST};
    lookout.walk = (struct walk){.evaluation = evaluation, .lines = evaluation->lines};
    walk_ready(&lookout.walk, member);
    int64_t reach = price / CLIFF_REACH_PART;
    if (!keep_at(&lookout, price, &lookout.kept) ||
        !find_start(&lookout, price + 1, price + (reach > 0 ? reach : 1), &cliff->first))
        return false;
    cliff->endless = !find_end(&lookout, cliff->first, &cliff->last);
    return true;
}
