/* What the effect of a change comes to over all rows. */
#include <stdlib.h>

#include "study/effect.h"

static bool is_compared(const struct effect_row *row)
{
    return row->before.outcome == GROAT_PRICED && row->after.outcome == GROAT_PRICED;
}

void effect_change(const struct effect *effect, const struct effect_row *row, struct amount *change)
{
    change->there = false;
    if (is_compared(row))
        amount_of_coins(change, row->after.price - row->before.price, effect->decimals);
}

static int compare_amounts(const void *a, const void *b)
{
    const struct amount *left = a, *right = b;
    return mpq_cmp(left->number, right->number);
}

/* The one in the middle, or the mean of the two there. */
static void take_median(struct amount *median, struct amount *all, size_t count)
{
    if (count == 0)
        return;
    qsort(all, count, sizeof *all, compare_amounts);
    mpq_add(median->number, all[(count - 1) / 2].number, all[count / 2].number);
    mpq_div_2exp(median->number, median->number, 1);
    median->there = true;
}

static void take_mean(struct amount *mean, const struct amount *all, size_t count)
{
    mpq_t divisor;
    if (count == 0)
        return;
    mpq_init(divisor);
    mpq_set_ui(divisor, count, 1);
    mpq_set_ui(mean->number, 0, 1);
    for (size_t i = 0; i < count; i++)
        mpq_add(mean->number, mean->number, all[i].number);
    mpq_div(mean->number, mean->number, divisor);
    mpq_clear(divisor);
    mean->there = true;
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
    amount_open(&summary->median_change);
    amount_open(&summary->median_percent);
    amount_open(&summary->mean_change);
    amount_open(&summary->mean_percent);
    struct amount *all = malloc((effect->rows_count + 1) * sizeof *all);
    if (!all)
        return false;
    for (size_t i = 0; i < effect->rows_count; i++) {
        if (is_compared(&effect->rows[i])) {
            amount_open(&all[summary->compared]);
            effect_change(effect, &effect->rows[i], &all[summary->compared]);
        }
        count_row(summary, &effect->rows[i]);
    }
    take_mean(&summary->mean_change, all, summary->compared);
    take_median(&summary->median_change, all, summary->compared);
    for (size_t i = 0, at = 0; i < effect->rows_count; i++)
        if (is_compared(&effect->rows[i]))
            effect_percent(&effect->rows[i], &all[at++]);
    take_mean(&summary->mean_percent, all, summary->compared);
    take_median(&summary->median_percent, all, summary->compared);
    for (size_t i = 0; i < summary->compared; i++)
        amount_close(&all[i]);
    free(all);
    return true;
}

void effect_summary_close(struct effect_summary *summary)
{
    amount_close(&summary->median_change);
    amount_close(&summary->median_percent);
    amount_close(&summary->mean_change);
    amount_close(&summary->mean_percent);
}
