#include "study/drivers_total.h"

#include <stdlib.h>

#include "study/ranking.h"

bool drivers_totals_open(struct drivers_totals *totals, const struct drivers *drivers)
{
    size_t count = drivers_rates(drivers);
    *totals = (struct drivers_totals){0};
    totals->rates = calloc(count + 1, sizeof *totals->rates);
    totals->order = calloc(count + 1, sizeof *totals->order);
    if (!totals->rates || !totals->order)
        return false;
    totals->count = count;
    for (size_t i = 0; i < count; i++) {
        amount_open(&totals->rates[i].mean);
        amount_open(&totals->rates[i].largest);
        mpz_init(totals->rates[i].sum);
    }
    return true;
}

void drivers_totals_close(struct drivers_totals *totals)
{
    for (size_t i = 0; i < totals->count; i++) {
        amount_close(&totals->rates[i].mean);
        amount_close(&totals->rates[i].largest);
        mpz_clear(totals->rates[i].sum);
    }
    free(totals->rates);
    free(totals->order);
    *totals = (struct drivers_totals){0};
}

/* In whole parts of ten to the minus DRIVERS_MEAN_DECIMALS. */
static void add_share(struct drivers_total *total, const struct amount *share)
{
    mpz_t parts;
    mpz_init(parts);
    mpz_ui_pow_ui(parts, 10, DRIVERS_MEAN_DECIMALS);
    mpz_mul(parts, parts, mpq_numref(share->number));
    amount_round_ratio(parts, parts, mpq_denref(share->number));
    mpz_add(total->sum, total->sum, parts);
    mpz_clear(parts);
}

void drivers_totals_add(struct drivers_totals *totals, const struct drivers_result *result,
                        const struct drivers_place *place)
{
    if (result->outcome != GROAT_PRICED)
        return;
    totals->prices++;
    for (size_t i = 0; i < totals->count; i++) {
        struct drivers_total *total = &totals->rates[i];
        const struct drivers_move *move = &result->moves[i];
        total->lost += move->outcome != GROAT_PRICED;
        if (!move->share.there)
            continue;
        total->prices++;
        total->moved += mpq_sgn(move->change.number) != 0;
        total->fallen += mpq_sgn(move->change.number) < 0;
        add_share(total, &move->share);
        if (ranking_is_larger(&move->share, &total->largest)) {
            amount_copy(&total->largest, &move->share);
            total->place = *place;
        }
    }
}

static const struct amount *mean_of(const void *totals, size_t rate)
{
    return &((const struct drivers_totals *)totals)->rates[rate].mean;
}

void drivers_totals_end(struct drivers_totals *totals)
{
    for (size_t i = 0; i < totals->count; i++) {
        struct drivers_total *total = &totals->rates[i];
        mpq_t *mean = &total->mean.number;
        if (total->prices == 0)
            continue;
        mpz_set_ui(mpq_denref(*mean), total->prices);
        amount_round_ratio(mpq_numref(*mean), total->sum, mpq_denref(*mean));
        mpz_ui_pow_ui(mpq_denref(*mean), 10, DRIVERS_MEAN_DECIMALS);
        mpq_canonicalize(*mean);
        total->mean.there = true;
    }
    ranking_by_size(totals->order, totals->count, mean_of, totals);
}
