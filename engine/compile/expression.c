/* Expressions into steps. */
#include <string.h>

#include "compile/compile.h"
#include "types/literal.h"
#include "types/range.h"

/* ---- names ---- */

static bool is_known(const struct compile *compile, const char *name)
{
    for (const struct known_name *each = compile->around.known; each; each = each->next)
        if (strcmp(each->name, name) == 0)
            return true;
    return false;
}

static struct flow of_name(struct compile *compile, const struct context *context,
                           const struct expression *expression)
{
    const char *name = expression->name.text;
    for (const struct bound_name *each = compile->around.parameters; each; each = each->next)
        if (strcmp(each->name, name) == 0)
            return each->flow;
    enum figure figure = figure_find(name);
    if (figure != FIGURES)
        return emit_figure(compile, context, figure, expression->span);
    struct symbol *symbol = shop_find(compile->shop, context->channel, name);
    struct flow flow = emit_symbol(compile, context, symbol, expression->span);
    if (flow.may_miss && is_known(compile, name))
        flow.may_miss = false;
    return flow;
}

/* Another channel's figure for one piece; missing where that channel does not sell. */
static struct flow of_on(struct compile *compile, const struct expression *expression)
{
    uint32_t channel = shop_channel(compile->shop, expression->channel.text);
    struct context there = context_of(compile, channel, true, false);
    struct surroundings around = compile->around;
    compile->around = (struct surroundings){.in_function = around.in_function};
    struct flow flow = of_name(compile, &there, expression);
    uint32_t sold = emit_sold(compile, &there);
    compile->around = around;
    struct flow result = {
        .step = flow.step, .may_miss = flow.may_miss || sold != NO_STEP, .text = flow.text};
    if (sold != NO_STEP)
        result.step = emit_select(compile, sold, flow.step, compile->missing);
    return result;
}

static struct flow of_call(struct compile *compile, const struct context *context,
                           const struct expression *call)
{
    struct symbol *symbol = shop_find(compile->shop, context->channel, call->name.text);
    if (symbol->kind == SYMBOL_TABLE)
        return emit_lookup(compile, context, symbol, call->arguments, call->span);
    const struct bound_name *first = NULL;
    const struct tree_word *name = symbol->statement->words;
    for (const struct expression *given = call->arguments; given;
         given = given->next, name = name->next) {
        struct bound_name *bound = arena_take(compile->arena, sizeof *bound);
        *bound =
            (struct bound_name){name->word.text, emit_expression(compile, context, given), first};
        first = bound;
    }
    struct surroundings around = compile->around;
    compile->around = (struct surroundings){.parameters = first, .in_function = true};
    struct flow flow = emit_expression(compile, context, symbol->statement->value);
    compile->around = around;
    return flow;
}

/* ---- arithmetic ---- */

/* A step of two values, with what is known of it. */
static struct flow of_operation(struct compile *compile, enum operation operation, struct flow a,
                                struct flow b, struct span span)
{
    const struct operation_traits *traits = &operation_traits[operation];
    struct flow flow = flow_join(emit_two(compile, operation, a.step, b.step), a, b);
    if (traits->missing == MISSING_AS_BOTH)
        flow.may_miss = a.may_miss && b.may_miss;
    if (traits->missing == MISSING_AS_B)
        flow.may_miss = b.may_miss;
    if (flow.degree == DEGREE_BAD)
        return flow;
    if (flow.degree == DEGREE_RATIO)
        return flow_bad(flow, span, "calculates with a quotient that depends on the price");
    if (traits->degree == DEGREE_OF_PRODUCT && a.degree == DEGREE_LINEAR &&
        b.degree == DEGREE_LINEAR)
        return flow_bad(flow, span, "multiplies two amounts that depend on the price");
    if (traits->degree == DEGREE_OF_QUOTIENT && b.degree == DEGREE_LINEAR)
        flow.degree = DEGREE_RATIO;
    return flow;
}

/* 1 - rate, where the rate must be below one. */
static struct flow of_rest(struct compile *compile, struct flow rate)
{
    rate.step = emit_one(compile, OP_COMPLEMENT, rate.step);
    return rate;
}

static struct flow of_marked_up(struct compile *compile, struct flow a, struct flow rate,
                                struct span span)
{
    struct flow whole = of_operation(compile, OP_ADD, flow_whole(compile, 1), rate, span);
    return of_operation(compile, OP_MULTIPLY, a, whole, span);
}

static struct flow of_per(struct compile *compile, const struct expression *expression,
                          struct flow a)
{
    struct dimension dimension;
    struct num below = num_whole(1), factor;
    const char *digits = expression->name.text;
    enum num_status status = NUM_OK;
    if (digits)
        status = num_read_decimal(compile->shop->heap, digits, strlen(digits), &below);
    if (status == NUM_OK && expression->unit &&
        literal_unit(compile->scope, expression->unit, &dimension, &factor))
        status = num_multiply(compile->shop->heap, below, factor, &below);
    literal_report(compile->scope, expression->span, status);
    struct flow by = flow_fixed(emit_number(compile, below));
    return of_operation(compile, OP_DIVIDE, a, by, expression->span);
}

static struct flow of_as(struct compile *compile, const struct expression *expression,
                         struct flow a)
{
    struct dimension dimension;
    struct num factor = num_whole(1);
    literal_unit(compile->scope, expression->unit, &dimension, &factor);
    struct flow by = flow_fixed(emit_number(compile, factor));
    return of_operation(compile, OP_DIVIDE, a, by, expression->span);
}

static struct flow of_rounded(struct compile *compile, const struct context *context,
                              const struct expression *expression, struct flow a)
{
    const struct expression *grid = expression->right;
    struct symbol *ladder = NULL;
    if (grid->kind == EXPRESSION_NAME)
        ladder = shop_find(compile->shop, context->channel, grid->name.text);
    enum num_rounding rounding = rounding_of(expression->rounding);
    struct flow flow = a;
    if (ladder && ladder->kind == SYMBOL_ROUNDING) {
        struct step step = {.operation = OP_LADDER,
                            .rounding = (uint8_t)rounding,
                            .a = a.step,
                            .b = emit_named_ladder(compile, ladder)};
        flow.step = emit_step(compile, step);
    } else {
        struct flow by = emit_expression(compile, context, grid);
        flow = flow_join(emit_rounded(compile, a.step, by.step, rounding), a, by);
    }
    if (flow.degree != DEGREE_FIXED)
        flow = flow_bad(flow, expression->span, "rounds an amount that depends on the price");
    return flow;
}

/* ---- conditions ---- */

static struct flow flag_of(uint32_t step, struct flow a, struct flow b)
{
    struct flow flow = flow_join(step, a, b);
    if (flow.degree == DEGREE_LINEAR || flow.degree == DEGREE_RATIO)
        flow.degree = DEGREE_STEPPED;
    return flow;
}

static struct flow not_of(struct compile *compile, struct flow a)
{
    a.step = emit_one(compile, OP_NOT, a.step);
    return a;
}

static struct flow compared(struct compile *compile, const struct context *context,
                            enum operation operation, struct flow a, struct flow b,
                            struct span span)
{
    struct step step = {
        .operation = (uint8_t)operation, .forgiving = context->trial, .a = a.step, .b = b.step};
    struct flow flow = flow_join(NO_STEP, a, b);
    if (flow.degree == DEGREE_RATIO && a.degree != DEGREE_FIXED && b.degree != DEGREE_FIXED)
        flow =
            flow_bad(flow, span,
                     "compares a quotient that depends on the price with another value that does");
    return flag_of(emit_step(compile, step), flow, flow);
}

static struct flow of_unequal(struct compile *compile, const struct context *context, struct flow a,
                              struct flow b, struct span span)
{
    struct flow below = compared(compile, context, OP_BELOW, a, b, span);
    struct flow above = compared(compile, context, OP_BELOW, b, a, span);
    return flow_join(emit_two(compile, OP_OR, below.step, above.step), below, above);
}

static struct flow of_comparison(struct compile *compile, const struct context *context,
                                 const struct expression *expression, struct flow a, struct flow b)
{
    struct span span = expression->span;
    if (a.text) {
        struct flow same = flag_of(emit_two(compile, OP_TEXT_EQUAL, a.step, b.step), a, b);
        return expression->kind == EXPRESSION_UNEQUAL ? not_of(compile, same) : same;
    }
    switch (expression->kind) {
    case EXPRESSION_EQUAL: return compared(compile, context, OP_EQUAL, a, b, span);
    case EXPRESSION_UNEQUAL: return of_unequal(compile, context, a, b, span);
    case EXPRESSION_BELOW: return compared(compile, context, OP_BELOW, a, b, span);
    case EXPRESSION_UP_TO: return compared(compile, context, OP_UP_TO, a, b, span);
    case EXPRESSION_ABOVE: return compared(compile, context, OP_BELOW, b, a, span);
    default: return compared(compile, context, OP_UP_TO, b, a, span);
    }
}

static struct flow of_between(struct compile *compile, const struct context *context,
                              const struct expression *expression, struct flow a)
{
    struct flow low = emit_expression(compile, context, expression->right);
    struct flow high = emit_expression(compile, context, expression->third);
    struct flow from = compared(compile, context, OP_UP_TO, low, a, expression->span);
    struct flow to = compared(compile, context, OP_UP_TO, a, high, expression->span);
    /* Missing where either end is: so an end is looked at although the other one decides. */
    uint32_t no = emit_number(compile, num_whole(0));
    uint32_t beyond = emit_select(compile, to.step, no, no);
    return flow_join(emit_select(compile, from.step, to.step, beyond), from, to);
}

static const struct expression *without_groups(const struct expression *expression)
{
    while (expression->kind == EXPRESSION_GROUP)
        expression = expression->left;
    return expression;
}

/* The name that `NAME is missing` asks about, or NULL. */
static const char *asks_missing(const struct expression *expression)
{
    expression = without_groups(expression);
    if (expression->kind != EXPRESSION_IS_MISSING)
        return NULL;
    const struct expression *asked = expression->left;
    return asked->kind == EXPRESSION_NAME ? asked->name.text : NULL;
}

/* One side of an `if`, where a condition has shown a name to be there. */
static struct flow of_side(struct compile *compile, const struct context *context,
                           const struct expression *side, const char *known)
{
    struct known_name name = {known, compile->around.known};
    if (known)
        compile->around.known = &name;
    struct flow flow = emit_expression(compile, context, side);
    compile->around.known = name.next;
    return flow;
}

static struct flow of_if(struct compile *compile, const struct context *context,
                         const struct expression *expression, struct flow condition)
{
    const struct expression *asked = without_groups(expression->left);
    bool negated = asked->kind == EXPRESSION_NOT;
    const char *name = asks_missing(negated ? asked->left : asked);
    struct flow yes = of_side(compile, context, expression->right, negated ? name : NULL);
    struct flow no = of_side(compile, context, expression->third, negated ? NULL : name);
    struct value answer;
    if (emit_is_constant(compile, condition.step, &answer) && answer.state == VALUE_THERE)
        return value_is_yes(answer) ? yes : no;
    struct flow flow = flow_join(emit_select(compile, condition.step, yes.step, no.step), yes, no);
    flow.text = yes.text;
    flow.may_miss = flow.may_miss || condition.may_miss;
    if (condition.degree == DEGREE_BAD)
        return flow_bad(flow, condition.bad_span, condition.bad);
    if (condition.degree > flow.degree)
        flow.degree = condition.degree;
    return flow;
}

static struct flow of_otherwise(struct compile *compile, const struct expression *expression,
                                struct flow a, struct flow b)
{
    struct flow flow = of_operation(compile, OP_OTHERWISE, a, b, expression->span);
    flow.text = a.text;
    note_otherwise(compile, expression, a.may_miss);
    return flow;
}

/* ---- all of it ---- */

static struct flow of_literal(struct compile *compile, const struct expression *expression)
{
    struct literal literal;
    /* A literal of thousands of digits is read again on every channel. */
    size_t length = (size_t)span_length(expression->span);
    if (!spend_work(compile, expression->span, length / 8) ||
        literal_read(compile->scope, expression, &literal) != LITERAL_READ)
        return flow_whole(compile, 0); /* reported */
    if (literal.type.kind != TYPE_TEXT)
        return flow_fixed(emit_number(compile, literal.number));
    struct flow flow = flow_fixed(emit_text(compile, literal.text));
    flow.text = true;
    return flow;
}

/* A range counts as its likely value; the others are for whoever leans it. */
static struct flow of_range(struct compile *compile, const struct expression *expression)
{
    struct range range;
    if (range_read(compile->scope, expression, &range) != LITERAL_READ)
        return flow_whole(compile, 0); /* reported */
    return flow_fixed(emit_number(compile, range.likely));
}

/* `NAME is missing or …` and `not (NAME is missing) and …`: the right side matters only where the
 * name is there. */
static struct flow of_condition(struct compile *compile, const struct context *context,
                                const struct expression *expression, struct flow a)
{
    const struct expression *asked = without_groups(expression->left);
    bool both = expression->kind == EXPRESSION_AND;
    const char *name = NULL;
    if (!both || asked->kind == EXPRESSION_NOT)
        name = asks_missing(both ? asked->left : asked);
    struct flow b = of_side(compile, context, expression->right, name);
    return flow_join(emit_two(compile, both ? OP_AND : OP_OR, a.step, b.step), a, b);
}

static struct flow of_two(struct compile *compile, const struct context *context,
                          const struct expression *expression, struct flow a)
{
    if (expression->kind == EXPRESSION_AND || expression->kind == EXPRESSION_OR)
        return of_condition(compile, context, expression, a);
    struct flow b = emit_expression(compile, context, expression->right);
    struct span span = expression->span;
    switch (expression->kind) {
    case EXPRESSION_ADD: return of_operation(compile, OP_ADD, a, b, span);
    case EXPRESSION_SUBTRACT: return of_operation(compile, OP_SUBTRACT, a, b, span);
    case EXPRESSION_AT_LEAST: return of_operation(compile, OP_LARGER, a, b, span);
    case EXPRESSION_AT_MOST: return of_operation(compile, OP_SMALLER, a, b, span);
    case EXPRESSION_MULTIPLY:
    case EXPRESSION_OF: return of_operation(compile, OP_MULTIPLY, a, b, span);
    case EXPRESSION_DIVIDE: return of_operation(compile, OP_DIVIDE, a, b, span);
    case EXPRESSION_MARKED_UP: return of_marked_up(compile, a, b, span);
    case EXPRESSION_MARKED_DOWN:
        return of_operation(compile, OP_MULTIPLY, a, of_rest(compile, b), span);
    case EXPRESSION_AT_MARGIN:
    case EXPRESSION_ALLOWING: return of_operation(compile, OP_DIVIDE, a, of_rest(compile, b), span);
    case EXPRESSION_OTHERWISE: return of_otherwise(compile, expression, a, b);
    default: return of_comparison(compile, context, expression, a, b);
    }
}

static struct flow of_worth(struct compile *compile, const struct context *context,
                            const struct expression *expression)
{
    struct flow flow = of_name(compile, context, expression);
    flow.step = emit_one(compile, OP_WORTH, flow.step);
    return flow;
}

/* What stands for a value by its name. */
static struct flow of_leaf(struct compile *compile, const struct context *context,
                           const struct expression *expression)
{
    struct flow flow;
    switch (expression->kind) {
    case EXPRESSION_NAME: flow = of_name(compile, context, expression); break;
    case EXPRESSION_CALL: flow = of_call(compile, context, expression); break;
    case EXPRESSION_ON: flow = of_on(compile, expression); break;
    default: flow = of_worth(compile, context, expression); break;
    }
    note_leaf(compile, context, expression, flow.step);
    return flow;
}

static struct flow emit(struct compile *compile, const struct context *context,
                        const struct expression *expression)
{
    struct flow a = {0};
    if (expression->kind == EXPRESSION_RANGE)
        return of_range(compile, expression);
    if (expression->kind != EXPRESSION_QUANTITY && expression->left)
        a = emit_expression(compile, context, expression->left);
    switch (expression->kind) {
    case EXPRESSION_NUMBER:
    case EXPRESSION_PERCENT:
    case EXPRESSION_MONEY:
    case EXPRESSION_QUANTITY:
    case EXPRESSION_FRACTION:
    case EXPRESSION_TEXT:
    case EXPRESSION_DATE:
    case EXPRESSION_YES:
    case EXPRESSION_NO: return of_literal(compile, expression);
    case EXPRESSION_NAME:
    case EXPRESSION_CALL:
    case EXPRESSION_ON:
    case EXPRESSION_WORTH: return of_leaf(compile, context, expression);
    case EXPRESSION_NEGATE:
        return of_operation(compile, OP_SUBTRACT, flow_whole(compile, 0), a, expression->span);
    case EXPRESSION_NOT: return not_of(compile, a);
    case EXPRESSION_IS_MISSING:
        a.step = emit_one(compile, OP_IS_MISSING, a.step);
        a.may_miss = a.text = false;
        return a;
    case EXPRESSION_GROUP:
    case EXPRESSION_EACH: return a;
    case EXPRESSION_PER: return of_per(compile, expression, a);
    case EXPRESSION_PER_ORDER:
        return of_operation(compile, OP_DIVIDE, a,
                            emit_figure(compile, context, FIGURE_QUANTITY, expression->span),
                            expression->span);
    case EXPRESSION_AS: return of_as(compile, expression, a);
    case EXPRESSION_ROUNDED: return of_rounded(compile, context, expression, a);
    case EXPRESSION_BETWEEN: return of_between(compile, context, expression, a);
    case EXPRESSION_IF: return of_if(compile, context, expression, a);
    default: return of_two(compile, context, expression, a);
    }
}

bool spend_work(struct compile *compile, struct span span, size_t work)
{
    if (work <= compile->work_left) {
        compile->work_left -= work;
        return true;
    }
    compile->work_left = 0;
    if (!compile->gave_up) /* the rest of what is too much is the same slip */
        diagnostics_error(compile->diagnostics, span, NULL,
                          "these rules need more steps than the limit allows");
    compile->gave_up = true;
    return false;
}

bool go_deeper(struct compile *compile, struct span span)
{
    if (compile->depth < compile->program->limits.depth && spend_work(compile, span, 1)) {
        compile->depth++;
        return true;
    }
    if (!compile->gave_up)
        diagnostics_error(compile->diagnostics, span, NULL,
                          "this depends on too many levels of other definitions");
    compile->gave_up = true;
    return false;
}

struct flow emit_expression(struct compile *compile, const struct context *context,
                            const struct expression *expression)
{
    if (!go_deeper(compile, expression->span))
        return flow_whole(compile, 0);
    struct flow flow = emit(compile, context, expression);
    compile->depth--;
    return flow;
}
