/* Reading a result: figures, shows, names and notes. */
#include <assert.h>
#include <string.h>

#include "library/library.h"

groat_value result_none(groat_presence presence)
{
    return (groat_value){.presence = presence, .kind = GROAT_KIND_NUMBER};
}

groat_kind result_kind(struct type type)
{
    switch (type.kind) {
    case TYPE_TEXT: return GROAT_KIND_TEXT;
    case TYPE_FLAG: return GROAT_KIND_FLAG;
    case TYPE_DATE: return GROAT_KIND_DATE;
    case TYPE_PARTS: return GROAT_KIND_PARTS;
    default: break;
    }
    return dim_is_none(type.dimension)    ? GROAT_KIND_NUMBER
           : dim_is_money(type.dimension) ? GROAT_KIND_MONEY
                                          : GROAT_KIND_QUANTITY;
}

static groat_value value_shown(const struct value *value, groat_kind kind,
                               const struct shown *shown)
{
    groat_value out = {.presence = GROAT_MISSING, .kind = kind, .inside = value, .unit = shown};
    assert(shown->money == (out.kind == GROAT_KIND_MONEY));
    if (value->state == VALUE_THERE)
        out.presence = GROAT_THERE;
    else if (value->state == VALUE_ERROR && value->fault != FAULT_NO_MARGIN)
        out.presence = value->fault == FAULT_NO_MEMORY ? GROAT_UNKNOWN : GROAT_NO_VALUE;
    return out;
}

static groat_value value_of(const struct core *core, const struct value *value, groat_kind kind)
{
    size_t other = kind != GROAT_KIND_MONEY;
    return value_shown(value, kind, &core->shown[core->program->columns_count + other]);
}

groat_value result_value(const struct core *core, const struct value *value, struct type type)
{
    return value_of(core, value, result_kind(type));
}

groat_range range_shown(const struct core *core, const struct value_range *range, struct type type)
{
    return (groat_range){result_value(core, &range->low, type),
                         result_value(core, &range->likely, type),
                         result_value(core, &range->high, type)};
}

struct value range_end(const struct value_range *range, groat_end end)
{
    assert(range->there && (size_t)end <= GROAT_HIGH);
    return end == GROAT_LOW ? range->low : end == GROAT_HIGH ? range->high : range->likely;
}

static groat_value inner_figure(const groat_scratch *scratch, enum figure figure)
{
    assert(scratch->worked_out && figure < FIGURES);
    const struct value *value = &scratch->values[scratch->channel->figures[figure]];
    /* What figure_type says, without working out dimensions for each figure of each row. */
    if (figure == FIGURE_MARGIN || figure == FIGURE_QUANTITY)
        return value_of(scratch->core, value, GROAT_KIND_NUMBER);
    if (figure == FIGURE_CHANNEL || figure == FIGURE_AS_OF)
        return result_value(scratch->core, value, figure_type(figure));
    return value_of(scratch->core, value, GROAT_KIND_MONEY);
}

/* A floor or a ceiling. */
static groat_value bound_of(const groat_scratch *scratch, groat_figure figure)
{
    const struct member_code *member = price_member(scratch);
    uint32_t step = figure == GROAT_FLOOR ? member->floor : member->ceiling;
    return step == NO_STEP ? result_none(GROAT_MISSING)
                           : result_value(scratch->core, &scratch->values[step],
                                          (struct type){TYPE_NUMBER, dim_base(DIM_MONEY)});
}

groat_value groat_result_figure(const groat_scratch *scratch, groat_figure figure)
{
    if (!scratch || !scratch->worked_out || (size_t)figure > GROAT_CEILING)
        return result_none(GROAT_MISSING);
    if (figure == GROAT_FLOOR || figure == GROAT_CEILING)
        return bound_of(scratch, figure);
    static const enum figure inner[] = {
        [GROAT_LIST] = FIGURE_LIST,          [GROAT_PRICE] = FIGURE_PRICE,
        [GROAT_EXTRAS] = FIGURE_EXTRAS,      [GROAT_TAX] = FIGURE_TAX,
        [GROAT_PAID] = FIGURE_PAID,          [GROAT_NET] = FIGURE_NET,
        [GROAT_FEES] = FIGURE_FEES,          [GROAT_KEEP] = FIGURE_KEEP,
        [GROAT_COST] = FIGURE_COST,          [GROAT_PAY] = FIGURE_PAY,
        [GROAT_PROFIT] = FIGURE_PROFIT,      [GROAT_MARGIN] = FIGURE_MARGIN,
        [GROAT_TAKE_HOME] = FIGURE_TAKE_HOME};
    return inner_figure(scratch, inner[figure]);
}

groat_value groat_result_show(const groat_scratch *scratch, size_t index)
{
    if (!scratch || index >= scratch->core->program->columns_count)
        return result_none(GROAT_MISSING);
    const struct column_code *column = &scratch->core->program->columns[index];
    return value_shown(&scratch->shows[index], result_kind(column->type),
                       &scratch->core->shown[index]);
}

groat_value groat_result_named(groat_scratch *scratch, const char *name)
{
    if (!scratch || !scratch->worked_out || !name)
        return result_none(GROAT_MISSING);
    const struct channel_code *channel = scratch->channel;
    enum figure figure = figure_find(name);
    if (figure != FIGURES && figure != FIGURE_AS_OF)
        return inner_figure(scratch, figure);
    if (!price_named(scratch))
        return result_none(GROAT_UNKNOWN);
    for (size_t i = 0; i < channel->named_count; i++) {
        const struct symbol *symbol = channel->named[i].symbol;
        if (strcmp(symbol->name, name) != 0)
            continue;
        return result_value(scratch->core, &scratch->values[channel->named[i].step], symbol->type);
    }
    return result_none(GROAT_MISSING);
}

groat_text groat_result_label(const groat_scratch *scratch)
{
    uint32_t field = scratch ? scratch->core->program->name_field : NO_STEP;
    if (field == NO_STEP || !scratch->record)
        return (groat_text){"", 0};
    const struct value *label = &scratch->record->fields[field];
    bool text = scratch->core->program->fields[field].symbol->type.kind == TYPE_TEXT;
    if (label->state != VALUE_THERE || !text)
        return (groat_text){"", 0};
    return (groat_text){label->text.start, label->text.length};
}

size_t groat_result_notes(const groat_scratch *scratch)
{
    return scratch ? scratch->notes_count : 0;
}

const char *groat_result_note(const groat_scratch *scratch, size_t index)
{
    return index < groat_result_notes(scratch) ? scratch->note_texts[index] : NULL;
}

const char *groat_result_reason(const groat_scratch *scratch)
{
    return scratch ? scratch->reason : "";
}

groat_reason groat_result_reason_kind(const groat_scratch *scratch)
{
    return scratch ? scratch->reason_kind : GROAT_REASON_CALL;
}
