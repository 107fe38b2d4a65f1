/* Writing steps: equal ones once, constant ones worked out at once. */
#include <string.h>

#include "compile/compile.h"
#include "evaluate/evaluate.h"

/* ---- what a step reads ---- */

static void visit_lookup(const struct lookup_code *lookup,
                         void (*visit)(void *context, uint32_t operand), void *context)
{
    const struct table_code *table = lookup->table;
    for (size_t k = 0; k < table->keys; k++)
        visit(context, lookup->keys[k]);
    for (size_t row = 0; row < table->rows; row++)
        visit(context, lookup->values[row]);
    for (size_t i = 0; i < table->rows * table->keys; i++) {
        if (table->cells[i].bound != NO_STEP)
            visit(context, table->cells[i].bound);
        if (table->cells[i].upper != NO_STEP)
            visit(context, table->cells[i].upper);
    }
}

static void visit_search(const struct search_code *search,
                         void (*visit)(void *context, uint32_t operand), void *context)
{
    for (size_t i = 0; i < search->count; i++) {
        const struct member_code *member = &search->members[i];
        const uint32_t read[] = {member->aim,   member->keep,    member->set,
                                 member->floor, member->ceiling, member->sold};
        for (size_t k = 0; k < sizeof read / sizeof *read; k++)
            if (read[k] != NO_STEP)
                visit(context, read[k]);
    }
}

static void visit_worth(const struct program *program,
                        void (*visit)(void *context, uint32_t operand), void *context)
{
    for (size_t i = 0; i < program->rates_count; i++) {
        if (program->rates[i].symbol->kind != SYMBOL_MATERIAL)
            continue;
        if (program->rates[i].step != NO_STEP)
            visit(context, program->rates[i].step);
        if (program->rates[i].density != NO_STEP)
            visit(context, program->rates[i].density);
    }
}

void each_operand(const struct program *program, uint32_t index,
                  void (*visit)(void *context, uint32_t operand), void *context)
{
    const struct step *step = &program->steps[index];
    switch ((enum operands)operation_traits[step->operation].operands) {
    case READS_NONE: break;
    case READS_DEFAULT:
        if (step->b != NO_STEP)
            visit(context, step->b);
        break;
    case READS_LOOKUP: visit_lookup(&program->lookups[step->a], visit, context); break;
    case READS_SEARCH: visit_search(&program->searches[step->a], visit, context); break;
    case READS_PARTS:
        visit(context, step->a);
        visit_worth(program, visit, context);
        break;
    case READS_A_B_C: visit(context, step->c); /* fall through */
    case READS_A_B:
        visit(context, step->a);
        visit(context, step->b);
        break;
    case READS_A: visit(context, step->a); break;
    }
}

void each_asked(const struct channel_code *channel, void (*visit)(void *context, uint32_t step),
                void *context)
{
    if (channel->pin !=
        NO_STEP) /* a step of its own: each place that pins is named in its errors */
        visit(context, channel->pin);
    for (unsigned figure = 0; figure < FIGURES; figure++)
        if (figure != FIGURE_AS_OF && figure != FIGURE_CHANNEL)
            visit(context, channel->figures[figure]);
    for (size_t i = 0; i < channel->shows_count; i++)
        visit(context, channel->shows[i].step);
    for (size_t i = 0; i < channel->warns_count; i++)
        visit(context, channel->warns[i].step);
    for (size_t i = 0; i < channel->refuses_count; i++)
        visit(context, channel->refuses[i].step);
}

/* ---- equal steps once ---- */

static uint64_t hash_of(const struct step *step)
{
    const uint64_t parts[] = {step->operation,
                              step->rounding,
                              step->forgiving,
                              step->a,
                              step->b,
                              step->c,
                              step_has(step, FAILS) ? step->origin : 0};
    uint64_t hash = INDEX_HASH;
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        hash = index_hash(hash, parts[i]);
    return hash;
}

struct asked_step {
    const struct program *program;
    const struct step *step;
};

static bool same_step(const void *context, uint32_t number)
{
    const struct asked_step *asked = context;
    const struct step *a = asked->step, *b = &asked->program->steps[number];
    return a->operation == b->operation && a->rounding == b->rounding &&
           a->forgiving == b->forgiving && a->a == b->a && a->b == b->b && a->c == b->c &&
           (!step_has(a, FAILS) || a->origin == b->origin);
}

struct traits {
    const struct program *program;
    bool settled, on_trial;
};

static void join_traits(void *context, uint32_t operand)
{
    struct traits *traits = context;
    const struct step *step = &traits->program->steps[operand];
    traits->settled = traits->settled && step->settled;
    traits->on_trial = traits->on_trial || step->on_trial;
}

static void mark_traits(struct program *program, uint32_t index)
{
    struct step *step = &program->steps[index];
    struct traits traits = {program, true, false};
    each_operand(program, index, join_traits, &traits);
    step->settled = traits.settled && !step_has(step, WITH_RECORD);
    step->on_trial =
        step->operation == OP_TRIAL || (traits.on_trial && step->operation != OP_PRICE);
}

static uint32_t append(struct compile *compile, struct step step)
{
    struct program *program = compile->program;
    program->steps = arena_grow(compile->arena, program->steps, sizeof *program->steps,
                                &program->room, program->count + 1);
    compile->values = arena_grow(compile->arena, compile->values, sizeof *compile->values,
                                 &compile->values_room, program->count + 1);
    uint32_t index = (uint32_t)program->count++;
    program->steps[index] = step;
    compile->values[index] = value_missing();
    mark_traits(program, index);
    return index;
}

/* ---- constants ---- */

uint32_t emit_constant(struct compile *compile, struct value value)
{
    struct program *program = compile->program;
    program->constants = arena_grow(compile->arena, program->constants, sizeof *program->constants,
                                    &program->constants_room, program->constants_count + 1);
    program->constants[program->constants_count] = value;
    struct step step = {.operation = OP_CONSTANT, .a = (uint32_t)program->constants_count++};
    uint32_t index = append(compile, step);
    compile->values[index] = value;
    return index;
}

struct asked_number {
    const struct compile *compile;
    struct num number;
};

static bool same_number(const void *context, uint32_t step)
{
    const struct asked_number *asked = context;
    const struct num *other = &asked->compile->values[step].number;
    return other->top == asked->number.top && other->bottom == asked->number.bottom;
}

uint32_t emit_number(struct compile *compile, struct num number)
{
    if (number.bottom == 0) /* a large one */
        return emit_constant(compile, value_number(number));
    struct asked_number asked = {compile, number};
    uint64_t hash =
        index_hash(index_hash(INDEX_HASH, (uint64_t)number.top), (uint64_t)number.bottom);
    uint32_t *step = index_find(&compile->numbers, compile->arena, hash, same_number, &asked);
    if (*step == INDEX_NONE)
        *step = emit_constant(compile, value_number(number));
    return *step;
}

bool emit_is_constant(const struct compile *compile, uint32_t step, struct value *value)
{
    if (compile->program->steps[step].operation != OP_CONSTANT)
        return false;
    *value = compile->values[step];
    return true;
}

struct constancy {
    const struct program *program;
    bool constant;
};

static void join_constancy(void *context, uint32_t operand)
{
    struct constancy *constancy = context;
    if (constancy->program->steps[operand].operation != OP_CONSTANT)
        constancy->constant = false;
}

/* Works out a step of constants; what would be an error stays a step, to be met if it is used. */
static uint32_t fold(struct compile *compile, uint32_t index)
{
    struct program *program = compile->program;
    bool number = step_has(&program->steps[index], FOLDS_NUMBER);
    struct constancy constancy = {program, true};
    each_operand(program, index, join_constancy, &constancy);
    if ((!number && !step_has(&program->steps[index], FOLDS)) || !constancy.constant)
        return index;
    struct evaluation evaluation = {
        .program = program, .values = compile->values, .heap = compile->shop->heap};
    evaluation.steps_left = compile->work_left;
    evaluation.charged = evaluation.heap->effort;
    struct value value = evaluate_step(&evaluation, index);
    evaluate_charge(&evaluation);
    compile->work_left = evaluation.steps_left;
    if (value.state == VALUE_ERROR)
        return index;
    return number && value.state == VALUE_THERE ? emit_number(compile, value.number)
                                                : emit_constant(compile, value);
}

uint32_t emit_text(struct compile *compile, const char *text)
{
    struct value value = {.state = VALUE_THERE, .text = {text, strlen(text)}};
    uint32_t index = emit_constant(compile, value);
    compile->program->steps[index].b = true;
    return index;
}

/* The operand that the step comes to in any case: what has nothing added or taken off, or is
 * multiplied or divided by one. NO_STEP where there is none. */
static uint32_t unchanged_operand(const struct compile *compile, const struct step *step)
{
    const uint32_t operands[] = {step->a, step->b};
    const unsigned neutral[] = {NEUTRAL_A, NEUTRAL_B};
    for (int k = 1; k >= 0; k--) {
        struct value value;
        if (step_has(step, neutral[k]) && emit_is_constant(compile, operands[k], &value) &&
            value.state == VALUE_THERE &&
            num_equal(value.number, num_whole(step_has(step, NEUTRAL_ONE))))
            return operands[1 - k];
    }
    return NO_STEP;
}

uint32_t emit_step(struct compile *compile, struct step step)
{
    uint32_t unchanged = unchanged_operand(compile, &step);
    if (unchanged != NO_STEP)
        return unchanged;
    step.origin = compile->origin;
    struct asked_step asked = {compile->program, &step};
    uint32_t *known =
        index_find(&compile->steps, compile->arena, hash_of(&step), same_step, &asked);
    if (*known == INDEX_NONE)
        *known = append(compile, step);
    return fold(compile, *known);
}

uint32_t emit_one(struct compile *compile, enum operation operation, uint32_t a)
{
    return emit_step(compile, (struct step){.operation = (uint8_t)operation, .a = a});
}

uint32_t emit_select(struct compile *compile, uint32_t condition, uint32_t yes, uint32_t no)
{
    return emit_step(compile,
                     (struct step){.operation = OP_SELECT, .a = condition, .b = yes, .c = no});
}

uint32_t emit_two(struct compile *compile, enum operation operation, uint32_t a, uint32_t b)
{
    return emit_step(compile, (struct step){.operation = (uint8_t)operation, .a = a, .b = b});
}

uint32_t emit_rounded(struct compile *compile, uint32_t a, uint32_t grid,
                      enum num_rounding rounding)
{
    return emit_step(
        compile,
        (struct step){.operation = OP_ROUND, .rounding = (uint8_t)rounding, .a = a, .b = grid});
}

struct asked_origin {
    const struct program *program;
    struct origin origin;
};

static bool same_origin(const void *context, uint32_t number)
{
    const struct asked_origin *asked = context;
    const struct origin *a = &asked->program->origins[number], *b = &asked->origin;
    return a->span.source == b->span.source && a->span.start == b->span.start &&
           a->span.end == b->span.end && strcmp(a->what, b->what) == 0;
}

/* One for each definition, whatever context it is written in: so that contexts share the steps that
 * name it. */
uint32_t emit_origin(struct compile *compile, const char *what, struct span span)
{
    struct program *program = compile->program;
    struct asked_origin asked = {program, {what, span}};
    uint64_t hash = index_hash(index_hash(INDEX_HASH, (uintptr_t)span.source), span.start);
    uint32_t *number = index_find(&compile->origins, compile->arena, hash, same_origin, &asked);
    if (*number != INDEX_NONE)
        return *number;
    ARENA_ADD(compile->arena, program->origins, asked.origin);
    return *number = (uint32_t)program->origins_count - 1;
}
