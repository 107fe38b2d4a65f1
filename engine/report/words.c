#include "report/words.h"

void words_money(struct bytes *text, const struct amount *money, const struct listing_plan *plan)
{
    struct figure figure = {{.presence = GROAT_THERE, .kind = GROAT_KIND_MONEY}, money};
    size_t start = text->length;
    bytes_money(text, figure, plan->currency);
    for (size_t i = start; i < text->length && plan->decimal_comma; i++)
        if (text->start[i] == '.')
            text->start[i] = ',';
}
