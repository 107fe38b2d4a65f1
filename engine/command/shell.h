/* Words of a command that somebody is to type. */
#ifndef GROAT_COMMAND_SHELL_H
#define GROAT_COMMAND_SHELL_H

#include "listing/bytes.h"

/* Appends a path as a shell takes it for one word, in single quotes where it needs them; and with
 * ./ before it where it would be read as an option. */
void shell_path(struct bytes *out, const char *path);

#endif
