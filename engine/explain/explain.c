/* Explanations: where each figure of a price comes from. */
#include "explain/explain.h"

#include <assert.h>
#include <string.h>

#include "library/call.h"

const char *explain_own(struct explaining *explaining, const char *text)
{
    return text ? arena_text(&explaining->explanation->arena, text, strlen(text)) : NULL;
}

groat_line *explain_add(struct explaining *explaining, struct lines *lines, groat_line line)
{
    lines->items = arena_grow(&explaining->explanation->arena, lines->items, sizeof *lines->items,
                              &lines->room, lines->count + 1);
    line.name = explain_own(explaining, line.name);
    line.file = explain_own(explaining, line.file);
    line.channel = explain_own(explaining, line.channel);
    assert(line.name && line.amount && lines->count < lines->room);
    lines->items[lines->count] = line;
    return &lines->items[lines->count++];
}

/* ---- definitions ---- */

uint32_t explain_step(const struct explaining *explaining, const struct symbol *symbol)
{
    const struct channel_code *channel = explaining->scratch->channel;
    for (size_t i = 0; i < channel->shows_count; i++)
        if (channel->shows[i].symbol == symbol) /* `show NAME` has no name of its own */
            return channel->shows[i].step;
    for (size_t i = 0; i < channel->named_count; i++)
        if (channel->named[i].symbol == symbol)
            return channel->named[i].step;
    return NO_STEP;
}

groat_value explain_kept(struct explaining *explaining, struct value value, struct type type)
{
    assert(explaining->explanation->arena.escape);
    struct value *kept = arena_take(&explaining->explanation->arena, sizeof *kept);
    *kept = value;
    return result_value(explaining->scratch->core, kept, type);
}

/* A show's column, or NO_STEP where the symbol is none. */
static uint32_t column_of(const struct explaining *explaining, const struct symbol *symbol)
{
    const struct channel_code *channel = explaining->scratch->channel;
    for (size_t i = 0; i < channel->shows_count; i++)
        if (channel->shows[i].symbol == symbol)
            return channel->shows[i].column;
    return NO_STEP;
}

static const char *show_amount(const struct explaining *explaining, const struct symbol *show,
                               const struct value *value, groat_value shown)
{
    uint32_t column = column_of(explaining, show);
    const struct program *program = explaining->scratch->core->program;
    const char *unit = column == NO_STEP ? NULL : program->columns[column].unit_text;
    char text[600];
    if (!unit || shown.presence != GROAT_THERE)
        return words_of(&explaining->words, value, show->type, show->percent);
    groat_value_short(shown, 4, text, sizeof text);
    return arena_print(&explaining->explanation->arena, "%s %s", text, unit);
}

const char *explain_likely(struct explaining *explaining, const struct symbol *symbol)
{
    const struct expression *range = symbol->statement->value;
    return arena_print(&explaining->explanation->arena, "the %s of %s",
                       range->third ? "likely value" : "midpoint",
                       words_written(&explaining->words, range));
}

/* A rate that the rules give as a range, or a field that is one. Where it is leaned to an end there
 * is nothing to be said of it. */
static void write_range(struct explaining *explaining, const struct symbol *symbol,
                        const struct value *value, groat_line *line)
{
    struct arena *arena = &explaining->explanation->arena;
    groat_range range;
    if (symbol->kind != SYMBOL_FIELD) {
        line->worked = explain_likely(explaining, symbol);
        return;
    }
    const groat_record *record = explaining->scratch->record;
    if (!record || !groat_record_range(record, symbol->order, &range))
        return;
    const struct value *low = range.low.inside, *likely = range.likely.inside;
    const struct value *high = range.high.inside;
    if (num_equal(value->number, likely->number))
        line->worked = arena_print(arena, "the likely value of %s to %s",
                                   words_of_symbol(&explaining->words, symbol, low),
                                   words_of_symbol(&explaining->words, symbol, high));
}

/* The definition's expression, as it stands and as it works out. Rates are worked out once for all
 * channels, in the first one's context. */
static void write_definition(struct explaining *explaining, const struct symbol *symbol,
                             const struct value *value, groat_line *line)
{
    const struct expression *expression = symbol->statement->value;
    bool rate = symbol->kind == SYMBOL_RATE || symbol->kind == SYMBOL_MATERIAL;
    if (symbol->kind == SYMBOL_FIELD && value->state == VALUE_THERE)
        write_range(explaining, symbol, value, line);
    if (!expression || symbol->kind == SYMBOL_FIELD)
        return;
    line->written = words_written(&explaining->words, expression);
    if (words_is_replaced(&explaining->words, symbol))
        line->worked = arena_print(&explaining->explanation->arena, "replaced by %s", line->amount);
    else if (expression->kind == EXPRESSION_RANGE)
        write_range(explaining, symbol, value, line);
    else if (!words_says_itself(expression))
        line->worked = words_worked(&explaining->words, expression,
                                    rate ? 0 : explaining->scratch->channel->context);
    if (line->worked && strcmp(line->worked, line->written) == 0)
        line->worked = NULL;
}

void explain_symbol(struct explaining *explaining, groat_part part, const struct symbol *symbol,
                    unsigned depth)
{
    uint32_t step = explain_step(explaining, symbol);
    if (step == NO_STEP)
        return;
    const struct value *value = &explaining->scratch->values[step];
    struct span span = symbol->statement->name.span;
    uint32_t column = column_of(explaining, symbol);
    groat_line line = {.part = part,
                       .name = symbol->name,
                       .file = span.source->name,
                       .line = span_place(span).line,
                       .own_pay = symbol->kind == SYMBOL_PAY,
                       .depth = depth};
    line.value = column == NO_STEP ? result_value(explaining->scratch->core, value, symbol->type)
                                   : groat_result_show(explaining->scratch, column);
    line.amount = symbol->kind == SYMBOL_SHOW ? show_amount(explaining, symbol, value, line.value)
                                              : words_of_symbol(&explaining->words, symbol, value);
    const struct core *core = explaining->scratch->core;
    const struct familiar_unit *unit = symbol->unit;
    if (column != NO_STEP)
        unit = core->program->columns[column].written;
    line.unit = unit_for(core, symbol->type, symbol->percent, unit);
    write_definition(explaining, symbol, value, &line);
    explain_add(explaining, &explaining->explanation->lines, line);
}

/* ---- figures ---- */

/* The engine's sums, as it does them. */
static const struct {
    enum figure figure;
    struct {
        char sign;
        enum figure figure;
    } terms[3];
} sums[] = {
    {FIGURE_PAID, {{' ', FIGURE_PRICE}, {'+', FIGURE_EXTRAS}, {'+', FIGURE_TAX}}},
    {FIGURE_NET, {{' ', FIGURE_PRICE}, {'+', FIGURE_EXTRAS}, {'-', FIGURE_TAX}}},
    {FIGURE_KEEP, {{' ', FIGURE_NET}, {'-', FIGURE_FEES}}},
    {FIGURE_PROFIT, {{' ', FIGURE_KEEP}, {'-', FIGURE_COST}}},
    {FIGURE_MARGIN, {{' ', FIGURE_PROFIT}, {'/', FIGURE_NET}}},
    {FIGURE_TAKE_HOME, {{' ', FIGURE_PROFIT}, {'+', FIGURE_PAY}}},
};

/* Tax is a term of what is paid only when it is added, and of the net only when it is inside. */
static bool tax_counts(const struct explaining *explaining, enum figure sum)
{
    const struct statement *tax = explaining->channel->tax;
    return tax && (tax->kind == STATEMENT_TAX_INCLUDED) == (sum == FIGURE_NET);
}

static const char *figure_words(const struct explaining *explaining, enum figure figure)
{
    const groat_scratch *scratch = explaining->scratch;
    const struct value *value = &scratch->values[scratch->channel->figures[figure]];
    bool margin = figure == FIGURE_MARGIN;
    if (margin && value->state == VALUE_ERROR && value->fault == FAULT_NO_MARGIN)
        return "missing";
    return words_of(&explaining->words, value, figure_type(figure), margin);
}

static void write_sum(const struct explaining *explaining, enum figure figure, groat_line *line)
{
    struct arena *arena = &explaining->explanation->arena;
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++) {
        if (sums[i].figure != figure)
            continue;
        line->written = line->worked = "";
        for (int k = 0; k < 3 && sums[i].terms[k].sign; k++) {
            enum figure term = sums[i].terms[k].figure;
            if (term == FIGURE_TAX && !tax_counts(explaining, figure))
                continue;
            const char *sign = k == 0 ? "" : arena_print(arena, " %c ", sums[i].terms[k].sign);
            line->written = arena_print(arena, "%s%s%s", line->written, sign, figure_name(term));
            line->worked =
                arena_print(arena, "%s%s%s", line->worked, sign, figure_words(explaining, term));
        }
    }
}

void explain_figure(struct explaining *explaining, groat_part part, enum figure figure,
                    unsigned depth)
{
    const groat_scratch *scratch = explaining->scratch;
    const struct value *value = &scratch->values[scratch->channel->figures[figure]];
    struct type type = figure_type(figure);
    groat_line line = {.part = part,
                       .name = figure_name(figure),
                       .amount = figure_words(explaining, figure),
                       .value = result_value(scratch->core, value, type),
                       .unit = unit_for(scratch->core, type, figure == FIGURE_MARGIN, NULL),
                       .depth = depth};
    write_sum(explaining, figure, &line);
    explain_add(explaining, &explaining->explanation->lines, line);
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

/* An added tax is a share of what it is added to; an included one is a part of the whole. */
static void explain_tax(struct explaining *explaining)
{
    const struct statement *tax = explaining->channel->tax;
    if (!tax)
        return;
    struct arena *arena = &explaining->explanation->arena;
    bool included = tax->kind == STATEMENT_TAX_INCLUDED;
    explain_figure(explaining, included ? GROAT_PART_TAKEN : GROAT_PART_BUYER, FIGURE_TAX, 0);
    struct lines *lines = &explaining->explanation->lines;
    groat_line *line = &lines->items[lines->count - 1];
    line->written = arena_print(arena, "%s %s", included ? "included" : "added",
                                words_written(&explaining->words, tax->value));
    const char *rate =
        words_worked(&explaining->words, tax->value, explaining->scratch->channel->context);
    line->worked =
        included
            ? arena_print(arena, "%s included in %s", rate, figure_words(explaining, FIGURE_PAID))
            : arena_print(arena, "%s added to %s", rate, figure_words(explaining, FIGURE_NET));
    line->file = explain_own(explaining, tax->span.source->name);
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
    size_t symbols = explaining->scratch->core->shop.symbols.count;
    explaining->detailed = arena_take(&explaining->explanation->arena, symbols + 1);
    explain_set(explaining, GROAT_PART_COST, &explaining->channel->costs);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_COST, 0);
    if (has_own_pay(explaining))
        explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_PAY, 0);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_LIST, 0);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_PRICE, 0);
    explain_set(explaining, GROAT_PART_BUYER, &explaining->channel->extras);
    explain_tax(explaining);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_PAID, 0);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_NET, 0);
    explain_set(explaining, GROAT_PART_TAKEN, &explaining->channel->fees);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_FEES, 0);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_KEEP, 0);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_PROFIT, 0);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_MARGIN, 0);
    explain_figure(explaining, GROAT_PART_FIGURE, FIGURE_TAKE_HOME, 0);
    explain_set(explaining, GROAT_PART_SHOW, &explaining->channel->shows);
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
    standing_more(scratch);
    if (setjmp(escape) != 0)
        return false;
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
