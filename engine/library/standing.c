/* What still stands of the pricings before: which rates, record, quantity and date the values in a
 * scratch were worked out for, and what has changed since. */
#include "library/library.h"

#include <assert.h>

/* Puts the method's settled values in place: all of them the first time, then those that depend on
 * a rate with another value than the rules' own, here or there. A large number is each method's
 * own, even where it is equal, and what was worked out may still point to the one before, whose
 * method may be no more: then all of it is new. */
static uint64_t bind_method(groat_scratch *scratch, const groat_method *method)
{
    const struct program *program = scratch->core->program;
    assert(method->settled.program == program && method->serial > 0);
    bool all = scratch->serial == 0 || method->settled.large;
    uint64_t changed =
        all ? DEPENDS_ON_ANYTHING : scratch->standing.other_rates | method->settled.other_rates;
    const uint32_t *steps = all ? program->settled : program->moved;
    size_t count = all ? program->settled_count : program->moved_count;
    for (size_t i = 0; i < count; i++)
        if (all || (program->steps[steps[i]].depends & changed))
            scratch->values[steps[i]] = method->settled.values[steps[i]];
    scratch->evaluation.settled = &method->settled;
    scratch->standing.other_rates = method->settled.other_rates;
    scratch->serial = method->serial;
    return changed;
}

/* A record that is not known may be any. */
static bool same_record(const struct standing *standing, const groat_record *record)
{
    return record && standing->record == record->serial && standing->changes == record->changes;
}

static bool same_date(const struct value *a, const struct value *b)
{
    return a->state == b->state && (a->state == VALUE_MISSING || num_equal(a->number, b->number));
}

/* What lies in the heap goes with the next pricing, and what met a limit may not meet it again. Nor
 * is it known which step took large numbers how much work, for another time. */
void standing_check(groat_scratch *scratch)
{
    const struct evaluation *e = &scratch->evaluation;
    if (e->heap->current || e->heap->starved || e->steps_left == 0 || scratch->given ||
        e->heap->effort != scratch->standing.effort)
        scratch->standing.lost = true;
}

void standing_more(groat_scratch *scratch)
{
    standing_check(scratch);
    scratch->heap.starved = false;
    evaluate_begin(&scratch->evaluation);
}

void standing_begin(groat_scratch *scratch, const groat_method *method, const groat_record *record,
                    int64_t quantity, struct value as_of)
{
    struct standing *standing = &scratch->standing;
    struct evaluation *e = &scratch->evaluation;
    assert(method->core == scratch->core && (!record || record->core == scratch->core));
    assert(quantity > 0 && as_of.state != VALUE_ERROR);
    uint64_t changed = scratch->serial == method->serial ? 0 : bind_method(scratch, method);
    if (!same_record(standing, record))
        changed |= DEPENDS_ON_RECORD;
    if (standing->quantity != quantity)
        changed |= DEPENDS_ON_QUANTITY;
    if (!same_date(&e->as_of, &as_of))
        changed |= DEPENDS_ON_DATE;
    if (standing->lost)
        changed = DEPENDS_ON_ANYTHING;
    standing->lost = !record;
    standing->effort = e->heap->effort;
    standing->record = record ? record->serial : 0;
    standing->changes = record ? record->changes : 0;
    standing->quantity = quantity;
    e->quantity = num_whole(quantity);
    e->as_of = as_of;
    if (changed)
        standing->changed[++e->state % STANDING_STATES] = changed;
}

uint64_t standing_changed(const groat_scratch *scratch)
{
    const struct standing *standing = &scratch->standing;
    uint64_t now = scratch->evaluation.state, changed = 0;
    uint64_t then = standing->listed[scratch->channel - scratch->core->program->channels];
    assert(then <= now);
    if (then == 0 || now - then >= STANDING_STATES)
        return DEPENDS_ON_ANYTHING;
    for (uint64_t state = then + 1; state <= now; state++)
        changed |= standing->changed[state % STANDING_STATES];
    return changed;
}

void standing_listed(groat_scratch *scratch)
{
    scratch->standing.listed[scratch->channel - scratch->core->program->channels] =
        scratch->evaluation.state;
}
