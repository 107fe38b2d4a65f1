/* The type of what a definition defines, found when it is first met. */
#include <assert.h>
#include <string.h>

#include "types/check.h"
#include "types/range.h"
#include "types/rules.h"

/* The types a function was called with, and what it then gives. */
struct instance {
    size_t count;
    struct type *arguments;
    enum level *levels;
    struct typed result;
    struct instance *next;
};

static struct typed report_circle(struct check *check, const struct symbol *symbol,
                                  struct span from)
{
    const char *path = symbol->name;
    if (diagnostics_full(check->shop->diagnostics))
        return typed_wrong();
    for (const struct trail *each = check->trail; each; each = each->outer) {
        path = arena_print(check->shop->arena, "%.200s → %.200s", each->symbol->name, path);
        if (each->symbol == symbol)
            break;
    }
    bool alone = symbol->kind != SYMBOL_FUNCTION && check->trail && check->trail->symbol == symbol;
    const char *help = alone ? "two names, one for the line and one for what it uses" : NULL;
    check_refuse(check, from, help, "%s depends on itself: %s", symbol->name, path);
    diagnostics_help_is(check->shop->diagnostics, HELP_ADVICE);
    return typed_wrong();
}

/* ---- fields ---- */

static const struct {
    const char *name;
    enum type_kind kind;
    uint8_t base;
    int8_t power;
} type_names[] = {
    {"number", TYPE_NUMBER, DIM_MOST, 0},  {"count", TYPE_NUMBER, DIM_MOST, 0},
    {"percent", TYPE_NUMBER, DIM_MOST, 0}, {"money", TYPE_NUMBER, DIM_MONEY, 1},
    {"time", TYPE_NUMBER, DIM_TIME, 1},    {"length", TYPE_NUMBER, DIM_LENGTH, 1},
    {"area", TYPE_NUMBER, DIM_LENGTH, 2},  {"volume", TYPE_NUMBER, DIM_LENGTH, 3},
    {"mass", TYPE_NUMBER, DIM_MASS, 1},    {"energy", TYPE_NUMBER, DIM_ENERGY, 1},
    {"text", TYPE_TEXT, DIM_MOST, 0},      {"flag", TYPE_FLAG, DIM_MOST, 0},
    {"date", TYPE_DATE, DIM_MOST, 0},      {"parts", TYPE_PARTS, DIM_MOST, 0},
};

bool rules_type_name(const char *name, struct type *type)
{
    for (size_t i = 0; i < sizeof type_names / sizeof *type_names; i++) {
        if (strcmp(type_names[i].name, name) != 0)
            continue;
        type->kind = type_names[i].kind;
        type->dimension = type_names[i].base == DIM_MOST
                              ? dim_none()
                              : dim_base_power(type_names[i].base, type_names[i].power);
        return true;
    }
    return false;
}

/* `mass`, `sheet` or `money per time`. */
static struct typed field_type(struct check *check, const struct tree_unit *written)
{
    struct type whole = {TYPE_NUMBER, dim_none()};
    for (const struct tree_unit *each = written; each; each = each->per) {
        struct type part = {TYPE_WRONG, dim_none()};
        const struct shop_unit *unit = shop_unit(check->shop, each->name.text);
        bool declared = unit && !unit->statement->value;
        if (declared)
            part = (struct type){TYPE_NUMBER, unit->dimension};
        if (!declared && !rules_type_name(each->name.text, &part)) {
            check_refuse(check, each->name.span,
                         "number, count, percent, money, time, length, area, volume, mass, "
                         "energy, text, flag, date, parts, or a unit that you define",
                         "%s is not a type", each->name.text);
            diagnostics_help_is(check->shop->diagnostics, HELP_EXAMPLE);
            return typed_wrong();
        }
        bool amounts = part.kind == TYPE_NUMBER && whole.kind == TYPE_NUMBER;
        bool fits = each == written ||
                    (amounts && dim_divide(whole.dimension, part.dimension, &whole.dimension));
        if (each == written)
            whole = part;
        if (!fits)
            return check_refuse(check, each->name.span, NULL, "a field cannot be %s per %s",
                                written->name.text, each->name.text);
    }
    return (struct typed){whole, LEVEL_RECORD};
}

/* Of a count: each part is a whole number, and so is the middle where that is the likely value. */
static void check_count_range(struct check *check, const struct statement *field)
{
    struct range range;
    if (field->value->kind != EXPRESSION_RANGE || field->unit->per ||
        strcmp(field->unit->name.text, "count") != 0 ||
        range_read(check->scope, field->value, &range) != LITERAL_READ)
        return;
    bool ends = num_is_whole(range.low) && num_is_whole(range.high) && num_sign(range.low) >= 0;
    if (!ends || (!range.middle && !num_is_whole(range.likely)))
        check_refuse(check, field->value->span, NULL,
                     "a count must be a whole number, not below zero");
    else if (!num_is_whole(range.likely))
        check_refuse(check, field->value->span,
                     arena_print(check->shop->arena, "%.*s likely %s",
                                 span_length(field->value->span), span_text(field->value->span),
                                 field->value->left->name.text),
                     "the midpoint of this range is not a whole number");
}

/* A default of a percentage is written as a cell is, with its sign: `8%`, and not `8` or `0.08`. */
static void check_percent(struct check *check, const struct statement *field)
{
    const struct expression *value = field->value;
    struct literal literal;
    char digits[64];
    if (strcmp(field->unit->name.text, "percent") != 0 || field->unit->per ||
        value->kind != EXPRESSION_NUMBER ||
        literal_read(check->scope, value, &literal) != LITERAL_READ ||
        num_sign(literal.number) == 0)
        return;
    struct num number = literal.number;
    if (num_compare(number, num_whole(1)) < 0 &&
        num_multiply(check->shop->heap, number, num_whole(100), &number) != NUM_OK)
        return;
    num_write_short(number, 6, '.', digits, sizeof digits);
    check_refuse(check, value->span, arena_print(check->shop->arena, "%s%%", digits),
                 "a percentage needs a %% sign");
}

static struct typed type_of_field(struct check *check, const struct symbol *symbol)
{
    const struct statement *field = symbol->statement;
    struct typed typed = field_type(check, field->unit);
    struct type type = typed.type;
    struct dimension dimension;
    struct num factor;
    if (field->as && literal_unit(check->scope, field->as, &dimension, &factor) &&
        type.kind != TYPE_WRONG &&
        (type.kind != TYPE_NUMBER || !dim_equal(dimension, type.dimension))) {
        struct type unit = {TYPE_NUMBER, dimension};
        check_refuse(check, field->as->name.span, NULL, "%s is a unit of %s, but the field is %s",
                     field->as->name.text, type_words(check, unit), type_words(check, type));
    }
    if (field->value) {
        struct typed value = check_expression(check, field->value);
        bool bare = field->value->kind == EXPRESSION_NUMBER && field->as && !field->as->per;
        if (bare)
            check_same_or(check, field->value, value, type,
                          arena_print(check->shop->arena, "%s %s", field->value->name.text,
                                      field->as->name.text));
        else
            check_same(check, field->value, value, type);
        check_percent(check, field);
        check_level(check, field->value, value, LEVEL_RECORD, "a default", NULL);
        if (value.type.kind != TYPE_WRONG)
            check_count_range(check, field);
    }
    return typed;
}

/* ---- rates and materials ---- */

void rules_only_rates(struct check *check, const struct expression *expression, const char *what)
{
    if (!expression)
        return;
    bool named = expression->kind == EXPRESSION_NAME || expression->kind == EXPRESSION_CALL ||
                 expression->kind == EXPRESSION_ON || expression->kind == EXPRESSION_WORTH;
    bool hides = false;
    if (named) {
        const struct symbol *symbol = shop_find(check->shop, NO_CHANNEL, expression->name.text);
        bool rate = symbol && (symbol->kind == SYMBOL_RATE || symbol->kind == SYMBOL_MATERIAL);
        bool figure = figure_find(expression->name.text) != FIGURES;
        hides = expression->kind != EXPRESSION_NAME || figure || (symbol && !rate);
    }
    if (expression->kind == EXPRESSION_PER_ORDER)
        hides = true;
    if (hides) {
        check_refuse(check, expression->span, NULL, "%s may use literals and rates only", what);
        return;
    }
    rules_only_rates(check, expression->left, what);
    rules_only_rates(check, expression->right, what);
    rules_only_rates(check, expression->third, what);
}

/* Money per something, and what it weighs. */
static struct typed type_of_material(struct check *check, const struct statement *material)
{
    rules_only_rates(check, material->value, "a material's price");
    struct typed price = check_expression(check, material->value);
    struct dimension per;
    if (price.type.kind == TYPE_WRONG)
        return price;
    bool money = price.type.kind == TYPE_NUMBER && price.type.dimension.power[DIM_MONEY] == 1;
    if (!money || !dim_divide(dim_base(DIM_MONEY), price.type.dimension, &per)) {
        check_refuse(check, material->value->span, "$18 per 5 l",
                     "a material needs a price, but this is %s", type_words(check, price.type));
        diagnostics_help_is(check->shop->diagnostics, HELP_EXAMPLE);
        return typed_wrong();
    }
    if (!material->other)
        return price;
    rules_only_rates(check, material->other, "a density");
    struct typed density = check_expression(check, material->other);
    struct dimension wanted = dim_base(DIM_MASS);
    dim_divide(wanted, dim_base_power(DIM_LENGTH, 3), &wanted);
    check_same(check, material->other, density, typed_number(wanted, LEVEL_RECORD).type);
    bool by_volume = dim_equal(per, dim_base_power(DIM_LENGTH, 3));
    if (!by_volume && !dim_equal(per, dim_base(DIM_MASS)))
        check_refuse(check, material->other->span, NULL,
                     "`weighs` is only for a material that is bought by volume or by mass");
    return price;
}

/* ---- tables ---- */

static size_t expressions(const struct expression *first)
{
    size_t count = 0;
    for (; first; first = first->next)
        count++;
    return count;
}

struct typed check_table(struct check *check, struct symbol *table,
                         const struct expression *arguments, struct span from)
{
    struct typed result = check_symbol(check, table, from);
    const struct expression *key = table->statement->keys, *given = arguments;
    for (; key && given; key = key->next, given = given->next) {
        struct typed wanted = check_expression(check, key);
        struct typed typed = check_expression(check, given);
        check_same(check, given, typed, wanted.type);
        if (typed.level > result.level)
            result.level = typed.level;
    }
    size_t keys = expressions(table->statement->keys), values = expressions(arguments);
    if (arguments && keys != values)
        return check_refuse(check, from, NULL, "the table %s has %zu %s, but %zu %s given",
                            table->name, keys, keys == 1 ? "key" : "keys", values,
                            values == 1 ? "is" : "are");
    return result;
}

/* ---- functions ---- */

static bool same_instance(const struct instance *instance, const struct parameter *parameters)
{
    for (size_t i = 0; i < instance->count; i++, parameters = parameters->next)
        if (!type_equal(instance->arguments[i], parameters->typed.type) ||
            instance->levels[i] != parameters->typed.level)
            return false;
    return true;
}

static struct typed keep_instance(struct check *check, struct symbol *function, size_t count,
                                  const struct parameter *parameters, struct typed result)
{
    struct instance *instance = arena_take(check->shop->arena, sizeof *instance);
    instance->count = count;
    instance->arguments = arena_take(check->shop->arena, count * sizeof *instance->arguments);
    instance->levels = arena_take(check->shop->arena, count * sizeof *instance->levels);
    for (size_t i = 0; i < count; i++, parameters = parameters->next) {
        instance->arguments[i] = parameters->typed.type;
        instance->levels[i] = parameters->typed.level;
    }
    instance->result = result;
    instance->next = function->instances;
    function->instances = instance;
    return result;
}

static struct typed type_of_body(struct check *check, struct symbol *function, size_t count,
                                 const struct parameter *parameters)
{
    for (struct instance *each = function->instances; each; each = each->next) {
        if (same_instance(each, parameters))
            return each->result;
        if (!check_goes_on(check, function->statement->span))
            return typed_wrong();
    }
    struct check inside = *check;
    struct trail trail = {function, check->trail};
    inside.parameters = parameters;
    inside.channel = function->channel;
    inside.trail = &trail;
    function->typing = TYPING_NOW;
    struct typed result = check_expression(&inside, function->statement->value);
    function->typing = TYPING_DONE;
    return keep_instance(check, function, count, parameters, result);
}

struct typed check_call(struct check *check, struct symbol *function, const struct expression *call)
{
    function->used = true;
    if (function->kind == SYMBOL_TABLE)
        return check_table(check, function, call->arguments, call->span);
    if (function->kind != SYMBOL_FUNCTION)
        return check_refuse(check, call->span, propose_product(check, call),
                            "%s is a %s; it cannot have a value in parentheses after it",
                            function->name, symbol_word(function->kind));
    if (function->typing == TYPING_NOW)
        return report_circle(check, function, call->span);
    struct parameter *first = NULL, **end = &first;
    const struct tree_word *name = function->statement->words;
    const struct expression *given = call->arguments;
    size_t count = 0;
    for (; name && given; name = name->next, given = given->next, count++) {
        struct parameter *parameter = arena_take(check->shop->arena, sizeof *parameter);
        *parameter = (struct parameter){name->word.text, check_expression(check, given), NULL};
        *end = parameter;
        end = &parameter->next;
    }
    if (name || given) {
        size_t wanted = 0, values = expressions(call->arguments);
        for (name = function->statement->words; name; name = name->next)
            wanted++;
        return check_refuse(check, call->span, NULL,
                            "%s needs %zu %s in parentheses, but %zu %s given", function->name,
                            wanted, wanted == 1 ? "value" : "values", values,
                            values == 1 ? "is" : "are");
    }
    return type_of_body(check, function, count, first);
}

/* ---- definitions ---- */

/* What a line of the kind may use. */
static const struct {
    enum level most, own;
    const char *what;
} line_rules[] = {
    [SYMBOL_COST] = {LEVEL_RECORD, LEVEL_RECORD, "a cost"},
    [SYMBOL_PAY] = {LEVEL_RECORD, LEVEL_RECORD, "a pay"},
    [SYMBOL_EXTRA] = {LEVEL_PRICE, LEVEL_PRICE, "a charge to the buyer"},
    [SYMBOL_FEE] = {LEVEL_NET, LEVEL_NET, "a fee"},
};

/* A cost that is taken of the price is a fee. */
static const char *as_a_fee(struct check *check, const struct symbol *symbol, struct typed typed)
{
    bool cost = symbol->kind == SYMBOL_COST || symbol->kind == SYMBOL_PAY;
    if (!cost || typed.level < LEVEL_LIST || typed.level > LEVEL_NET)
        return NULL;
    const char *value = expression_words(check, symbol->statement->value);
    return strcmp(value, "this") == 0
               ? arena_print(check->shop->arena, "fee %s = …", symbol->name)
               : arena_print(check->shop->arena, "fee %s = %s", symbol->name, value);
}

static struct typed type_of_line(struct check *check, const struct symbol *symbol)
{
    const struct expression *value = symbol->statement->value;
    assert((size_t)symbol->kind < sizeof line_rules / sizeof *line_rules &&
           line_rules[symbol->kind].what);
    struct typed typed = check_expression(check, value);
    bool money = check_money(check, value, typed);
    if (money)
        check_level(check, value, typed, line_rules[symbol->kind].most,
                    line_rules[symbol->kind].what, as_a_fee(check, symbol, typed));
    return typed_number(dim_base(DIM_MONEY), line_rules[symbol->kind].own);
}

static struct typed type_of_rate(struct check *check, const struct statement *rate)
{
    rules_only_rates(check, rate->value, "a rate");
    struct typed typed = check_expression(check, rate->value);
    if (typed.type.kind != TYPE_PARTS)
        return typed;
    return typed_wrong();
}

static struct typed type_of_definition(struct check *check, struct symbol *symbol)
{
    struct statement *statement = symbol->statement;
    switch (symbol->kind) {
    case SYMBOL_FIELD: return type_of_field(check, symbol);
    case SYMBOL_RATE: return type_of_rate(check, statement);
    case SYMBOL_MATERIAL: return type_of_material(check, statement);
    case SYMBOL_LET: return check_expression(check, statement->value);
    case SYMBOL_COST:
    case SYMBOL_PAY:
    case SYMBOL_FEE:
    case SYMBOL_EXTRA: return type_of_line(check, symbol);
    case SYMBOL_TABLE: return rules_table(check, statement);
    case SYMBOL_SHOW: return rules_show(check, symbol);
    case SYMBOL_FUNCTION:
    case SYMBOL_ROUNDING: break;
    }
    return typed_wrong();
}

/* A channel's own takes the shop's place, so it must be of the same kind. */
static void check_replaced(struct check *check, struct symbol *symbol, struct typed typed)
{
    struct typed shops = check_symbol(check, symbol->replaces, symbol->statement->name.span);
    if (shops.type.kind == TYPE_WRONG || typed.type.kind == TYPE_WRONG ||
        type_equal(shops.type, typed.type))
        return;
    check_refuse(check, symbol->statement->name.span, NULL,
                 "%s is %s here but %s in the shop; the two must be the same", symbol->name,
                 type_words(check, typed.type), type_words(check, shops.type));
}

static bool is_a_value(struct check *check, const struct symbol *symbol, struct span from)
{
    if (symbol->kind != SYMBOL_FUNCTION && symbol->kind != SYMBOL_ROUNDING)
        return true;
    const char *help = NULL;
    const struct tree_word *each = symbol->statement->words;
    for (; symbol->kind == SYMBOL_FUNCTION && each; each = each->next)
        help = arena_print(check->shop->arena, "%s%s%s", help ? help : "", help ? ", " : "",
                           each->word.text);
    if (help)
        help = arena_print(check->shop->arena, "%s(%s)", symbol->name, help);
    check_refuse(check, from, help,
                 symbol->kind == SYMBOL_FUNCTION
                     ? "%s is a function; it needs its values in parentheses"
                     : "%s is a rounding; it can only be used after `rounded to` or `round to`",
                 symbol->name);
    return false;
}

struct typed check_symbol(struct check *check, struct symbol *symbol, struct span from)
{
    symbol->used = true;
    if (!is_a_value(check, symbol, from))
        return typed_wrong();
    if (symbol->typing == TYPING_NOW)
        return report_circle(check, symbol, from);
    if (symbol->typing == TYPING_NOT_YET) {
        struct check inside = *check;
        struct trail trail = {symbol, check->trail};
        inside.channel = symbol->channel;
        inside.parameters = NULL;
        inside.trail = &trail;
        symbol->typing = TYPING_NOW;
        struct typed typed = type_of_definition(&inside, symbol);
        symbol->type = typed.type;
        symbol->level = typed.level;
        symbol->typing = TYPING_DONE;
        if (symbol->replaces)
            check_replaced(&inside, symbol, typed);
    }
    assert(symbol->typing == TYPING_DONE);
    return (struct typed){symbol->type, symbol->level};
}
