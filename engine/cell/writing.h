/* A sheet's way of writing numbers: thousands separators, and a decimal comma. */
#ifndef GROAT_WRITING_H
#define GROAT_WRITING_H

#include "memory/memory.h"

struct writing {
    char group, decimal;
    bool money; /* `group` may separate thousands, and a dash may replace the decimals: `320,-` */
};

/* The writing of a sheet with a decimal comma, or with a decimal point. */
struct writing cell_writing(bool decimal_comma, bool money);

/* The text without thousands separators and dashes for decimals, and with a decimal point. `*doubt`
 * becomes the place of a sign that may be a thousands separator or a decimal sign, or NULL. */
char *cell_plainly_written(struct arena *arena, const struct writing *writing, const char *text,
                           size_t length, size_t *plain_length, const char **doubt);
/* The reverse: a literal of the rules, in this way of writing. */
char *cell_as_written(struct arena *arena, const struct writing *writing, const char *literal);

#endif
