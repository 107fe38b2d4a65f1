/* Where one figure comes from: a tree of definitions, figures and fields, each told once. */
#include "explain/explain.h"

static void tell_name(struct explaining *explaining, const char *name, unsigned depth);
static void visit(struct explaining *explaining, const struct expression *name, unsigned depth);

/* The names in an expression. */
static void tell_within(struct explaining *explaining, const struct expression *expression,
                        unsigned depth)
{
    explain_names(explaining, expression, NULL, depth, visit);
}

/* ---- tables ---- */

/* The row that the table gave, or NULL: where it is sliced, or gave none. */
static const struct statement *row_of(const struct explaining *explaining, const struct leaf *leaf)
{
    groat_scratch *scratch = explaining->scratch;
    const struct program *program = scratch->core->program;
    const struct step *step = leaf ? &program->steps[leaf->step] : NULL;
    struct value why;
    if (!step || step->operation != OP_TABLE)
        return NULL;
    const struct lookup_code *lookup = &program->lookups[step->a];
    int32_t row = evaluate_row(&scratch->evaluation, lookup, &why);
    return row < 0 ? NULL : lookup->table->statements[row];
}

static void tell_table(struct explaining *explaining, const struct symbol *table,
                       const struct leaf *leaf, unsigned depth)
{
    if (explaining->told[table->number])
        return;
    explaining->told[table->number] = true;
    const struct statement *row = row_of(explaining, leaf);
    struct span span = row ? row->span : table->statement->name.span;
    groat_line line = explain_line(GROAT_PART_NAME, table->name, span, depth);
    if (leaf)
        explain_value_of(explaining, &line, table, &explaining->scratch->values[leaf->step]);
    if (row)
        line.written = words_between(&explaining->words, span, row->value->span);
    explain_add(explaining, &explaining->explanation->lines, line);
    for (const struct expression *key = table->statement->keys; key; key = key->next)
        tell_within(explaining, key, depth + 1);
    if (row)
        tell_within(explaining, row->value, depth + 1);
}

/* Where the channel's rules name a table; NULL where they do not. */
static const struct leaf *use_of(const struct explaining *explaining, const struct symbol *table)
{
    const groat_scratch *scratch = explaining->scratch;
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

static void tell_set(struct explaining *explaining, const struct symbol_set *set, bool pays_only,
                     unsigned depth)
{
    for (size_t i = 0; i < set->count; i++)
        if (!pays_only || set->items[i]->kind == SYMBOL_PAY)
            tell_name(explaining, set->items[i]->name, depth);
}

static void tell_line(struct explaining *explaining, const struct statement *line, unsigned depth)
{
    if (line)
        tell_within(explaining, line->value, depth);
}

static void tell_figure(struct explaining *explaining, enum figure figure, unsigned depth)
{
    const struct channel *channel = explaining->channel;
    const struct price_lines *price = &channel->price;
    if (depth > EXPLAIN_DEPTH_MOST || explaining->figures[figure] || figure == FIGURE_AS_OF ||
        figure == FIGURE_CHANNEL)
        return;
    explaining->figures[figure] = true;
    explain_figure(explaining, GROAT_PART_NAME, figure, depth);
    depth++;
    for (const struct figure_term *term = figure_terms(figure); term->sign; term++)
        if (term->figure != FIGURE_TAX || channel->tax)
            tell_figure(explaining, term->figure, depth);
    switch (figure) {
    case FIGURE_COST: tell_set(explaining, &channel->costs, false, depth); break;
    case FIGURE_PAY: tell_set(explaining, &channel->costs, true, depth); break;
    case FIGURE_FEES: tell_set(explaining, &channel->fees, false, depth); break;
    case FIGURE_EXTRAS: tell_set(explaining, &channel->extras, false, depth); break;
    case FIGURE_TAX: tell_line(explaining, channel->tax, depth); break;
    case FIGURE_LIST:
        tell_line(explaining, price->pin, depth);
        tell_line(explaining, price->set, depth);
        tell_line(explaining, price->floor, depth);
        tell_line(explaining, price->ceiling, depth);
        break;
    case FIGURE_PRICE:
        tell_figure(explaining, FIGURE_LIST, depth);
        tell_line(explaining, price->discount, depth);
        break;
    default: break;
    }
}

/* ---- names ---- */

static void tell_symbol(struct explaining *explaining, const struct symbol *symbol, unsigned depth)
{
    const struct statement *statement = symbol->statement;
    if (explaining->told[symbol->number])
        return;
    explaining->told[symbol->number] = true;
    if (symbol->kind == SYMBOL_FUNCTION) /* it has no figure of its own */
        explain_names(explaining, statement->value, statement->words, depth, visit);
    else if (explain_symbol(explaining, GROAT_PART_NAME, symbol, depth) &&
             symbol->kind != SYMBOL_FIELD)
        tell_within(explaining, statement->value, depth + 1);
}

static void tell_name(struct explaining *explaining, const char *name, unsigned depth)
{
    enum figure figure = figure_find(name);
    const struct symbol *symbol = figure == FIGURES ? explain_find(explaining, name) : NULL;
    if (figure != FIGURES)
        tell_figure(explaining, figure, depth);
    else if (symbol && depth <= EXPLAIN_DEPTH_MOST)
        tell_symbol(explaining, symbol, depth);
}

/* A name of another channel, or what parts are worth: its amount and no more. */
static void tell_leaf(struct explaining *explaining, const struct expression *name, unsigned depth)
{
    const struct leaf *leaf = explain_leaf(explaining, name);
    if (!leaf)
        return;
    groat_line line =
        explain_line(GROAT_PART_NAME, words_written(&explaining->words, name), name->span, depth);
    explain_value(explaining, &line, &explaining->scratch->values[leaf->step], leaf->type,
                  leaf->percent);
    explain_add(explaining, &explaining->explanation->lines, line);
    if (name->kind == EXPRESSION_WORTH)
        explain_parts(explaining, GROAT_PART_NAME, name, depth + 1);
}

static void visit(struct explaining *explaining, const struct expression *name, unsigned depth)
{
    const struct symbol *symbol = explain_find(explaining, name->name.text);
    if (name->kind == EXPRESSION_WORTH || name->kind == EXPRESSION_ON)
        tell_leaf(explaining, name, depth);
    else if (symbol && symbol->kind == SYMBOL_TABLE)
        tell_table(explaining, symbol, explain_leaf(explaining, name), depth);
    else
        tell_name(explaining, name->name.text, depth);
}

void explain_name(struct explaining *explaining, const char *name)
{
    const struct symbol *symbol = explain_find(explaining, name);
    const struct leaf *use =
        symbol && symbol->kind == SYMBOL_TABLE ? use_of(explaining, symbol) : NULL;
    if (use)
        tell_table(explaining, symbol, use, 0);
    else
        tell_name(explaining, name, 0);
}
