#include "library/call.h"

#include <limits.h>

#include "types/literal.h"

const char *call_objects(const groat_scratch *scratch, const groat_method *method,
                         const groat_record *record)
{
    if (!scratch)
        return "the call was given no scratch";
    if (!method)
        return "the call was given no method";
    if (!record)
        return "the call was given no record";
    if (scratch->core != method->core)
        return "the scratch was made for other rules than the method";
    if (record->core != method->core)
        return "the record was made for other rules than the method";
    return NULL;
}

const char *call_pricing(const groat_scratch *scratch, const groat_method *method,
                         const groat_record *record, const groat_order *order)
{
    const char *why = call_objects(scratch, method, record);
    if (!why && !order)
        why = "the call was given no order";
    else if (!why && order->channel >= method->core->program->channels_count)
        why = "the rules have no channel of this number";
    return why;
}

const char *call_order(const groat_order *order, int64_t *days)
{
    if (order->as_of && !literal_date(order->as_of, days))
        return "this is not a valid date; write it like 2027-01-31";
    return order->quantity < 1 ? "a quantity must be a whole number, at least 1" : NULL;
}

bool call_has_text(groat_text text)
{
    return text.start || text.length == 0;
}

bool call_has_items(const void *items, size_t count, size_t item_size)
{
    return count == 0 || (items && count <= PTRDIFF_MAX / item_size);
}

size_t call_room(const char *buffer, size_t size)
{
    return !buffer ? 0 : size < INT_MAX ? size : INT_MAX;
}

groat_status call_refuse(groat_trouble *trouble, const char *why)
{
    struct trouble inner;
    trouble_none(&inner);
    trouble_say(&inner, TROUBLE_CALL, NO_HELP, "%s", why);
    return trouble_hand_out(&inner, trouble);
}
