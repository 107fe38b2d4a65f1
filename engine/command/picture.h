/* The file that --chart names. */
#ifndef GROAT_COMMAND_PICTURE_H
#define GROAT_COMMAND_PICTURE_H

#include <stdbool.h>
#include <stddef.h>

#include "command/verb.h"

/* A picture is put together in memory while the list is still being written, and goes to its file
 * when that is done: only one file is ever half written. */
struct picture {
    char *bytes;
    size_t length;
};

typedef bool picture_writer(void *context, FILE *out);
/* False when memory ran out; it has been said. */
bool picture_make(struct picture *picture, picture_writer *write, void *context);
/* Writes it, unless `status` is STATUS_WRONG or there is none, and frees it. */
enum status picture_finish(struct picture *picture, const char *name, enum status status);

#endif
