#include "types/propose.h"
#include "text/money.h"

#include <string.h>

/* ---- amounts ---- */

const char *propose_money(const struct shop *shop, const char *digits)
{
    if (!shop->currency)
        return NULL;
    const char *sign = shop->currency->symbol.text;
    if (!sign)
        return arena_print(shop->arena, "%s %s", digits, shop->currency->name.text);
    return text_sign_is_word(sign, strlen(sign)) ? arena_print(shop->arena, "%s %s", digits, sign)
                                                 : arena_print(shop->arena, "%s%s", sign, digits);
}

/* The unit for one base measure at a power; NULL when there is none for it. */
static const char *unit_of(const struct shop *shop, unsigned base, int power)
{
    static const struct {
        unsigned base;
        int power;
        const char *unit;
    } common[] = {{DIM_TIME, 1, "h"},   {DIM_LENGTH, 1, "m"}, {DIM_LENGTH, 2, "sqm"},
                  {DIM_LENGTH, 3, "l"}, {DIM_MASS, 1, "kg"},  {DIM_ENERGY, 1, "kWh"}};
    if (base == DIM_MONEY && power == 1 && shop->currency)
        return shop->currency->name.text;
    if (base >= DIM_DECLARED && power == 1 && base - DIM_DECLARED < shop->dimensions_declared)
        return shop->dimension_names[base - DIM_DECLARED];
    for (size_t i = 0; i < sizeof common / sizeof *common; i++)
        if (common[i].base == base && common[i].power == power)
            return common[i].unit;
    return NULL;
}

/* `USD per h`: what stands above, which may be the digits of an amount, and the units below. */
static const char *with_units_below(const struct shop *shop, const char *above,
                                    struct dimension dimension)
{
    for (unsigned base = 0; above && base < DIM_MOST; base++) {
        if (dimension.power[base] >= 0)
            continue;
        const char *unit = unit_of(shop, base, -dimension.power[base]);
        above = unit ? arena_print(shop->arena, "%s per %s", above, unit) : NULL;
    }
    return above;
}

/* The one unit that stands above, or NULL. */
static const char *unit_above(const struct shop *shop, struct dimension dimension)
{
    const char *above = NULL;
    for (unsigned base = 0; base < DIM_MOST; base++) {
        if (dimension.power[base] <= 0)
            continue;
        if (above)
            return NULL;
        above = unit_of(shop, base, dimension.power[base]);
        if (!above)
            return NULL;
    }
    return above;
}

const char *propose_unit(const struct shop *shop, struct dimension dimension)
{
    return with_units_below(shop, unit_above(shop, dimension), dimension);
}

/* The unit that a field of the dimension has for its bare numbers, or NULL. */
static const char *unit_of_fields(const struct shop *shop, struct dimension dimension)
{
    for (size_t i = 0; i < shop->fields.count; i++) {
        const struct symbol *field = shop->fields.items[i];
        const struct tree_unit *as = field->statement->as;
        if (field->typing == TYPING_DONE && as && !as->per && as->power == 1 &&
            dim_equal(field->type.dimension, dimension))
            return as->name.text;
    }
    return NULL;
}

const char *propose_amount(const struct shop *shop, const char *digits, struct type type)
{
    if (type.kind != TYPE_NUMBER)
        return NULL;
    const char *own = unit_of_fields(shop, type.dimension);
    const char *above = own ? own : unit_above(shop, type.dimension);
    if (!above)
        return NULL;
    bool money = type.dimension.power[DIM_MONEY] == 1;
    const char *amount =
        money ? propose_money(shop, digits) : arena_print(shop->arena, "%s %s", digits, above);
    return with_units_below(shop, amount, type.dimension);
}

const char *propose_like(const struct shop *shop, const char *digits,
                         const struct expression *beside, struct type type)
{
    if (beside->kind != EXPRESSION_QUANTITY || beside->left || beside->unit->per)
        return propose_amount(shop, digits, type);
    struct span unit = beside->span;
    unit.start = beside->name.span.end;
    return arena_print(shop->arena, "%s%.*s", digits, span_length(unit), span_text(unit));
}

/* ---- units ---- */

const char *propose_unit_for(const char *word)
{
    static const struct {
        const char *word, *unit;
    } words[] = {
        {"hour", "h"},       {"hours", "h"},      {"hr", "h"},         {"hrs", "h"},
        {"minute", "min"},   {"minutes", "min"},  {"mins", "min"},     {"second", "s"},
        {"seconds", "s"},    {"sec", "s"},        {"days", "day"},     {"weeks", "week"},
        {"months", "month"}, {"years", "year"},   {"inch", "in"},      {"inches", "in"},
        {"foot", "ft"},      {"feet", "ft"},      {"yard", "yd"},      {"yards", "yd"},
        {"metre", "m"},      {"metres", "m"},     {"meter", "m"},      {"meters", "m"},
        {"litre", "l"},      {"litres", "l"},     {"liter", "l"},      {"liters", "l"},
        {"L", "l"},          {"mL", "ml"},        {"gram", "g"},       {"grams", "g"},
        {"gr", "g"},         {"kilo", "kg"},      {"kilos", "kg"},     {"kgs", "kg"},
        {"ounce", "oz"},     {"ounces", "oz"},    {"pound", "lb"},     {"pounds", "lb"},
        {"lbs", "lb"},       {"carat", "ct"},     {"carats", "ct"},    {"kwh", "kWh"},
        {"piece", "each"},   {"pieces", "each"},  {"pc", "each"},      {"pcs", "each"},
        {"dozens", "dozen"}, {"pairs", "pair"},   {"sqinch", "sqin"},  {"sqfoot", "sqft"},
        {"sqfeet", "sqft"},  {"boardfoot", "bf"}, {"boardfeet", "bf"}, {"bdft", "bf"},
    };
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strcmp(words[i].word, word) == 0)
            return words[i].unit;
    return NULL;
}
