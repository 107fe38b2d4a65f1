#include "study/taken.h"

bool taken_is_amount(groat_kind kind)
{
    return kind == GROAT_KIND_NUMBER || kind == GROAT_KIND_MONEY || kind == GROAT_KIND_QUANTITY;
}

/* No number of the library's has more digits, nor a minus and a closing zero beside them. */
enum { DIGITS_MOST = NUM_BITS_MOST * 302 / 1000 + 3 };

typedef size_t writer(groat_value value, char *buffer, size_t size);

static struct amount take_part(struct amounts *room, writer *write, groat_value value)
{
    char digits[DIGITS_MOST];
    size_t length = write(value, digits, sizeof digits);
    if (length >= sizeof digits)
        return (struct amount){.status = NUM_TOO_LARGE};
    return amount_read(room, digits, length);
}

struct amount taken(struct amounts *room, groat_value value)
{
    int64_t top, bottom;
    if (value.presence != GROAT_THERE)
        return (struct amount){0};
    if (groat_value_fraction(value, &top, &bottom))
        return amount_of((struct num){.top = top, .bottom = bottom});
    return amount_divide(room, take_part(room, groat_value_top, value),
                         take_part(room, groat_value_bottom, value));
}

struct amount taken_figure(struct amounts *room, const groat_scratch *scratch, groat_figure figure)
{
    return taken(room, groat_result_figure(scratch, figure));
}
