/* Where results go: standard output, or a file that takes the place of an old one only when it is
 * whole. */
#ifndef GROAT_COMMAND_OUTPUT_H
#define GROAT_COMMAND_OUTPUT_H

#include <stdbool.h>
#include <stdio.h>

#include "command/verb.h"

struct output {
    FILE *stream;     /* NULL: not open */
    const char *name; /* as the user gave it; NULL: standard output */
    char *target;     /* the file to be replaced, behind any link; NULL when written in place */
    char *temporary;  /* the new one beside it */
    bool gone;        /* the reader went away */
    bool failed;      /* and it has been said */
};

/* Whether writing to `name` would write to the file `other`. */
bool output_is_file(const char *name, const char *other);

/* Opens `name`, or standard output when it is NULL. Returns false and says what is wrong. */
bool output_open(struct output *output, const char *name);

/* To be called after a write failed, with errno as it left it: says why, unless the reader only
 * went away. */
void output_failed(struct output *output);

/* Brings everything to its place, unless `status` is STATUS_WRONG: then an old file stays as it is.
 * Returns `status`, or STATUS_WRONG when something could not be written. */
enum status output_finish(struct output *output, enum status status);

#endif
