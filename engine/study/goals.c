#include "study/goals.h"

#include <stdlib.h>
#include <string.h>

#include "study/taken.h"

/* ---- rows ---- */

/* A new row at the end of the study, all its amounts absent; NULL when memory runs out. */
static struct goals_row *new_row(struct goals *goals)
{
    struct goals_row **rows = arena_grow(&goals->arena, goals->rows, sizeof(struct goals_row *),
                                         &goals->room, goals->count + 1);
    struct goals_row *row = rows ? arena_take(&goals->arena, sizeof *row) : NULL;
    goals->rows = rows ? rows : goals->rows;
    if (!row)
        return NULL;
    row->place = goals->count;
    return rows[goals->count++] = row;
}

void goals_open(struct goals *goals, const groat_method *method, struct amount pace)
{
    *goals = (struct goals){.method = method};
    amounts_open(&goals->amounts);
    arena_open(&goals->arena, &goals->amounts.memory);
    goals->pace = amount_copy(&goals->amounts, pace);
}

void goals_close(struct goals *goals)
{
    arena_close(&goals->arena);
    amounts_close(&goals->amounts);
}

/* ---- answering ---- */

static bool is_above_zero(struct amount amount)
{
    return amount_sign(amount) > 0;
}

/* How many sales: nothing is needed, nothing is given, or needs by gives. */
static void count_sales(struct goals *goals, struct goals_row *row)
{
    struct amounts *room = &goals->amounts;
    row->sales = amount_whole(0);
    if (is_above_zero(row->needs))
        row->sales = amount_divide(room, row->needs, row->gives);
    if (row->per_time) {
        row->sales_per_week = amount_times(room, row->sales, GOALS_SECONDS_OF_WEEK);
        row->sales = amount_times(room, row->sales, GOALS_SECONDS_OF_MONTH);
    }
    row->sales = amount_round(room, row->sales, NUM_UP);
    if (!row->per_time)
        row->weeks = amount_divide(room, row->sales, goals->pace);
}

/* What there is for sales that take of it; both of the same time, or of none. */
static void measure_limit(struct goals *goals, struct goals_row *row, struct amount takes,
                          struct amount has)
{
    struct amounts *room = &goals->amounts;
    row->sales_allowed = amount_divide(room, has, takes);
    row->brings = amount_multiply(room, row->sales_allowed, row->gives);
    if (amount_compare(row->brings, row->needs) < 0)
        row->answer = GOALS_TOO_LITTLE;
    if (row->per_time) {
        row->brings = amount_times(room, row->brings, GOALS_SECONDS_OF_MONTH);
        row->sales_allowed = amount_times(room, row->sales_allowed, GOALS_SECONDS_OF_MONTH);
    }
    if (amount_sign(row->sales_allowed) < 0)
        row->sales_allowed = amount_whole(0);
}

static void answer(struct goals *goals, struct goals_row *row, struct amount takes,
                   struct amount has)
{
    bool nothing_needed = !is_above_zero(row->needs), gives = is_above_zero(row->gives);
    bool takes_some = row->limited && is_above_zero(takes);
    row->answer = GOALS_SUFFICES;
    if (takes_some)
        measure_limit(goals, row, takes, has);
    if (nothing_needed)
        row->answer = GOALS_SUFFICES;
    else if (!gives)
        row->answer = GOALS_NEVER;
    if (nothing_needed || gives)
        count_sales(goals, row);
    else
        row->brings = (struct amount){0};
    if (takes_some && row->answer != GOALS_SUFFICES)
        row->way = GOALS_NO_PRICE; /* until one is found */
}

/* Reads a line of the goal; one that is missing leaves the row unanswered. */
static struct amount take_line(struct goals *goals, struct goals_row *row, groat_scratch *scratch,
                               groat_goal_line line)
{
    groat_value value = groat_result_goal(scratch, row->goal, line);
    struct amount amount = taken(&goals->amounts, value);
    row->starved = row->starved || value.presence == GROAT_UNKNOWN;
    if (amount.there || row->answer == GOALS_UNANSWERED)
        return amount;
    row->answer = GOALS_UNANSWERED;
    row->lacking = line;
    row->failed = value.presence != GROAT_MISSING;
    return amount;
}

/* Why one of its sums could not be worked out; NUM_OK where all could. */
static enum num_status failure_of(const struct goals_row *row)
{
    const struct amount sums[] = {row->sales, row->sales_per_week, row->weeks, row->sales_allowed,
                                  row->brings};
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++)
        if (sums[i].status != NUM_OK)
            return sums[i].status;
    return NUM_OK;
}

static void take_lines(struct goals *goals, struct goals_row *row, groat_scratch *scratch)
{
    struct amount takes = {0}, has = {0};
    row->answer = GOALS_SUFFICES;
    row->needs = take_line(goals, row, scratch, GROAT_NEEDS);
    row->gives = take_line(goals, row, scratch, GROAT_GIVES);
    if (row->limited) {
        takes = take_line(goals, row, scratch, GROAT_TAKES);
        has = take_line(goals, row, scratch, GROAT_HAS);
    }
    if (row->answer != GOALS_UNANSWERED)
        answer(goals, row, takes, has);
    row->status = failure_of(row);
    if (row->status == NUM_OK)
        return;
    row->answer = GOALS_UNANSWERED;
    row->way = GOALS_NOT_ASKED;
}

/* ---- the price that would do ---- */

static bool find_price(struct goals *goals, struct goals_row *row, groat_scratch *scratch,
                       const groat_record *record, const groat_order *order)
{
    groat_outcome outcome = groat_price_for_goal(scratch, goals->method, record, order, row->goal);
    if (outcome != GROAT_PRICED) {
        row->reason = taken_reason(&goals->arena, scratch);
        if (outcome != GROAT_REFUSED || !row->reason)
            return row->reason != NULL;
    }
    row->price_needed = taken_figure(&goals->amounts, scratch, GROAT_PRICE);
    row->ceiling = taken_figure(&goals->amounts, scratch, GROAT_CEILING);
    row->way = outcome == GROAT_REFUSED ? GOALS_PRICE_REFUSED : GOALS_PRICE;
    if (outcome == GROAT_PRICED && row->ceiling.there &&
        amount_compare(row->price_needed, row->ceiling) > 0)
        row->way = GOALS_ABOVE_CEILING;
    return true;
}

/* ---- a product ---- */

bool goals_wants(const struct goals *goals, size_t goal)
{
    return !goals->only || strcmp(goals->only, groat_method_goal(goals->method, goal).text) == 0;
}

/* The lines of every goal are read before any price is sought: that prices anew. */
bool goals_add(struct goals *goals, groat_scratch *scratch, const groat_record *record,
               const groat_order *order, size_t product, groat_outcome *outcome)
{
    size_t first = goals->count;
    *outcome = groat_price(scratch, goals->method, record, order);
    if (*outcome != GROAT_PRICED)
        return !taken_starved(scratch);
    for (size_t i = 0; i < groat_method_goals(goals->method); i++) {
        if (!goals_wants(goals, i))
            continue;
        struct goals_row *row = new_row(goals);
        if (!row)
            return false;
        groat_goal goal = groat_method_goal(goals->method, i);
        row->goal = i;
        row->per_time = goal.per_time;
        row->limited = goal.limited;
        row->product = product;
        row->channel = order->channel;
        row->pinned = groat_result_footing(scratch) == GROAT_ON_PIN;
        row->price = taken_figure(&goals->amounts, scratch, GROAT_PRICE);
        take_lines(goals, row, scratch);
        if (row->starved)
            return false;
    }
    for (size_t i = first; i < goals->count; i++)
        if (goals->rows[i]->way == GOALS_NO_PRICE &&
            !find_price(goals, goals->rows[i], scratch, record, order))
            return false;
    return !amounts_starved(&goals->amounts);
}

/* ---- order ---- */

/* By what decides which of two rows with the same answer is better; below zero when `a` is. */
static int compare_worth(const struct goals_row *a, const struct goals_row *b)
{
    if (a->answer != GOALS_SUFFICES && a->answer != GOALS_TOO_LITTLE)
        return 0;
    if (a->limited && (a->per_time || a->answer == GOALS_TOO_LITTLE)) {
        if (!a->brings.there || !b->brings.there)
            return (int)a->brings.there - (int)b->brings.there;
        return amount_compare(b->brings, a->brings);
    }
    if (a->per_time)
        return amount_compare(a->sales_per_week, b->sales_per_week);
    return amount_compare(a->sales, b->sales);
}

static int compare_rows(const void *first, const void *second)
{
    const struct goals_row *a = *(struct goals_row *const *)first;
    const struct goals_row *b = *(struct goals_row *const *)second;
    if (a->goal != b->goal)
        return a->goal < b->goal ? -1 : 1;
    if (a->answer != b->answer)
        return a->answer < b->answer ? -1 : 1;
    int worth = compare_worth(a, b);
    if (worth == 0 && a->gives.there && b->gives.there)
        worth = amount_compare(b->gives, a->gives);
    return worth ? worth : a->place < b->place ? -1 : a->place > b->place;
}

void goals_sort(struct goals *goals)
{
    if (goals->count > 0)
        qsort(goals->rows, goals->count, sizeof(struct goals_row *), compare_rows);
}

bool goals_alike(const struct goals_row *a, const struct goals_row *b)
{
    return a->goal == b->goal && a->answer == b->answer && compare_worth(a, b) == 0;
}
