/* Rules files, from the disk to a method. */
#ifndef GROAT_COMMAND_RULES_H
#define GROAT_COMMAND_RULES_H

#include <stdbool.h>

#include "command/verb.h"

/* Reads the rules and the files they use; `-` is standard input, which is read once, however often
 * it is asked for. Reports errors and warnings on standard error. Returns NULL if there is an
 * error, or if the request would write over one of these files. */
groat_method *rules_read(const char *name, const struct request *request);

/* Prints a report on standard error. */
void rules_say(const groat_report *report);

#endif
