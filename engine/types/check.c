/* The checks of a whole shop, in an order that lets each rely on the ones before it. */
#include "types/check.h"

#include <string.h>

#include "text/near.h"
#include "types/rules.h"
#include "unit/currency.h"
#include "unit/unit.h"

/* Beyond those of the currency, where nothing is to be rounded: a millionth of a cent. */
enum { UNROUNDED_DECIMALS = 6 };

static void check_currency(struct shop *shop, struct span beginning, bool whole)
{
    shop->decimals = 2;
    if (!shop->currency) {
        if (whole) {
            diagnostics_error(shop->diagnostics, beginning, "currency USD $",
                              "the rules do not name their currency");
            diagnostics_help_is(shop->diagnostics, HELP_EXAMPLE);
        }
    } else {
        struct word code = shop->currency->name;
        int decimals = currency_decimals(code.text, strlen(code.text));
        if (decimals < 0) {
            diagnostics_error(shop->diagnostics, code.span, "currency USD $",
                              "%s is not the ISO 4217 code of a currency", code.text);
            diagnostics_help_is(shop->diagnostics, HELP_EXAMPLE);
        } else {
            shop->decimals = decimals;
        }
    }
    shop->smallest = num_whole(1);
    shop->finest = shop->decimals + (shop->unrounded ? UNROUNDED_DECIMALS : 0);
    for (int i = 0; i < shop->finest; i++)
        num_divide(shop->heap, shop->smallest, num_whole(10), &shop->smallest);
}

/* ---- units ---- */

static bool never_a_unit(const char *name)
{
    struct type type;
    return rules_type_name(name, &type) || strcmp(name, "to") == 0 || strcmp(name, "from") == 0 ||
           strcmp(name, "optional") == 0 || strcmp(name, "likely") == 0;
}

static void ready_unit(struct check *check, struct shop_unit *unit);

static void ready_used(struct check *check, const struct tree_unit *written)
{
    for (; written; written = written->per) {
        struct shop_unit *used = shop_unit(check->shop, written->name.text);
        if (used)
            ready_unit(check, used);
    }
}

/* The units that an expression of literals uses, first. */
static void ready_within(struct check *check, const struct expression *expression)
{
    if (!expression)
        return;
    ready_used(check, expression->unit);
    ready_within(check, expression->left);
    ready_within(check, expression->right);
}

/* The value of an expression of literals, `2 * 8 h`, for a unit's size. */
static bool constant(struct check *check, const struct expression *expression, struct num *out)
{
    struct literal literal;
    struct num left, right;
    enum num_status status = NUM_OK;
    switch (expression->kind) {
    case EXPRESSION_GROUP: return constant(check, expression->left, out);
    case EXPRESSION_MULTIPLY:
    case EXPRESSION_DIVIDE:
    case EXPRESSION_ADD:
    case EXPRESSION_SUBTRACT:
        if (!constant(check, expression->left, &left) ||
            !constant(check, expression->right, &right))
            return false;
        if (expression->kind == EXPRESSION_MULTIPLY)
            status = num_multiply(check->shop->heap, left, right, out);
        else if (expression->kind == EXPRESSION_DIVIDE)
            status = num_divide(check->shop->heap, left, right, out);
        else if (expression->kind == EXPRESSION_ADD)
            status = num_add(check->shop->heap, left, right, out);
        else
            status = num_subtract(check->shop->heap, left, right, out);
        literal_report(check->scope, expression->span, status);
        return status == NUM_OK;
    default: break;
    }
    enum literal_outcome outcome = literal_read(check->scope, expression, &literal);
    if (outcome == LITERAL_NONE) {
        check_refuse(check, expression->span, "unit workday = 8 h",
                     "a unit may be made only of literals and other units");
        diagnostics_help_is(check->shop->diagnostics, HELP_EXAMPLE);
    }
    *out = literal.number;
    return outcome == LITERAL_READ && literal.type.kind == TYPE_NUMBER;
}

static void new_dimension(struct check *check, struct shop_unit *unit)
{
    struct shop *shop = check->shop;
    if (shop->dimensions_declared == DIM_MOST - DIM_DECLARED) {
        check_refuse(check, unit->statement->span, NULL,
                     "a shop may define at most %d units that are new dimensions",
                     DIM_MOST - DIM_DECLARED);
        return;
    }
    unit->dimension = dim_base(DIM_DECLARED + (unsigned)shop->dimensions_declared);
    unit->factor = num_whole(1);
    unit->ready = true;
    shop->dimension_names[shop->dimensions_declared++] = unit->name;
}

static void sized_unit(struct check *check, struct shop_unit *unit)
{
    const struct expression *value = unit->statement->value;
    ready_within(check, value);
    struct num factor;
    if (!constant(check, value, &factor))
        return;
    struct typed typed = check_expression(check, value);
    if (typed.type.kind != TYPE_NUMBER)
        return;
    if (num_sign(factor) <= 0) {
        check_refuse(check, value->span, NULL, "a unit must be larger than zero");
        return;
    }
    unit->dimension = typed.type.dimension;
    unit->factor = factor;
    unit->ready = true;
}

static void ready_unit(struct check *check, struct shop_unit *unit)
{
    if (unit->tried)
        return;
    if (unit->busy) {
        check_refuse(check, unit->statement->span, NULL, "the unit %s depends on itself",
                     unit->name);
        return;
    }
    if (!check_goes_on(check, unit->statement->span))
        return;
    check->depth++;
    unit->busy = true;
    if (unit_find(unit->name, strlen(unit->name)))
        check_refuse(check, unit->statement->name.span,
                     arena_print(check->shop->arena, "our_%s", unit->name),
                     "%s is a built-in unit and cannot be defined again", unit->name);
    else if (never_a_unit(unit->name) || literal_is_money(check->shop, unit->name))
        check_refuse(check, unit->statement->name.span, NULL, "%s cannot be the name of a unit",
                     unit->name);
    else if (unit->statement->value)
        sized_unit(check, unit);
    else
        new_dimension(check, unit);
    unit->tried = true;
    check->depth--;
}

/* ---- same price ---- */

/* Whether two price lines allow the same prices, as they are written. */
static bool same_rounding(const struct statement *a, const struct statement *b)
{
    if (!a || !b)
        return a == b;
    struct span left = a->value->span, right = b->value->span;
    return a->rounding == b->rounding && span_length(left) == span_length(right) &&
           memcmp(span_text(left), span_text(right), (size_t)span_length(left)) == 0;
}

static void check_same_price(struct check *check, const struct statement *statement)
{
    struct shop *shop = check->shop;
    const struct channel *first = NULL;
    size_t count = 0;
    for (const struct tree_word *each = statement->words; each; each = each->next, count++) {
        unsigned number = shop_channel(shop, each->word.text);
        if (number == NO_CHANNEL) {
            report_no_channel(check, each->word, false);
            continue;
        }
        const struct channel *channel = &shop->channels[number];
        if (!first)
            first = channel;
        if (!same_rounding(channel->price.round, first->price.round))
            check_refuse(check, each->word.span, NULL,
                         "channels with the same price must have the same rounding; that of "
                         "%s differs from that of %s",
                         channel->name, first->name);
        if (!channel->price.aim != !first->price.aim)
            check_refuse(check, each->word.span, NULL,
                         "channels with the same price must all have an aim or all have a set");
    }
    if (count < 2) {
        check_refuse(check, statement->span, "same price on stall, web_shop",
                     "`same price on` needs at least two channels");
        diagnostics_help_is(check->shop->diagnostics, HELP_EXAMPLE);
    }
}

static void check_groups(struct check *check)
{
    struct shop *shop = check->shop;
    bool *grouped = arena_take(shop->arena, shop->channels_count * sizeof *grouped);
    for (size_t i = 0; i < shop->same_price.count; i++) {
        const struct statement *statement = shop->same_price.items[i];
        check_same_price(check, statement);
        for (const struct tree_word *each = statement->words; each; each = each->next) {
            unsigned number = shop_channel(shop, each->word.text);
            if (number == NO_CHANNEL)
                continue;
            if (grouped[number])
                check_refuse(check, each->word.span, NULL,
                             "%s is already in another `same price on`", each->word.text);
            grouped[number] = true;
        }
    }
}

/* ---- all of it ---- */

static void check_definitions(struct check *check)
{
    struct shop *shop = check->shop;
    for (size_t i = 0; i < shop->symbols.count; i++) {
        struct symbol *symbol = shop->symbols.items[i];
        bool used = symbol->used;
        if (symbol->kind == SYMBOL_ROUNDING)
            rules_rounding(check, symbol->statement);
        else if (symbol->kind != SYMBOL_FUNCTION)
            check_symbol(check, symbol, symbol->statement->name.span);
        symbol->used = symbol->used && (used || symbol->kind == SYMBOL_SHOW);
    }
}

static void warn_of_unused(struct shop *shop)
{
    for (size_t i = 0; i < shop->symbols.count; i++) {
        const struct symbol *symbol = shop->symbols.items[i];
        bool matters = symbol->kind == SYMBOL_RATE || symbol->kind == SYMBOL_LET ||
                       symbol->kind == SYMBOL_FUNCTION;
        if (matters && !symbol->used && !symbol->replaces)
            diagnostics_warning(shop->diagnostics, symbol->statement->name.span, NULL,
                                "the %s %s is never used", symbol_word(symbol->kind), symbol->name);
    }
}

void check_shop(struct shop *shop, struct span beginning, struct check_bounds bounds, bool whole)
{
    check_currency(shop, beginning, whole);
    struct check check = {.shop = shop,
                          .scope = {shop, shop->diagnostics, shop->heap, shop->arena},
                          .channel = NO_CHANNEL,
                          .bounds = &bounds,
                          .whole = whole && !shop->overfull};
    for (size_t i = 0; i < shop->units_count; i++)
        ready_unit(&check, &shop->units[i]);
    for (size_t i = 0; i < shop->fields.count; i++) {
        check_symbol(&check, shop->fields.items[i], shop->fields.items[i]->statement->span);
        shop->fields.items[i]->used = false;
    }
    for (size_t i = 0; i < shop->rates.count; i++) { /* early, to be proposed in messages */
        struct symbol *rate = shop->rates.items[i];
        bool used = rate->used;
        check_symbol(&check, rate, rate->statement->name.span);
        rate->used = used;
    }
    check_definitions(&check);
    for (size_t i = 0; i < shop->channels_count; i++)
        rules_channel(&check, &shop->channels[i]);
    check_groups(&check);
    shop->goal_types = arena_take(shop->arena, (shop->goals.count + 1) * sizeof *shop->goal_types);
    for (size_t i = 0; i < shop->goals.count; i++)
        rules_goal(&check, i);
    for (size_t i = 0; i < shop->expects.count; i++)
        rules_expect(&check, shop->expects.items[i]);
    if (shop->diagnostics->errors == 0)
        warn_of_unused(shop);
}
