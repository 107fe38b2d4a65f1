/* Values as a host takes them out: as whole numbers, and as texts. */
#include <stdio.h>

#include "library/call.h"
#include "types/literal.h"

/* ---- as whole numbers ---- */

/* What stands inside a value that is there; NULL of any other, and of one that a host made up. */
static const struct value *inside_of(groat_value value)
{
    const struct value *inside = value.inside;
    bool there = value.presence == GROAT_THERE && inside && inside->state == VALUE_THERE;
    return there ? inside : NULL;
}

/* The number of a value that has one, or NULL. */
static const struct num *number_of(groat_value value)
{
    const struct value *inside = inside_of(value);
    bool number = (size_t)value.kind < GROAT_KIND_PARTS && value.kind != GROAT_KIND_TEXT;
    return inside && number ? &inside->number : NULL;
}

bool groat_value_fraction(groat_value value, int64_t *top, int64_t *bottom)
{
    const struct num *number = number_of(value);
    if (!number || number->bottom == 0 || !top || !bottom)
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
    if (value.kind != GROAT_KIND_MONEY || !shown || !coins ||
        !groat_value_fraction(value, &top, &bottom) || shown->coins % bottom != 0 ||
        __builtin_mul_overflow(top, shown->coins / bottom, &amount))
        return false;
    *coins = amount;
    return true;
}

/* ---- as texts ---- */

static size_t empty(char *buffer, size_t size)
{
    if (call_room(buffer, size) > 0)
        buffer[0] = '\0';
    return 0;
}

/* `yes` or `no`, which a flag is in every writer but those of its fraction. */
static size_t write_flag(const struct num *number, char *buffer, size_t size)
{
    bool yes = num_sign(*number) != 0;
    return (size_t)snprintf(buffer, size, "%s", yes ? "yes" : "no");
}

size_t groat_value_top(groat_value value, char *buffer, size_t size)
{
    const struct num *number = number_of(value);
    return number ? num_write_top(*number, buffer, call_room(buffer, size)) : empty(buffer, size);
}

size_t groat_value_bottom(groat_value value, char *buffer, size_t size)
{
    const struct num *number = number_of(value);
    return number ? num_write_bottom(*number, buffer, call_room(buffer, size))
                  : empty(buffer, size);
}

typedef size_t write_number(struct num number, unsigned places, char mark, char *buffer,
                            size_t size);

static size_t write_decimals(groat_value value, write_number *write, unsigned places, char *buffer,
                             size_t size)
{
    enum { PLACES_MOST = 60 };
    const struct num *number = number_of(value);
    size = call_room(buffer, size);
    if (!number)
        return empty(buffer, size);
    if (value.kind == GROAT_KIND_FLAG)
        return write_flag(number, buffer, size);
    return write(*number, places < PLACES_MOST ? places : PLACES_MOST, '.', buffer, size);
}

size_t groat_value_places(groat_value value, unsigned places, char *buffer, size_t size)
{
    return write_decimals(value, num_write_places, places, buffer, size);
}

size_t groat_value_short(groat_value value, unsigned places, char *buffer, size_t size)
{
    return write_decimals(value, num_write_short, places, buffer, size);
}

size_t groat_value_write(groat_value value, unsigned places, char *buffer, size_t size)
{
    const struct value *inside = inside_of(value);
    const struct shown *shown = value.unit;
    int64_t days;
    size = call_room(buffer, size);
    if (!inside)
        return empty(buffer, size);
    switch (value.kind) {
    case GROAT_KIND_TEXT:
        return (size_t)snprintf(buffer, size, "%.*s", (int)inside->text.length, inside->text.start);
    case GROAT_KIND_FLAG: return write_flag(&inside->number, buffer, size);
    case GROAT_KIND_DATE:
        return num_to_int64(inside->number, &days) ? literal_write_date(days, buffer, size)
                                                   : empty(buffer, size);
    case GROAT_KIND_MONEY:
        return shown ? num_write_places(inside->number, shown->decimals, '.', buffer, size)
                     : empty(buffer, size);
    case GROAT_KIND_NUMBER:
    case GROAT_KIND_QUANTITY: return groat_value_short(value, places, buffer, size);
    case GROAT_KIND_PARTS: break;
    }
    return empty(buffer, size);
}
