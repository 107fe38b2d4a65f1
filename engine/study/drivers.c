#include "study/drivers.h"

#include <stdlib.h>
#include <string.h>

#include "study/taken.h"

struct drivers {
    const groat_method *method;
    size_t count;
    groat_method **methods; /* NULL where the rate stays still */
    char (*still)[sizeof((groat_trouble *)0)->message];
};

/* ---- the rates, moved ---- */

static bool is_zero(const groat_method *method, size_t rate)
{
    int64_t top, bottom;
    return groat_value_fraction(groat_method_rate_value(method, rate), &top, &bottom) && top == 0;
}

/* False when memory runs out. */
static bool move_rate(struct drivers *drivers, size_t rate, const char *change)
{
    const groat_method *method = drivers->method;
    char *still = drivers->still[rate];
    groat_trouble trouble = {0};
    if (!taken_is_amount(groat_method_rate_value(method, rate).kind)) {
        strcpy(still, "not a number, so a percentage cannot change it");
        return true;
    }
    if (is_zero(method, rate)) {
        strcpy(still, "zero, so a percentage does not change it");
        return true;
    }
    groat_rate_value value = {.rate = groat_method_rate(method, rate).name, .value = change};
    drivers->methods[rate] = groat_method_with_rates(method, &value, 1, &trouble);
    if (!drivers->methods[rate])
        strcpy(still, trouble.message);
    return drivers->methods[rate] || trouble.kind != GROAT_TROUBLE_NO_MEMORY;
}

static bool move_rates(struct drivers *drivers, const char *change)
{
    size_t count = groat_method_rates(drivers->method);
    drivers->methods = calloc(count + 1, sizeof *drivers->methods);
    drivers->still = calloc(count + 1, sizeof *drivers->still);
    if (!drivers->methods || !drivers->still)
        return false;
    drivers->count = count;
    for (size_t i = 0; i < count; i++)
        if (!move_rate(drivers, i, change))
            return false;
    return true;
}

struct drivers *drivers_open(const groat_method *method, const char *change, groat_trouble *trouble)
{
    struct drivers *drivers = calloc(1, sizeof *drivers);
    if (drivers)
        drivers->method = method;
    if (drivers && move_rates(drivers, change))
        return drivers;
    *trouble = (groat_trouble){.kind = GROAT_TROUBLE_NO_MEMORY,
                               .index = SIZE_MAX,
                               .given = SIZE_MAX,
                               .message = "there is no memory left"};
    drivers_close(drivers);
    return NULL;
}

void drivers_close(struct drivers *drivers)
{
    if (!drivers)
        return;
    for (size_t i = 0; i < drivers->count; i++)
        groat_method_free(drivers->methods[i]);
    free(drivers->methods);
    free(drivers->still);
    free(drivers);
}

size_t drivers_rates(const struct drivers *drivers)
{
    return drivers->count;
}

const char *drivers_still(const struct drivers *drivers, size_t rate)
{
    return drivers->still[rate][0] ? drivers->still[rate] : NULL;
}

/* ---- one product on one channel ---- */

bool drivers_result_open(struct drivers_result *result, const struct drivers *drivers)
{
    *result = (struct drivers_result){0};
    result->moves = calloc(drivers->count + 1, sizeof *result->moves);
    if (!result->moves)
        return false;
    result->count = drivers->count;
    amounts_open(&result->room);
    arena_open(&result->arena, &result->room.memory);
    return true;
}

void drivers_result_close(struct drivers_result *result)
{
    if (!result->moves)
        return;
    arena_close(&result->arena);
    amounts_close(&result->room);
    free(result->moves);
    *result = (struct drivers_result){0};
}

/* Takes the price, or why there is none. */
static bool take_price(struct drivers_result *result, const groat_scratch *scratch,
                       groat_outcome outcome, struct amount *price, const char **reason)
{
    *reason = NULL;
    *price = (struct amount){0};
    if (outcome == GROAT_PRICED)
        *price = taken_figure(&result->room, scratch, GROAT_PRICE);
    if (outcome == GROAT_PRICED || outcome == GROAT_NOT_SOLD)
        return true;
    *reason = taken_reason(&result->arena, scratch);
    return *reason != NULL;
}

bool drivers_price(const struct drivers *drivers, groat_scratch *scratch,
                   const groat_record *record, const groat_order *order,
                   struct drivers_result *result)
{
    struct amounts *room = &result->room;
    amounts_forget(room);
    arena_empty(&result->arena);
    result->outcome = groat_price(scratch, drivers->method, record, order);
    if (!take_price(result, scratch, result->outcome, &result->before, &result->reason))
        return false;
    if (result->outcome != GROAT_PRICED)
        return !amounts_starved(room);
    for (size_t i = 0; i < drivers->count; i++) {
        struct drivers_move *move = &result->moves[i];
        move->outcome = GROAT_PRICED;
        move->after = (struct amount){0};
        if (drivers->methods[i]) {
            move->outcome = groat_price(scratch, drivers->methods[i], record, order);
            if (!take_price(result, scratch, move->outcome, &move->after, &move->reason))
                return false;
        }
        move->change = amount_subtract(room, move->after, result->before);
        move->share = amount_divide(room, move->change, result->before);
    }
    return !amounts_starved(room);
}

/* ---- the largest effects first ---- */

/* Whether an amount is larger than another, whatever their signs; an absent one never is. */
static bool is_larger(struct amount a, struct amount b)
{
    if (!a.there || !b.there)
        return a.there && !b.there;
    struct amounts room;
    amounts_open(&room);
    bool larger = amount_compare(amount_size(&room, a), amount_size(&room, b)) > 0;
    amounts_close(&room);
    return larger;
}

typedef struct amount amount_at(const void *context, size_t rate);

/* Orders rates by the size of an amount, the largest first; equal ones as they were. */
static void rank_rates(size_t *order, size_t count, amount_at *amount, const void *context)
{
    for (size_t i = 0; i < count; i++) {
        size_t at = i;
        for (; at > 0 && is_larger(amount(context, i), amount(context, order[at - 1])); at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
}

static struct amount share_of(const void *result, size_t rate)
{
    return ((const struct drivers_result *)result)->moves[rate].share;
}

void drivers_rank_moves(const struct drivers_result *result, size_t *order)
{
    rank_rates(order, result->count, share_of, result);
}

/* ---- all prices together ---- */

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
        if (is_larger(move->share, total->largest)) {
            total->largest = amount_copy(room, move->share);
            total->place = *place;
        }
    }
}

static struct amount mean_of(const void *totals, size_t rate)
{
    return ((const struct drivers_totals *)totals)->rates[rate].mean;
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
    rank_rates(totals->order, totals->count, mean_of, totals);
}
