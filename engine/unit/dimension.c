/* Arithmetic of dimensions, and their names in the words of the trade. */
#include "unit/dimension.h"

#include <assert.h>
#include <string.h>

struct dimension dim_none(void)
{
    return (struct dimension){{0}};
}

struct dimension dim_base(unsigned base)
{
    return dim_base_power(base, 1);
}

struct dimension dim_base_power(unsigned base, int power)
{
    struct dimension result = dim_none();
    assert(base < DIM_MOST && power >= -DIM_POWER_MOST && power <= DIM_POWER_MOST);
    result.power[base] = (int8_t)power;
    return result;
}

bool dim_equal(struct dimension a, struct dimension b)
{
    return memcmp(a.power, b.power, sizeof a.power) == 0;
}

bool dim_is_none(struct dimension a)
{
    return dim_equal(a, dim_none());
}

bool dim_is_money(struct dimension a)
{
    return dim_equal(a, dim_base(DIM_MONEY));
}

/* Adds `sign` times the powers of `b` to the powers of `a`. */
static bool combine(struct dimension a, struct dimension b, int sign, struct dimension *out)
{
    struct dimension result;
    for (size_t base = 0; base < DIM_MOST; base++) {
        int power = a.power[base] + sign * b.power[base];
        if (power > DIM_POWER_MOST || power < -DIM_POWER_MOST) {
            return false;
        }
        result.power[base] = (int8_t)power;
    }
    *out = result;
    return true;
}

bool dim_multiply(struct dimension a, struct dimension b, struct dimension *out)
{
    return combine(a, b, 1, out);
}

bool dim_divide(struct dimension a, struct dimension b, struct dimension *out)
{
    return combine(a, b, -1, out);
}

/* A text being written as snprintf writes it: `length` also counts what did not fit. */
struct writing {
    char *buffer;
    size_t size;
    size_t length;
};

static void write_text(struct writing *writing, const char *text)
{
    for (; *text != '\0'; text++) {
        if (writing->length + 1 < writing->size) {
            writing->buffer[writing->length] = *text;
        }
        writing->length++;
    }
}

static void write_end(const struct writing *writing)
{
    if (writing->size > 0) {
        size_t last = writing->size - 1;
        writing->buffer[writing->length < last ? writing->length : last] = '\0';
    }
}

static const char *base_name(size_t base, const char *const *names, size_t names_count)
{
    static const char *const built_in[DIM_DECLARED] = {
        [DIM_MONEY] = "money", [DIM_TIME] = "time",     [DIM_LENGTH] = "length",
        [DIM_MASS] = "mass",   [DIM_ENERGY] = "energy",
    };
    if (base < DIM_DECLARED) {
        return built_in[base];
    }
    size_t declared = base - DIM_DECLARED;
    return declared < names_count ? names[declared] : "a declared unit";
}

/* `power` is above zero. */
static void write_power(struct writing *writing, size_t base, int power, const char *const *names,
                        size_t names_count)
{
    if (base == DIM_LENGTH && power == 2) {
        write_text(writing, "area");
    } else if (base == DIM_LENGTH && power == 3) {
        write_text(writing, "volume");
    } else {
        write_text(writing, base_name(base, names, names_count));
        if (power > 1) {
            char digits[] = {(char)('0' + power), '\0'};
            write_text(writing, " to the power ");
            write_text(writing, digits);
        }
    }
}

size_t dim_describe(struct dimension a, const char *const *names, size_t names_count, char *buffer,
                    size_t size)
{
    struct writing writing = {buffer, size, 0};
    for (size_t base = 0; base < DIM_MOST; base++) {
        if (a.power[base] > 0) {
            if (writing.length > 0) {
                write_text(&writing, " times ");
            }
            write_power(&writing, base, a.power[base], names, names_count);
        }
    }
    if (writing.length == 0) {
        write_text(&writing, "a plain number");
    }
    /* Backwards, so that time comes last: a rent is money per area per time. */
    for (size_t base = DIM_MOST; base-- > 0;) {
        if (a.power[base] < 0) {
            write_text(&writing, " per ");
            write_power(&writing, base, -a.power[base], names, names_count);
        }
    }
    write_end(&writing);
    return writing.length;
}
