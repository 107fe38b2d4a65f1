/* A sheet's way of writing numbers: thousands separators, and a decimal comma. */
#ifndef GROAT_WRITING_H
#define GROAT_WRITING_H

#include "memory/memory.h"

struct writing {
    char group, decimal;
    bool money; /* thousands may be divided by `group`, and a dash stand for no decimals: `320,-` */
};

/* The text without dividers of thousands or dashes for decimals, and with a point for the decimal
 * sign. `*doubt` becomes the place of a sign that might divide thousands or begin decimals, and NULL
 * where there is none. */
char *cell_plainly_written(struct arena *arena, const struct writing *writing, const char *text,
                           size_t length, size_t *plain_length, const char **doubt);

#endif
