#include "study/drivers.h"

#include <stdlib.h>
#include <string.h>

#include "study/ranking.h"
#include "study/said.h"
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
    return true;
}

void drivers_result_close(struct drivers_result *result)
{
    if (!result->moves)
        return;
    for (size_t i = 0; i < result->count; i++)
        free(result->moves[i].reason);
    amounts_close(&result->room);
    free(result->reason);
    free(result->moves);
    *result = (struct drivers_result){0};
}

/* Takes the price, or why there is none. */
static bool take_price(struct amounts *room, const groat_scratch *scratch, groat_outcome outcome,
                       struct amount *price, char **reason)
{
    free(*reason);
    *reason = NULL;
    *price = (struct amount){0};
    if (outcome == GROAT_PRICED)
        *price = taken_figure(room, scratch, GROAT_PRICE);
    if (outcome == GROAT_PRICED || outcome == GROAT_NOT_SOLD)
        return true;
    *reason = said_reason(scratch);
    return *reason != NULL;
}

bool drivers_price(const struct drivers *drivers, groat_scratch *scratch,
                   const groat_record *record, const groat_order *order,
                   struct drivers_result *result)
{
    struct amounts *room = &result->room;
    amounts_forget(room);
    result->outcome = groat_price(scratch, drivers->method, record, order);
    if (!take_price(room, scratch, result->outcome, &result->before, &result->reason))
        return false;
    if (result->outcome != GROAT_PRICED)
        return !amounts_starved(room);
    for (size_t i = 0; i < drivers->count; i++) {
        struct drivers_move *move = &result->moves[i];
        move->outcome = GROAT_PRICED;
        move->after = (struct amount){0};
        if (drivers->methods[i]) {
            move->outcome = groat_price(scratch, drivers->methods[i], record, order);
            if (!take_price(room, scratch, move->outcome, &move->after, &move->reason))
                return false;
        }
        move->change = amount_subtract(room, move->after, result->before);
        move->share = amount_divide(room, move->change, result->before);
    }
    return !amounts_starved(room);
}

static const struct amount *share_of(const void *result, size_t rate)
{
    return &((const struct drivers_result *)result)->moves[rate].share;
}

void drivers_rank_moves(const struct drivers_result *result, size_t *order)
{
    ranking_by_size(order, result->count, share_of, result);
}
