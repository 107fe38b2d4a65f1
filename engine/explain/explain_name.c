/* Where one figure comes from: a tree of definitions, figures and fields, each told once. */
#include <string.h>

#include "explain/explain.h"

enum { DEPTH_MOST = 20 };

/* A tree being told. */
struct telling {
    struct explaining *explaining;
    bool *symbols; /* by number: told already, or being told */
    bool figures[FIGURES];
};

static void tell_name(struct telling *telling, const char *name, unsigned depth);

static const struct shop *shop_of(const struct telling *telling)
{
    return &telling->explaining->scratch->core->shop;
}

static const struct symbol *symbol_of(const struct telling *telling, const char *name)
{
    const struct shop *shop = shop_of(telling);
    return shop_find(shop, (unsigned)(telling->explaining->channel - shop->channels), name);
}

/* ---- within an expression ---- */

static bool is_among(const struct tree_word *words, const char *name)
{
    for (; words; words = words->next)
        if (strcmp(words->word.text, name) == 0)
            return true;
    return false;
}

/* The name, where it stands for a single step of the channel's. */
static const struct leaf *leaf_of(const struct telling *telling,
                                  const struct expression *expression)
{
    const groat_scratch *scratch = telling->explaining->scratch;
    const struct program *program = scratch->core->program;
    const struct leaf *leaf = leaf_find(program, expression, scratch->channel->context);
    return leaf ? leaf : leaf_find(program, expression, scratch->channel->price_context);
}

/* A name of another channel, or what parts are worth: its amount and no more. */
static void tell_leaf(struct telling *telling, const struct expression *expression, unsigned depth)
{
    struct explaining *explaining = telling->explaining;
    const struct leaf *leaf = leaf_of(telling, expression);
    if (!leaf || depth > DEPTH_MOST)
        return;
    const struct value *value = &explaining->scratch->values[leaf->step];
    struct span span = expression->span;
    groat_line line = {.part = GROAT_PART_NAME,
                       .name = words_written(&explaining->words, expression),
                       .amount = words_of(&explaining->words, value, leaf->type, leaf->percent),
                       .value = result_value(explaining->scratch->core, value, leaf->type),
                       .unit = unit_for(explaining->scratch->core, leaf->type, leaf->percent, NULL),
                       .file = span.source->name,
                       .line = span_place(span).line,
                       .depth = depth};
    explain_add(explaining, &explaining->explanation->lines, line);
    if (expression->kind == EXPRESSION_WORTH)
        explain_parts(explaining, GROAT_PART_NAME, expression, depth + 1);
}

static void tell_table(struct telling *telling, const struct symbol *table, const struct leaf *leaf,
                       unsigned depth);

/* The names in an expression, from left to right; not those that are a function's parameters. */
static void tell_within(struct telling *telling, const struct expression *expression,
                        unsigned depth, const struct tree_word *parameters)
{
    if (!expression)
        return;
    enum expression_kind kind = expression->kind;
    bool name = kind == EXPRESSION_NAME || kind == EXPRESSION_CALL;
    if (kind == EXPRESSION_WORTH || kind == EXPRESSION_ON)
        tell_leaf(telling, expression, depth);
    if (name && !is_among(parameters, expression->name.text)) {
        const struct symbol *symbol = symbol_of(telling, expression->name.text);
        if (symbol && symbol->kind == SYMBOL_TABLE)
            tell_table(telling, symbol, leaf_of(telling, expression), depth);
        else
            tell_name(telling, expression->name.text, depth);
    }
    tell_within(telling, expression->left, depth, parameters);
    tell_within(telling, expression->right, depth, parameters);
    tell_within(telling, expression->third, depth, parameters);
    for (const struct expression *each = expression->arguments; each; each = each->next)
        tell_within(telling, each, depth, parameters);
}

/* ---- tables ---- */

/* The row that the table gave, or NULL: where it is sliced, or gave none. */
static const struct statement *row_of(const struct telling *telling, const struct leaf *leaf)
{
    groat_scratch *scratch = telling->explaining->scratch;
    const struct program *program = scratch->core->program;
    const struct step *step = leaf ? &program->steps[leaf->step] : NULL;
    struct value why;
    if (!step || step->operation != OP_TABLE)
        return NULL;
    const struct lookup_code *lookup = &program->lookups[step->a];
    int32_t row = evaluate_row(&scratch->evaluation, lookup, &why);
    return row < 0 ? NULL : lookup->table->statements[row];
}

static void tell_table(struct telling *telling, const struct symbol *table, const struct leaf *leaf,
                       unsigned depth)
{
    struct explaining *explaining = telling->explaining;
    if (depth > DEPTH_MOST || telling->symbols[table->number])
        return;
    telling->symbols[table->number] = true;
    const struct statement *row = row_of(telling, leaf);
    struct span span = row ? row->span : table->statement->name.span;
    groat_line line = {.part = GROAT_PART_NAME,
                       .name = table->name,
                       .amount = "",
                       .file = span.source->name,
                       .line = span_place(span).line,
                       .depth = depth};
    if (leaf) {
        const struct value *value = &explaining->scratch->values[leaf->step];
        line.amount = words_of_symbol(&explaining->words, table, value);
        line.value = result_value(explaining->scratch->core, value, leaf->type);
        line.unit = unit_for(explaining->scratch->core, table->type, table->percent, table->unit);
    }
    if (row)
        line.written = words_between(&explaining->words, span, row->value->span);
    explain_add(explaining, &explaining->explanation->lines, line);
    for (const struct expression *key = table->statement->keys; key; key = key->next)
        tell_within(telling, key, depth + 1, NULL);
    if (row)
        tell_within(telling, row->value, depth + 1, NULL);
}

/* Where the channel's rules name a table; NULL where they do not. */
static const struct leaf *use_of(const struct telling *telling, const struct symbol *table)
{
    const groat_scratch *scratch = telling->explaining->scratch;
    const struct program *program = scratch->core->program;
    for (size_t i = 0; i < program->leaves_count; i++) {
        const struct leaf *leaf = &program->leaves[i];
        bool here = leaf->context == scratch->channel->context ||
                    leaf->context == scratch->channel->price_context;
        if (here && leaf->symbol == table)
            return leaf;
    }
    return NULL;
}

/* ---- figures ---- */

static void tell_set(struct telling *telling, const struct symbol_set *set, bool pays_only,
                     unsigned depth)
{
    for (size_t i = 0; i < set->count; i++)
        if (!pays_only || set->items[i]->kind == SYMBOL_PAY)
            tell_name(telling, set->items[i]->name, depth);
}

/* What the price lines read. */
static void tell_price_lines(struct telling *telling, unsigned depth)
{
    const struct price_lines *price = &telling->explaining->channel->price;
    const struct statement *const lines[] = {price->pin, price->set, price->floor, price->ceiling};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        if (lines[i])
            tell_within(telling, lines[i]->value, depth, NULL);
}

/* What the engine's figures are made of. */
static void tell_parts(struct telling *telling, enum figure figure, unsigned depth)
{
    static const enum figure parts[FIGURES][3] = {
        [FIGURE_PRICE] = {FIGURE_LIST},
        [FIGURE_PAID] = {FIGURE_PRICE, FIGURE_EXTRAS, FIGURE_TAX},
        [FIGURE_NET] = {FIGURE_PRICE, FIGURE_EXTRAS, FIGURE_TAX},
        [FIGURE_KEEP] = {FIGURE_NET, FIGURE_FEES},
        [FIGURE_PROFIT] = {FIGURE_KEEP, FIGURE_COST},
        [FIGURE_MARGIN] = {FIGURE_PROFIT, FIGURE_NET},
        [FIGURE_TAKE_HOME] = {FIGURE_PROFIT, FIGURE_PAY}};
    const struct channel *channel = telling->explaining->channel;
    switch (figure) {
    case FIGURE_COST: tell_set(telling, &channel->costs, false, depth); break;
    case FIGURE_PAY: tell_set(telling, &channel->costs, true, depth); break;
    case FIGURE_FEES: tell_set(telling, &channel->fees, false, depth); break;
    case FIGURE_EXTRAS: tell_set(telling, &channel->extras, false, depth); break;
    case FIGURE_LIST: tell_price_lines(telling, depth); break;
    case FIGURE_TAX:
        if (channel->tax)
            tell_within(telling, channel->tax->value, depth, NULL);
        break;
    default: break;
    }
    for (int i = 0; i < 3 && parts[figure][i] != FIGURE_QUANTITY; i++)
        if (parts[figure][i] != FIGURE_TAX || channel->tax)
            tell_name(telling, figure_name(parts[figure][i]), depth);
    if (figure == FIGURE_PRICE && channel->price.discount)
        tell_within(telling, channel->price.discount->value, depth, NULL);
}

static void tell_figure(struct telling *telling, enum figure figure, unsigned depth)
{
    bool told = telling->figures[figure] || figure == FIGURE_AS_OF || figure == FIGURE_CHANNEL;
    telling->figures[figure] = true;
    if (told)
        return;
    explain_figure(telling->explaining, GROAT_PART_NAME, figure, depth);
    tell_parts(telling, figure, depth + 1);
}

/* ---- names ---- */

static void tell_symbol(struct telling *telling, const struct symbol *symbol, unsigned depth)
{
    const struct statement *statement = symbol->statement;
    if (telling->symbols[symbol->number])
        return;
    telling->symbols[symbol->number] = true;
    if (symbol->kind == SYMBOL_FUNCTION) { /* it has no figure of its own */
        tell_within(telling, statement->value, depth, statement->words);
        return;
    }
    if (explain_step(telling->explaining, symbol) == NO_STEP)
        return;
    explain_symbol(telling->explaining, GROAT_PART_NAME, symbol, depth);
    if (symbol->kind != SYMBOL_FIELD)
        tell_within(telling, statement->value, depth + 1, NULL);
}

static void tell_name(struct telling *telling, const char *name, unsigned depth)
{
    enum figure figure = figure_find(name);
    if (depth > DEPTH_MOST)
        return;
    if (figure != FIGURES) {
        tell_figure(telling, figure, depth);
        return;
    }
    const struct symbol *symbol = symbol_of(telling, name);
    if (symbol)
        tell_symbol(telling, symbol, depth);
}

void explain_name(struct explaining *explaining, const char *name)
{
    const struct symbol_set *symbols = &explaining->scratch->core->shop.symbols;
    struct telling telling = {.explaining = explaining,
                              .symbols =
                                  arena_take(&explaining->explanation->arena, symbols->count + 1)};
    const struct symbol *symbol = symbol_of(&telling, name);
    const struct leaf *use =
        symbol && symbol->kind == SYMBOL_TABLE ? use_of(&telling, symbol) : NULL;
    if (use)
        tell_table(&telling, symbol, use, 0);
    else
        tell_name(&telling, name, 0);
}
