/* Rules files, from the disk to a method. */
#ifndef GROAT_COMMAND_RULES_H
#define GROAT_COMMAND_RULES_H

#include <stdbool.h>

#include "groat.h"

/* Reads the rules and the files they use. Reports errors and warnings on standard error.
 * `unrounded` is that of groat_reading. Returns NULL if there is an error. */
groat_method *rules_read(const char *name, bool unrounded);

/* Prints a report on standard error. */
void rules_say(const groat_report *report);

#endif
