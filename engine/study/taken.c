#define _POSIX_C_SOURCE 200809L
#include "study/taken.h"

#include <string.h>

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

bool taken_starved(const groat_scratch *scratch)
{
    return groat_result_reason_kind(scratch) == GROAT_REASON_NO_MEMORY;
}

const char *taken_reason(struct arena *arena, const groat_scratch *scratch)
{
    const char *reason = groat_result_reason(scratch);
    return taken_starved(scratch) ? NULL : arena_text(arena, reason, strlen(reason));
}

const char *taken_notes(struct arena *arena, const groat_scratch *scratch, const char *between)
{
    size_t count = groat_result_notes(scratch), size = 1;
    for (size_t i = 0; i < count; i++)
        size += strlen(groat_result_note(scratch, i)) + strlen(between);
    char *notes = arena_take(arena, size), *end = notes;
    for (size_t i = 0; notes && i < count; i++)
        end = stpcpy(stpcpy(end, i > 0 ? between : ""), groat_result_note(scratch, i));
    return notes;
}
