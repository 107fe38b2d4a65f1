#include "report/sweep_list.h"

#include "report/columns.h"

enum { VALUE = 3, PRICE, KEEP, PROFIT, COLUMNS };

/* In CSV the value is a text that is at hand, for speed; JSON has all of the amount. */
#define COLUMNS_WITH_VALUE(look)                                                                   \
    {                                                                                              \
        COLUMNS_OF_PLACE, {"value", NULL, NULL, look, LISTING_ALWAYS, false},                      \
            {"price", NULL, NULL, LISTING_MONEY, LISTING_ALWAYS, false},                           \
            {"keep", NULL, NULL, LISTING_MONEY, LISTING_ALWAYS, false},                            \
            {"profit", NULL, NULL, LISTING_MONEY, LISTING_ALWAYS, false},                          \
    }
static const struct listing_column text_columns[COLUMNS] = COLUMNS_WITH_VALUE(LISTING_TEXT);
static const struct listing_column exact_columns[COLUMNS] = COLUMNS_WITH_VALUE(LISTING_NUMBER);

struct listing *sweep_list_open(const groat_method *method, const struct listing_plan *plan,
                                FILE *out)
{
    return columns_open(plan, plan->form == LISTING_CSV ? text_columns : exact_columns, COLUMNS,
                        method, out);
}

bool sweep_list_add(struct listing *part, const struct sweep *sweep,
                    const struct price_place *place, size_t point, groat_outcome outcome,
                    const groat_scratch *scratch)
{
    struct listing_cell *cells = listing_cells(part);
    if (outcome == GROAT_NOT_SOLD)
        return true;
    columns_take_place(cells, place);
    cells[VALUE].text = listing_text(sweep->plain[point]);
    cells[VALUE].amount = sweep->values[point];
    if (outcome == GROAT_PRICED) {
        cells[PRICE].value = groat_result_figure(scratch, GROAT_PRICE);
        cells[KEEP].value = groat_result_figure(scratch, GROAT_KEEP);
        cells[PROFIT].value = groat_result_figure(scratch, GROAT_PROFIT);
        columns_take_notes(part, scratch);
    } else {
        bytes_format(listing_notes(part), "%s: %s%c",
                     outcome == GROAT_REFUSED ? "refused" : "no price",
                     groat_result_reason(scratch), '\0');
    }
    return listing_add(part, place->row);
}
