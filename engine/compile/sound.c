/* Whether a compiled program is what program.h says it is. Asserted once, when one is made. */
#include "compile/compile.h"

static bool is_step(const struct program *program, uint32_t step)
{
    return step < program->count;
}

static bool is_step_or_none(const struct program *program, uint32_t step)
{
    return step == NO_STEP || is_step(program, step);
}

/* Steps that are there, each after the one before it. */
static bool ascend(const struct program *program, const uint32_t *steps, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!is_step(program, steps[i]) || (i > 0 && steps[i - 1] >= steps[i]))
            return false;
    return true;
}

/* ---- steps ---- */

struct reading {
    uint32_t reader;
    bool sound;
};

static void look_back(void *context, uint32_t operand)
{
    struct reading *reading = context;
    reading->sound = reading->sound && operand < reading->reader;
}

/* Every step comes after those it reads, and has an origin that is there. */
static bool steps_are_sound(const struct program *program)
{
    for (uint32_t i = 0; i < program->count; i++) {
        struct reading reading = {i, true};
        each_operand(program, i, look_back, &reading);
        if (!reading.sound || program->steps[i].origin >= program->origins_count)
            return false;
    }
    return true;
}

/* Every step that rates alone decide, and no other. */
static bool settled_are_sound(const struct program *program)
{
    for (size_t i = 0; i < program->settled_count; i++)
        if (!program->steps[program->settled[i]].settled)
            return false;
    return ascend(program, program->settled, program->settled_count);
}

/* ---- tables and ladders ---- */

static bool lookups_are_sound(const struct program *program)
{
    for (size_t i = 0; i < program->lookups_count; i++) {
        const struct lookup_code *lookup = &program->lookups[i];
        const struct table_code *table = lookup->table;
        if (!table || table->keys == 0 || table->rows == 0 ||
            table->number >= program->tables_count)
            return false;
        for (size_t key = 0; key < table->keys; key++)
            if (!is_step(program, lookup->keys[key]))
                return false;
        for (size_t row = 0; row < table->rows; row++)
            if (!is_step(program, lookup->values[row]))
                return false;
    }
    return true;
}

/* No band stands behind one without a bound, and each has either a step or endings. */
static bool ladders_are_sound(const struct program *program)
{
    for (size_t i = 0; i < program->ladders_count; i++) {
        const struct ladder_code *ladder = &program->ladders[i];
        if (ladder->count == 0)
            return false;
        for (size_t k = 0; k < ladder->count; k++) {
            const struct band_code *band = &ladder->bands[k];
            bool last = k + 1 == ladder->count;
            if (!is_step_or_none(program, band->bound) || (!last && band->bound == NO_STEP) ||
                (band->every == NO_STEP) != (band->count > 0))
                return false;
        }
    }
    return true;
}

/* ---- searches and channels ---- */

static bool member_is_sound(const struct program *program, const struct member_code *member)
{
    return member->channel < program->channels_count && is_step(program, member->trial) &&
           (member->aim == NO_STEP) != (member->set == NO_STEP) &&
           is_step_or_none(program, member->floor) && is_step_or_none(program, member->ceiling) &&
           is_step_or_none(program, member->sold) &&
           ascend(program, member->block, member->block_count) &&
           ascend(program, member->inputs, member->inputs_count);
}

static bool searches_are_sound(const struct program *program)
{
    for (size_t i = 0; i < program->searches_count; i++) {
        const struct search_code *search = &program->searches[i];
        if (search->count == 0 || search->ladder >= program->ladders_count)
            return false;
        for (size_t k = 0; k < search->count; k++)
            if (!member_is_sound(program, &search->members[k]))
                return false;
    }
    return true;
}

static bool channel_is_sound(const struct program *program, const struct channel_code *channel)
{
    for (unsigned figure = 0; figure < FIGURES; figure++)
        if (!is_step(program, channel->figures[figure]))
            return false;
    for (size_t i = 0; i < channel->shows_count; i++)
        if (channel->shows[i].column >= program->columns_count)
            return false;
    return channel->search < program->searches_count && is_step(program, channel->search_step) &&
           ascend(program, channel->before, channel->before_count) &&
           ascend(program, channel->steps, channel->steps_count) &&
           ascend(program, channel->named_steps, channel->named_steps_count);
}

bool program_is_sound(const struct program *program)
{
    for (size_t i = 0; i < program->channels_count; i++)
        if (!channel_is_sound(program, &program->channels[i]))
            return false;
    for (size_t i = 0; i < program->rates_count; i++)
        if (!is_step(program, program->rates[i].step))
            return false;
    return steps_are_sound(program) && settled_are_sound(program) && lookups_are_sound(program) &&
           ladders_are_sound(program) && searches_are_sound(program);
}
