#include "study/ranking.h"

bool ranking_is_larger(const struct amount *a, const struct amount *b)
{
    if (!a->there || !b->there)
        return a->there && !b->there;
    mpq_t one, two;
    mpq_inits(one, two, NULL);
    mpq_abs(one, a->number);
    mpq_abs(two, b->number);
    bool larger = mpq_cmp(one, two) > 0;
    mpq_clears(one, two, NULL);
    return larger;
}

void ranking_by_size(size_t *order, size_t count, ranking_amount *amount_of, const void *context)
{
    for (size_t i = 0; i < count; i++) {
        size_t at = i;
        for (;
             at > 0 && ranking_is_larger(amount_of(context, i), amount_of(context, order[at - 1]));
             at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
}
