#include "report/words.h"

#include <inttypes.h>
#include <string.h>

#include "text/utf8.h"

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
    if (!say_failure(text, money->status))
        bytes_money(text, *money, plan->currency, listing_marks(plan));
}

void words_percent(struct bytes *text, const struct amount *share, unsigned places,
                   const struct listing_plan *plan)
{
    struct amounts room;
    amounts_open(&room);
    struct amount percent = amount_times(&room, *share, 100);
    if (!say_failure(text, percent.status)) {
        bytes_grouped(text, percent, places, listing_marks(plan));
        bytes_char(text, '%');
    }
    amounts_close(&room);
}

void words_place(struct bytes *text, groat_text product, const char *channel, int64_t quantity)
{
    bytes_plain(text, product.start, product.length);
    bytes_text(text, " on ");
    bytes_plain(text, channel, strlen(channel));
    if (quantity != 1)
        bytes_format(text, ", %" PRId64 " pieces", quantity);
}

void words_rate(const groat_method *method, size_t index, const struct listing_plan *plan,
                char *text, size_t size)
{
    groat_method_rate_amount(method, index, text, size);
    for (char *at = text; plan->decimal_comma && (at = strchr(at, '.')); at++)
        if (at > text && text_is_digit(at[-1]) && text_is_digit(at[1]))
            *at = ',';
}
