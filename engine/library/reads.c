/* What a channel's results read of a record and of the rates. */
#include <assert.h>
#include <string.h>

#include "compile/compile.h"
#include "library/call.h"

/* A walk from what is asked for down to fields and rates. */
struct walk {
    const struct program *program;
    const groat_method *method;
    const groat_record *record;
    bool *seen;       /* by step */
    uint32_t *to_see; /* the steps still to be looked at: each is put here once */
    size_t count;
    bool *fields, *rates;
};

static void visit(void *context, uint32_t step)
{
    struct walk *walk = context;
    if (step == NO_STEP || walk->seen[step])
        return;
    assert(step < walk->program->count && walk->count < walk->program->count);
    walk->seen[step] = true;
    walk->to_see[walk->count++] = step;
}

static void visit_ladder(struct walk *walk, uint32_t number)
{
    const struct ladder_code *ladder = &walk->program->ladders[number];
    for (size_t i = 0; i < ladder->count; i++) {
        visit(walk, ladder->bands[i].bound);
        visit(walk, ladder->bands[i].every);
    }
}

/* Only the materials that the parts name. */
static void visit_parts(struct walk *walk, const struct parts *parts)
{
    for (size_t i = 0; i < parts->count; i++) {
        const struct part *part = &parts->items[i];
        const struct rate_code *material = &walk->program->rates[part->material];
        visit(walk, material->step);
        if (part->as_mass || part->as_volume)
            visit(walk, material->density);
    }
}

static void look_at(struct walk *walk, uint32_t index)
{
    const struct step *step = &walk->program->steps[index];
    const struct value *overrides = walk->method->overrides;
    const struct value *fields = walk->record->fields;
    switch ((enum operation)step->operation) {
    case OP_RATE:
        walk->rates[step->b] = true;
        if (!overrides || overrides[step->b].state != VALUE_THERE)
            visit(walk, step->a);
        return;
    case OP_FIELD:
        walk->fields[step->a] = true;
        if (fields[step->a].state != VALUE_THERE)
            visit(walk, step->b);
        return;
    case OP_WORTH: {
        const struct step *field = &walk->program->steps[step->a];
        if (field->operation != OP_FIELD)
            break;
        visit(walk, step->a);
        if (fields[field->a].state == VALUE_THERE)
            visit_parts(walk, fields[field->a].parts);
        return;
    }
    case OP_LADDER: visit_ladder(walk, step->b); break;
    case OP_PRICE: visit_ladder(walk, walk->program->searches[step->a].ladder); break;
    default: break;
    }
    each_operand(walk->program, index, visit, walk);
}

static void copy_flags(const bool *from, size_t count, bool *to)
{
    if (to)
        memcpy(to, from, count * sizeof *to);
}

groat_status groat_reads(groat_scratch *scratch, const groat_method *method,
                         const groat_record *record, size_t channel, bool *fields, bool *rates)
{
    if (call_objects(scratch, method, record) || channel >= method->core->program->channels_count)
        return GROAT_BAD_VALUE;
    const struct program *program = scratch->core->program;
    struct arena arena;
    arena_open(&arena, &scratch->memory);
    size_t flags = program->count + program->fields_count + program->rates_count;
    bool *room = arena_take(&arena, flags * sizeof *room);
    uint32_t *list = arena_take(&arena, program->count * sizeof *list);
    if (room && list) {
        struct walk walk = {.program = program,
                            .method = method,
                            .record = record,
                            .seen = room,
                            .to_see = list,
                            .fields = room + program->count,
                            .rates = room + program->count + program->fields_count};
        visit(&walk, program->channels[channel].sold);
        each_asked(&program->channels[channel], visit, &walk);
        while (walk.count > 0)
            look_at(&walk, walk.to_see[--walk.count]);
        copy_flags(walk.fields, program->fields_count, fields);
        copy_flags(walk.rates, program->rates_count, rates);
    }
    bool done = room && list;
    arena_close(&arena);
    return done ? GROAT_OK : GROAT_NO_MEMORY;
}
