/* What rates alone decide: the settled steps, ladders as whole smallest units, sliced tables as
 * their slices. Done once when a method is made, and again for other rates. */
#include <assert.h>
#include <string.h>

#include "compile/compile.h"
#include "evaluate/evaluate.h"

struct settling {
    const struct program *program;
    struct arena *arena;
    struct num_heap *heap;
    struct diagnostics *diagnostics; /* NULL: only say that something is wrong */
    struct settled *out;
    bool wrong;
};

static void complain(struct settling *settling, struct span span, const char *message)
{
    settling->wrong = true;
    if (settling->diagnostics && span.source)
        diagnostics_error(settling->diagnostics, span, NULL, "%s", message);
}

/* ---- ladders ---- */

/* A settled amount of money in smallest units, rounded up where that is allowed. */
static bool in_smallest(struct settling *settling, uint32_t step, bool exact, int64_t *out)
{
    struct value value = settling->out->values[step];
    struct num coins;
    if (value.state != VALUE_THERE ||
        num_divide(settling->heap, value.number, settling->program->shop->smallest, &coins) !=
            NUM_OK ||
        (exact && !num_is_whole(coins)))
        return false;
    return coins_round(settling->heap, coins, NUM_UP, out);
}

static struct rung rung_of(struct settling *settling, const struct band_code *band, int64_t from)
{
    struct rung rung = {from, COINS_MOST, 0, band->endings, band->periods, band->count};
    if (band->bound != NO_STEP && !in_smallest(settling, band->bound, false, &rung.to)) {
        complain(settling, band->span, "the limit of this band is not a valid price");
        rung.to = from; /* what follows it is not wrong for that */
    } else if (rung.to <= from)
        complain(settling, band->span, "bands must be in ascending order");
    if (band->every != NO_STEP &&
        (!in_smallest(settling, band->every, true, &rung.every) || rung.every <= 0)) {
        complain(settling, band->span,
                 "the step must be a whole number of the currency's smallest unit, at least one");
        rung.every = 1;
    }
    return rung;
}

static bool has_a_price(struct rung rung)
{
    struct ladder alone = {&rung, 1, 0};
    int64_t price;
    return ladder_next(&alone, rung.from, &price);
}

/* A few endings, or bands that are passed over, are looked at in the time of a step. */
static size_t work_of(const struct ladder *ladder)
{
    size_t work = 0;
    for (size_t i = 0; i < ladder->count; i++)
        work += 1 + ladder->rungs[i].count;
    return work / 8;
}

/* Rungs stand one on the other, and each has prices at some distance. */
__attribute__((unused)) static bool ladder_is_sound(const struct ladder *ladder)
{
    for (size_t i = 0; i < ladder->count; i++) {
        const struct rung *rung = &ladder->rungs[i];
        if (rung->from >= rung->to || rung->every < 0 || (rung->every == 0) != (rung->count > 0))
            return false;
        if (i > 0 && rung->from != ladder->rungs[i - 1].to)
            return false;
        for (size_t k = 0; k < rung->count; k++)
            if (rung->periods[k] < 1)
                return false;
    }
    return true;
}

static struct ladder ladder_of(struct settling *settling, const struct ladder_code *code)
{
    struct ladder ladder = {arena_take(settling->arena, code->count * sizeof *ladder.rungs),
                            code->count, 0};
    if (!ladder.rungs)
        return (struct ladder){0};
    int64_t from = 1;
    for (size_t i = 0; i < code->count; i++) {
        ladder.rungs[i] = rung_of(settling, &code->bands[i], from);
        if (settling->diagnostics && !settling->wrong && !has_a_price(ladder.rungs[i]))
            diagnostics_warning(settling->diagnostics, code->bands[i].span, NULL,
                                "this band contains no price");
        from = ladder.rungs[i].to;
    }
    assert(settling->wrong || ladder_is_sound(&ladder));
    ladder.work = work_of(&ladder);
    return ladder;
}

/* False without memory. */
static bool settle_ladders(struct settling *settling)
{
    const struct program *program = settling->program;
    bool room = true;
    struct ladder *ladders =
        arena_take(settling->arena, (program->ladders_count + 1) * sizeof *ladders);
    settling->out->ladders = ladders;
    for (size_t i = 0; i < program->ladders_count && ladders; i++) {
        ladders[i] = ladder_of(settling, &program->ladders[i]);
        room = room && ladders[i].rungs;
    }
    return ladders && room;
}

/* ---- all of it ---- */

static void settle_steps(struct settling *settling)
{
    const struct program *program = settling->program;
    struct settled *out = settling->out;
    struct evaluation evaluation = {
        .settled = out, .program = program, .values = out->values, .heap = settling->heap};
    evaluate_begin(&evaluation);
    evaluation.steps_left += program->settled_count; /* they were counted when they were written */
    evaluate_list(&evaluation, program->settled, program->settled_count);
}

/* A share that rates alone make too large: every product that meets it would have no price. Other
 * rates may mend it, so that it is no error. */
static void warn_of_shares(struct settling *settling)
{
    const struct program *program = settling->program;
    for (size_t i = 0; i < program->settled_count && settling->diagnostics; i++) {
        uint32_t step = program->settled[i];
        const struct value *value = &settling->out->values[step];
        if (value->state != VALUE_ERROR || value->fault != FAULT_SHARE || value->origin != step)
            continue;
        const struct origin *origin = &program->origins[program->steps[step].origin];
        if (origin->span.source)
            diagnostics_warning(
                settling->diagnostics, origin->span, NULL,
                "%s needs a share below 100%%, but with these rates it is 100%% or more",
                origin->what);
    }
}

/* A rate that has no value is wrong whether it is used or not. */
static void report_rates(struct settling *settling)
{
    for (size_t i = 0; i < settling->program->rates_count; i++) {
        const struct rate_code *rate = &settling->program->rates[i];
        if (settling->out->values[rate->step].state != VALUE_ERROR)
            continue;
        enum fault fault = settling->out->values[rate->step].fault;
        complain(settling, rate->symbol->statement->value->span,
                 fault == FAULT_DIVIDED_BY_ZERO ? "this divides by zero"
                 : fault == FAULT_TOO_LARGE
                     ? "this number has more digits than the engine can handle"
                     : "this value cannot be worked out");
    }
}

enum settling_outcome settle(const struct program *program, const struct value *overrides,
                             struct arena *arena, struct num_heap *heap,
                             struct diagnostics *diagnostics, struct settled *out)
{
    struct settling settling = {program, arena, heap, diagnostics, out, false};
    assert(program->settled_count <= program->count && heap->memory);
    *out = (struct settled){.program = program, .overrides = overrides};
    out->values = arena_take(arena, (program->count + 1) * sizeof *out->values);
    out->slices = arena_take(arena, (program->tables_count + 1) * sizeof *out->slices);
    if (!out->values || !out->slices)
        return SETTLED_NOT;
    settle_steps(&settling);
    report_rates(&settling);
    warn_of_shares(&settling);
    bool room = settle_ladders(&settling);
    for (size_t i = 0; i < program->tables_count; i++) {
        if (!program->tables[i]->sliced)
            continue;
        out->slices[i] = slices_of(out, program->tables[i], arena);
        room = room && out->slices[i].items;
    }
    out->large = heap->current != NULL;
    if (!room || heap->starved)
        return SETTLED_NOT;
    return settling.wrong ? SETTLED_WRONG : SETTLED;
}
