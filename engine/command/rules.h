/* Rules files, from the disk to a method. */
#ifndef GROAT_COMMAND_RULES_H
#define GROAT_COMMAND_RULES_H

#include <stdbool.h>

#include "groat.h"

/* Reads the rules and those they use. Says on standard error what is wrong with them, warnings too.
 * They are read as groat_reading.unrounded says, when `unrounded`. NULL when there is an error. */
groat_method *rules_read(const char *name, bool unrounded);

/* Says everything in a report on standard error. */
void rules_say(const groat_report *report);

#endif
