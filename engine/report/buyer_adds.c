#include "report/buyer_adds.h"

#include "study/taken.h"

void buyer_adds_open(struct buyer_adds *adds)
{
    amounts_open(&adds->room);
}

void buyer_adds_close(struct buyer_adds *adds)
{
    amounts_close(&adds->room);
}

const struct amount *buyer_adds_take(struct buyer_adds *adds, const groat_scratch *scratch)
{
    amounts_forget(&adds->room);
    adds->adds = amount_subtract(&adds->room, taken_figure(&adds->room, scratch, GROAT_PAID),
                                 taken_figure(&adds->room, scratch, GROAT_PRICE));
    return &adds->adds;
}
