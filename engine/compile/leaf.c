/* What explanations need of a program: what each name in an expression stands for, and the units in
 * which this shop reads its amounts. */
#include <string.h>

#include "compile/compile.h"
#include "types/literal.h"
#include "unit/unit.h"

/* ---- leaves ---- */

/* Whether the rules write values of this definition as percentages. */
static bool written_in_percent(const struct symbol *symbol)
{
    const struct statement *statement = symbol->statement;
    if (symbol->kind == SYMBOL_FIELD)
        return strcmp(statement->unit->name.text, "percent") == 0;
    const struct expression *value = statement->value;
    if (symbol->kind == SYMBOL_TABLE && statement->parts)
        value = statement->parts->value;
    if (value && value->kind == EXPRESSION_RANGE)
        value = value->right;
    return value && value->kind == EXPRESSION_PERCENT;
}

static bool leaf_of(struct compile *compile, const struct context *context,
                    const struct expression *expression, struct leaf *leaf)
{
    enum figure figure = figure_find(expression->name.text);
    if (expression->kind == EXPRESSION_WORTH) {
        leaf->type = (struct type){TYPE_NUMBER, dim_base(DIM_MONEY)};
        return true;
    }
    if (figure != FIGURES) {
        leaf->type = figure_type(figure);
        leaf->percent = figure == FIGURE_MARGIN;
        return true;
    }
    uint32_t channel = context->channel;
    if (expression->kind == EXPRESSION_ON)
        channel = shop_channel(compile->shop, expression->channel.text);
    const struct symbol *symbol = shop_find(compile->shop, channel, expression->name.text);
    if (!symbol || symbol->kind == SYMBOL_FUNCTION || symbol->kind == SYMBOL_ROUNDING)
        return false;
    leaf->type = symbol->type;
    leaf->symbol = symbol;
    leaf->percent = symbol->percent;
    return leaf->type.kind != TYPE_PARTS;
}

struct asked_leaf {
    const struct program *program;
    const struct expression *expression;
    uint32_t context;
};

static bool is_leaf(const void *context, uint32_t number)
{
    const struct asked_leaf *asked = context;
    const struct leaf *leaf = &asked->program->leaves[number];
    return leaf->expression == asked->expression && leaf->context == asked->context;
}

static uint64_t hash_of_leaf(const struct expression *expression, uint32_t context)
{
    return index_hash(index_hash(INDEX_HASH, (uintptr_t)expression), context);
}

const struct leaf *leaf_find(const struct program *program, const struct expression *expression,
                             uint32_t context)
{
    struct asked_leaf asked = {program, expression, context};
    uint32_t number =
        index_look(&program->leaf_index, hash_of_leaf(expression, context), is_leaf, &asked);
    return number == INDEX_NONE ? NULL : &program->leaves[number];
}

void note_leaf(struct compile *compile, const struct context *context,
               const struct expression *expression, uint32_t step)
{
    struct program *program = compile->program;
    struct leaf leaf = {.expression = expression, .context = context->number, .step = step};
    if (compile->around.in_function || !leaf_of(compile, context, expression, &leaf))
        return;
    struct asked_leaf asked = {program, expression, context->number};
    uint32_t *number = index_find(&program->leaf_index, compile->arena,
                                  hash_of_leaf(expression, context->number), is_leaf, &asked);
    if (*number != INDEX_NONE)
        return;
    *number = (uint32_t)program->leaves_count;
    leaf.next = compile->first_leaves[context->number];
    compile->first_leaves[context->number] = *number;
    ARENA_ADD(compile->arena, program->leaves, leaf);
}

/* ---- units ---- */

static void add_familiar(struct compile *compile, const struct familiar_unit *unit)
{
    struct program *program = compile->program;
    for (size_t i = 0; unit && i < program->familiar_count; i++)
        if (dim_equal(program->familiar[i].dimension, unit->dimension))
            return;
    if (!unit)
        return;
    ARENA_ADD(compile->arena, program->familiar, *unit);
}

/* The units of an expression's literals. */
static void add_within(struct compile *compile, const struct expression *expression)
{
    if (!expression)
        return;
    const struct familiar_unit *unit = expression->kind == EXPRESSION_QUANTITY
                                           ? literal_familiar(compile->scope, expression->unit)
                                           : literal_written_in(compile->scope, expression);
    add_familiar(compile, unit);
    add_within(compile, expression->left);
    add_within(compile, expression->right);
    add_within(compile, expression->third);
}

static void add_money_per_hour(struct compile *compile)
{
    const struct unit *hour = unit_find("h", 1);
    struct dimension dimension;
    struct num factor;
    if (dim_divide(dim_base(DIM_MONEY), unit_dimension(hour), &dimension) &&
        num_divide(compile->shop->heap, num_whole(1), unit_factor(hour), &factor) == NUM_OK)
        add_familiar(compile, literal_familiar_per(compile->scope, dimension, factor, "h"));
}

/* What this shop writes itself comes first; then units that nobody needs to look up. */
void ready_explanations(struct compile *compile)
{
    const struct shop *shop = compile->shop;
    for (size_t i = 0; i < shop->fields.count; i++)
        add_familiar(compile,
                     literal_familiar(compile->scope, shop->fields.items[i]->statement->as));
    for (size_t i = 0; i < shop->rates.count; i++)
        add_within(compile, shop->rates.items[i]->statement->value);
    for (size_t i = 0; i < shop->units_count; i++)
        if (!shop->units[i].statement->value)
            add_familiar(compile, literal_familiar_named(compile->scope, shop->units[i].dimension,
                                                         num_whole(1), shop->units[i].name, NULL));
    static const char *const common[] = {"min", "mm", "g", "kWh", "l", "W"};
    for (size_t i = 0; i < sizeof common / sizeof *common; i++) {
        const struct unit *unit = unit_find(common[i], strlen(common[i]));
        add_familiar(compile, literal_familiar_named(compile->scope, unit_dimension(unit),
                                                     unit_factor(unit), common[i], NULL));
    }
    add_money_per_hour(compile);
}

/* The unit of a field's bare numbers, or of a rate's literal. */
static const struct familiar_unit *own_unit(struct compile *compile, const struct symbol *symbol)
{
    const struct statement *statement = symbol->statement;
    const struct expression *value = statement->value;
    if (symbol->kind == SYMBOL_FIELD)
        return statement->as ? literal_familiar(compile->scope, statement->as) : NULL;
    if ((symbol->kind != SYMBOL_RATE && symbol->kind != SYMBOL_MATERIAL) || !value)
        return NULL;
    if (value->kind == EXPRESSION_RANGE)
        value = value->right;
    if (value->kind == EXPRESSION_QUANTITY)
        return literal_familiar(compile->scope, value->unit); /* the last one of `1 h 20 min` */
    return literal_written_in(compile->scope, value);
}

void note_writing(struct compile *compile)
{
    struct shop *shop = compile->shop;
    for (size_t i = 0; i < shop->symbols.count; i++) {
        struct symbol *symbol = shop->symbols.items[i];
        symbol->percent = written_in_percent(symbol);
        symbol->unit = own_unit(compile, symbol);
    }
}
