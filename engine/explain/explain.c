/* Explanations: where each figure of a price comes from. */
#include "explain/explain.h"

#include <assert.h>
#include <string.h>

#include "library/call.h"

/* ---- lines ---- */

groat_line explain_line(groat_part part, const char *name, struct span span, unsigned depth)
{
    return (groat_line){.part = part,
                        .name = name,
                        .amount = "",
                        .file = span.source->name,
                        .line = span_place(span).line,
                        .depth = depth};
}

void explain_value(struct explaining *explaining, groat_line *line, const struct value *value,
                   struct type type, bool percent)
{
    const struct core *core = explaining->words.core;
    line->amount = words_of(&explaining->words, value, type, percent);
    line->value = result_value(core, value, type);
    line->unit = unit_for(core, type, percent, NULL);
}

void explain_value_of(struct explaining *explaining, groat_line *line, const struct symbol *symbol,
                      const struct value *value)
{
    const struct core *core = explaining->words.core;
    line->amount = words_of_symbol(&explaining->words, symbol, value);
    line->value = result_value(core, value, symbol->type);
    line->unit = unit_for(core, symbol->type, symbol->percent, symbol->unit);
}

static const char *own_text(struct explaining *explaining, const char *text)
{
    return text ? arena_text(explaining->words.arena, text, strlen(text)) : NULL;
}

groat_line *explain_add(struct explaining *explaining, struct lines *lines, groat_line line)
{
    lines->items = arena_grow(explaining->words.arena, lines->items, sizeof *lines->items,
                              &lines->room, lines->count + 1);
    line.name = own_text(explaining, line.name);
    line.file = own_text(explaining, line.file);
    line.channel = own_text(explaining, line.channel);
    assert(line.name && line.amount && lines->count < lines->room);
    lines->items[lines->count] = line;
    return &lines->items[lines->count++];
}

/* ---- definitions ---- */

const struct symbol *explain_find(const struct explaining *explaining, const char *name)
{
    const struct shop *shop = &explaining->words.core->shop;
    return shop_find(shop, (unsigned)(explaining->channel - shop->channels), name);
}

const struct leaf *explain_leaf(const struct explaining *explaining,
                                const struct expression *expression)
{
    const struct program *program = explaining->words.core->program;
    const struct channel_code *channel = explaining->scratch->channel;
    const struct leaf *leaf = leaf_find(program, expression, channel->context);
    return leaf ? leaf : leaf_find(program, expression, channel->price_context);
}

static bool is_among(const struct tree_word *words, const char *name)
{
    while (words && strcmp(words->word.text, name) != 0)
        words = words->next;
    return words != NULL;
}

void explain_names(struct explaining *explaining, const struct expression *expression,
                   const struct tree_word *parameters, unsigned depth, explain_visit *visit)
{
    if (!expression || depth > EXPLAIN_DEPTH_MOST)
        return;
    enum expression_kind kind = expression->kind;
    if (kind == EXPRESSION_CALL || kind == EXPRESSION_WORTH || kind == EXPRESSION_ON ||
        (kind == EXPRESSION_NAME && !is_among(parameters, expression->name.text)))
        visit(explaining, expression, depth);
    explain_names(explaining, expression->left, parameters, depth, visit);
    explain_names(explaining, expression->right, parameters, depth, visit);
    explain_names(explaining, expression->third, parameters, depth, visit);
    for (const struct expression *each = expression->arguments; each; each = each->next)
        explain_names(explaining, each, parameters, depth, visit);
}

/* The channel's show that is this definition, or NULL. */
static const struct show_code *show_of(const struct explaining *explaining,
                                       const struct symbol *symbol)
{
    const struct channel_code *channel = explaining->scratch->channel;
    for (size_t i = 0; i < channel->shows_count; i++)
        if (channel->shows[i].symbol == symbol)
            return &channel->shows[i];
    return NULL;
}

/* The definition's step on the channel, or NO_STEP. */
static uint32_t step_of(const struct explaining *explaining, const struct symbol *symbol)
{
    const struct channel_code *channel = explaining->scratch->channel;
    const struct show_code *show = show_of(explaining, symbol);
    if (show) /* `show NAME` has no name of its own */
        return show->step;
    for (size_t i = 0; i < channel->named_count; i++)
        if (channel->named[i].symbol == symbol)
            return channel->named[i].step;
    return NO_STEP;
}

/* Gives a line the value of a show, in the unit of its column. */
static void write_show(struct explaining *explaining, const struct show_code *show,
                       const struct value *value, groat_line *line)
{
    const struct column_code *column = &explaining->words.core->program->columns[show->column];
    const struct symbol *symbol = show->symbol;
    char text[600];
    explain_value(explaining, line, value, symbol->type, symbol->percent);
    line->value = groat_result_show(explaining->scratch, show->column);
    line->unit = unit_for(explaining->words.core, symbol->type, symbol->percent, column->written);
    if (!column->unit_text || line->value.presence != GROAT_THERE)
        return;
    groat_value_short(line->value, 4, text, sizeof text);
    line->amount = arena_print(explaining->words.arena, "%s %s", text, column->unit_text);
}

const char *explain_likely(struct explaining *explaining, const struct symbol *symbol)
{
    const struct expression *range = symbol->statement->value;
    return arena_print(explaining->words.arena, "the %s of %s",
                       range->third ? "likely value" : "midpoint",
                       words_written(&explaining->words, range));
}

/* The ends of the range that a field's value is the likely one of. Where it is leaned to an end
 * there is nothing to be said of it. */
static const char *range_of_field(struct explaining *explaining, const struct symbol *field,
                                  const struct value *value)
{
    const groat_record *record = explaining->scratch->record;
    const struct words *words = &explaining->words;
    groat_range range;
    if (value->state != VALUE_THERE || !record ||
        !groat_record_range(record, field->order, &range) ||
        !num_equal(value->number, ((const struct value *)range.likely.inside)->number))
        return NULL;
    return arena_print(words->arena, "the likely value of %s to %s",
                       words_of_symbol(words, field, range.low.inside),
                       words_of_symbol(words, field, range.high.inside));
}

/* The definition's expression, as it stands and as it works out. Rates are worked out once for all
 * channels, in the first one's context. */
static void write_definition(struct explaining *explaining, const struct symbol *symbol,
                             const struct value *value, groat_line *line)
{
    const struct expression *expression = symbol->statement->value;
    bool rate = symbol->kind == SYMBOL_RATE || symbol->kind == SYMBOL_MATERIAL;
    if (symbol->kind == SYMBOL_FIELD)
        line->worked = range_of_field(explaining, symbol, value);
    if (!expression || symbol->kind == SYMBOL_FIELD)
        return;
    line->written = words_written(&explaining->words, expression);
    if (words_is_replaced(&explaining->words, symbol))
        line->worked = arena_print(explaining->words.arena, "replaced by %s", line->amount);
    else if (expression->kind == EXPRESSION_RANGE)
        line->worked = explain_likely(explaining, symbol);
    else if (!words_says_itself(expression))
        line->worked = words_worked(&explaining->words, expression,
                                    rate ? 0 : explaining->scratch->channel->context);
    if (line->worked && strcmp(line->worked, line->written) == 0)
        line->worked = NULL;
}

groat_line *explain_symbol(struct explaining *explaining, groat_part part,
                           const struct symbol *symbol, unsigned depth)
{
    uint32_t step = step_of(explaining, symbol);
    if (step == NO_STEP)
        return NULL;
    const struct value *value = &explaining->scratch->values[step];
    const struct show_code *show = show_of(explaining, symbol);
    groat_line line = explain_line(part, symbol->name, symbol->statement->name.span, depth);
    line.own_pay = symbol->kind == SYMBOL_PAY;
    if (show)
        write_show(explaining, show, value, &line);
    else
        explain_value_of(explaining, &line, symbol, value);
    write_definition(explaining, symbol, value, &line);
    return explain_add(explaining, &explaining->explanation->lines, line);
}

/* ---- figures ---- */

static const struct value *figure_value(const struct explaining *explaining, enum figure figure)
{
    return &explaining->scratch->values[explaining->scratch->channel->figures[figure]];
}

static const char *figure_words(const struct explaining *explaining, enum figure figure)
{
    const struct value *value = figure_value(explaining, figure);
    bool margin = figure == FIGURE_MARGIN;
    if (margin && value->state == VALUE_ERROR && value->fault == FAULT_NO_MARGIN)
        return "missing";
    return words_of(&explaining->words, value, figure_type(figure), margin);
}

static void write_sum(const struct explaining *explaining, enum figure figure, groat_line *line)
{
    struct arena *arena = explaining->words.arena;
    for (const struct figure_term *terms = figure_terms(figure), *term = terms; term->sign;
         term++) {
        if (!figure_counts(explaining->channel, figure, term->figure))
            continue;
        const char *sign = term == terms ? "" : arena_print(arena, " %c ", term->sign);
        line->written = arena_print(arena, "%s%s%s", line->written ? line->written : "", sign,
                                    figure_name(term->figure));
        line->worked = arena_print(arena, "%s%s%s", line->worked ? line->worked : "", sign,
                                   figure_words(explaining, term->figure));
    }
}

groat_line *explain_figure(struct explaining *explaining, groat_part part, enum figure figure,
                           unsigned depth)
{
    groat_line line = {.part = part, .name = figure_name(figure), .depth = depth};
    explain_value(explaining, &line, figure_value(explaining, figure), figure_type(figure),
                  figure == FIGURE_MARGIN);
    line.amount = figure_words(explaining, figure);
    write_sum(explaining, figure, &line);
    return explain_add(explaining, &explaining->explanation->lines, line);
}

/* ---- a whole price ---- */

static void explain_set(struct explaining *explaining, groat_part part,
                        const struct symbol_set *symbols)
{
    for (size_t i = 0; i < symbols->count; i++) {
        explain_symbol(explaining, part, symbols->items[i], 0);
        explain_details(explaining, symbols->items[i]->statement->value);
    }
}

/* The engine's figures from one to another. */
static void explain_figures(struct explaining *explaining, enum figure first, enum figure last)
{
    for (enum figure figure = first; figure <= last; figure++)
        explain_figure(explaining, GROAT_PART_FIGURE, figure, 0);
}

/* An added tax is a share of what it is added to; an included one is a part of the whole. */
static void explain_tax(struct explaining *explaining)
{
    const struct statement *tax = explaining->channel->tax;
    if (!tax)
        return;
    struct words *words = &explaining->words;
    bool included = tax->kind == STATEMENT_TAX_INCLUDED;
    groat_line *line =
        explain_figure(explaining, included ? GROAT_PART_TAKEN : GROAT_PART_BUYER, FIGURE_TAX, 0);
    line->written = arena_print(words->arena, "%s %s", included ? "included" : "added",
                                words_written(words, tax->value));
    line->worked =
        arena_print(words->arena, included ? "%s included in %s" : "%s added to %s",
                    words_worked(words, tax->value, explaining->scratch->channel->context),
                    figure_words(explaining, included ? FIGURE_PAID : FIGURE_NET));
    line->file = own_text(explaining, tax->span.source->name);
    line->line = span_place(tax->span).line;
    explain_details(explaining, tax->value);
}

static bool has_own_pay(const struct explaining *explaining)
{
    const struct symbol_set *costs = &explaining->channel->costs;
    for (size_t i = 0; i < costs->count; i++)
        if (costs->items[i]->kind == SYMBOL_PAY)
            return true;
    return false;
}

static void explain_all(struct explaining *explaining)
{
    const struct channel *channel = explaining->channel;
    explain_set(explaining, GROAT_PART_COST, &channel->costs);
    explain_figures(explaining, FIGURE_COST, has_own_pay(explaining) ? FIGURE_PAY : FIGURE_COST);
    explain_figures(explaining, FIGURE_LIST, FIGURE_PRICE);
    explain_set(explaining, GROAT_PART_BUYER, &channel->extras);
    explain_tax(explaining);
    explain_figures(explaining, FIGURE_PAID, FIGURE_NET);
    explain_set(explaining, GROAT_PART_TAKEN, &channel->fees);
    explain_figures(explaining, FIGURE_FEES, FIGURE_TAKE_HOME);
    explain_set(explaining, GROAT_PART_SHOW, &channel->shows);
    explain_price(explaining);
}

/* ---- the host's calls ---- */

/* False when memory ran out on the way: there was no room for a text, or a number was not worked
 * out for want of it. */
static bool explain_guarded(struct explaining *explaining, const char *name)
{
    jmp_buf escape;
    groat_scratch *scratch = explaining->scratch;
    explaining->explanation->arena.escape = &escape;
    price_more(scratch);
    if (setjmp(escape) != 0)
        return false;
    explaining->told = arena_take(explaining->words.arena, scratch->core->shop.symbols.count + 1);
    if (scratch->worked_out)
        price_named(scratch);
    if (!scratch->worked_out)
        explain_not_sold(explaining);
    else if (name)
        explain_name(explaining, name);
    else
        explain_all(explaining);
    explaining->explanation->arena.escape = NULL;
    if (scratch->heap.starved)
        scratch->named_ready = false;
    return !scratch->heap.starved;
}

static groat_explanation *explanation_new(const struct core *core)
{
    groat_explanation *explanation = core_make(core, sizeof *explanation);
    if (!explanation)
        return NULL;
    explanation->allocator = core->allocator;
    explanation->memory = core_memory(core);
    arena_open(&explanation->arena, &explanation->memory);
    return explanation;
}

/* An order that cannot be taken up leaves no method with the scratch. */
static struct words words_for(groat_scratch *scratch, const groat_method *method,
                              struct arena *arena)
{
    return (struct words){.core = scratch->core,
                          .values = scratch->values,
                          .overrides = method->settled.overrides,
                          .heap = &scratch->heap,
                          .arena = arena,
                          .percent_places = 2};
}

groat_explanation *groat_explain_name(groat_scratch *scratch, const groat_method *method,
                                      const groat_record *record, const groat_order *order,
                                      const char *name, groat_outcome *outcome)
{
    groat_outcome unused;
    outcome = outcome ? outcome : &unused;
    *outcome = groat_price(scratch, method, record, order);
    groat_explanation *explanation = scratch ? explanation_new(scratch->core) : NULL;
    if (!explanation || call_pricing(scratch, method, record, order))
        return explanation; /* without lines: nothing was priced */
    struct explaining explaining = {.explanation = explanation,
                                    .scratch = scratch,
                                    .channel = &scratch->core->shop.channels[order->channel],
                                    .words = words_for(scratch, method, &explanation->arena)};
    bool told = *outcome == GROAT_NOT_SOLD || scratch->worked_out;
    if (!scratch->no_memory && (!told || explain_guarded(&explaining, name)))
        return explanation;
    groat_explanation_free(explanation);
    return NULL;
}

groat_explanation *groat_explain(groat_scratch *scratch, const groat_method *method,
                                 const groat_record *record, const groat_order *order,
                                 groat_outcome *outcome)
{
    return groat_explain_name(scratch, method, record, order, NULL, outcome);
}

size_t groat_explanation_lines(const groat_explanation *explanation)
{
    return explanation ? explanation->lines.count : 0;
}

const groat_line *groat_explanation_line(const groat_explanation *explanation, size_t index)
{
    return index < groat_explanation_lines(explanation) ? &explanation->lines.items[index] : NULL;
}

groat_below groat_explanation_below(const groat_explanation *explanation)
{
    return explanation ? explanation->below : (groat_below){.footing = GROAT_ON_NOTHING};
}

const groat_line *groat_explanation_miss(const groat_explanation *explanation, size_t index)
{
    return explanation && index < explanation->misses.count ? &explanation->misses.items[index]
                                                            : NULL;
}

void groat_explanation_free(groat_explanation *explanation)
{
    if (!explanation)
        return;
    arena_close(&explanation->arena);
    groat_allocator allocator = explanation->allocator;
    allocator.resize(allocator.context, explanation, sizeof *explanation, 0);
}
