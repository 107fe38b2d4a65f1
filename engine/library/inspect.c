/* What a method needs and offers. */
#include <string.h>

#include "library/library.h"
#include "types/literal.h"
#include "unit/currency.h"

groat_currency groat_method_currency(const groat_method *method)
{
    if (!method)
        return (groat_currency){.code = "", .symbol = ""};
    const struct shop *shop = &method->core->shop;
    const char *symbol = shop->currency->symbol.text;
    return (groat_currency){shop->currency->name.text, symbol ? symbol : shop->currency->name.text,
                            (unsigned)shop->decimals};
}

/* ---- fields ---- */

size_t groat_method_fields(const groat_method *method)
{
    return method ? method->core->program->fields_count : 0;
}

groat_field groat_method_field(const groat_method *method, size_t index)
{
    if (index >= groat_method_fields(method))
        return (groat_field){.name = "", .column = "", .type = ""};
    const struct field_code *field = &method->core->program->fields[index];
    const struct statement *statement = field->symbol->statement;
    return (groat_field){.name = field->symbol->name,
                         .column = field->column,
                         .type = field->type_text,
                         .kind = result_kind(field->symbol->type),
                         .required = field->required,
                         .optional = statement->optional,
                         .default_text = field->default_text};
}

size_t groat_method_find_field(const groat_method *method, const char *name)
{
    if (!method || !name)
        return SIZE_MAX;
    const struct program *program = method->core->program;
    for (size_t i = 0; i < program->fields_count; i++)
        if (strcmp(program->fields[i].column, name) == 0)
            return i;
    for (size_t i = 0; i < program->fields_count; i++)
        if (strcmp(program->fields[i].symbol->name, name) == 0)
            return i;
    return SIZE_MAX;
}

/* ---- rates ---- */

size_t groat_method_rates(const groat_method *method)
{
    return method ? method->core->program->rates_count : 0;
}

groat_rate groat_method_rate(const groat_method *method, size_t index)
{
    if (index >= groat_method_rates(method))
        return (groat_rate){.name = "", .text = "", .file = ""};
    const struct rate_code *rate = &method->core->program->rates[index];
    struct span span = rate->symbol->statement->name.span;
    return (groat_rate){.name = rate->symbol->name,
                        .text = rate->text,
                        .file = span.source->name,
                        .line = span_place(span).line,
                        .material = rate->symbol->kind == SYMBOL_MATERIAL};
}

/* ---- channels, shows, goals ---- */

size_t groat_method_channels(const groat_method *method)
{
    return method ? method->core->program->channels_count : 0;
}

const char *groat_method_channel(const groat_method *method, size_t index)
{
    return index < groat_method_channels(method) ? method->core->program->channels[index].name
                                                 : NULL;
}

size_t groat_method_find_channel(const groat_method *method, const char *name)
{
    if (!method || !name)
        return SIZE_MAX;
    unsigned channel = shop_channel(&method->core->shop, name);
    return channel == NO_CHANNEL ? SIZE_MAX : channel;
}

size_t groat_method_ticket(const groat_method *method, size_t channel)
{
    if (channel >= groat_method_channels(method))
        return SIZE_MAX;
    const struct program *program = method->core->program;
    const struct search_code *search = &program->searches[program->channels[channel].search];
    for (size_t i = 0; i < search->count; i++)
        if (search->members[i].channel < channel)
            channel = search->members[i].channel;
    return channel;
}

size_t groat_method_shows(const groat_method *method)
{
    return method ? method->core->program->columns_count : 0;
}

groat_column groat_method_show(const groat_method *method, size_t index)
{
    if (index >= groat_method_shows(method))
        return (groat_column){.name = ""};
    const struct column_code *column = &method->core->program->columns[index];
    return (groat_column){
        column->name,
        column->unit_text && !dim_is_money(column->type.dimension) ? GROAT_KIND_QUANTITY
                                                                   : result_kind(column->type),
        column->unit_text, column->written && column->written->per ? column->written->text : NULL};
}

size_t groat_method_goals(const groat_method *method)
{
    return method ? method->core->shop.goals.count : 0;
}

groat_goal groat_method_goal(const groat_method *method, size_t index)
{
    if (index >= groat_method_goals(method))
        return (groat_goal){.text = "", .file = ""};
    const struct shop *shop = &method->core->shop;
    const struct statement *goal = shop->goals.items[index];
    bool limited = false;
    for (const struct statement *line = goal->parts; line; line = line->next)
        limited = limited || line->kind == STATEMENT_HAS;
    struct dimension takes = shop->goal_types[index][GOAL_TAKES].dimension;
    return (groat_goal){.text = goal->text.text,
                        .per_time = !dim_is_money(shop->goal_types[index][GOAL_NEEDS].dimension),
                        .limited = limited,
                        .takes_time = limited && dim_equal(takes, dim_base(DIM_TIME)),
                        .file = goal->span.source->name,
                        .line = span_place(goal->span).line};
}

/* ---- names ---- */

/* The engine's figures that an explanation has something to say of. */
enum { FIGURES_FIRST = FIGURE_COST, FIGURES_EXPLAINED = FIGURES - FIGURE_COST };

static bool is_explained(const struct symbol *symbol)
{
    return symbol->kind != SYMBOL_FUNCTION && symbol->kind != SYMBOL_ROUNDING &&
           !(symbol->kind == SYMBOL_FIELD && symbol->type.kind == TYPE_PARTS);
}

size_t groat_method_names(const groat_method *method)
{
    if (!method)
        return 0;
    const struct symbol_set *symbols = &method->core->shop.symbols;
    size_t count = FIGURES_EXPLAINED;
    for (size_t i = 0; i < symbols->count; i++)
        count += is_explained(symbols->items[i]);
    return count;
}

const char *groat_method_name(const groat_method *method, size_t index)
{
    if (!method)
        return NULL;
    const struct symbol_set *symbols = &method->core->shop.symbols;
    if (index < FIGURES_EXPLAINED)
        return figure_name((enum figure)(FIGURES_FIRST + index));
    index -= FIGURES_EXPLAINED;
    for (size_t i = 0; i < symbols->count; i++)
        if (is_explained(symbols->items[i]) && index-- == 0)
            return symbols->items[i]->name;
    return NULL;
}

int groat_currency_decimals(const char *code)
{
    return code ? currency_decimals(code, strlen(code)) : -1;
}

bool groat_date_valid(const char *text)
{
    int64_t days;
    return text && literal_date(text, &days);
}
