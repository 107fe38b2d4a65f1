#include "report/words.h"

void words_money(struct bytes *text, const struct amount *money, const struct listing_plan *plan)
{
    size_t start = text->length;
    bytes_money(text, bytes_figure(money, GROAT_KIND_MONEY), plan->currency);
    for (size_t i = start; i < text->length && plan->decimal_comma; i++)
        if (text->start[i] == '.')
            text->start[i] = ',';
}

void words_percent(struct bytes *text, const struct amount *share, unsigned places)
{
    struct amount percent;
    amount_open(&percent);
    amount_times(&percent, share, 100);
    size_t start = text->length;
    bytes_places(text, bytes_figure(&percent, GROAT_KIND_NUMBER), places);
    bytes_drop_minus_of_zero(text, start);
    bytes_char(text, '%');
    amount_close(&percent);
}
