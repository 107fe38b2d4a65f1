/* What is left to do once a ready-made method is written into a folder. */
#ifndef GROAT_COMMAND_NEXT_STEPS_H
#define GROAT_COMMAND_NEXT_STEPS_H

#include "command/folder.h"
#include "command/tender.h"
#include "groat.h"

struct next_steps {
    const char *folder;
    const struct tender *tender;
    bool currency_given;          /* on the command line; otherwise the tender is the dollar */
    const struct new_file *files; /* its rules, its sheet, and the rules that it uses */
    size_t count;
    const groat_method *method;
};

/* Appends what was written, which figures to change on which lines, which sheet to fill in and what
 * to run, as lines. */
void next_steps_write(struct bytes *out, const struct next_steps *next);

#endif
