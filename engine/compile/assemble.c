/* What each channel and each expect asks for, and the lists of steps that answer it. */
#include <string.h>

#include "compile/compile.h"
#include "text/utf8.h"
#include "types/literal.h"

/* ---- lists of steps ---- */

/* A bit for each step, as each channel and each part of a search goes through all of them. */
struct marking {
    const struct program *program;
    uint64_t *words;
    size_t count; /* of words */
};

enum { WORD = 64 };

static void mark_one(void *context, uint32_t operand)
{
    struct marking *marking = context;
    marking->words[operand / WORD] |= UINT64_C(1) << operand % WORD;
}

static void mark_root(struct marking *marking, uint32_t step)
{
    if (step != NO_STEP)
        mark_one(marking, step);
}

/* Nothing marked. The room is used for one marking at a time. What it takes to go through it is
 * paid for here; without work left there is nothing to mark in. */
static struct marking marking_of(struct compile *compile)
{
    struct marking marking = {compile->program, compile->marks, compile->program->count / WORD + 1};
    if (!spend_work(compile, compile->shop->currency->span, 1 + marking.count / 16))
        marking.count = 1;
    if (!marking.words)
        marking.words = compile->marks =
            arena_take(compile->arena, (compile->program->count / WORD + 1) * sizeof(uint64_t));
    memset(marking.words, 0, marking.count * sizeof *marking.words);
    return marking;
}

/* Everything the marked steps read, marked too: operands stand before what reads them. */
static void mark_operands(struct marking *marking)
{
    for (size_t word = marking->count; word-- > 0;) {
        uint64_t left = marking->words[word];
        while (left) {
            unsigned bit = WORD - 1 - (unsigned)__builtin_clzll(left);
            each_operand(marking->program, (uint32_t)(word * WORD + bit), mark_one, marking);
            left = marking->words[word] & ((UINT64_C(1) << bit) - 1);
        }
    }
}

typedef bool fitting(const struct step *step);

static bool is_once(const struct step *step)
{
    return !step->settled && !step->on_trial;
}

static bool is_tried(const struct step *step)
{
    return !step->settled && step->on_trial;
}

static bool is_input(const struct step *step)
{
    return !step->on_trial;
}

/* The marked steps that fit, ascending; counted only, where `list` is NULL. */
static size_t write_marked(const struct marking *marking, fitting *fits, uint32_t *list)
{
    size_t count = 0;
    for (size_t word = 0; word < marking->count; word++) {
        for (uint64_t left = marking->words[word]; left; left &= left - 1) {
            uint32_t step = (uint32_t)(word * WORD) + (uint32_t)__builtin_ctzll(left);
            if (!fits(&marking->program->steps[step]))
                continue;
            if (list)
                list[count] = step;
            count++;
        }
    }
    return count;
}

static uint32_t *list_marked(struct compile *compile, const struct marking *marking, fitting *fits,
                             size_t *count)
{
    *count = write_marked(marking, fits, NULL);
    uint32_t *list = arena_take(compile->arena, (*count + 1) * sizeof *list);
    write_marked(marking, fits, list);
    return list;
}

/* With everything that they read. */
static uint32_t *list_needed(struct compile *compile, struct marking *marking, fitting *fits,
                             size_t *count)
{
    mark_operands(marking);
    return list_marked(compile, marking, fits, count);
}

/* What a block reads beyond itself, and the aim itself when it does not depend on the price. */
static void list_inputs(struct compile *compile, struct member_code *member)
{
    struct marking marking = marking_of(compile);
    for (size_t i = 0; i < member->block_count; i++)
        each_operand(compile->program, member->block[i], mark_one, &marking);
    mark_root(&marking, member->aim);
    mark_root(&marking, member->keep);
    member->inputs = list_marked(compile, &marking, is_input, &member->inputs_count);
}

/* ---- columns ---- */

/* The column of a show's name; one column shows one kind of value in one unit. */
static uint32_t find_column(struct compile *compile, const struct symbol *show)
{
    struct program *program = compile->program;
    const struct tree_unit *as = show->statement->as;
    struct column_code column = {
        .name = show->name, .type = show->type, .unit = as, .factor = num_whole(1)};
    struct dimension dimension;
    if (as && literal_unit(compile->scope, as, &dimension, &column.factor)) {
        column.unit_text = literal_unit_text(compile->scope, as);
        column.written = literal_familiar(compile->scope, as);
    }
    for (size_t i = 0; i < program->columns_count; i++) {
        const struct column_code *old = &program->columns[i];
        if (strcmp(old->name, column.name) != 0)
            continue;
        bool same = old->type.kind == column.type.kind &&
                    dim_equal(old->type.dimension, column.type.dimension) &&
                    num_equal(old->factor, column.factor);
        if (!same)
            diagnostics_error(
                compile->diagnostics, show->statement->span, NULL,
                "show %s has another kind or unit on another channel; it must be the same on all",
                show->name);
        return (uint32_t)i;
    }
    ARENA_ADD(compile->arena, program->columns, column);
    return (uint32_t)program->columns_count - 1;
}

/* A show of the shop's is met on every channel. */
static uint32_t column_of(struct compile *compile, const struct symbol *show)
{
    uint32_t *known = &compile->columns[show->number];
    if (*known == NO_STEP)
        *known = find_column(compile, show);
    return *known;
}

/* ---- channels ---- */

static struct note_code *notes_of(struct compile *compile, const struct context *context,
                                  const struct statement_set *set)
{
    struct note_code *notes = arena_take(compile->arena, (set->count + 1) * sizeof *notes);
    for (size_t i = 0; i < set->count; i++) {
        const struct statement *line = set->items[i];
        const char *text = line->text.text;
        const char *what = arena_print(compile->arena, "%s \"%.*s\"", statement_word(line->kind),
                                       (int)text_cut(text, strlen(text), 100), text);
        compile->origin = emit_origin(compile, what, line->span);
        notes[i] = (struct note_code){
            line->text.text, emit_expression(compile, context, line->value).step, line->span};
    }
    return notes;
}

static void emit_shows(struct compile *compile, const struct context *context,
                       const struct channel *channel, struct channel_code *code)
{
    code->shows_count = channel->shows.count;
    code->shows = arena_take(compile->arena, (channel->shows.count + 1) * sizeof *code->shows);
    for (size_t i = 0; i < channel->shows.count; i++) {
        struct symbol *show = channel->shows.items[i];
        struct flow flow = emit_symbol(compile, context, show, show->statement->span);
        code->shows[i] = (struct show_code){show, flow.step, column_of(compile, show)};
    }
}

/* Every definition that the channel's rules can name. */
static void emit_named(struct compile *compile, const struct context *context,
                       struct channel_code *code)
{
    const struct symbol_set *symbols = &compile->shop->symbols;
    code->named = arena_take(compile->arena, (symbols->count + 1) * sizeof *code->named);
    for (size_t i = 0; i < symbols->count && !compile->gave_up; i++) {
        struct symbol *symbol = symbols->items[i];
        bool value = symbol->kind != SYMBOL_FUNCTION && symbol->kind != SYMBOL_ROUNDING &&
                     symbol->kind != SYMBOL_TABLE;
        bool here = shop_find(compile->shop, context->channel, symbol->name) == symbol;
        if (!value || !here || (symbol->kind == SYMBOL_FIELD && symbol->type.kind == TYPE_PARTS))
            continue;
        struct flow flow = emit_symbol(compile, context, symbol, symbol->statement->span);
        code->named[code->named_count++] = (struct named_step){symbol, flow.step};
    }
}

static void emit_channel(struct compile *compile, uint32_t number)
{
    const struct channel *channel = &compile->shop->channels[number];
    struct channel_code *code = &compile->program->channels[number];
    struct context context = context_of(compile, number, false, false);
    code->name = channel->name;
    code->sold = emit_sold(compile, &context);
    for (unsigned figure = 0; figure < FIGURES; figure++)
        code->figures[figure] =
            emit_figure(compile, &context, (enum figure)figure, channel_span(compile, number)).step;
    struct context place = context_of(compile, number, compile->for_one[number], false);
    code->context = context.number;
    code->price_context = place.number;
    code->search_step = emit_price_search(compile, &place);
    code->search = compile->program->steps[code->search_step].a;
    code->pin = emit_pin(compile, &place);
    code->discount = NO_STEP;
    if (channel->price.discount && channel->price.discount->value)
        code->discount = emit_expression(compile, &context, channel->price.discount->value).step;
    emit_questions(compile, number, code);
    emit_shows(compile, &context, channel, code);
    code->warns = notes_of(compile, &context, &channel->warns);
    code->warns_count = channel->warns.count;
    code->refuses = notes_of(compile, &context, &channel->refuses);
    code->refuses_count = channel->refuses.count;
    emit_named(compile, &context, code);
}

/* What the names in the expressions of a context stand for. */
static void mark_leaves(const struct compile *compile, struct marking *marking, uint32_t context)
{
    const struct leaf *leaves = compile->program->leaves;
    for (uint32_t i = compile->first_leaves[context]; i != NO_STEP; i = leaves[i].next)
        mark_root(marking, leaves[i].step);
}

/* What the questions read: the steps that find their prices are run one by one, when asked. */
static void mark_questions(const struct compile *compile, struct marking *marking,
                           const struct channel_code *code)
{
    each_operand(compile->program, code->without_loss, mark_one, marking);
    for (size_t i = 0; i < compile->shop->goals.count; i++) {
        const struct goal_code *goal = &code->goals[i];
        for (int line = 0; line < GOAL_LINES; line++)
            mark_root(marking, goal->lines[line]);
        if (goal->price_step != NO_STEP)
            each_operand(compile->program, goal->price_step, mark_one, marking);
    }
}

static void list_channel(struct compile *compile, struct channel_code *code)
{
    struct marking before = marking_of(compile);
    mark_root(&before, code->sold);
    code->before = list_needed(compile, &before, is_once, &code->before_count);
    struct marking all = marking_of(compile);
    each_asked(code, mark_one, &all);
    code->steps = list_needed(compile, &all, is_once, &code->steps_count);
    struct marking named = marking_of(compile);
    for (size_t i = 0; i < code->named_count; i++)
        mark_root(&named, code->named[i].step);
    mark_root(&named, code->discount);
    mark_questions(compile, &named, code);
    for (uint32_t context = 0; context < CONTEXTS_A_CHANNEL; context++)
        mark_leaves(compile, &named,
                    code->context / CONTEXTS_A_CHANNEL * CONTEXTS_A_CHANNEL + context);
    code->named_steps = list_needed(compile, &named, is_once, &code->named_steps_count);
}

/* ---- searches ---- */

/* Tables and choices can jump; all else that depends on the price is continuous up to rounding. */
static bool may_jump(const struct program *program, const struct member_code *member)
{
    bool jumps = false;
    for (size_t i = 0; i < member->block_count; i++)
        jumps = jumps || step_has(&program->steps[member->block[i]], JUMPS);
    return jumps;
}

static void list_blocks(struct compile *compile)
{
    struct program *program = compile->program;
    for (size_t i = 0; i < program->searches_count; i++) {
        for (size_t k = 0; k < program->searches[i].count && !compile->gave_up; k++) {
            struct member_code *member = &program->searches[i].members[k];
            struct marking marking = marking_of(compile);
            mark_root(&marking, member->aim);
            mark_root(&marking, member->keep);
            member->block = list_needed(compile, &marking, is_tried, &member->block_count);
            list_inputs(compile, member);
            member->jumps = may_jump(program, member);
            struct marking told = marking_of(compile);
            mark_root(&told, member->aim);
            mark_leaves(compile, &told, member->context);
            member->told = list_needed(compile, &told, is_tried, &member->told_count);
        }
    }
}

/* ---- expects ---- */

/* `x = LITERAL` compares at the decimals the literal is written with. */
static struct flow emit_then(struct compile *compile, const struct context *context,
                             const struct expression *then)
{
    struct literal literal;
    if (then->kind == EXPRESSION_GROUP)
        return emit_then(compile, context, then->left);
    if (then->kind == EXPRESSION_AND) {
        struct flow a = emit_then(compile, context, then->left);
        struct flow b = emit_then(compile, context, then->right);
        return flow_join(emit_two(compile, OP_AND, a.step, b.step), a, b);
    }
    if (then->kind != EXPRESSION_EQUAL ||
        literal_read(compile->scope, then->right, &literal) != LITERAL_READ ||
        literal.type.kind != TYPE_NUMBER)
        return emit_expression(compile, context, then);
    struct flow value = emit_expression(compile, context, then->left);
    uint32_t rounded =
        emit_rounded(compile, value.step, emit_number(compile, literal.step), NUM_NEAREST);
    value.step = emit_two(compile, OP_EQUAL, rounded, emit_number(compile, literal.number));
    return value;
}

static bool expect_is_on(const struct statement *expect, const char *channel)
{
    for (const struct statement *line = expect->parts; line; line = line->next)
        if (line->kind == STATEMENT_ON)
            return strcmp(line->name.text, channel) == 0;
    return true;
}

static void emit_expect(struct compile *compile, struct expect_code *code)
{
    const struct program *program = compile->program;
    size_t thens = 0;
    for (const struct statement *line = code->statement->parts; line; line = line->next)
        thens += line->kind == STATEMENT_THEN;
    code->channels = arena_take(compile->arena, program->channels_count * sizeof *code->channels);
    for (size_t i = 0; i < program->channels_count; i++) {
        if (!expect_is_on(code->statement, program->channels[i].name))
            continue;
        struct expect_channel *channel = &code->channels[code->channels_count++];
        struct context context = context_of(compile, (uint32_t)i, false, false);
        channel->channel = (uint32_t)i;
        channel->thens = arena_take(compile->arena, (thens + 1) * sizeof *channel->thens);
        size_t at = 0;
        for (const struct statement *line = code->statement->parts; line; line = line->next)
            if (line->kind == STATEMENT_THEN)
                channel->thens[at++] = emit_then(compile, &context, line->value).step;
    }
    code->thens_count = thens;
}

static void list_expect(struct compile *compile, struct expect_code *code)
{
    for (size_t i = 0; i < code->channels_count && !compile->gave_up; i++) {
        struct expect_channel *channel = &code->channels[i];
        struct marking marking = marking_of(compile);
        for (size_t k = 0; k < code->thens_count; k++)
            mark_root(&marking, channel->thens[k]);
        channel->steps = list_needed(compile, &marking, is_once, &channel->steps_count);
    }
}

/* ---- all of it ---- */

static void list_settled(struct compile *compile)
{
    struct program *program = compile->program;
    program->settled = arena_take(compile->arena, (program->count + 1) * sizeof *program->settled);
    for (size_t i = 0; i < program->count; i++)
        if (program->steps[i].settled)
            program->settled[program->settled_count++] = (uint32_t)i;
}

static void list_channels(struct compile *compile)
{
    struct program *program = compile->program;
    for (size_t i = 0; i < program->channels_count && !compile->gave_up; i++)
        list_channel(compile, &program->channels[i]);
}

void assemble(struct compile *compile)
{
    struct program *program = compile->program;
    for (size_t i = 0; i < program->channels_count && !compile->gave_up; i++)
        emit_channel(compile, (uint32_t)i);
    for (size_t i = 0; i < program->expects_count && !compile->gave_up; i++)
        emit_expect(compile, &program->expects[i]);
    if (compile->diagnostics->errors > 0)
        return;
    ready_explanations(compile);
    list_settled(compile);
    list_blocks(compile);
    list_channels(compile);
    for (size_t i = 0; i < program->expects_count && !compile->gave_up; i++)
        list_expect(compile, &program->expects[i]);
}
