#include "report/sweep_list.h"

#include "report/columns.h"

enum { OUTCOME = 3, CURRENCY, VALUE, PRICE, KEEP, PROFIT, COLUMNS };

static bool is_percentage(const struct sweep *sweep)
{
    return sweep->unit.kind == GROAT_UNIT_PERCENT;
}

/* The column of the rate, a percentage as a ratio. */
static struct listing_column value_column(const groat_method *method, const struct sweep *sweep)
{
    const groat_unit *unit = &sweep->unit;
    struct listing_column value = {"value",        NULL,  NULL, LISTING_NUMBER,
                                   LISTING_ALWAYS, false, NULL};
    if (is_percentage(sweep))
        value.measure = "ratio";
    else if (unit->kind == GROAT_UNIT_MONEY)
        value.measure = groat_method_currency(method).code;
    else if (unit->text[0])
        value.measure = unit->text;
    if (unit->kind == GROAT_UNIT_MONEY_PER) {
        value.look = LISTING_MONEY_PER;
        value.unit = unit->text;
    }
    return value;
}

struct listing *sweep_list_open(const groat_method *method, const struct sweep *sweep,
                                const struct listing_plan *plan, FILE *out)
{
    const struct listing_column columns[COLUMNS] = {
        COLUMNS_OF_PLACE,
        COLUMNS_OF_OUTCOME,
        value_column(method, sweep),
        {"price", NULL, NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
        {"keep", NULL, NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
        {"profit", NULL, NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    };
    return columns_open(plan, columns, COLUMNS, method, out);
}

bool sweep_list_add(struct listing *part, const struct sweep *sweep,
                    const struct price_place *place, size_t point, groat_outcome outcome,
                    const groat_scratch *scratch)
{
    struct listing_cell *cells = listing_cells(part);
    if (outcome == GROAT_NOT_SOLD)
        return true;
    columns_take_place(cells, place);
    columns_take_outcome(cells + OUTCOME, outcome, groat_method_currency(sweep->method));
    cells[VALUE].amount = sweep->values[point];
    if (is_percentage(sweep))
        cells[VALUE].amount =
            amount_divide(listing_room(part), sweep->values[point], amount_whole(100));
    if (outcome == GROAT_PRICED) {
        cells[PRICE].value = groat_result_figure(scratch, GROAT_PRICE);
        cells[KEEP].value = groat_result_figure(scratch, GROAT_KEEP);
        cells[PROFIT].value = groat_result_figure(scratch, GROAT_PROFIT);
        columns_take_notes(part, scratch);
    } else {
        listing_note(part, groat_result_reason(scratch));
    }
    return listing_add(part, place->row);
}
