/* The file that --chart names. */
#ifndef GROAT_COMMAND_PICTURE_H
#define GROAT_COMMAND_PICTURE_H

#include <stdbool.h>
#include <stddef.h>

#include "command/verb.h"

/* A picture is made in memory while the list is being written, and saved after it, so that at most
 * one file is ever incomplete. */
struct picture {
    char *bytes;
    size_t length;
};

typedef bool picture_writer(void *context, FILE *out);
/* Returns false, after reporting it, when memory runs out. */
bool picture_make(struct picture *picture, picture_writer *write, void *context);
/* Saves the picture, if there is one and `status` is not STATUS_WRONG, and frees it. */
enum status picture_finish(struct picture *picture, const char *name, enum status status);

#endif
