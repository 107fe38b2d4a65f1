/* Makes the expressions of the tree, and reports mistakes that show in their shape alone. */
#include "build.h"

#include <string.h>

static struct expression *expression_new(struct build *build, enum expression_kind kind,
                                         struct span span)
{
    struct expression *expression = build_literal(build, kind, span);
    expression->name = (struct word){0};
    return expression;
}

static unsigned deeper(unsigned depth, const struct expression *child)
{
    return child && child->depth >= depth ? child->depth + 1 : depth;
}

/* Parentheses, chains of signs and long sums all make the tree deep, and later stages recurse as
 * deep, so the depth is limited here. Every expression that has operands passes through this
 * function. An expression that is too deep is cut off, so that it is reported once. */
static struct expression *measured(struct build *build, struct expression *expression)
{
    unsigned depth = 1;
    depth = deeper(depth, expression->left);
    depth = deeper(depth, expression->right);
    depth = deeper(depth, expression->third);
    for (const struct expression *each = expression->arguments; each; each = each->next)
        depth = deeper(depth, each);
    expression->depth = depth;
    if (depth <= build->depth_most)
        return expression;
    diagnostics_error(build->diagnostics, expression->span, "use let to give a part of it a name",
                      "this is nested more than %zu levels deep", build->depth_most);
    diagnostics_help_is(build->diagnostics, HELP_ADVICE);
    return build_literal(build, EXPRESSION_BROKEN, expression->span);
}

struct expression *build_fraction(struct build *build, struct span text, struct tree_unit *unit)
{
    struct expression *expression = build_literal(build, EXPRESSION_FRACTION, text);
    expression->span = span_join(text, unit->name.span);
    expression->unit = unit;
    return expression;
}

struct expression *build_money(struct build *build, struct span symbol, struct span digits)
{
    struct expression *expression = build_literal(build, EXPRESSION_MONEY, digits);
    expression->span = span_join(symbol, digits);
    expression->unit = build_unit(build, symbol, (struct span){0});
    return expression;
}

struct expression *build_quantity(struct build *build, struct expression *before,
                                  struct span digits, struct tree_unit *unit)
{
    struct expression *expression = build_literal(build, EXPRESSION_QUANTITY, digits);
    expression->span = span_join(before ? before->span : digits, unit->name.span);
    expression->unit = unit;
    expression->left = before;
    return measured(build, expression);
}

struct expression *build_call(struct build *build, struct span name,
                              struct expression_list arguments, struct span close)
{
    struct expression *expression = build_literal(build, EXPRESSION_CALL, name);
    expression->span = span_join(name, close);
    expression->arguments = arguments.first;
    return measured(build, expression);
}

struct expression *build_on(struct build *build, struct span name, struct span channel)
{
    struct expression *expression = build_literal(build, EXPRESSION_ON, name);
    expression->span = span_join(name, channel);
    expression->channel = build_literal(build, EXPRESSION_NAME, channel)->name;
    return expression;
}

struct expression *build_worth(struct build *build, struct span word, struct span field)
{
    struct expression *expression = build_literal(build, EXPRESSION_WORTH, field);
    expression->span = span_join(word, field);
    return expression;
}

struct expression *build_group(struct build *build, struct span open, struct expression *inside,
                               struct span close)
{
    struct expression *expression = expression_new(build, EXPRESSION_GROUP, span_join(open, close));
    expression->left = inside;
    return measured(build, expression);
}

struct expression *build_before(struct build *build, enum expression_kind kind, struct span word,
                                struct expression *operand)
{
    struct expression *expression = expression_new(build, kind, span_join(word, operand->span));
    expression->left = operand;
    return measured(build, expression);
}

struct expression *build_after(struct build *build, enum expression_kind kind,
                               struct expression *operand, struct span word)
{
    return build_before(build, kind, word, operand);
}

struct expression *build_per(struct build *build, struct expression *operand, struct span digits,
                             struct tree_unit *unit)
{
    struct span end = unit ? unit->name.span : digits;
    struct expression *expression =
        expression_new(build, EXPRESSION_PER, span_join(operand->span, end));
    if (digits.source)
        expression->name = build_literal(build, EXPRESSION_NUMBER, digits)->name;
    expression->left = operand;
    expression->unit = unit;
    return measured(build, expression);
}

struct expression *build_as(struct build *build, struct expression *operand, struct tree_unit *unit)
{
    struct span end = unit->per ? unit->per->name.span : unit->name.span;
    struct expression *expression =
        expression_new(build, EXPRESSION_AS, span_join(operand->span, end));
    expression->left = operand;
    expression->unit = unit;
    return measured(build, expression);
}

static bool is_term_on_a_cost(const struct expression *expression)
{
    switch (expression->kind) {
    case EXPRESSION_MARKED_UP:
    case EXPRESSION_MARKED_DOWN:
    case EXPRESSION_AT_MARGIN:
    case EXPRESSION_ALLOWING: return true;
    default: return false;
    }
}

/* Whether both readings are short enough to write out in a message. */
static bool is_short(const struct expression *left, const struct expression *right)
{
    struct span whole = span_join(left->span, right->span);
    return span_length(whole) <= 120 && !memchr(span_text(whole), '\n', (size_t)span_length(whole));
}

/* `cost + packing at margin 40%` has two readings; the writer is asked to choose. */
static void ask_for_reading(struct build *build, enum expression_kind kind,
                            const struct expression *left, const struct expression *term)
{
    const char *sign = kind == EXPRESSION_ADD ? "+" : "-";
    const struct expression *inner = term->left;
    struct span tail = {term->span.source, inner->span.end, term->span.end};
    const char *help = "parentheses around one or the other";
    if (is_short(left, term))
        help = arena_print(build->arena, "(%.*s %s %.*s)%.*s, or %.*s %s (%.*s)",
                           span_length(left->span), span_text(left->span), sign,
                           span_length(inner->span), span_text(inner->span), span_length(tail),
                           span_text(tail), span_length(left->span), span_text(left->span), sign,
                           span_length(term->span), span_text(term->span));
    diagnostics_error(build->diagnostics, term->span, help,
                      "this can be read in two ways; use parentheses to choose one");
    diagnostics_help_is(build->diagnostics, HELP_CHOICE);
}

/* `x / 5 per h` looks like `(x / 5) per h` and like `x / (5 per h)`. */
static void ask_for_divisor(struct build *build, const struct expression *left,
                            const struct expression *divisor)
{
    const struct expression *number = divisor->left;
    struct span tail = {divisor->span.source, number->span.end, divisor->span.end};
    const char *help = "parentheses around one or the other";
    if (is_short(left, divisor))
        help = arena_print(build->arena, "(%.*s / %.*s)%.*s, or %.*s / (%.*s)",
                           span_length(left->span), span_text(left->span),
                           span_length(number->span), span_text(number->span), span_length(tail),
                           span_text(tail), span_length(left->span), span_text(left->span),
                           span_length(divisor->span), span_text(divisor->span));
    diagnostics_error(build->diagnostics, divisor->span, help,
                      "this can be read in two ways; use parentheses to choose one");
    diagnostics_help_is(build->diagnostics, HELP_CHOICE);
}

struct expression *build_two(struct build *build, enum expression_kind kind,
                             struct expression *left, struct expression *right)
{
    struct expression *expression = expression_new(build, kind, span_join(left->span, right->span));
    expression->left = left;
    expression->right = right;
    bool sum = kind == EXPRESSION_ADD || kind == EXPRESSION_SUBTRACT;
    if (sum && is_term_on_a_cost(right))
        ask_for_reading(build, kind, left, right);
    bool per = right->kind == EXPRESSION_PER || right->kind == EXPRESSION_EACH ||
               right->kind == EXPRESSION_PER_ORDER;
    if (kind == EXPRESSION_DIVIDE && per && right->left->kind == EXPRESSION_NUMBER)
        ask_for_divisor(build, left, right);
    return measured(build, expression);
}

struct expression *build_allowing(struct build *build, struct expression *left,
                                  struct expression *rate, struct span lost)
{
    struct expression *expression = build_two(build, EXPRESSION_ALLOWING, left, rate);
    expression->span = span_join(expression->span, lost);
    return expression;
}

struct expression *build_rounded(struct build *build, enum tree_rounding rounding,
                                 struct expression *left, struct expression *grid)
{
    struct expression *expression = build_two(build, EXPRESSION_ROUNDED, left, grid);
    expression->rounding = rounding;
    return expression;
}

struct expression *build_between(struct build *build, struct expression *value,
                                 struct expression *low, struct expression *high)
{
    struct expression *expression = build_two(build, EXPRESSION_BETWEEN, value, low);
    expression->span = span_join(value->span, high->span);
    expression->third = high;
    return measured(build, expression);
}

struct expression *build_range(struct build *build, struct expression *low, struct expression *high,
                               struct expression *likely)
{
    struct expression *expression = build_two(build, EXPRESSION_RANGE, low, high);
    if (likely)
        expression->span = span_join(low->span, likely->span);
    expression->third = likely;
    return measured(build, expression);
}

struct expression *build_if(struct build *build, struct span word, struct expression *condition,
                            struct expression *then, struct expression *otherwise)
{
    struct expression *expression = build_two(build, EXPRESSION_IF, condition, then);
    expression->span = span_join(word, otherwise->span);
    expression->third = otherwise;
    return measured(build, expression);
}
