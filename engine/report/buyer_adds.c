#include "report/buyer_adds.h"

void buyer_adds_open(struct buyer_adds *adds)
{
    amount_open(&adds->price);
    amount_open(&adds->adds);
}

void buyer_adds_close(struct buyer_adds *adds)
{
    amount_close(&adds->price);
    amount_close(&adds->adds);
}

const struct amount *buyer_adds_take(struct buyer_adds *adds, const groat_scratch *scratch)
{
    amount_take(&adds->price, groat_result_figure(scratch, GROAT_PRICE));
    amount_take(&adds->adds, groat_result_figure(scratch, GROAT_PAID));
    amount_subtract(&adds->adds, &adds->adds, &adds->price);
    return &adds->adds;
}
