/* Where what is kept falls as the price rises. */
#include "solve/cliff.h"

#include "solve/line.h"
#include "solve/search.h"

/* One look ahead. */
struct lookout {
    struct evaluation *e;
    const struct member_code *member;
    struct walk walk;
    struct num kept;  /* at the price itself */
    struct num slack; /* the most that rounding alone may take of what is kept */
};

/* Whether from `from` up to the walk's end surely as much is kept (LINE_YES), surely less
 * (LINE_NO), or rounding decides. */
static enum line_kind compare_from(struct lookout *lookout, int64_t from)
{
    struct walk *walk = &lookout->walk;
    struct num_mark mark = num_heap_mark(lookout->e->heap);
    enum line_kind answer = LINE_EITHER;
    walk->from = from;
    walk_block(walk, lookout->member);
    walk->end = WALK_END;
    const struct line *keep = walk_amount(walk, lookout->member->keep);
    if (line_is_amount(keep)) {
        struct stretch gap = stretch_subtract(keep->top, stretch_of(lookout->kept));
        answer = stretch_not_below_zero(walk, &gap);
    } else {
        walk->end = from + 1;
    }
    num_heap_rewind(lookout->e->heap, mark);
    return answer;
}

/* Whether another piece may be looked at. */
static bool goes_on(const struct lookout *lookout, int pieces)
{
    return pieces < CLIFF_PIECES_MOST && lookout->e->steps_left > 0;
}

/* Whether less is kept at a price, by more than `slack`. */
static bool keeps_less(struct lookout *lookout, int64_t price, struct num slack)
{
    struct num_heap *heap = lookout->e->heap;
    struct num_mark mark = num_heap_mark(heap);
    struct num kept, lost;
    bool less = search_keep(lookout->e, lookout->member, price, &kept) &&
                num_subtract(heap, lookout->kept, kept, &lost) == NUM_OK &&
                num_order(heap, lost, slack) > 0;
    num_heap_rewind(heap, mark);
    return less;
}

/* What is kept is rounded once by each of its lines: by half a smallest unit at most, here and at
 * the price it is compared with. */
static bool find_slack(struct lookout *lookout)
{
    const struct program *program = lookout->e->program;
    int64_t lines = 0;
    for (size_t i = 0; i < lookout->member->block_count; i++)
        lines += program->steps[lookout->member->block[i]].operation == OP_ROUND;
    return num_multiply(lookout->e->heap, num_whole(lines), program->shop->smallest,
                        &lookout->slack) == NUM_OK;
}

/* The first price from `from` to `to` at which less is kept by more than rounding; false when there
 * is none. A price at which rounding decides which row of a table holds is tried by itself. */
static bool find_fall(struct lookout *lookout, int64_t from, int64_t to, int64_t *fall)
{
    for (int pieces = 0; from <= to && goes_on(lookout, pieces); pieces++) {
        enum line_kind answer = compare_from(lookout, from);
        bool alone = answer == LINE_EITHER && lookout->walk.end == from + 1;
        if (answer == LINE_NO || (alone && keeps_less(lookout, from, lookout->slack))) {
            *fall = from;
            return true;
        }
        if (lookout->walk.end == WALK_END)
            return false;
        from = lookout->walk.end;
    }
    return false;
}

/* The first of the prices in a row up to a fall at which less is kept: beside it rounding may
 * decide, and so it may have been passed over. */
static int64_t first_with_less(struct lookout *lookout, int64_t price, int64_t fall)
{
    for (int tries = 0; fall - 1 > price && goes_on(lookout, tries); tries++, fall--)
        if (!keeps_less(lookout, fall - 1, num_whole(0)))
            break;
    return fall;
}

/* How far less is kept beyond the first price, as far as is looked. Where the slope of what is kept
 * is zero but for the machine's roundings, the line ends at some price beyond every shop's: if less
 * is kept there too, it is taken to be so for ever. */
static void find_end(struct lookout *lookout, struct cliff *cliff)
{
    int64_t from = cliff->first + 1;
    bool less = true;
    for (int pieces = 0; less && goes_on(lookout, pieces); pieces++) {
        enum line_kind answer = compare_from(lookout, from);
        if (answer == LINE_EITHER)
            lookout->walk.end = from + 1;
        less =
            answer == LINE_NO || (answer == LINE_EITHER && keeps_less(lookout, from, num_whole(0)));
        cliff->endless = less && (lookout->walk.end == WALK_END || from >= WALK_FAR);
        if (cliff->endless)
            return;
        if (less)
            from = lookout->walk.end;
    }
    cliff->last = from - 1;
}

/* The same at the price itself, where the search may have been last. */
static bool keep_here(struct lookout *lookout, int64_t price, bool tried)
{
    const struct value *kept = &lookout->e->values[lookout->member->keep];
    if (!tried || kept->state != VALUE_THERE || kept->number.bottom <= 0)
        return search_keep(lookout->e, lookout->member, price, &lookout->kept);
    lookout->kept = kept->number;
    return true;
}

static struct lookout lookout_from(struct evaluation *evaluation, const struct member_code *member)
{
    struct lookout lookout = {.e = evaluation, .member = member};
    lookout.walk = (struct walk){.evaluation = evaluation, .lines = evaluation->lines};
    walk_ready(&lookout.walk, member);
    return lookout;
}

static bool find_cliff(struct lookout *lookout, int64_t price, int64_t to, struct cliff *cliff)
{
    int64_t fall;
    if (!find_slack(lookout) || !find_fall(lookout, price + 1, to, &fall))
        return false;
    *cliff = (struct cliff){.first = first_with_less(lookout, price, fall), .last = COINS_MOST};
    find_end(lookout, cliff);
    return true;
}

bool cliff_above(struct evaluation *evaluation, const struct member_code *member, int64_t price,
                 bool tried, struct cliff *cliff)
{
    if (!member->jumps || price >= COINS_MOST / 2)
        return false;
    struct lookout lookout = lookout_from(evaluation, member);
    int64_t reach = price / CLIFF_REACH_PART;
    return keep_here(&lookout, price, tried) &&
           find_cliff(&lookout, price, price + (reach > 0 ? reach : 1), cliff);
}

bool cliff_below(struct evaluation *evaluation, const struct member_code *member, int64_t price,
                 struct num amount, struct cliff *cliff)
{
    if (!member->jumps || price >= COINS_MOST / 2)
        return false;
    struct lookout lookout = lookout_from(evaluation, member);
    lookout.kept = amount;
    return find_cliff(&lookout, price, COINS_MOST / 2, cliff);
}
