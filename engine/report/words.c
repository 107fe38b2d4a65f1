#include "report/words.h"

#include <string.h>

static bool is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

static void mark(char *start, size_t length, const struct listing_plan *plan)
{
    for (size_t i = 1; plan->decimal_comma && i + 1 < length; i++)
        if (start[i] == '.' && is_digit(start[i - 1]) && is_digit(start[i + 1]))
            start[i] = ',';
}

void words_mark(char *text, const struct listing_plan *plan)
{
    mark(text, strlen(text), plan);
}

void words_mark_from(struct bytes *text, size_t start, const struct listing_plan *plan)
{
    if (!text->failed && text->length > start)
        mark(text->start + start, text->length - start, plan);
}

/* Says of an amount that could not be worked out why; false of others. */
static bool say_failure(struct bytes *text, enum num_status status)
{
    text->failed |= status == NUM_NO_MEMORY;
    if (status == NUM_TOO_LARGE)
        bytes_text(text, "a number with too many digits");
    return status != NUM_OK;
}

void words_money(struct bytes *text, const struct amount *money, const struct listing_plan *plan)
{
    size_t start = text->length;
    if (say_failure(text, money->status))
        return;
    bytes_money(text, bytes_figure(money, GROAT_KIND_MONEY), plan->currency);
    words_mark_from(text, start, plan);
}

void words_percent(struct bytes *text, const struct amount *share, unsigned places,
                   const struct listing_plan *plan)
{
    struct amounts room;
    amounts_open(&room);
    struct amount percent = amount_times(&room, *share, 100);
    size_t start = text->length;
    if (!say_failure(text, percent.status)) {
        bytes_places(text, bytes_figure(&percent, GROAT_KIND_NUMBER), places);
        bytes_char(text, '%');
        words_mark_from(text, start, plan);
    }
    amounts_close(&room);
}
