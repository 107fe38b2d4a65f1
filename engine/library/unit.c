/* The units that amounts are written in. */
#include <string.h>

#include "library/call.h"
#include "parse.h"
#include "text/money.h"
#include "text/utf8.h"
#include "types/literal.h"

static groat_unit unit_of_kind(groat_unit_kind kind, const char *text)
{
    groat_unit unit = {.kind = kind, .top = 1, .bottom = 1};
    text_write(unit.text, sizeof unit.text, "%s", text);
    return unit;
}

/* Puts the currency's sign where it stands: before the amount, or behind it and before what it is
 * per. */
static void put_sign(const struct shop *shop, groat_unit *unit, const char *per)
{
    const char *sign = shop->currency->symbol.text;
    sign = sign ? sign : shop->currency->name.text;
    bool word = text_sign_is_word(sign, strlen(sign));
    text_write(unit->before, sizeof unit->before, "%s", word ? "" : sign);
    text_write(unit->after, sizeof unit->after, "%s%s%s%s", word ? " " : "", word ? sign : "",
               *per ? " " : "", per);
}

static groat_unit unit_of_money(const struct shop *shop)
{
    groat_unit unit = unit_of_kind(GROAT_UNIT_MONEY, shop->currency->name.text);
    put_sign(shop, &unit, "");
    return unit;
}

static groat_unit unit_of_percent(void)
{
    groat_unit unit = unit_of_kind(GROAT_UNIT_PERCENT, "%");
    text_write(unit.after, sizeof unit.after, "%%");
    unit.bottom = 100;
    return unit;
}

/* Of a unit with a name: an amount in it, or money per something. */
static groat_unit unit_named(const struct shop *shop, const struct familiar_unit *named)
{
    groat_unit unit =
        unit_of_kind(named->per ? GROAT_UNIT_MONEY_PER : GROAT_UNIT_MEASURE, named->text);
    if (named->per)
        put_sign(shop, &unit, named->text);
    else
        text_write(unit.after, sizeof unit.after, " %s", named->text);
    bool fits = named->factor.bottom != 0;
    unit.top = fits ? named->factor.top : 0;
    unit.bottom = fits ? named->factor.bottom : 0;
    return unit;
}

groat_unit unit_for(const struct core *core, struct type type, bool percent,
                    const struct familiar_unit *own)
{
    if (type.kind != TYPE_NUMBER)
        return unit_of_kind(GROAT_UNIT_NONE, "");
    if (dim_is_money(type.dimension))
        return unit_of_money(&core->shop);
    if (dim_is_none(type.dimension))
        return percent ? unit_of_percent() : unit_of_kind(GROAT_UNIT_NONE, "");
    if (!own)
        own = familiar_for(core->program, type.dimension);
    return own ? unit_named(&core->shop, own) : unit_of_kind(GROAT_UNIT_NONE, "");
}

groat_unit groat_method_rate_unit(const groat_method *method, size_t index)
{
    if (index >= groat_method_rates(method))
        return unit_of_kind(GROAT_UNIT_NONE, "");
    const struct symbol *symbol = method->core->program->rates[index].symbol;
    return unit_for(method->core, symbol->type, symbol->percent, symbol->unit);
}

groat_unit groat_method_field_unit(const groat_method *method, size_t index)
{
    if (index >= groat_method_fields(method))
        return unit_of_kind(GROAT_UNIT_NONE, "");
    const struct field_code *field = &method->core->program->fields[index];
    return unit_for(method->core, field->symbol->type, field->percent, field->symbol->unit);
}

groat_unit groat_method_show_unit(const groat_method *method, size_t index)
{
    if (index >= groat_method_shows(method))
        return unit_of_kind(GROAT_UNIT_NONE, "");
    const struct column_code *column = &method->core->program->columns[index];
    if (column->written)
        return unit_named(&method->core->shop, column->written);
    struct type type = column->type;
    bool money = type.kind == TYPE_NUMBER && dim_is_money(type.dimension);
    return money ? unit_of_money(&method->core->shop) : unit_of_kind(GROAT_UNIT_NONE, "");
}

groat_unit groat_figure_unit(const groat_method *method, groat_figure figure)
{
    if (!method || (size_t)figure > GROAT_CEILING)
        return unit_of_kind(GROAT_UNIT_NONE, "");
    return figure == GROAT_MARGIN ? unit_of_percent() : unit_of_money(&method->core->shop);
}

/* The unit of a literal's tree; false where it is none, or an amount in several. */
static bool unit_of_literal(const struct core *core, struct literal_scope scope,
                            const struct expression *value, groat_unit *unit)
{
    bool negative = value->kind == EXPRESSION_NEGATE;
    if (negative)
        value = value->left;
    const struct familiar_unit *named = literal_written_in(scope, value);
    if (named)
        *unit = unit_named(&core->shop, named);
    else if (literal_writes_money(&core->shop, value))
        *unit = unit_of_money(&core->shop);
    else if (value->kind == EXPRESSION_PERCENT && !negative)
        *unit = unit_of_percent();
    else if (value->kind == EXPRESSION_NUMBER)
        *unit = unit_of_kind(GROAT_UNIT_NONE, "");
    else
        return false;
    return true;
}

groat_status groat_unit_read(const groat_method *method, const char *literal, groat_unit *unit)
{
    if (!method || !literal || !unit)
        return GROAT_BAD_VALUE;
    const struct core *core = method->core;
    struct memory memory;
    struct arena arena;
    struct num_heap heap;
    jmp_buf escape;
    core_open(core, &memory, &arena, &heap);
    volatile groat_status status = GROAT_NO_MEMORY;
    arena.escape = &escape;
    if (setjmp(escape) == 0) {
        struct diagnostics diagnostics = {.arena = &arena};
        struct parse parse = {&arena, source_new(&arena, "value", literal, strlen(literal)),
                              &diagnostics, core->limits.depth, arena_take(&arena, parse_room())};
        struct literal_scope scope = {&core->shop, &diagnostics, &heap, &arena};
        const struct expression *value = parse_value(&parse);
        bool read = value && diagnostics.errors == 0 && unit_of_literal(core, scope, value, unit);
        status = read ? GROAT_OK : heap.starved ? GROAT_NO_MEMORY : GROAT_BAD_VALUE;
    }
    num_heap_close(&heap);
    arena_close(&arena);
    return status;
}
