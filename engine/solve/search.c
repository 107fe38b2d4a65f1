#include "solve/search.h"

#include <assert.h>

#include "solve/line.h"

/* One search at work. */
struct search {
    struct evaluation *e;
    const struct search_code *code;
    const struct ladder *ladder;
    struct finding *finding;
    uint32_t step;
    int64_t floor, ceiling; /* the least and the greatest price there may be */
    bool has_ceiling;
    size_t trials, bends;
};

size_t search_room(const struct program *program)
{
    return program->count * sizeof(struct line);
}

static struct value money_of(const struct search *search, int64_t coins)
{
    struct num money;
    assert(coins > -COINS_MOST && coins <= COINS_MOST);
    enum num_status status =
        num_multiply(search->e->heap, num_whole(coins), search->e->program->shop->smallest, &money);
    return status == NUM_OK ? value_number(money) : value_error(FAULT_TOO_LARGE, search->step);
}

static bool in_coins(const struct search *search, struct num money, struct num *coins)
{
    return num_divide(search->e->heap, money, search->e->program->shop->smallest, coins) == NUM_OK;
}

/* The least allowed price from one on; false where the ladder ends before. */
static bool next_allowed(struct search *search, int64_t from, int64_t *price)
{
    evaluate_spend(search->e, search->ladder->work);
    return ladder_next(search->ladder, from, price);
}

/* A channel that does not sell the product has no say in a price it would share. */
static bool takes_part(const struct search *search, const struct member_code *member)
{
    return search->code->count == 1 || member->sold == NO_STEP ||
           value_is_yes(search->e->values[member->sold]);
}

/* ---- floors and ceilings ---- */

/* The highest floor and the lowest ceiling of those that take part. Gives the error of one. */
static struct value find_bounds(struct search *search)
{
    const struct value *values = search->e->values;
    search->floor = 1;
    for (size_t i = 0; i < search->code->count; i++) {
        const struct member_code *member = &search->code->members[i];
        if (!takes_part(search, member))
            continue;
        struct value bounds[] = {member->floor == NO_STEP ? value_missing() : values[member->floor],
                                 member->ceiling == NO_STEP ? value_missing()
                                                            : values[member->ceiling]};
        for (int k = 0; k < 2; k++) {
            if (bounds[k].state == VALUE_ERROR)
                return bounds[k];
            if (bounds[k].state == VALUE_MISSING)
                continue;
            if (!evaluate_goes_on(search->e))
                return value_error(FAULT_TOO_MANY_STEPS, search->step);
            struct num coins;
            int64_t bound;
            bool fits = in_coins(search, bounds[k].number, &coins) &&
                        coins_round(search->e->heap, coins, k == 0 ? NUM_UP : NUM_DOWN, &bound);
            if (!fits)
                return value_error(FAULT_PRICE_TOO_LARGE, search->step);
            if (k == 0 && bound > search->floor)
                search->floor = bound;
            if (k == 1 && (!search->has_ceiling || bound < search->ceiling)) {
                search->has_ceiling = true;
                search->ceiling = bound;
            }
        }
    }
    return value_missing();
}

/* The greatest allowed price from floor to ceiling. */
static struct value hold_to_ceiling(struct search *search)
{
    int64_t price;
    assert(search->has_ceiling && search->floor >= 1);
    if (!ladder_previous(search->ladder, search->ceiling, &price) || price < search->floor)
        return value_error(FAULT_NOTHING_ALLOWED, search->step);
    search->finding->held = true;
    return money_of(search, price);
}

/* ---- a set price ---- */

/* The greatest of the prices set by those that take part, each rounded. */
static struct value greatest_set(struct search *search, int64_t *price)
{
    *price = 0;
    for (size_t i = 0; i < search->code->count; i++) {
        const struct member_code *member = &search->code->members[i];
        if (!takes_part(search, member))
            continue;
        struct value set = search->e->values[member->set];
        if (set.state != VALUE_THERE)
            return set;
        if (num_sign(set.number) <= 0)
            return value_error(FAULT_NOT_ABOVE_ZERO, search->step);
        evaluate_spend(search->e, 2 * search->ladder->work);
        if (!evaluate_goes_on(search->e))
            return value_error(FAULT_TOO_MANY_STEPS, search->step);
        struct num coins;
        int64_t rounded;
        if (!in_coins(search, set.number, &coins) ||
            !coins_round(search->e->heap, coins, NUM_UP, &rounded))
            return value_error(FAULT_PRICE_TOO_LARGE, search->step);
        if (!ladder_round(search->e->heap, search->ladder, coins, search->code->rounding, &rounded))
            return value_error(FAULT_LADDER_ENDS, search->step);
        *price = rounded > *price ? rounded : *price;
    }
    return value_number(num_whole(0));
}

static struct value find_set(struct search *search)
{
    int64_t price;
    struct value outcome = greatest_set(search, &price);
    if (outcome.state != VALUE_THERE)
        return outcome;
    search->finding->found = true;
    search->finding->wanted = price;
    if (search->has_ceiling && price > search->ceiling)
        return hold_to_ceiling(search);
    if (price < search->floor) {
        search->finding->raised = true;
        if (!next_allowed(search, search->floor, &price) ||
            (search->has_ceiling && price > search->ceiling))
            return value_error(FAULT_NOTHING_ALLOWED, search->step);
    }
    return money_of(search, price);
}

/* ---- an aim ---- */

/* Works out at a price what a channel needs of it. */
static void try_member(struct evaluation *e, const struct member_code *member, struct value price)
{
    e->values[member->trial] = price;
    evaluate_list(e, member->block, member->block_count);
}

/* Whether every aim holds at this price, by working it all out. */
static bool holds_at(struct search *search, int64_t price, struct value *error)
{
    struct evaluation *e = search->e;
    struct num_mark mark = num_heap_mark(e->heap);
    struct value money = money_of(search, price);
    bool holds = money.state == VALUE_THERE;
    for (size_t i = 0; i < search->code->count && holds; i++) {
        const struct member_code *member = &search->code->members[i];
        if (!takes_part(search, member))
            continue;
        try_member(e, member, money);
        struct value answer = e->values[member->aim];
        if (answer.state == VALUE_ERROR)
            *error = answer;
        holds = value_is_yes(answer);
    }
    num_heap_rewind(e->heap, mark);
    search->trials++;
    return holds;
}

/* What the aims say from a price on. */
struct outlook {
    enum line_kind aims; /* LINE_YES, LINE_NO, or LINE_EITHER: rounding decides */
    int64_t end;         /* up to which, not including it, that is so */
    bool crosses;        /* they fail until then for their own sake, not up to a bend beside them */
    bool endless;        /* they fail for ever, and what is kept has no bend ahead */
    struct value why;    /* the error that an aim is in whatever the price; missing without one */
};

/* Up to which price a condition is surely not met; 0 where it may be. One side of an `and` is
 * enough. */
static int64_t fails_until(const struct walk *walk, uint32_t condition)
{
    const struct step *step = &walk->evaluation->program->steps[condition];
    if (step->operation == OP_AND && step->on_trial) {
        int64_t left = fails_until(walk, step->a), right = fails_until(walk, step->b);
        return left > right ? left : right;
    }
    const struct line *line = &walk->lines[condition];
    enum line_kind answer = line_answer(line);
    return answer == LINE_NO || answer == LINE_MISSING || answer == LINE_ERROR ? line->end : 0;
}

/* Adds what one aim has to say. While one fails, they do not hold together. */
static void add_aim(const struct walk *walk, const struct member_code *member,
                    struct outlook *outlook)
{
    const struct line *aim = &walk->lines[member->aim];
    int64_t failing = fails_until(walk, member->aim);
    if (aim->kind == LINE_ERROR && aim->origin != 0)
        outlook->why = value_error((enum fault)aim->fault, aim->origin);
    if (failing == 0 && outlook->aims == LINE_NO)
        return;
    if (failing > 0 && (outlook->aims != LINE_NO || failing > outlook->end)) {
        outlook->aims = LINE_NO;
        outlook->end = failing;
    } else if (failing == 0) {
        outlook->aims = line_and(outlook->aims, line_answer(aim));
        outlook->end = aim->end < outlook->end ? aim->end : outlook->end;
    }
}

static struct outlook look_ahead(struct search *search, struct walk *walk, int64_t price)
{
    struct outlook outlook = {.aims = LINE_YES, .end = WALK_END, .why = value_missing()};
    struct num_mark mark = num_heap_mark(search->e->heap);
    int64_t bend = WALK_END;
    walk->from = price;
    for (size_t i = 0; i < search->code->count; i++) {
        const struct member_code *member = &search->code->members[i];
        if (!takes_part(search, member))
            continue;
        walk_block(walk, member);
        add_aim(walk, member, &outlook);
        const struct line *keep = &walk->lines[member->keep];
        bend = keep->end < bend ? keep->end : bend;
    }
    num_heap_rewind(search->e->heap, mark);
    outlook.crosses = outlook.end < bend;
    if (outlook.aims == LINE_NO && outlook.end == WALK_END) {
        outlook.endless = bend == WALK_END;
        outlook.end = bend;
    }
    return outlook;
}

/* Tries the allowed prices from `*price` up to `end`; `*price` is where to go on otherwise. */
static bool try_each(struct search *search, int64_t end, int64_t *price, bool *more,
                     struct value *error)
{
    int64_t stop = end - *price > SEARCH_WINDOW ? *price + SEARCH_WINDOW : end;
    do {
        if (holds_at(search, *price, error))
            return true;
        *more = next_allowed(search, *price + 1, price);
    } while (*more && *price < stop && search->trials <= search->e->program->limits.trials &&
             search->e->steps_left > 0);
    return false;
}

bool search_keep(struct evaluation *e, const struct member_code *member, int64_t price,
                 struct num *kept)
{
    struct num money;
    if (num_multiply(e->heap, num_whole(price), e->program->shop->smallest, &money) != NUM_OK)
        return false;
    try_member(e, member, value_number(money));
    *kept = e->values[member->keep].number;
    return e->values[member->keep].state == VALUE_THERE;
}

/* Whether a part of an aim, `price <= $40`, holds at the lowest price and not at a far higher
 * one. */
static bool is_capped(struct search *search, int64_t far)
{
    struct evaluation *e = search->e;
    struct value low_money = money_of(search, 1), far_money = money_of(search, far);
    for (size_t i = 0; i < search->code->count; i++) {
        const struct member_code *member = &search->code->members[i];
        if (!takes_part(search, member) || far_money.state != VALUE_THERE)
            continue;
        for (size_t k = 0; k < member->parts_count && e->steps_left > 0; k++) {
            try_member(e, member, low_money);
            bool holds = value_is_yes(e->values[member->parts[k].step]);
            try_member(e, member, far_money);
            if (holds && !value_is_yes(e->values[member->parts[k].step]))
                return true;
        }
    }
    return false;
}

/* Whether the aims hold at a price far beyond all that the engine can handle: then there is a price
 * for them, but it is too large. */
static bool holds_beyond(struct search *search)
{
    struct evaluation *e = search->e;
    struct num far;
    if (num_multiply(e->heap, num_whole(COINS_MOST), num_whole(COINS_MOST), &far) != NUM_OK)
        return false;
    for (size_t i = 0; i < search->code->count; i++) {
        const struct member_code *member = &search->code->members[i];
        if (!takes_part(search, member))
            continue;
        try_member(e, member, value_number(far));
        if (!value_is_yes(e->values[member->aim]))
            return false;
    }
    return true;
}

/* Whether it is not so whatever the price. */
static bool is_fixed_no(const struct search *search, uint32_t condition)
{
    return !search->e->program->steps[condition].on_trial &&
           !value_is_yes(search->e->values[condition]);
}

/* Notes what does not hold and does not depend on the price either. */
static void note_fixed(struct search *search)
{
    for (size_t i = 0; i < search->code->count; i++) {
        const struct member_code *member = &search->code->members[i];
        if (!takes_part(search, member))
            continue;
        search->finding->fixed = search->finding->fixed || is_fixed_no(search, member->aim);
        for (size_t k = 0; k < member->parts_count; k++)
            search->finding->fixed_part =
                search->finding->fixed_part || is_fixed_no(search, member->parts[k].step);
    }
}

enum { FAR = 1000000000 }; /* in smallest units: over so many, what rounding adds cannot be seen */

/* What is left of a margin's profit above the share that an aim asks for, at the price tried
 * last. */
static bool spare_profit(struct evaluation *e, const struct step *order, struct num *spare)
{
    const struct step *margin = &e->program->steps[order->b];
    struct value share = e->values[order->a];
    struct value profit = e->values[margin->a], net = e->values[margin->b];
    struct num asked;
    return share.state == VALUE_THERE && profit.state == VALUE_THERE && net.state == VALUE_THERE &&
           num_multiply(e->heap, share.number, net.number, &asked) == NUM_OK &&
           num_subtract(e->heap, profit.number, asked, spare) == NUM_OK;
}

/* The part of an aim that asks for a margin: `margin >= 25%`; NULL where it has none. */
static const struct step *margin_part(const struct program *program,
                                      const struct member_code *member)
{
    for (size_t i = 0; i < member->parts_count; i++) {
        const struct step *step = &program->steps[member->parts[i].step];
        bool order = step->operation == OP_BELOW || step->operation == OP_UP_TO;
        if (order && step->on_trial && program->steps[step->b].operation == OP_MARGIN)
            return step;
    }
    return NULL;
}

/* Of each unit more on the price, how much a margin asks for beside what is kept. */
static void note_asked(struct search *search, int64_t price, struct num width)
{
    struct evaluation *e = search->e;
    const struct member_code *member = &search->code->members[0];
    const struct step *order = margin_part(e->program, member);
    struct num near, far, lost, kept, asked;
    if (!order || !search_keep(e, member, price, &kept) || !spare_profit(e, order, &near) ||
        !search_keep(e, member, price + FAR, &kept) || !spare_profit(e, order, &far) ||
        num_subtract(e->heap, near, far, &lost) != NUM_OK || num_sign(lost) < 0 ||
        num_divide(e->heap, lost, width, &lost) != NUM_OK ||
        num_add(e->heap, search->finding->slope, lost, &asked) != NUM_OK)
        return;
    search->finding->has_asked = true;
    search->finding->asked = asked;
}

/* How what is kept goes on with the price once there is no bend ahead, for the reason why there is
 * none; its error if it has no value. */
static void note_slope(struct search *search, int64_t price, struct value *error)
{
    struct evaluation *e = search->e;
    const struct member_code *member = &search->code->members[0];
    struct num near, far, slope;
    struct value width = money_of(search, FAR);
    if (!search_keep(e, member, price, &near)) {
        if (e->values[member->keep].state == VALUE_ERROR)
            *error = e->values[member->keep];
        return;
    }
    if (width.state != VALUE_THERE || !search_keep(e, member, price + FAR, &far) ||
        num_subtract(e->heap, far, near, &slope) != NUM_OK ||
        num_divide(e->heap, slope, width.number, &slope) != NUM_OK)
        return;
    search->finding->has_slope = true;
    search->finding->slope = slope;
    search->finding->capped = num_sign(slope) > 0 && is_capped(search, price + FAR);
    note_asked(search, price, width.number);
}

/* Tries the first price past a failing stretch before it looks ahead: most often the aims hold
 * there, and then there is nothing more to look for. Where one is in error, looking says more. */
static bool hold_at_once(struct search *search, int64_t *price, bool *more)
{
    struct value error = value_missing();
    if (holds_at(search, *price, &error))
        return true;
    if (error.state != VALUE_ERROR)
        *more = next_allowed(search, *price + 1, price);
    return false;
}

enum outcome { FOUND, NONE, GAVE_UP };

/* The least price that meets every aim. `*error` on giving up, or the last error of an aim. */
static enum outcome climb(struct search *search, int64_t *price, struct value *error)
{
    const struct limits *limits = &search->e->program->limits;
    struct walk walk = {.evaluation = search->e, .lines = search->e->lines};
    bool more = next_allowed(search, search->floor, price);
    for (size_t i = 0; i < search->code->count; i++) {
        evaluate_spend(search->e, search->code->members[i].inputs_count);
        walk_ready(&walk, &search->code->members[i]);
    }
    while (more) {
        if (search->trials > limits->trials || search->bends++ > limits->bends) {
            bool trials = search->trials > limits->trials;
            *error =
                value_error(trials ? FAULT_TOO_MANY_TRIALS : FAULT_TOO_MANY_BENDS, search->step);
            return GAVE_UP;
        }
        struct outlook outlook = look_ahead(search, &walk, *price);
        if (search->e->steps_left == 0) {
            *error = value_error(FAULT_TOO_MANY_STEPS, search->step);
            return GAVE_UP;
        }
        if (outlook.endless) {
            note_slope(search, *price, error);
            if (outlook.why.state == VALUE_ERROR)
                *error = outlook.why;
            note_fixed(search);
            if (holds_beyond(search))
                *error = value_error(FAULT_PRICE_TOO_LARGE, search->step);
            return NONE;
        }
        if (outlook.aims != LINE_NO) {
            if (try_each(search, outlook.end, price, &more, error))
                return FOUND;
            continue;
        }
        more = next_allowed(search, outlook.end, price);
        if (more && outlook.crosses && hold_at_once(search, price, &more))
            return FOUND;
    }
    search->finding->ladder_ends = true;
    return NONE;
}

static struct value find_aim(struct search *search)
{
    int64_t price;
    struct value error = value_missing();
    enum outcome outcome = climb(search, &price, &error);
    if (outcome == GAVE_UP)
        return error;
    search->finding->found = outcome == FOUND;
    search->finding->tried = outcome == FOUND;
    if (outcome == FOUND)
        search->finding->wanted = price;
    if (search->has_ceiling && (outcome == NONE || price > search->ceiling))
        return hold_to_ceiling(search);
    if (outcome == FOUND)
        return money_of(search, price);
    return error.state == VALUE_ERROR ? error : value_error(FAULT_NO_PRICE, search->step);
}

struct value search_find(struct evaluation *evaluation, uint32_t number, uint32_t step)
{
    const struct search_code *code = &evaluation->program->searches[number];
    struct search search = {.e = evaluation,
                            .code = code,
                            .ladder = &evaluation->settled->ladders[code->ladder],
                            .finding = &evaluation->findings[number],
                            .step = step};
    *search.finding = (struct finding){0};
    bool anyone = false;
    for (size_t i = 0; i < code->count; i++)
        anyone = anyone || takes_part(&search, &code->members[i]);
    if (!anyone)
        return value_missing();
    struct value bounds = find_bounds(&search);
    if (bounds.state == VALUE_ERROR)
        return bounds;
    return code->members[0].aim == NO_STEP ? find_set(&search) : find_aim(&search);
}
