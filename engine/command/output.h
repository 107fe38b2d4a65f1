/* Where results go: standard output, or a file that replaces an old one only when it is
 * complete. */
#ifndef GROAT_COMMAND_OUTPUT_H
#define GROAT_COMMAND_OUTPUT_H

#include <stdbool.h>
#include <stdio.h>

#include "command/verb.h"

struct output {
    FILE *stream;     /* NULL: not open */
    const char *name; /* as the user gave it; NULL: standard output */
    char *target;     /* the file to replace, after following links; NULL if written in place */
    char *temporary;  /* the new file beside it */
    bool gone;        /* the reader closed the pipe */
    bool failed;      /* a write failed, and this was reported */
};

/* Opens `name`, or standard output when it is NULL. Returns false and says what is wrong. */
bool output_open(struct output *output, const char *name);

/* Call it after a failed write, with errno unchanged: reports why, unless the reader closed the
 * pipe, or a list was not opened for a reason that was told (ECANCELED). Returns false. */
bool output_failed(struct output *output);

/* Completes the output. If `status` is STATUS_WRONG, an old file stays as it is. Returns `status`,
 * or STATUS_WRONG if something could not be written. */
enum status output_finish(struct output *output, enum status status);

/* Opens `name`, writes a whole text and completes it. Returns `status`, or STATUS_WRONG if it could
 * not be written. */
enum status output_text(const char *name, groat_text text, enum status status);

#endif
