/* What the effect of a change comes to over all rows. */
#include <stdlib.h>

#include "study/effect.h"

static bool is_compared(const struct effect_row *row)
{
    return row->before.outcome == GROAT_PRICED && row->after.outcome == GROAT_PRICED;
}

struct amount effect_change(const struct effect *effect, const struct effect_row *row)
{
    if (!is_compared(row))
        return (struct amount){0};
    return amount_of_coins(row->after.price - row->before.price, effect->decimals);
}

static int compare_amounts(const void *a, const void *b)
{
    const struct amount *left = a, *right = b;
    return amount_compare(*left, *right);
}

/* The one in the middle, or the mean of the two there. */
static struct amount median_of(struct amounts *room, struct amount *all, size_t count)
{
    if (count == 0)
        return (struct amount){0};
    qsort(all, count, sizeof *all, compare_amounts);
    struct amount both = amount_add(room, all[(count - 1) / 2], all[count / 2]);
    return amount_divide(room, both, amount_whole(2));
}

/* Two rooms take turns, so that no sum before the last is kept. */
static struct amount sum_of(struct amounts *room, const struct amount *all, size_t count,
                            bool rounded)
{
    struct amounts turns[2];
    struct amount sum = amount_whole(0);
    amounts_open(&turns[0]);
    amounts_open(&turns[1]);
    for (size_t i = 0; i < count; i++) {
        struct amounts *turn = &turns[i % 2];
        amounts_forget(turn);
        struct amount each =
            rounded ? amount_round_places(turn, all[i], EFFECT_MEAN_DECIMALS) : all[i];
        sum = amount_add(turn, sum, each);
    }
    sum = amount_copy(room, sum);
    amounts_close(&turns[0]);
    amounts_close(&turns[1]);
    return sum;
}

static struct amount mean_of(struct amounts *room, const struct amount *all, size_t count)
{
    if (count == 0)
        return (struct amount){0};
    struct amount sum = sum_of(room, all, count, false);
    if (sum.status == NUM_TOO_LARGE)
        sum = sum_of(room, all, count, true);
    return amount_divide(room, sum, amount_whole((int64_t)count));
}

static int64_t distance(const struct effect_row *row)
{
    int64_t change = row->after.price - row->before.price;
    return change < 0 ? -change : change;
}

static void count_row(struct effect_summary *summary, const struct effect_row *row)
{
    summary->moves[row->move]++;
    if (!is_compared(row))
        return;
    summary->compared++;
    if (distance(row) > 0 && (!summary->largest || distance(row) > distance(summary->largest)))
        summary->largest = row;
}

bool effect_sum_up(const struct effect *effect, struct effect_summary *summary)
{
    *summary = (struct effect_summary){0};
    struct amounts *room = &summary->room;
    amounts_open(room);
    struct amount *all = malloc((effect->rows_count + 1) * sizeof *all);
    if (!all)
        return false;
    for (size_t i = 0; i < effect->rows_count; i++) {
        if (is_compared(&effect->rows[i]))
            all[summary->compared] = effect_change(effect, &effect->rows[i]);
        count_row(summary, &effect->rows[i]);
    }
    summary->mean_change = mean_of(room, all, summary->compared);
    summary->median_change = median_of(room, all, summary->compared);
    for (size_t i = 0, at = 0; i < effect->rows_count; i++)
        if (is_compared(&effect->rows[i]))
            all[at++] = effect_percent(&effect->rows[i]);
    summary->mean_percent = mean_of(room, all, summary->compared);
    summary->median_percent = median_of(room, all, summary->compared);
    free(all);
    return !amounts_starved(room);
}

void effect_summary_close(struct effect_summary *summary)
{
    amounts_close(&summary->room);
}
