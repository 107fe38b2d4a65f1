#include "study/ranking.h"

bool ranking_is_larger(const struct amount *a, const struct amount *b)
{
    if (!a->there || !b->there)
        return a->there && !b->there;
    struct amounts room;
    amounts_open(&room);
    bool larger = amount_compare(amount_size(&room, *a), amount_size(&room, *b)) > 0;
    amounts_close(&room);
    return larger;
}

void ranking_by_size(size_t *order, size_t count, ranking_amount *amount_at, const void *context)
{
    for (size_t i = 0; i < count; i++) {
        size_t at = i;
        for (;
             at > 0 && ranking_is_larger(amount_at(context, i), amount_at(context, order[at - 1]));
             at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
}
