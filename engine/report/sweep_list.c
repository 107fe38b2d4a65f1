#include "report/sweep_list.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>

enum { PRODUCT, CHANNEL, QUANTITY, VALUE, PRICE, KEEP, PROFIT, COLUMNS };

/* In CSV the value is a text that is at hand, for speed; JSON has all of the amount. */
#define COLUMNS_WITH_VALUE(look)                                                                   \
    {                                                                                              \
        {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false},                         \
            {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false},                     \
            {"quantity", "Pieces", NULL, LISTING_WHOLE, LISTING_ALWAYS, false},                    \
            {"value", "Value", NULL, look, LISTING_ALWAYS, false},                                 \
            {"price", "Price", NULL, LISTING_MONEY, LISTING_ALWAYS, false},                        \
            {"keep", "You keep", NULL, LISTING_MONEY, LISTING_ALWAYS, false},                      \
            {"profit", "Profit", NULL, LISTING_MONEY, LISTING_ALWAYS, false},                      \
    }
static const struct listing_column text_columns[COLUMNS] = COLUMNS_WITH_VALUE(LISTING_TEXT);
static const struct listing_column exact_columns[COLUMNS] = COLUMNS_WITH_VALUE(LISTING_NUMBER);

struct listing *sweep_list_open(const groat_method *method, const struct listing_plan *plan,
                                FILE *out)
{
    struct listing_plan whole = *plan;
    whole.columns = plan->form == LISTING_CSV ? text_columns : exact_columns;
    whole.columns_count = COLUMNS;
    whole.currency = groat_method_currency(method);
    return listing_open(&whole, out);
}

enum { NOTES_HELD = 16, REASON_BYTES = 512 };

/* The notes of a result; those beyond `NOTES_HELD` in an array that is the caller's to free. */
static const char **gather_notes(const groat_scratch *scratch, size_t count, const char **held)
{
    const char **notes = count <= NOTES_HELD ? held : calloc(count, sizeof *notes);
    for (size_t i = 0; notes && i < count; i++)
        notes[i] = groat_result_note(scratch, i);
    return notes;
}

static bool add_priced(struct listing_part *part, struct listing_row *row,
                       struct listing_cell *cells, const groat_scratch *scratch)
{
    const char *held[NOTES_HELD];
    cells[PRICE].value = groat_result_figure(scratch, GROAT_PRICE);
    cells[KEEP].value = groat_result_figure(scratch, GROAT_KEEP);
    cells[PROFIT].value = groat_result_figure(scratch, GROAT_PROFIT);
    row->notes_count = groat_result_notes(scratch);
    const char **notes = gather_notes(scratch, row->notes_count, held);
    errno = ENOMEM;
    row->notes = notes;
    bool added = notes && listing_part_add(part, row);
    if (notes != held)
        free(notes);
    return added;
}

bool sweep_list_add(struct listing_part *part, const struct sweep *sweep,
                    const struct price_place *place, size_t point, groat_outcome outcome,
                    const groat_scratch *scratch)
{
    struct listing_cell cells[COLUMNS] = {0};
    struct listing_row row = {cells, NULL, 0, place->row};
    if (outcome == GROAT_NOT_SOLD)
        return true;
    cells[PRODUCT].text = place->product;
    cells[CHANNEL].text = listing_text(place->channel);
    cells[QUANTITY].whole = place->quantity;
    const char *plain = sweep->plain[point];
    cells[VALUE].text = listing_text(plain);
    cells[VALUE].amount = &sweep->values[point];
    if (outcome == GROAT_PRICED)
        return add_priced(part, &row, cells, scratch);
    char reason[REASON_BYTES];
    const char *notes[] = {reason};
    snprintf(reason, sizeof reason, "%s: %s", outcome == GROAT_REFUSED ? "refused" : "no price",
             groat_result_reason(scratch));
    row.notes = notes;
    row.notes_count = 1;
    return listing_part_add(part, &row);
}
