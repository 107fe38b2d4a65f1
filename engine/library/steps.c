/* A compiled program as a text, for whoever looks for a mistake in the compiler. */
#include <stdarg.h>
#include <stdio.h>

#include "library/library.h"

/* A text as snprintf writes it: what does not fit is counted. */
struct listing {
    const struct program *program;
    char *buffer;
    size_t size, length;
};

__attribute__((format(printf, 2, 3))) static void put(struct listing *listing, const char *format,
                                                      ...)
{
    bool fits = listing->length < listing->size;
    va_list given;
    va_start(given, format);
    int length = vsnprintf(fits ? listing->buffer + listing->length : NULL,
                           fits ? listing->size - listing->length : 0, format, given);
    va_end(given);
    listing->length += length > 0 ? (size_t)length : 0;
}

static void put_step(struct listing *listing, const char *label, uint32_t step)
{
    if (step == NO_STEP)
        put(listing, " %s -", label);
    else
        put(listing, " %s %u", label, step);
}

static void put_list(struct listing *listing, const char *label, const uint32_t *steps,
                     size_t count)
{
    put(listing, "  %s:", label);
    for (size_t i = 0; i < count; i++)
        put(listing, " %u", steps[i]);
    put(listing, "\n");
}

/* ---- steps ---- */

static void put_constant(struct listing *listing, const struct value *value, bool text)
{
    char number[64];
    if (value->state == VALUE_MISSING) {
        put(listing, " missing");
    } else if (text) {
        put(listing, " \"%.*s\"", (int)value->text.length, value->text.start);
    } else if (value->number.bottom > 0) {
        num_write_short(value->number, 6, '.', number, sizeof number);
        put(listing, " %s", number);
    } else {
        put(listing, " (long)");
    }
}

/* What a step reads, by the list of operations; a number that is no step stands behind a sign: # of
 * a table, ladder, search, field or rate. */
static void put_operands(struct listing *listing, const struct step *step)
{
    switch ((enum operands)operation_traits[step->operation].operands) {
    case READS_NONE:
        if (step->operation == OP_TRIAL)
            put(listing, " #%u", step->a);
        break;
    case READS_A:
    case READS_PARTS: put(listing, " %u", step->a); break;
    case READS_A_B: put(listing, " %u %u", step->a, step->b); break;
    case READS_A_B_C: put(listing, " %u %u %u", step->a, step->b, step->c); break;
    case READS_DEFAULT:
        put(listing, " %s", listing->program->fields[step->a].symbol->name);
        if (step->b != NO_STEP)
            put(listing, " otherwise %u", step->b);
        break;
    case READS_LOOKUP: {
        const struct lookup_code *lookup = &listing->program->lookups[step->a];
        put(listing, " %s by", lookup->table->name);
        for (size_t k = 0; k < lookup->table->keys; k++)
            put(listing, " %u", lookup->keys[k]);
        put(listing, ", rows");
        for (size_t row = 0; row < lookup->table->rows; row++)
            put(listing, " %u", lookup->values[row]);
        break;
    }
    case READS_SEARCH: put(listing, " #%u", step->a); break;
    }
    if (step->operation == OP_RATE)
        put(listing, " %s", listing->program->rates[step->b].symbol->name);
    if (step->operation == OP_LADDER)
        put(listing, " #%u", step->b);
}

static void put_one_step(struct listing *listing, uint32_t index)
{
    const struct program *program = listing->program;
    const struct step *step = &program->steps[index];
    put(listing, "%4u %s", index, operation_traits[step->operation].name);
    if (step->operation == OP_CONSTANT)
        put_constant(listing, &program->constants[step->a], step->b);
    put_operands(listing, step);
    put(listing, "%s%s%s", step->settled ? ", settled" : "", step->on_trial ? ", on trial" : "",
        step->forgiving ? ", forgiving" : "");
    if (step->operation != OP_CONSTANT && step->origin < program->origins_count) {
        const struct origin *origin = &program->origins[step->origin];
        if (origin->span.source)
            put(listing, "  (%s, %s:%u)", origin->what, origin->span.source->name,
                span_place(origin->span).line);
    }
    put(listing, "\n");
}

/* ---- what lists them ---- */

static void put_channel(struct listing *listing, const struct channel_code *channel)
{
    put(listing, "channel %s\n ", channel->name);
    put_step(listing, "sold", channel->sold);
    put_step(listing, "search", channel->search_step);
    put_step(listing, "pin", channel->pin);
    put_step(listing, "discount", channel->discount);
    put(listing, "\n");
    put_list(listing, "before", channel->before, channel->before_count);
    put_list(listing, "steps", channel->steps, channel->steps_count);
}

static void put_search(struct listing *listing, size_t number)
{
    const struct search_code *search = &listing->program->searches[number];
    put(listing, "search #%zu, ladder #%u\n", number, search->ladder);
    for (size_t i = 0; i < search->count; i++) {
        const struct member_code *member = &search->members[i];
        put(listing, "  for %s:", listing->program->channels[member->channel].name);
        put_step(listing, "trial", member->trial);
        put_step(listing, "aim", member->aim);
        put_step(listing, "set", member->set);
        put_step(listing, "keep", member->keep);
        put_step(listing, "floor", member->floor);
        put_step(listing, "ceiling", member->ceiling);
        put(listing, "%s\n", member->jumps ? ", jumps" : "");
        put_list(listing, "each trial", member->block, member->block_count);
    }
}

static void put_ladder(struct listing *listing, size_t number)
{
    const struct ladder_code *ladder = &listing->program->ladders[number];
    put(listing, "ladder #%zu %s\n", number, ladder->name ? ladder->name : "");
    for (size_t i = 0; i < ladder->count; i++) {
        put(listing, " ");
        put_step(listing, "below", ladder->bands[i].bound);
        put_step(listing, "every", ladder->bands[i].every);
        put(listing, " endings %zu\n", ladder->bands[i].count);
    }
}

size_t groat_method_steps_write(const groat_method *method, char *buffer, size_t size)
{
    if (size > 0)
        buffer[0] = '\0';
    if (!method)
        return 0;
    const struct program *program = method->core->program;
    struct listing listing = {program, buffer, size, 0};
    for (uint32_t i = 0; i < program->count; i++)
        put_one_step(&listing, i);
    for (size_t i = 0; i < program->tables_count; i++)
        put(&listing, "table %s: %zu keys, %zu rows%s\n", program->tables[i]->name,
            program->tables[i]->keys, program->tables[i]->rows,
            program->tables[i]->sliced ? ", sliced" : "");
    for (size_t i = 0; i < program->ladders_count; i++)
        put_ladder(&listing, i);
    for (size_t i = 0; i < program->searches_count; i++)
        put_search(&listing, i);
    for (size_t i = 0; i < program->channels_count; i++)
        put_channel(&listing, &program->channels[i]);
    return listing.length;
}
