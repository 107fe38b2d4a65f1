/* A sheet's way of writing numbers: thousands separators, and a decimal comma. */
#ifndef GROAT_WRITING_H
#define GROAT_WRITING_H

#include "memory/memory.h"

struct writing {
    char group, decimal;
    bool money; /* thousands may be divided by `group`, and a dash stand for no decimals: `320,-` */
};

/* Of a sheet with a decimal comma, or with a decimal point. */
struct writing cell_writing(bool decimal_comma, bool money);

/* The text without dividers of thousands or dashes for decimals, and with a point for the decimal
 * sign. `*doubt` becomes the place of a sign that might divide thousands or begin decimals, and NULL
 * where there is none. */
char *cell_plainly_written(struct arena *arena, const struct writing *writing, const char *text,
                           size_t length, size_t *plain_length, const char **doubt);
/* The other way: a literal of the rules as this writing has it. */
char *cell_as_written(struct arena *arena, const struct writing *writing, const char *literal);

#endif
