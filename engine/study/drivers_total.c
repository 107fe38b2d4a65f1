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
    amounts_open(&totals->rooms[0]);
    amounts_open(&totals->rooms[1]);
    for (size_t i = 0; i < count; i++)
        totals->rates[i].sum = amount_whole(0);
    return true;
}

void drivers_totals_close(struct drivers_totals *totals)
{
    amounts_close(&totals->rooms[0]);
    amounts_close(&totals->rooms[1]);
    free(totals->rates);
    free(totals->order);
    *totals = (struct drivers_totals){0};
}

/* The rooms take turns: what is still wanted goes to the next one, and all else is forgotten. */
static struct amounts *next_room(struct drivers_totals *totals)
{
    totals->turn = !totals->turn;
    amounts_forget(&totals->rooms[totals->turn]);
    return &totals->rooms[totals->turn];
}

void drivers_totals_add(struct drivers_totals *totals, const struct drivers_result *result,
                        const struct drivers_place *place)
{
    if (result->outcome != GROAT_PRICED)
        return;
    struct amounts *room = next_room(totals);
    totals->prices++;
    for (size_t i = 0; i < totals->count; i++) {
        struct drivers_total *total = &totals->rates[i];
        const struct drivers_move *move = &result->moves[i];
        total->sum = amount_copy(room, total->sum);
        total->largest = amount_copy(room, total->largest);
        total->lost += move->outcome != GROAT_PRICED;
        if (!move->share.there)
            continue;
        total->prices++;
        total->moved += amount_sign(move->change) != 0;
        total->fallen += amount_sign(move->change) < 0;
        total->sum = amount_add(room, total->sum,
                                amount_round_places(room, move->share, DRIVERS_MEAN_DECIMALS));
        if (ranking_is_larger(&move->share, &total->largest)) {
            total->largest = amount_copy(room, move->share);
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
    struct amounts *room = &totals->rooms[totals->turn];
    for (size_t i = 0; i < totals->count; i++) {
        struct drivers_total *total = &totals->rates[i];
        if (total->prices == 0)
            continue;
        struct amount mean = amount_divide(room, total->sum, amount_whole((int64_t)total->prices));
        total->mean = amount_round_places(room, mean, DRIVERS_MEAN_DECIMALS);
    }
    ranking_by_size(totals->order, totals->count, mean_of, totals);
}
