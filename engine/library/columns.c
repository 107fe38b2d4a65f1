/* Pricing many records from columns of numbers. */
#include "library/library.h"

/* Sets one record's fields from the columns. */
static groat_status set_row(groat_record *record, const groat_number_column *columns, size_t count,
                            size_t row, groat_trouble *trouble)
{
    groat_status status = GROAT_OK;
    for (size_t i = 0; i < count && status == GROAT_OK; i++)
        status = groat_record_set_fraction(record, columns[i].field, columns[i].tops[row],
                                           columns[i].bottom, trouble);
    return status;
}

groat_status groat_price_columns(groat_scratch *scratch, const groat_method *method,
                                 const groat_order *order, const groat_number_column *columns,
                                 size_t columns_count, size_t count, int64_t *prices,
                                 groat_outcome *outcomes, groat_trouble *trouble)
{
    groat_record *record = groat_record_new(method);
    scratch->record = NULL;
    scratch->worked_out = false;
    if (!record)
        return GROAT_NO_MEMORY;
    groat_status status = GROAT_OK;
    for (size_t row = 0; row < count && status == GROAT_OK; row++) {
        num_heap_rewind(&record->heap, (struct num_mark){0});
        status = set_row(record, columns, columns_count, row, trouble);
        if (status != GROAT_OK)
            break;
        groat_outcome outcome = groat_price(scratch, method, record, order);
        if (scratch->no_memory) {
            status = GROAT_NO_MEMORY;
            break;
        }
        if (outcomes)
            outcomes[row] = outcome;
        int64_t coins = 0;
        if (outcome == GROAT_PRICED)
            groat_value_coins(groat_result_figure(scratch, GROAT_PRICE), &coins);
        if (prices)
            prices[row] = coins;
    }
    /* The last result leans on a record that goes now. */
    scratch->record = NULL;
    scratch->worked_out = false;
    groat_record_free(record);
    return status;
}
