/* Definitions and the engine's own figures into steps, and how a price is found. */
#include <string.h>

#include "compile/compile.h"

/* ---- contexts ---- */

struct context context_of(struct compile *compile, uint32_t channel, bool one, bool trial)
{
    uint32_t number = channel * CONTEXTS_A_CHANNEL + (uint32_t)one * 2 + (uint32_t)trial;
    size_t flows = compile->shop->symbols.count + FIGURES;
    if (!compile->memo[number]) {
        compile->memo[number] = arena_take(compile->arena, flows * sizeof **compile->memo);
        for (size_t i = 0; i < flows; i++)
            compile->memo[number][i].step = NO_STEP;
    }
    return (struct context){number, channel, one, trial};
}

static const struct channel *channel_in(const struct compile *compile,
                                        const struct context *context)
{
    return &compile->shop->channels[context->channel];
}

/* ---- remembering, and noticing circles ---- */

#define BUSY (UINT32_MAX - 1)

typedef struct flow making(struct compile *compile, const struct context *context, void *what);

/* A line of the shop's that looks at another channel's price cannot hold on that channel too. */
static const char *without_shops_line(const struct compile *compile, const struct context *context,
                                      struct span from)
{
    const struct channel *channel = channel_in(compile, context);
    const struct statement *lines[] = {channel->price.floor, channel->price.ceiling,
                                       channel->price.pin, channel->price.discount};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        const struct expression *value = lines[i] ? lines[i]->value : NULL;
        if (value && value->span.source == from.source && value->span.start <= from.start &&
            from.end <= value->span.end)
            return arena_print(compile->arena, "channel %s { price { %s none } }", channel->name,
                               statement_word(lines[i]->kind));
    }
    return NULL;
}

/* Makes a flow once for a context. What asks for itself while it is made goes in a circle. */
static struct flow remembered(struct compile *compile, const struct context *context, size_t index,
                              making *make, void *what, const char *name, struct span from)
{
    struct flow *slot = &compile->memo[context->number][index];
    if (slot->step == BUSY) {
        diagnostics_error(compile->diagnostics, from, without_shops_line(compile, context, from),
                          "on channel %s, %s depends on itself", channel_in(compile, context)->name,
                          name);
        diagnostics_help_is(compile->diagnostics, HELP_ELSEWHERE);
        return flow_whole(compile, 0);
    }
    if (slot->step != NO_STEP)
        return *slot;
    slot->step = BUSY;
    struct surroundings around = compile->around;
    uint32_t origin = compile->origin;
    compile->around = (struct surroundings){0};
    struct flow flow = make(compile, context, what);
    compile->around = around;
    compile->origin = origin;
    compile->memo[context->number][index] = flow;
    return flow;
}

/* ---- definitions ---- */

static struct flow of_field(struct compile *compile, const struct context *context,
                            const struct symbol *symbol)
{
    const struct statement *field = symbol->statement;
    struct step step = {
        .operation = OP_FIELD, .a = symbol->order, .b = NO_STEP, .c = field->optional};
    if (field->value)
        step.b = emit_expression(compile, context, field->value).step;
    struct flow flow = {.step = emit_step(compile, step), .may_miss = field->optional};
    flow.text = symbol->type.kind == TYPE_TEXT;
    return flow;
}

static struct flow of_rate(struct compile *compile, const struct context *context,
                           const struct symbol *symbol)
{
    struct flow value = emit_expression(compile, context, symbol->statement->value);
    struct step step = {.operation = OP_RATE, .a = value.step, .b = symbol->order};
    struct flow flow = {.step = emit_step(compile, step), .text = value.text};
    return flow;
}

/* An amount of the currency: rounded to whole smallest units, ties away from zero. */
static struct flow in_smallest(struct compile *compile, struct flow flow)
{
    uint32_t grid = emit_number(compile, compile->shop->smallest);
    flow.step = emit_rounded(compile, flow.step, grid, NUM_NEAREST);
    return flow;
}

static struct flow make_symbol(struct compile *compile, const struct context *context, void *what)
{
    struct symbol *symbol = what;
    const struct expression *value = symbol->statement->value;
    const char *name =
        arena_print(compile->arena, "%s %s", symbol_word(symbol->kind), symbol->name);
    compile->origin = emit_origin(compile, name, symbol->statement->span);
    struct flow flow;
    switch (symbol->kind) {
    case SYMBOL_FIELD: return of_field(compile, context, symbol);
    case SYMBOL_RATE:
    case SYMBOL_MATERIAL: return of_rate(compile, context, symbol);
    case SYMBOL_TABLE: return emit_lookup(compile, context, symbol, NULL, symbol->statement->span);
    case SYMBOL_COST:
    case SYMBOL_PAY:
        flow = emit_expression(compile, context, value);
        require_there(compile, &flow, value, name);
        return flow;
    case SYMBOL_FEE:
    case SYMBOL_EXTRA:
        flow = emit_expression(compile, context, value);
        require_there(compile, &flow, value, name);
        require_linear(compile, flow, value, name);
        return in_smallest(compile, flow);
    default: break;
    }
    if (value)
        return emit_expression(compile, context, value);
    struct expression alone = {.kind = EXPRESSION_NAME,
                               .span = symbol->statement->name.span,
                               .name = symbol->statement->name};
    return emit_expression(compile, context, &alone); /* `show NAME` */
}

struct flow emit_symbol(struct compile *compile, const struct context *context,
                        struct symbol *symbol, struct span from)
{
    return remembered(compile, context, symbol->number, make_symbol, symbol, symbol->name, from);
}

/* ---- figures ---- */

static struct flow add(struct compile *compile, struct flow a, struct flow b)
{
    return flow_join(emit_two(compile, OP_ADD, a.step, b.step), a, b);
}

static struct flow subtract(struct compile *compile, struct flow a, struct flow b)
{
    return flow_join(emit_two(compile, OP_SUBTRACT, a.step, b.step), a, b);
}

struct span channel_span(const struct compile *compile, uint32_t channel)
{
    const struct statement *statement = compile->shop->channels[channel].statement;
    return statement ? statement->span : compile->shop->currency->span;
}

static struct flow figure_in(struct compile *compile, const struct context *context,
                             enum figure figure)
{
    return emit_figure(compile, context, figure, channel_span(compile, context->channel));
}

/* The sum of the lines of a set, or of its pays alone. */
static struct flow sum_of(struct compile *compile, const struct context *context,
                          const struct symbol_set *set, bool pays_only)
{
    struct flow sum = flow_whole(compile, 0);
    bool first = true;
    for (size_t i = 0; i < set->count; i++) {
        struct symbol *symbol = set->items[i];
        if (pays_only && symbol->kind != SYMBOL_PAY)
            continue;
        struct flow line = emit_symbol(compile, context, symbol, symbol->statement->span);
        sum = first ? line : add(compile, sum, line);
        first = false;
    }
    return sum;
}

static struct flow list_of(struct compile *compile, const struct context *context)
{
    if (context->trial) {
        struct flow flow = flow_fixed(compile->trial_steps[context->number]);
        flow.degree = DEGREE_LINEAR;
        return flow;
    }
    bool one = context->one || compile->for_one[context->channel];
    struct context place = context_of(compile, context->channel, one, false);
    if (place.number != context->number)
        return figure_in(compile, &place, FIGURE_LIST);
    struct flow flow = flow_fixed(emit_price_search(compile, &place));
    uint32_t pin = emit_pin(compile, &place);
    if (pin != NO_STEP)
        flow.step = emit_two(compile, OP_OTHERWISE, pin, flow.step);
    flow.degree = DEGREE_LINEAR;
    return flow;
}

/* The list price less the discount of this quantity, in whole smallest units. An aim is met by the
 * list price itself: the discount comes after. */
static struct flow price_of(struct compile *compile, const struct context *context)
{
    const struct statement *discount = channel_in(compile, context)->price.discount;
    struct flow list = figure_in(compile, context, FIGURE_LIST);
    if (context->trial || !discount || !discount->value)
        return list;
    struct flow rate = emit_expression(compile, context, discount->value);
    if (rate.may_miss)
        rate.step = emit_two(compile, OP_OTHERWISE, rate.step, flow_whole(compile, 0).step);
    rate.step = emit_two(compile, OP_COMPLEMENT, rate.step, 1);
    list.step = emit_two(compile, OP_MULTIPLY, list.step, rate.step);
    return in_smallest(compile, list);
}

/* The tax on price and extras: on top of them, or the part of them that it is. */
static struct flow tax_of(struct compile *compile, const struct context *context)
{
    const struct statement *tax = channel_in(compile, context)->tax;
    if (!tax)
        return flow_whole(compile, 0);
    compile->origin = emit_origin(compile, "tax", tax->span);
    struct flow rate = emit_expression(compile, context, tax->value);
    require_there(compile, &rate, tax->value, "a tax");
    require_linear(compile, rate, tax->value, "a tax");
    struct flow base = add(compile, figure_in(compile, context, FIGURE_PRICE),
                           figure_in(compile, context, FIGURE_EXTRAS));
    if (rate.degree == DEGREE_LINEAR)
        require_linear(
            compile,
            flow_bad(rate, tax->value->span, "multiplies two amounts that depend on the price"),
            tax->value, "a tax");
    if (tax->kind == STATEMENT_TAX_INCLUDED) { /* R / (1 + R) of them */
        uint32_t whole = emit_two(compile, OP_ADD, emit_number(compile, num_whole(1)), rate.step);
        rate.step = emit_two(compile, OP_DIVIDE, rate.step, whole);
    }
    struct flow amount =
        flow_join(emit_two(compile, OP_MULTIPLY, rate.step, base.step), rate, base);
    return in_smallest(compile, amount);
}

/* A figure that adds up others; tax only where it counts. */
static struct flow total_of(struct compile *compile, const struct context *context,
                            enum figure figure)
{
    const struct figure_term *term = figure_terms(figure);
    struct flow total = figure_in(compile, context, term++->figure);
    for (; term->sign; term++) {
        if (!figure_counts(channel_in(compile, context), figure, term->figure))
            continue;
        struct flow more = figure_in(compile, context, term->figure);
        total = term->sign == '+' ? add(compile, total, more) : subtract(compile, total, more);
    }
    return total;
}

static struct flow margin_of(struct compile *compile, const struct context *context)
{
    struct flow profit = figure_in(compile, context, FIGURE_PROFIT);
    struct flow net = figure_in(compile, context, FIGURE_NET);
    struct flow flow = flow_join(emit_two(compile, OP_MARGIN, profit.step, net.step), profit, net);
    if (flow.degree == DEGREE_LINEAR || flow.degree == DEGREE_STEPPED)
        flow.degree = DEGREE_RATIO;
    return flow;
}

static struct flow make_figure(struct compile *compile, const struct context *context, void *what)
{
    enum figure figure = *(enum figure *)what;
    const struct channel *channel = channel_in(compile, context);
    if (figure >= FIGURE_COST)
        compile->origin =
            emit_origin(compile, figure_name(figure), channel_span(compile, context->channel));
    struct flow flow;
    switch (figure) {
    case FIGURE_QUANTITY:
        if (context->one)
            return flow_whole(compile, 1);
        return flow_fixed(emit_one(compile, OP_QUANTITY, 0));
    case FIGURE_AS_OF: return flow_fixed(emit_one(compile, OP_AS_OF, 0));
    case FIGURE_CHANNEL:
        flow = flow_fixed(emit_text(compile, channel->name));
        flow.text = true;
        return flow;
    case FIGURE_COST: return sum_of(compile, context, &channel->costs, false);
    case FIGURE_PAY: return sum_of(compile, context, &channel->costs, true);
    case FIGURE_LIST: return list_of(compile, context);
    case FIGURE_PRICE: return price_of(compile, context);
    case FIGURE_EXTRAS: return sum_of(compile, context, &channel->extras, false);
    case FIGURE_TAX: return tax_of(compile, context);
    case FIGURE_FEES: return sum_of(compile, context, &channel->fees, false);
    case FIGURE_MARGIN: return margin_of(compile, context);
    case FIGURE_PAID:
    case FIGURE_NET:
    case FIGURE_KEEP:
    case FIGURE_PROFIT:
    case FIGURE_TAKE_HOME: return total_of(compile, context, figure);
    case FIGURES: break;
    }
    return flow_whole(compile, 0);
}

/* A figure is a level of its own: one of another channel can bring in all the figures there are. */
struct flow emit_figure(struct compile *compile, const struct context *context, enum figure figure,
                        struct span from)
{
    size_t index = compile->shop->symbols.count + figure;
    if (!go_deeper(compile, from))
        return flow_whole(compile, 0);
    struct flow flow =
        remembered(compile, context, index, make_figure, &figure, figure_name(figure), from);
    compile->depth--;
    return flow;
}
