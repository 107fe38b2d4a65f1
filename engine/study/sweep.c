#include "study/sweep.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "study/taken.h"

#define PLACES_MOST 6  /* of a point's number for a person */
#define PLACES_OTHER 4 /* where that many do not say it exactly */
#define PLACES_PLAIN 6
#define PLACES_MONEY 2 /* behind a sign, where there are any */

/* ---- the unit ---- */

/* The unit that the range begins with, or where that is a change the one of the rules. False if
 * memory runs out. */
static bool choose_unit(struct sweep *sweep, const char *from)
{
    groat_status status = groat_unit_read(sweep->method, from, &sweep->unit);
    if (status != GROAT_OK || sweep->unit.bottom == 0)
        sweep->unit = groat_method_rate_unit(sweep->method, sweep->rate_index);
    if (sweep->unit.bottom == 0)
        sweep->unit = (groat_unit){.top = 1, .bottom = 1};
    return status != GROAT_NO_MEMORY;
}

static struct amount in_unit(struct sweep *sweep, const groat_method *method)
{
    struct amount rate = taken(&sweep->room, groat_method_rate_value(method, sweep->rate_index));
    struct amount size = amount_divide(&sweep->room, amount_whole(sweep->unit.top),
                                       amount_whole(sweep->unit.bottom));
    return amount_divide(&sweep->room, rate, size);
}

/* ---- the points ---- */

/* The rate is there: methods were made with it. */
static void find_rate(struct sweep *sweep, const char *name)
{
    while (strcmp(groat_method_rate(sweep->method, sweep->rate_index).name, name) != 0)
        sweep->rate_index++;
    sweep->rate = groat_method_rate(sweep->method, sweep->rate_index).name;
}

static bool refuse(groat_trouble *trouble, groat_trouble_kind kind, const char *message)
{
    *trouble = (groat_trouble){.kind = kind, .index = SIZE_MAX, .given = SIZE_MAX};
    snprintf(trouble->message, sizeof trouble->message, "%s", message);
    return false;
}

static bool no_memory(groat_trouble *trouble)
{
    return refuse(trouble, GROAT_TROUBLE_NO_MEMORY, "there is no memory left");
}

static bool make_methods(struct sweep *sweep, const struct sweep_range *range,
                         groat_trouble *trouble)
{
    sweep->methods = arena_take(&sweep->arena, range->points * sizeof *sweep->methods);
    sweep->values = arena_take(&sweep->arena, range->points * sizeof *sweep->values);
    if (!sweep->methods || !sweep->values)
        return no_memory(trouble);
    sweep->points = range->points;
    for (size_t i = 0; i < range->points; i++) {
        groat_rate_value value = {range->rate, range->from, range->to, (int64_t)i,
                                  (int64_t)range->points - 1};
        sweep->methods[i] = groat_method_with_rates(sweep->method, &value, 1, trouble);
        if (!sweep->methods[i])
            return false;
    }
    return true;
}

/* Decimals that say every point exactly, or nearly. */
static unsigned places_needed(struct sweep *sweep)
{
    unsigned most = 0;
    for (size_t i = 0; i < sweep->points; i++) {
        unsigned places = 0;
        struct amount value = sweep->values[i];
        while (places <= PLACES_MOST &&
               amount_compare(amount_round_places(&sweep->room, value, places), value) != 0)
            places++;
        if (places > PLACES_MOST)
            return PLACES_OTHER;
        most = places > most ? places : most;
    }
    return most > 0 && most < PLACES_MONEY && sweep->unit.before[0] ? PLACES_MONEY : most;
}
static bool open_sweep(struct sweep *sweep, const struct sweep_range *range, groat_trouble *trouble)
{
    if (range->points < SWEEP_POINTS_LEAST || range->points > SWEEP_POINTS_MOST)
        return refuse(trouble, GROAT_TROUBLE_RANGE, "a sweep must have from 2 to 10000 values");
    if (!make_methods(sweep, range, trouble))
        return false;
    find_rate(sweep, range->rate);
    if (!choose_unit(sweep, range->from))
        return no_memory(trouble);
    for (size_t i = 0; i < range->points; i++)
        sweep->values[i] = in_unit(sweep, sweep->methods[i]);
    sweep->now = in_unit(sweep, sweep->method);
    if (amounts_starved(&sweep->room))
        return no_memory(trouble);
    int way = amount_compare(sweep->values[0], sweep->values[range->points - 1]);
    if (way == 0)
        return refuse(trouble, GROAT_TROUBLE_RANGE, "both ends of the sweep are the same");
    if (way > 0) {
        refuse(trouble, GROAT_TROUBLE_RANGE, "a sweep must start with the smaller value");
        trouble->help_kind = GROAT_HELP_VALUE;
        snprintf(trouble->help, sizeof trouble->help, "%.40s..%.40s", range->to, range->from);
        return false;
    }
    sweep->places = places_needed(sweep);
    return !amounts_starved(&sweep->room) || no_memory(trouble);
}

struct sweep *sweep_open(const groat_method *method, const struct sweep_range *range,
                         groat_trouble *trouble)
{
    struct sweep *sweep = calloc(1, sizeof *sweep);
    if (!sweep) {
        no_memory(trouble);
        return NULL;
    }
    sweep->method = method;
    amounts_open(&sweep->room);
    arena_open(&sweep->arena, &sweep->room.memory);
    if (open_sweep(sweep, range, trouble))
        return sweep;
    sweep_close(sweep);
    return NULL;
}

void sweep_close(struct sweep *sweep)
{
    if (!sweep)
        return;
    for (size_t i = 0; i < sweep->points; i++)
        groat_method_free(sweep->methods[i]);
    arena_close(&sweep->arena);
    amounts_close(&sweep->room);
    free(sweep);
}

/* ---- numbers for a person ---- */

/* Puts what stands before it to a number. */
static size_t put_before(const struct sweep *sweep, const char *number, char *buffer, size_t size)
{
    bool negative = number[0] == '-';
    int length = snprintf(buffer, size, "%s%s%s", negative ? "-" : "", sweep->unit.before,
                          number + negative);
    return length < 0 ? 0 : (size_t)length;
}

size_t sweep_number(const struct sweep *sweep, const struct amount *value, char mark, char *buffer,
                    size_t size)
{
    char number[128];
    amount_places(*value, sweep->places, mark, number, sizeof number);
    return put_before(sweep, number, buffer, size);
}

/* Whether an amount is written with a single decimal. */
static bool has_tenths(struct amounts *room, struct amount amount)
{
    return amount_compare(amount_round_places(room, amount, 0), amount) != 0 &&
           amount_compare(amount_round_places(room, amount, 1), amount) == 0;
}

size_t sweep_number_alone(const struct sweep *sweep, const struct amount *value, char mark,
                          char *buffer, size_t size)
{
    char number[128];
    struct amounts room;
    amounts_open(&room);
    struct amount seen = amount_round_places(&room, *value, sweep->places);
    if (sweep->unit.before[0] && has_tenths(&room, seen))
        amount_places(seen, PLACES_MONEY, mark, number, sizeof number);
    else
        amount_short(seen, sweep->places, mark, number, sizeof number);
    amounts_close(&room);
    return put_before(sweep, number, buffer, size);
}

/* ---- pricing ---- */

bool sweep_walk(const struct sweep *sweep, groat_scratch *scratch, const groat_record *record,
                const groat_order *orders, size_t count, sweep_visitor *visit, void *context)
{
    for (size_t i = 0; i < sweep->points; i++) {
        for (size_t j = 0; j < count; j++) {
            groat_outcome outcome = groat_price(scratch, sweep->methods[i], record, &orders[j]);
            if (!visit(context, j, i, outcome, scratch))
                return false;
        }
    }
    return true;
}
