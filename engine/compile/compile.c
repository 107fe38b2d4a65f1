#include "compile/compile.h"

#include <assert.h>
#include <string.h>

#include "types/literal.h"
#include "types/range.h"

/* ---- what a method takes and offers ---- */

static bool unit_is_declared(const struct shop *shop, const char *name)
{
    const struct shop_unit *unit = shop_unit(shop, name);
    return unit && !unit->statement->value;
}

static const char *expression_text(struct compile *compile, const struct expression *expression)
{
    return arena_text(compile->arena, span_text(expression->span),
                      (size_t)span_length(expression->span));
}

/* The range that a default or a rate is; NULL where it is one amount. */
static const struct value_range *range_of(struct compile *compile,
                                          const struct expression *expression)
{
    struct range range;
    if (!expression || expression->kind != EXPRESSION_RANGE ||
        range_read(compile->scope, expression, &range) != LITERAL_READ || range_is_one(&range))
        return NULL;
    struct value_range *out = arena_take(compile->arena, sizeof *out);
    *out = (struct value_range){true, value_number(range.low), value_number(range.likely),
                                value_number(range.high)};
    return out;
}

static struct field_code code_of_field(struct compile *compile, const struct symbol *symbol)
{
    const struct statement *field = symbol->statement;
    const char *type = field->unit->name.text;
    struct field_code code = {.symbol = symbol, .column = symbol->name, .factor = num_whole(1)};
    code.type_text = literal_unit_text(compile->scope, field->unit);
    if (field->value)
        code.default_text = expression_text(compile, field->value);
    code.range = range_of(compile, field->value);
    if (field->text.text)
        code.column = field->text.text;
    bool alone = field->unit->per == NULL;
    code.count = alone && strcmp(type, "count") == 0;
    code.percent = alone && strcmp(type, "percent") == 0;
    code.required = !field->optional && !field->value;
    code.bare = field->as || (alone && unit_is_declared(compile->shop, type)) ||
                dim_is_none(symbol->type.dimension) || dim_is_money(symbol->type.dimension);
    struct dimension dimension;
    if (field->as)
        literal_unit(compile->scope, field->as, &dimension, &code.factor);
    return code;
}

static void code_fields(struct compile *compile)
{
    struct program *program = compile->program;
    const struct symbol_set *fields = &compile->shop->fields;
    program->fields_count = fields->count;
    program->fields = arena_take(compile->arena, (fields->count + 1) * sizeof *program->fields);
    program->name_field = NO_STEP;
    for (size_t i = 0; i < fields->count; i++) {
        program->fields[i] = code_of_field(compile, fields->items[i]);
        for (size_t k = 0; k < i; k++)
            if (strcmp(program->fields[k].column, program->fields[i].column) == 0)
                diagnostics_error(compile->diagnostics, fields->items[i]->statement->span, NULL,
                                  "the fields %s and %s read the same column",
                                  fields->items[k]->name, fields->items[i]->name);
        if (strcmp(fields->items[i]->name, "name") == 0)
            program->name_field = (uint32_t)i;
    }
}

/* Rates and materials, in an order in which a density finds its place known. */
static void code_rates(struct compile *compile)
{
    struct program *program = compile->program;
    const struct symbol_set *rates = &compile->shop->rates;
    struct context context = context_of(compile, 0, false, false);
    program->rates_count = rates->count;
    program->rates = arena_take(compile->arena, (rates->count + 1) * sizeof *program->rates);
    for (size_t i = 0; i < rates->count; i++)
        program->rates[i] =
            (struct rate_code){.symbol = rates->items[i], .step = NO_STEP, .density = NO_STEP};
    for (size_t i = 0; i < rates->count; i++) {
        struct symbol *symbol = rates->items[i];
        const struct statement *statement = symbol->statement;
        program->rates[i].text = expression_text(compile, statement->value);
        program->rates[i].range = range_of(compile, statement->value);
        program->rates[i].step = emit_symbol(compile, &context, symbol, statement->span).step;
        if (symbol->kind != SYMBOL_MATERIAL)
            continue;
        dim_divide(dim_base(DIM_MONEY), symbol->type.dimension, &program->rates[i].per);
        if (statement->other)
            program->rates[i].density = emit_expression(compile, &context, statement->other).step;
    }
}

static void code_expects(struct compile *compile)
{
    struct program *program = compile->program;
    const struct statement_set *expects = &compile->shop->expects;
    program->expects_count = expects->count;
    program->expects = arena_take(compile->arena, (expects->count + 1) * sizeof *program->expects);
    for (size_t i = 0; i < expects->count; i++)
        program->expects[i].statement = expects->items[i];
}

static void report_otherwises(struct compile *compile)
{
    for (size_t i = 0; i < compile->otherwises_count; i++) {
        const struct otherwise_note *note = &compile->otherwises[i];
        if (!note->may_miss) {
            diagnostics_error(compile->diagnostics, note->expression->left->span,
                              "optional, after the field's type, if the cell may be empty",
                              "this can never be missing, so `otherwise` never applies");
            diagnostics_help_is(compile->diagnostics, HELP_ADVICE);
        }
    }
}

/* So many numbers, none of them known yet. */
static uint32_t *filled(struct compile *compile, size_t count)
{
    uint32_t *numbers = arena_take(compile->arena, (count + 1) * sizeof *numbers);
    for (size_t i = 0; i <= count; i++)
        numbers[i] = NO_STEP;
    return numbers;
}

static bool has_discount(const struct compile *compile, uint32_t channel)
{
    const struct statement *discount = compile->shop->channels[channel].price.discount;
    return discount && discount->value;
}

/* Which channels share a price, and which lists are found for one piece. */
static void ready_groups(struct compile *compile)
{
    const struct shop *shop = compile->shop;
    compile->groups = filled(compile, shop->channels_count);
    compile->for_one = arena_take(compile->arena, shop->channels_count * sizeof *compile->for_one);
    for (uint32_t i = 0; i < shop->channels_count; i++)
        compile->for_one[i] = has_discount(compile, i);
    for (size_t i = 0; i < shop->same_price.count; i++) {
        bool any = false;
        const struct tree_word *words = shop->same_price.items[i]->words;
        for (const struct tree_word *each = words; each; each = each->next) {
            uint32_t channel = shop_channel(shop, each->word.text);
            compile->groups[channel] = (uint32_t)i;
            any = any || has_discount(compile, channel);
        }
        for (const struct tree_word *each = words; each; each = each->next)
            compile->for_one[shop_channel(shop, each->word.text)] |= any;
    }
}

static void ready(struct compile *compile)
{
    const struct shop *shop = compile->shop;
    size_t contexts = shop->channels_count * CONTEXTS_A_CHANNEL;
    compile->memo = arena_take(compile->arena, contexts * sizeof *compile->memo);
    compile->trial_steps = filled(compile, contexts);
    compile->price_steps = filled(compile, contexts);
    compile->tables =
        arena_take(compile->arena, (shop->symbols.count + 1) * sizeof *compile->tables);
    compile->ladders = filled(compile, shop->symbols.count);
    compile->columns = filled(compile, shop->symbols.count);
    compile->first_leaves = filled(compile, contexts);
    ready_groups(compile);
    size_t groups = 2 * shop->same_price.count + 1;
    compile->group_searches = filled(compile, groups);
    emit_origin(compile, "these rules", (struct span){0});
    compile->missing = emit_constant(compile, value_missing());
}

struct program *compile_shop(struct shop *shop, struct limits limits)
{
    struct arena *arena = shop->arena;
    assert(arena->escape && shop->diagnostics->errors == 0 && shop->channels_count > 0);
    struct program *program = arena_take(arena, sizeof *program);
    program->shop = shop;
    program->limits = limits;
    program->channels_count = shop->channels_count;
    program->channels = arena_take(arena, shop->channels_count * sizeof *program->channels);
    struct compile compile = {.shop = shop,
                              .program = program,
                              .arena = arena,
                              .diagnostics = shop->diagnostics,
                              .scope = {shop, shop->diagnostics, shop->heap, arena},
                              .work_left = limits.steps};
    ready(&compile);
    note_writing(&compile);
    code_fields(&compile);
    code_rates(&compile);
    code_expects(&compile);
    assemble(&compile);
    report_otherwises(&compile);
    if (shop->diagnostics->errors > 0)
        return program;
    assert(program_is_sound(program));
    struct settled settled;
    if (settle(program, NULL, arena, shop->heap, shop->diagnostics, &settled) == SETTLED) {
        warn_of_tables(&compile, &settled);
        warn_of_looks(&compile, &settled);
    }
    return program;
}
