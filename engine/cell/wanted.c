/* What the cell of a field, or the value of a rate, is to be. */
#include "cell/cell.h"

/* Time, length, mass and the like; not money, which may be owed, nor a plain number. */
static bool is_measure(struct type type)
{
    return type.kind == TYPE_NUMBER && !dim_is_none(type.dimension) &&
           type.dimension.power[DIM_MONEY] == 0;
}

static const char *unit_of(const struct symbol *symbol)
{
    return symbol->unit ? symbol->unit->text : NULL;
}

struct cell_wanted cell_wanted_of_field(const struct field_code *field)
{
    return (struct cell_wanted){.name = field->symbol->name,
                                .type = field->symbol->type,
                                .count = field->count,
                                .percent = field->percent,
                                .bare = field->bare,
                                .measure = is_measure(field->symbol->type),
                                .may_be_empty = !field->required,
                                .unit = unit_of(field->symbol),
                                .factor = field->factor};
}

/* A rate that the rules write as a percentage is read as a percent cell is: its bare 8 would be
 * eight times over. */
struct cell_wanted cell_wanted_of_rate(const struct rate_code *rate)
{
    bool plain =
        rate->symbol->type.kind == TYPE_NUMBER && dim_is_none(rate->symbol->type.dimension);
    return (struct cell_wanted){.name = rate->symbol->name,
                                .type = rate->symbol->type,
                                .percent = rate->symbol->percent,
                                .bare = plain && !rate->symbol->percent,
                                .rate = true,
                                .unit = unit_of(rate->symbol),
                                .written = rate->text,
                                .factor = num_whole(1)};
}
