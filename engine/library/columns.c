/* Pricing many records from columns of numbers. */
#include "library/call.h"

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

/* Why columns make no sense together, or NULL. */
static const char *wrong_columns(const groat_method *method, const groat_order *order,
                                 const groat_number_column *columns, size_t columns_count,
                                 size_t count)
{
    int64_t days;
    if (!call_has_items(columns, columns_count, sizeof *columns))
        return "the call was given a number of columns and not the columns";
    if (count > PTRDIFF_MAX / sizeof *columns->tops)
        return "these are more rows than memory holds";
    for (size_t i = 0; i < columns_count; i++)
        if (columns[i].field >= groat_method_fields(method))
            return "the rules have no field of a column's number";
        else if (!columns[i].tops && count > 0)
            return "a column has no numbers";
    return call_order(order, &days);
}

/* Of a required field that has no column no row could be priced. */
static enum trouble_kind find_required(const struct program *program,
                                       const groat_number_column *columns, size_t columns_count,
                                       struct trouble *trouble)
{
    for (size_t field = 0; field < program->fields_count; field++) {
        bool there = !program->fields[field].required;
        for (size_t i = 0; i < columns_count && !there; i++)
            there = columns[i].field == field;
        if (there)
            continue;
        trouble->index = field;
        return trouble_say(trouble, TROUBLE_EMPTY, NO_HELP, "%.80s is required and has no column",
                           program->fields[field].symbol->name);
    }
    return TROUBLE_NONE;
}

groat_status groat_price_columns(groat_scratch *scratch, const groat_method *method,
                                 const groat_order *order, const groat_number_column *columns,
                                 size_t columns_count, size_t count, int64_t *prices,
                                 groat_outcome *outcomes, groat_trouble *trouble)
{
    groat_record *record = groat_record_new(method);
    struct trouble inner;
    trouble_none(&inner);
    if (method && !record) {
        trouble_no_memory(&inner);
    } else {
        const char *why = call_pricing(scratch, method, record, order);
        if (!why)
            why = wrong_columns(method, order, columns, columns_count, count);
        if (why)
            trouble_say(&inner, TROUBLE_CALL, NO_HELP, "%s", why);
        else
            find_required(method->core->program, columns, columns_count, &inner);
        if (inner.kind != TROUBLE_NONE)
            price_refuse_call(scratch, why ? why : "a required field has no column");
    }
    groat_status status = trouble_hand_out(&inner, trouble);
    for (size_t row = 0; row < count && status == GROAT_OK; row++) {
        num_heap_rewind(&record->heap, (struct num_mark){0});
        status = set_row(record, columns, columns_count, row, trouble);
        if (status != GROAT_OK)
            break;
        groat_outcome outcome = groat_price(scratch, method, record, order);
        if (scratch->no_memory) {
            trouble_no_memory(&inner);
            status = trouble_hand_out(&inner, trouble);
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
    /* The last result depends on a record that goes now. */
    if (scratch) {
        scratch->record = NULL;
        scratch->worked_out = false;
    }
    groat_record_free(record);
    return status;
}
