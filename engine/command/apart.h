/* Keeps the files that a run writes apart from those that it reads: a slip of the finger must not
 * cost anyone their rules or their sheet. */
#ifndef GROAT_COMMAND_APART_H
#define GROAT_COMMAND_APART_H

#include <stdbool.h>

#include "command/verb.h"

/* These return false, after saying why, if --output or --chart would write over a file. */

/* The file that is read under this name; `-` is standard input. */
bool apart_from(const struct request *request, const char *input);
/* All files that the command line names. */
bool apart_from_all(const struct request *request);

#endif
