#include "study/goals.h"

#include <stdlib.h>
#include <string.h>

#include "study/said.h"

/* ---- rows ---- */

enum { AMOUNTS = 10 };

static void amounts_of(struct goals_row *row, struct amount *all[AMOUNTS])
{
    struct amount *const list[AMOUNTS] = {
        &row->price, &row->needs,         &row->gives,  &row->sales,        &row->sales_per_week,
        &row->weeks, &row->sales_allowed, &row->brings, &row->price_needed, &row->ceiling};
    memcpy(all, list, sizeof list);
}

static void free_row(struct goals_row *row)
{
    struct amount *all[AMOUNTS];
    amounts_of(row, all);
    for (size_t i = 0; i < AMOUNTS; i++)
        amount_close(all[i]);
    free(row->reason);
    free(row);
}

/* A new row at the end of the study, all its amounts absent; NULL when memory runs out. */
static struct goals_row *new_row(struct goals *goals)
{
    if (goals->count == goals->room) {
        size_t room = goals->room ? goals->room * 2 : 64;
        struct goals_row **rows = realloc(goals->rows, room * sizeof(struct goals_row *));
        if (!rows)
            return NULL;
        goals->rows = rows;
        goals->room = room;
    }
    struct goals_row *row = calloc(1, sizeof *row);
    if (!row)
        return NULL;
    struct amount *all[AMOUNTS];
    amounts_of(row, all);
    for (size_t i = 0; i < AMOUNTS; i++)
        amount_open(all[i]);
    row->place = goals->count;
    goals->rows[goals->count++] = row;
    return row;
}

void goals_open(struct goals *goals, const groat_method *method, const struct amount *pace)
{
    *goals = (struct goals){.method = method};
    amount_open(&goals->pace);
    amount_copy(&goals->pace, pace);
}

void goals_close(struct goals *goals)
{
    for (size_t i = 0; i < goals->count; i++)
        free_row(goals->rows[i]);
    free(goals->rows);
    amount_close(&goals->pace);
}

/* ---- answering ---- */

static bool is_above_zero(const struct amount *amount)
{
    return mpq_sgn(amount->number) > 0;
}

/* How many sales: nothing is needed, nothing is given, or needs by gives. */
static void count_sales(const struct goals *goals, struct goals_row *row)
{
    if (is_above_zero(&row->needs))
        amount_divide(&row->sales, &row->needs, &row->gives);
    row->sales.there = true;
    if (row->per_time) {
        amount_times(&row->sales_per_week, &row->sales, GOALS_SECONDS_OF_WEEK);
        amount_times(&row->sales, &row->sales, GOALS_SECONDS_OF_MONTH);
    }
    amount_round_up(&row->sales);
    if (!row->per_time)
        amount_divide(&row->weeks, &row->sales, &goals->pace);
}

/* What there is for sales that take of it; both of the same time, or of none. */
static void measure_limit(struct goals_row *row, const struct amount *takes,
                          const struct amount *has)
{
    amount_divide(&row->sales_allowed, has, takes);
    mpq_mul(row->brings.number, row->sales_allowed.number, row->gives.number);
    row->brings.there = true;
    if (mpq_cmp(row->brings.number, row->needs.number) < 0)
        row->answer = GOALS_TOO_LITTLE;
    if (row->per_time) {
        amount_times(&row->brings, &row->brings, GOALS_SECONDS_OF_MONTH);
        amount_times(&row->sales_allowed, &row->sales_allowed, GOALS_SECONDS_OF_MONTH);
    }
    if (mpq_sgn(row->sales_allowed.number) < 0)
        mpq_set_ui(row->sales_allowed.number, 0, 1);
}

static void answer(const struct goals *goals, struct goals_row *row, const struct amount *takes,
                   const struct amount *has)
{
    bool nothing_needed = !is_above_zero(&row->needs), gives = is_above_zero(&row->gives);
    bool takes_some = row->limited && is_above_zero(takes);
    row->answer = GOALS_SUFFICES;
    if (takes_some)
        measure_limit(row, takes, has);
    if (nothing_needed)
        row->answer = GOALS_SUFFICES;
    else if (!gives)
        row->answer = GOALS_NEVER;
    if (nothing_needed || gives)
        count_sales(goals, row);
    else
        row->brings.there = false;
    if (takes_some && row->answer != GOALS_SUFFICES)
        row->way = GOALS_NO_PRICE; /* until one is found */
}

/* Reads a line of the goal; one that is missing leaves the row unanswered. */
static void take_line(struct goals_row *row, groat_scratch *scratch, groat_goal_line line,
                      struct amount *amount)
{
    groat_value value = groat_result_goal(scratch, row->goal, line);
    amount_take(amount, value);
    if (amount->there || row->answer == GOALS_UNANSWERED)
        return;
    row->answer = GOALS_UNANSWERED;
    row->lacking = line;
    row->failed = value.presence == GROAT_NO_VALUE;
}

static void take_lines(const struct goals *goals, struct goals_row *row, groat_scratch *scratch)
{
    struct amount takes, has;
    amount_open(&takes);
    amount_open(&has);
    row->answer = GOALS_SUFFICES;
    take_line(row, scratch, GROAT_NEEDS, &row->needs);
    take_line(row, scratch, GROAT_GIVES, &row->gives);
    if (row->limited) {
        take_line(row, scratch, GROAT_TAKES, &takes);
        take_line(row, scratch, GROAT_HAS, &has);
    }
    if (row->answer != GOALS_UNANSWERED)
        answer(goals, row, &takes, &has);
    amount_close(&has);
    amount_close(&takes);
}

/* ---- the price that would do ---- */

static bool keep_reason(struct goals_row *row, const groat_scratch *scratch)
{
    row->reason = said_reason(scratch);
    return row->reason != NULL;
}

static bool find_price(const struct goals *goals, struct goals_row *row, groat_scratch *scratch,
                       const groat_record *record, const groat_order *order)
{
    groat_outcome outcome = groat_price_for_goal(scratch, goals->method, record, order, row->goal);
    if (outcome != GROAT_PRICED && outcome != GROAT_REFUSED)
        return keep_reason(row, scratch);
    amount_take(&row->price_needed, groat_result_figure(scratch, GROAT_PRICE));
    amount_take(&row->ceiling, groat_result_figure(scratch, GROAT_CEILING));
    row->way = GOALS_PRICE;
    if (outcome == GROAT_REFUSED) {
        row->way = GOALS_PRICE_REFUSED;
        return keep_reason(row, scratch);
    }
    if (row->ceiling.there && mpq_cmp(row->price_needed.number, row->ceiling.number) > 0)
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
        return true;
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
        amount_take(&row->price, groat_result_figure(scratch, GROAT_PRICE));
        take_lines(goals, row, scratch);
    }
    for (size_t i = first; i < goals->count; i++)
        if (goals->rows[i]->way == GOALS_NO_PRICE &&
            !find_price(goals, goals->rows[i], scratch, record, order))
            return false;
    return true;
}

/* ---- order ---- */

static int order_of_places(size_t a, size_t b)
{
    return a < b ? -1 : a > b;
}

/* By what decides which of two rows with the same answer is better; below zero when `a` is. */
static int compare_worth(const struct goals_row *a, const struct goals_row *b)
{
    if (a->answer != GOALS_SUFFICES && a->answer != GOALS_TOO_LITTLE)
        return 0;
    if (a->limited && (a->per_time || a->answer == GOALS_TOO_LITTLE)) {
        if (!a->brings.there || !b->brings.there)
            return (int)a->brings.there - (int)b->brings.there;
        return mpq_cmp(b->brings.number, a->brings.number);
    }
    if (a->per_time)
        return mpq_cmp(a->sales_per_week.number, b->sales_per_week.number);
    return mpq_cmp(a->sales.number, b->sales.number);
}

static int compare_rows(const void *first, const void *second)
{
    const struct goals_row *a = *(struct goals_row *const *)first;
    const struct goals_row *b = *(struct goals_row *const *)second;
    if (a->goal != b->goal)
        return order_of_places(a->goal, b->goal);
    if (a->answer != b->answer)
        return a->answer < b->answer ? -1 : 1;
    int worth = compare_worth(a, b);
    if (worth == 0 && a->gives.there && b->gives.there)
        worth = mpq_cmp(b->gives.number, a->gives.number);
    return worth ? worth : order_of_places(a->place, b->place);
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
