/* Values as a host takes them out: as whole numbers, and as texts. */
#include <stdio.h>

#include "library/library.h"
#include "types/literal.h"

/* ---- as whole numbers ---- */

/* The number of a value that has one, or NULL. */
static const struct num *number_of(groat_value value)
{
    const struct value *inside = value.inside;
    bool number = value.presence == GROAT_THERE && value.kind != GROAT_KIND_TEXT &&
                  value.kind != GROAT_KIND_PARTS;
    return number ? &inside->number : NULL;
}

bool groat_value_fraction(groat_value value, int64_t *top, int64_t *bottom)
{
    const struct num *number = number_of(value);
    if (!number || number->bottom == 0)
        return false;
    *top = number->top;
    *bottom = number->bottom;
    return true;
}

/* In lowest terms, a whole number of coins has a denominator that divides how many one unit of the
 * currency is; so an amount that is no fraction of two machine words never fits one either. */
bool groat_value_coins(groat_value value, int64_t *coins)
{
    const struct shown *shown = value.unit;
    int64_t top, bottom, amount;
    if (value.kind != GROAT_KIND_MONEY || !groat_value_fraction(value, &top, &bottom) ||
        shown->coins % bottom != 0 || __builtin_mul_overflow(top, shown->coins / bottom, &amount))
        return false;
    *coins = amount;
    return true;
}

/* ---- as texts ---- */

static size_t empty(char *buffer, size_t size)
{
    if (size > 0)
        buffer[0] = '\0';
    return 0;
}

size_t groat_value_top(groat_value value, char *buffer, size_t size)
{
    const struct num *number = number_of(value);
    return number ? num_write_top(*number, buffer, size) : empty(buffer, size);
}

size_t groat_value_bottom(groat_value value, char *buffer, size_t size)
{
    const struct num *number = number_of(value);
    return number ? num_write_bottom(*number, buffer, size) : empty(buffer, size);
}

size_t groat_value_places(groat_value value, unsigned places, char *buffer, size_t size)
{
    const struct num *number = number_of(value);
    return number ? num_write_places(*number, places, buffer, size) : empty(buffer, size);
}

size_t groat_value_short(groat_value value, unsigned places, char *buffer, size_t size)
{
    const struct num *number = number_of(value);
    return number ? num_write_short(*number, places, buffer, size) : empty(buffer, size);
}

size_t groat_value_write(groat_value value, unsigned places, char *buffer, size_t size)
{
    const struct value *inside = value.inside;
    const struct shown *shown = value.unit;
    int64_t days;
    if (value.presence != GROAT_THERE)
        return empty(buffer, size);
    switch (value.kind) {
    case GROAT_KIND_TEXT:
        return (size_t)snprintf(buffer, size, "%.*s", (int)inside->text.length, inside->text.start);
    case GROAT_KIND_FLAG:
        return (size_t)snprintf(buffer, size, "%s", value_is_yes(*inside) ? "yes" : "no");
    case GROAT_KIND_DATE:
        return num_to_int64(inside->number, &days) ? literal_write_date(days, buffer, size)
                                                   : empty(buffer, size);
    case GROAT_KIND_MONEY: return num_write_places(inside->number, shown->decimals, buffer, size);
    case GROAT_KIND_PARTS: return empty(buffer, size);
    default: return num_write_short(inside->number, places, buffer, size);
    }
}
