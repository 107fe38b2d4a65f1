/* The type of an expression. */
#include <stdio.h>
#include <string.h>

#include "text/near.h"
#include "types/check.h"
#include "types/range.h"
#include "types/share.h"
#include "types/rules.h"
#include "types/propose.h"

static bool is_wrong(struct typed typed)
{
    return typed.type.kind == TYPE_WRONG;
}

static enum level later(struct typed a, struct typed b)
{
    return a.level > b.level ? a.level : b.level;
}

/* ---- names ---- */

/* Whether a name stands on the line of one of these statements. */
static bool is_line_of(const struct statement *lines, struct span name)
{
    for (const struct statement *line = lines; line; line = line->next) {
        uint32_t start = line->span.start;
        if (line->span.source == name.source && start <= name.start &&
            !memchr(name.source->text + start, '\n', name.start - start))
            return true;
        if (is_line_of(line->parts, name))
            return true;
    }
    return false;
}

/* A name of one channel alone. A line of the whole shop that uses it belongs to that channel. */
static struct typed report_elsewhere(struct check *check, struct word name,
                                     const struct channel *channel)
{
    const struct shop *shop = check->shop;
    const struct statement *here =
        check->channel == NO_CHANNEL ? NULL : shop->channels[check->channel].statement;
    const char *help = NULL;
    if (!here || !is_line_of(here->parts, name.span))
        help = arena_print(shop->arena, "move this line into channel %s { … }", channel->name);
    check_refuse(check, name.span, help, "%s is defined only on channel %s, not here", name.text,
                 channel->name);
    diagnostics_help_is(shop->diagnostics, HELP_ELSEWHERE);
    return typed_wrong();
}

static struct typed report_unknown(struct check *check, struct word name)
{
    struct shop *shop = check->shop;
    if (!check->whole)
        return typed_wrong(); /* it may be defined in a statement that could not be read */
    if (diagnostics_full(shop->diagnostics))
        return typed_wrong(); /* to look for a near name takes a walk through all of them */
    for (size_t i = 0; i < shop->channels_count; i++)
        if (shop_find(shop, (unsigned)i, name.text))
            return report_elsewhere(check, name, &shop->channels[i]);
    if (literal_is_unit(shop, name.text)) {
        const char *amount = propose_money(shop, "26");
        return check_refuse(
            check, name.span,
            arena_print(shop->arena, "%s per %s", amount ? amount : "26", name.text),
            "%s is a unit; it must come after a number or after `per`", name.text);
    }
    struct near near = near_to(name.text, strlen(name.text));
    for (size_t i = 0; i < shop->symbols.count; i++)
        near_offer(&near, shop->symbols.items[i]->name);
    for (unsigned figure = 0; figure < FIGURES; figure++)
        near_offer(&near, figure_name((enum figure)figure));
    near_offer(&near, "otherwise");
    for (const struct parameter *each = check->parameters; each; each = each->next)
        near_offer(&near, each->name);
    return check_refuse(check, name.span, near.best, "%s is not known", name.text);
}

static struct typed type_of_name(struct check *check, const struct expression *expression)
{
    const char *name = expression->name.text;
    for (const struct parameter *each = check->parameters; each; each = each->next)
        if (strcmp(each->name, name) == 0)
            return each->typed;
    enum figure figure = figure_find(name);
    if (figure != FIGURES)
        return (struct typed){figure_type(figure), figure_level(figure)};
    struct symbol *symbol = shop_find(check->shop, check->channel, name);
    if (!symbol)
        return report_unknown(check, expression->name);
    return check_symbol(check, symbol, expression->span);
}

static struct typed type_of_on(struct check *check, const struct expression *expression)
{
    unsigned channel = shop_channel(check->shop, expression->channel.text);
    if (channel == NO_CHANNEL)
        return report_no_channel(check, expression->channel, false);
    unsigned here = check->channel;
    const struct parameter *parameters = check->parameters;
    check->channel = channel;
    check->parameters = NULL;
    struct typed typed = type_of_name(check, expression);
    check->channel = here;
    check->parameters = parameters;
    typed.level = LEVEL_RECORD; /* it is found on its own, before this channel's */
    return typed;
}

static struct typed type_of_worth(struct check *check, const struct expression *expression)
{
    struct typed typed = type_of_name(check, expression);
    if (!is_wrong(typed) && typed.type.kind != TYPE_PARTS)
        return check_refuse(check, expression->span, NULL,
                            "`worth of` needs a field of the type parts, but %s is %s",
                            expression->name.text, type_words(check, typed.type));
    return is_wrong(typed) ? typed : typed_number(dim_base(DIM_MONEY), typed.level);
}

/* ---- arithmetic ---- */

static bool is_number(struct check *check, const struct expression *expression, struct typed typed)
{
    if (!is_wrong(typed) && typed.type.kind != TYPE_NUMBER)
        check_refuse(check, expression->span, NULL, "%s is %s; this needs a number or an amount",
                     expression_words(check, expression), type_words(check, typed.type));
    return typed.type.kind == TYPE_NUMBER;
}

static struct typed both_numbers(struct check *check, const struct expression *expression,
                                 struct typed left, struct typed right)
{
    bool first = is_number(check, expression->left, left);
    bool second = is_number(check, expression->right, right);
    if (!first || !second)
        return typed_wrong();
    return typed_number(left.type.dimension, later(left, right));
}

/* `12`, or `$14` where `$14 per h` may be meant. */
static bool lacks_unit(const struct check *check, const struct expression *expression,
                       struct type other)
{
    return expression->kind == EXPRESSION_NUMBER ||
           (literal_writes_money(check->shop, expression) && other.dimension.power[DIM_MONEY] == 1);
}

static bool is_amount(const struct expression *expression)
{
    if (expression->kind == EXPRESSION_PER)
        expression = expression->left;
    return expression->kind <= EXPRESSION_FRACTION;
}

/* `30 to 45 min` for a rate or a default that is `30-45 min`; NULL for anything else. */
static const char *propose_range(const struct check *check, const struct expression *expression)
{
    const struct symbol_set *sets[] = {&check->shop->rates, &check->shop->fields};
    if (expression->kind != EXPRESSION_SUBTRACT || !is_amount(expression->left) ||
        !is_amount(expression->right))
        return NULL;
    for (size_t i = 0; i < sizeof sets / sizeof *sets; i++)
        for (size_t j = 0; j < sets[i]->count; j++)
            if (sets[i]->items[j]->statement->value == expression)
                return range_instead(check->shop->arena, expression);
    return NULL;
}

/* A sum, a difference, the larger or the smaller: both sides measure the same. */
static struct typed type_of_sum(struct check *check, const struct expression *expression,
                                struct typed left, struct typed right)
{
    struct typed typed = both_numbers(check, expression, left, right);
    if (is_wrong(typed) || dim_equal(left.type.dimension, right.type.dimension))
        return typed;
    const char *doing = expression->kind == EXPRESSION_ADD        ? "added to"
                        : expression->kind == EXPRESSION_SUBTRACT ? "subtracted from"
                                                                  : "compared with";
    const struct expression *first = expression->right, *second = expression->left;
    struct type type = right.type, other = left.type;
    const char *help = propose_range(check, expression);
    bool sums = expression->kind == EXPRESSION_ADD || expression->kind == EXPRESSION_SUBTRACT ||
                expression->kind == EXPRESSION_AT_LEAST || expression->kind == EXPRESSION_AT_MOST;
    if (!help && lacks_unit(check, first, other))
        help = propose_like(check->shop, first->name.text, second, other);
    else if (!help && lacks_unit(check, second, type))
        help = propose_like(check->shop, second->name.text, first, type);
    if (!help && sums) /* in a comparison a factor would be another question */
        help = factor_for(check, first, type.dimension, other);
    if (!help && sums)
        help = factor_for(check, second, other.dimension, type);
    return check_refuse(check, expression->span, help, "%s is %s; it cannot be %s %s, which is %s",
                        expression_words(check, first), type_words(check, type), doing,
                        expression_words(check, second), type_words(check, other));
}

/* The names of units so long that a money rate times them is rarely what is meant. */
static bool written_in_days(struct check *check, const struct expression *expression)
{
    static const char *const units[] = {"day", "week", "month", "year"};
    if (expression->kind == EXPRESSION_NAME) {
        const struct symbol *symbol = shop_find(check->shop, check->channel, expression->name.text);
        if (!symbol || (symbol->kind != SYMBOL_RATE && symbol->kind != SYMBOL_LET))
            return false;
        expression = symbol->statement->value;
    }
    for (; expression->kind == EXPRESSION_QUANTITY; expression = expression->left) {
        for (size_t i = 0; i < sizeof units / sizeof *units; i++)
            if (strcmp(expression->unit->name.text, units[i]) == 0)
                return true;
        if (!expression->left)
            return false;
    }
    return false;
}

static void warn_of_days(struct check *check, const struct expression *expression,
                         struct typed left, struct typed right)
{
    struct dimension wage;
    if (!dim_divide(dim_base(DIM_MONEY), dim_base(DIM_TIME), &wage))
        return;
    bool warns =
        (dim_equal(left.type.dimension, wage) && written_in_days(check, expression->right)) ||
        (dim_equal(right.type.dimension, wage) && written_in_days(check, expression->left));
    if (warns) {
        diagnostics_warning(check->shop->diagnostics, expression->span, "unit workday = 8 h",
                            "a day is 24 hours here, so this counts all 24 hours of each day");
        diagnostics_help_is(check->shop->diagnostics, HELP_ELSEWHERE);
    }
}

static struct typed type_of_product(struct check *check, const struct expression *expression,
                                    struct typed left, struct typed right)
{
    struct typed typed = both_numbers(check, expression, left, right);
    if (is_wrong(typed))
        return typed;
    bool divides = expression->kind == EXPRESSION_DIVIDE;
    bool fits =
        divides ? dim_divide(left.type.dimension, right.type.dimension, &typed.type.dimension)
                : dim_multiply(left.type.dimension, right.type.dimension, &typed.type.dimension);
    if (!fits)
        return check_refuse(check, expression->span, NULL, "this raises a unit to a power above %d",
                            DIM_POWER_MOST);
    if (!divides)
        warn_of_days(check, expression, left, right);
    return typed;
}

/* `marked up`, `marked down`, `at margin`, `allowing … lost`: an amount and a rate. */
static struct typed type_of_term(struct check *check, const struct expression *expression,
                                 struct typed left, struct typed right)
{
    struct typed typed = both_numbers(check, expression, left, right);
    if (is_wrong(typed) || !check_plain(check, expression->right, right))
        return typed_wrong();
    switch (expression->kind) {
    case EXPRESSION_MARKED_UP: share_warn_of_markup(check, expression->right); break;
    case EXPRESSION_MARKED_DOWN: share_check(check, expression->right, "marked down"); break;
    case EXPRESSION_AT_MARGIN: share_check(check, expression->right, "at margin"); break;
    default: share_check(check, expression->right, "allowing"); break;
    }
    if (expression->kind == EXPRESSION_ALLOWING && dim_is_none(left.type.dimension))
        return check_refuse(check, expression->left->span, NULL,
                            "%s is a plain number; an allowance for loss needs an amount",
                            expression_words(check, expression->left));
    return typed;
}

static struct typed type_of_share(struct check *check, const struct expression *expression,
                                  struct typed left, struct typed right)
{
    struct typed typed = both_numbers(check, expression, left, right);
    if (is_wrong(typed) || !check_plain(check, expression->left, left))
        return typed_wrong();
    share_warn_of_whole(check, expression->left);
    return typed_number(right.type.dimension, later(left, right));
}

static struct typed type_of_rounded(struct check *check, const struct expression *expression,
                                    struct typed left)
{
    const struct expression *grid = expression->right;
    struct symbol *ladder = NULL;
    if (grid->kind == EXPRESSION_NAME)
        ladder = shop_find(check->shop, check->channel, grid->name.text);
    if (ladder && ladder->kind == SYMBOL_ROUNDING) {
        ladder->used = true;
        return check_money(check, expression->left, left) ? left : typed_wrong();
    }
    struct literal literal;
    bool fits = grid->kind == EXPRESSION_GROUP ||
                literal_read(check->scope, grid, &literal) != LITERAL_NONE;
    if (!fits)
        return check_refuse(check, grid->span,
                            arena_print(check->shop->arena, "(%s)", expression_words(check, grid)),
                            "`to` must be followed by the name of a rounding, an amount, or an "
                            "expression in parentheses");
    struct typed right = check_expression(check, grid);
    struct typed typed = both_numbers(check, expression, left, right);
    if (is_wrong(typed) || !check_same(check, grid, right, left.type))
        return typed_wrong();
    return typed;
}

static struct typed type_of_as(struct check *check, const struct expression *expression,
                               struct typed left)
{
    struct dimension dimension;
    struct num factor;
    if (!literal_unit(check->scope, expression->unit, &dimension, &factor) || is_wrong(left))
        return typed_wrong();
    if (!check_same(check, expression->left, left, typed_number(dimension, LEVEL_RECORD).type))
        return typed_wrong();
    return typed_number(dim_none(), left.level);
}

static struct typed type_of_per(struct check *check, const struct expression *expression,
                                struct typed left)
{
    struct dimension dimension = dim_none();
    struct num factor;
    if (is_wrong(left))
        return left;
    if (left.type.kind != TYPE_NUMBER)
        return check_refuse(
            check, expression->left->span, NULL, "%s is %s; only an amount can be per something",
            expression_words(check, expression->left), type_words(check, left.type));
    if (expression->unit && !literal_unit(check->scope, expression->unit, &dimension, &factor))
        return typed_wrong();
    if (!dim_divide(left.type.dimension, dimension, &left.type.dimension))
        return check_refuse(check, expression->span, NULL, "this raises a unit to a power above %d",
                            DIM_POWER_MOST);
    return left;
}

/* ---- conditions ---- */

/* A text compared with `channel` must be the name of one. */
static void check_channel_text(struct check *check, const struct expression *name,
                               const struct expression *text)
{
    if (name->kind != EXPRESSION_NAME || strcmp(name->name.text, "channel") != 0 ||
        text->kind != EXPRESSION_TEXT || shop_channel(check->shop, text->name.text) != NO_CHANNEL)
        return;
    report_no_channel(check, (struct word){text->name.text, text->span}, true);
}

static struct typed type_of_comparison(struct check *check, const struct expression *expression,
                                       struct typed left, struct typed right)
{
    if (is_wrong(left) || is_wrong(right))
        return typed_wrong();
    if (left.type.kind == TYPE_NUMBER && right.type.kind == TYPE_NUMBER) {
        if (is_wrong(type_of_sum(check, expression, left, right)))
            return typed_wrong();
    } else if (!check_same(check, expression->right, right, left.type)) {
        return typed_wrong();
    }
    bool equality = expression->kind == EXPRESSION_EQUAL || expression->kind == EXPRESSION_UNEQUAL;
    bool ordered = left.type.kind == TYPE_NUMBER || left.type.kind == TYPE_DATE;
    if (left.type.kind == TYPE_PARTS || (!equality && !ordered))
        return check_refuse(check, expression->span, NULL,
                            left.type.kind == TYPE_PARTS ? "%s cannot be compared"
                                                         : "%s can be compared only with = and !=",
                            type_words(check, left.type));
    check_channel_text(check, expression->left, expression->right);
    check_channel_text(check, expression->right, expression->left);
    share_warn_of_margin(check, expression->left, expression->right);
    share_warn_of_margin(check, expression->right, expression->left);
    return typed_kind(TYPE_FLAG, later(left, right));
}

static struct typed both_flags(struct check *check, const struct expression *expression,
                               struct typed left, struct typed right)
{
    bool first = check_flag(check, expression->left, left);
    bool second = check_flag(check, expression->right, right);
    return first && second ? typed_kind(TYPE_FLAG, later(left, right)) : typed_wrong();
}

static struct typed type_of_between(struct check *check, const struct expression *expression,
                                    struct typed left)
{
    const struct expression *ends[] = {expression->right, expression->third};
    enum level level = left.level;
    for (int i = 0; i < 2; i++) {
        struct typed end = check_expression(check, ends[i]);
        struct expression side = *expression;
        side.kind = EXPRESSION_NOT_BELOW;
        side.right = (struct expression *)ends[i];
        if (is_wrong(type_of_comparison(check, &side, left, end)))
            return typed_wrong();
        level = end.level > level ? end.level : level;
    }
    return typed_kind(TYPE_FLAG, level);
}

static struct typed type_of_if(struct check *check, const struct expression *expression,
                               struct typed condition)
{
    check_flag(check, expression->left, condition);
    struct typed then = check_expression(check, expression->right);
    struct typed other = check_expression(check, expression->third);
    if (is_wrong(then) || is_wrong(other) || is_wrong(condition))
        return typed_wrong();
    if (!check_same(check, expression->third, other, then.type))
        return typed_wrong();
    then.level = later(then, other);
    then.level = later(then, condition);
    return then;
}

/* `$450/month`: true when what an amount is divided by is said to be a unit. */
static bool report_divided_by_unit(struct check *check, const struct expression *expression)
{
    const struct expression *left = expression->left, *right = expression->right;
    struct shop *shop = check->shop;
    const char *name = right->name.text;
    if (right->kind != EXPRESSION_NAME || left->kind > EXPRESSION_FRACTION || !check->whole ||
        diagnostics_full(shop->diagnostics) || shop_find(shop, check->channel, name) ||
        figure_find(name) != FIGURES)
        return false;
    for (const struct parameter *each = check->parameters; each; each = each->next)
        if (strcmp(each->name, name) == 0)
            return false;
    const char *unit = literal_is_unit(shop, name) ? name : propose_unit_for(name);
    if (!unit)
        return false;
    const char *amount = expression_words(check, left);
    check_refuse(check, right->span,
                 strcmp(unit, "each") == 0 ? arena_print(shop->arena, "%s each", amount)
                                           : arena_print(shop->arena, "%s per %s", amount, unit),
                 unit == name ? "%s is a unit; it must come after a number or after `per`"
                              : "%s is not known",
                 name);
    return true;
}

/* ---- all of it ---- */

static struct typed type_of_two(struct check *check, const struct expression *expression,
                                struct typed left)
{
    if (expression->kind == EXPRESSION_DIVIDE && report_divided_by_unit(check, expression))
        return typed_wrong();
    struct typed right = check_expression(check, expression->right);
    switch (expression->kind) {
    case EXPRESSION_ADD:
    case EXPRESSION_SUBTRACT:
    case EXPRESSION_AT_LEAST:
    case EXPRESSION_AT_MOST: return type_of_sum(check, expression, left, right);
    case EXPRESSION_MULTIPLY:
    case EXPRESSION_DIVIDE: return type_of_product(check, expression, left, right);
    case EXPRESSION_OF: return type_of_share(check, expression, left, right);
    case EXPRESSION_OTHERWISE:
        if (is_wrong(left) || is_wrong(right) ||
            !check_same(check, expression->right, right, left.type))
            return typed_wrong();
        left.level = later(left, right);
        return left;
    case EXPRESSION_AND:
    case EXPRESSION_OR: return both_flags(check, expression, left, right);
    case EXPRESSION_MARKED_UP:
    case EXPRESSION_MARKED_DOWN:
    case EXPRESSION_AT_MARGIN:
    case EXPRESSION_ALLOWING: return type_of_term(check, expression, left, right);
    default: return type_of_comparison(check, expression, left, right);
    }
}

static struct typed type_of_literal(struct check *check, const struct expression *expression)
{
    struct literal literal;
    if (literal_read(check->scope, expression, &literal) != LITERAL_READ)
        return typed_wrong();
    return (struct typed){literal.type, LEVEL_RECORD};
}

static struct typed type_of_range(struct check *check, const struct expression *expression)
{
    struct range range;
    if (range_read(check->scope, expression, &range) != LITERAL_READ)
        return typed_wrong();
    return (struct typed){range.type, LEVEL_RECORD};
}

static struct typed type_of_call(struct check *check, const struct expression *call)
{
    const char *name = call->name.text;
    const struct parameter *parameter = check->parameters;
    while (parameter && strcmp(parameter->name, name) != 0)
        parameter = parameter->next;
    if (parameter || figure_find(name) != FIGURES)
        return check_refuse(check, call->span, propose_product(check, call),
                            "%s cannot have a value in parentheses after it", name);
    struct symbol *symbol = shop_find(check->shop, check->channel, name);
    if (symbol)
        return check_call(check, symbol, call);
    const char *limit = check->whole ? propose_limit(check, call) : NULL;
    bool most = strcmp(name, "max") == 0;
    if (limit)
        return check_refuse(
            check, call->span, limit,
            most ? "there is no function max; use `at least` for the larger of two amounts"
                 : "there is no function min; use `at most` for the smaller of two amounts");
    return report_unknown(check, call->name);
}

static struct typed type_of(struct check *check, const struct expression *expression)
{
    struct typed left = {{TYPE_WRONG, dim_none()}, LEVEL_RECORD};
    if (expression->kind == EXPRESSION_RANGE)
        return type_of_range(check, expression);
    if (expression->kind != EXPRESSION_QUANTITY && expression->left)
        left = check_expression(check, expression->left);
    switch (expression->kind) {
    case EXPRESSION_NUMBER:
    case EXPRESSION_PERCENT:
    case EXPRESSION_MONEY:
    case EXPRESSION_QUANTITY:
    case EXPRESSION_FRACTION:
    case EXPRESSION_TEXT:
    case EXPRESSION_DATE:
    case EXPRESSION_YES:
    case EXPRESSION_NO:
    case EXPRESSION_BROKEN: return type_of_literal(check, expression);
    case EXPRESSION_NAME: return type_of_name(check, expression);
    case EXPRESSION_CALL: return type_of_call(check, expression);
    case EXPRESSION_ON: return type_of_on(check, expression);
    case EXPRESSION_WORTH: return type_of_worth(check, expression);
    case EXPRESSION_NEGATE: return is_number(check, expression->left, left) ? left : typed_wrong();
    case EXPRESSION_NOT: return check_flag(check, expression->left, left) ? left : typed_wrong();
    case EXPRESSION_IS_MISSING: return is_wrong(left) ? left : typed_kind(TYPE_FLAG, left.level);
    case EXPRESSION_GROUP: return left;
    case EXPRESSION_PER: return type_of_per(check, expression, left);
    case EXPRESSION_EACH:
    case EXPRESSION_PER_ORDER: return type_of_per(check, expression, left);
    case EXPRESSION_AS: return type_of_as(check, expression, left);
    case EXPRESSION_ROUNDED: return type_of_rounded(check, expression, left);
    case EXPRESSION_BETWEEN: return type_of_between(check, expression, left);
    case EXPRESSION_IF: return type_of_if(check, expression, left);
    default: return type_of_two(check, expression, left);
    }
}

bool check_goes_on(struct check *check, struct span span)
{
    struct check_bounds *bounds = check->bounds;
    bool deep = check->depth >= bounds->depth_most;
    if (!deep && bounds->work_left > 0) {
        bounds->work_left--;
        return true;
    }
    if (!bounds->met && deep)
        check_refuse(check, span, NULL, "this depends on more than %zu levels of other definitions",
                     bounds->depth_most);
    else if (!bounds->met)
        check_refuse(check, span, NULL, "these rules need more steps than the limit allows");
    bounds->met = true;
    return false;
}

struct typed check_expression(struct check *check, const struct expression *expression)
{
    if (!check_goes_on(check, expression->span))
        return typed_wrong();
    check->depth++;
    struct typed typed = type_of(check, expression);
    check->depth--;
    return typed;
}
