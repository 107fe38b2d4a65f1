/* The ready-made methods, inside the command. The build makes C of the files in rules/ with
 * methods.awk. */
#ifndef GROAT_COMMAND_READY_H
#define GROAT_COMMAND_READY_H

#include <stddef.h>

/* A file of a method: its rules, its sheet, or rules that it uses. */
struct ready_file {
    const char *name; /* without a folder */
    const char *text; /* amounts are in dollars */
};

/* A method called recipe is the files recipe.rules and recipe.csv. */
struct ready_method {
    const char *name;
    const char *summary;  /* what it is for, in a line */
    const char *channels; /* `stall, marketplace`; nothing where it asks one price of everybody */
};

extern const struct ready_file ready_files[];
extern const size_t ready_files_count;
extern const struct ready_method ready_methods[];
extern const size_t ready_methods_count;

#endif
