/* Twins: a step of a channel's list and the step on trial that does the same at the price being tried.
 * Fees, taxes and what is kept are written twice, for any price and for the price found; where both
 * prices are one, and so is what the two steps read, the second need not be worked out. */
#include "compile/compile.h"

struct twins {
    const struct program *program;
    const uint32_t *block; /* the steps on trial that are offered */
    struct index index;    /* of them, by what they do and read */
    struct index likes;    /* the same, whatever they read that is not on trial */
};

/* Operations that read their operands and nothing else. */
static bool may_have_twin(enum operation operation)
{
    return (operation >= OP_ADD && operation <= OP_NEGATE) || operation == OP_ROUND ||
           (operation >= OP_LARGER && operation <= OP_MARGIN);
}

/* What a step must have in common with the one that is wanted. */
struct wanted {
    const struct twins *twins;
    const struct step *step;
    bool like; /* an operand that is not on trial may be another one */
};

static uint32_t named_operand(const struct wanted *wanted, uint32_t operand)
{
    return wanted->like && !wanted->twins->program->steps[operand].on_trial ? NO_STEP : operand;
}

static uint64_t hash_of(const struct wanted *wanted)
{
    uint64_t hash = index_hash(INDEX_HASH, wanted->step->operation);
    hash = index_hash(hash, named_operand(wanted, wanted->step->a));
    hash = index_hash(hash, named_operand(wanted, wanted->step->b));
    return index_hash(hash, named_operand(wanted, wanted->step->c));
}

/* What a step names when it goes wrong is left aside: an error is nobody's twin. */
static bool does_the_same(const void *context, uint32_t number)
{
    const struct wanted *wanted = context;
    const struct step *a = &wanted->twins->program->steps[wanted->twins->block[number]];
    const struct step *b = wanted->step;
    return a->operation == b->operation && a->rounding == b->rounding &&
           a->forgiving == b->forgiving &&
           named_operand(wanted, a->a) == named_operand(wanted, b->a) &&
           named_operand(wanted, a->b) == named_operand(wanted, b->b) &&
           named_operand(wanted, a->c) == named_operand(wanted, b->c);
}

static void offer_block(struct compile *compile, struct twins *twins,
                        const struct member_code *member)
{
    for (size_t i = 0; i < member->block_count; i++) {
        const struct step *step = &compile->program->steps[member->block[i]];
        if (!may_have_twin((enum operation)step->operation))
            continue;
        struct wanted same = {twins, step, false}, like = {twins, step, true};
        uint32_t *found[] = {
            index_find(&twins->index, compile->arena, hash_of(&same), does_the_same, &same),
            index_find(&twins->likes, compile->arena, hash_of(&like), does_the_same, &like)};
        for (int k = 0; k < 2; k++)
            if (*found[k] == INDEX_NONE)
                *found[k] = (uint32_t)i;
    }
}

/* Looks for the step with its operands' twins in their places, as it would be on trial. */
static uint32_t twin_of(const struct twins *twins, const uint32_t *known, uint32_t index)
{
    struct step step = twins->program->steps[index];
    if (!may_have_twin((enum operation)step.operation))
        return NO_STEP;
    step.a = known[step.a] == NO_STEP ? step.a : known[step.a];
    step.b = known[step.b] == NO_STEP ? step.b : known[step.b];
    step.c = known[step.c] == NO_STEP ? step.c : known[step.c];
    struct wanted same = {twins, &step, false}, like = {twins, &step, true};
    uint32_t number = index_look(&twins->index, hash_of(&same), does_the_same, &same);
    if (number == INDEX_NONE)
        number = index_look(&twins->likes, hash_of(&like), does_the_same, &like);
    return number == INDEX_NONE ? NO_STEP : twins->block[number];
}

void find_twins(struct compile *compile, struct channel_code *code,
                const struct member_code *member, uint32_t *known)
{
    struct twins twins = {.program = compile->program, .block = member->block};
    uint32_t price = code->figures[FIGURE_PRICE];
    while (code->priced_count < code->steps_count && code->steps[code->priced_count] <= price)
        code->priced_count++;
    size_t count = code->steps_count - code->priced_count;
    code->twins = arena_take(compile->arena, (count + 1) * sizeof *code->twins);
    if (member->aim != NO_STEP) /* a set price is never tried */
        offer_block(compile, &twins, member);
    known[price] = member->trial;
    for (size_t i = 0; i < count; i++) {
        uint32_t step = code->steps[code->priced_count + i];
        known[step] = code->twins[i] = twin_of(&twins, known, step);
    }
    for (size_t i = 0; i < count; i++)
        known[code->steps[code->priced_count + i]] = NO_STEP;
    known[price] = NO_STEP;
}
