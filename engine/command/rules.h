/* Rules files, from the disk to a method. */
#ifndef GROAT_COMMAND_RULES_H
#define GROAT_COMMAND_RULES_H

#include <stdbool.h>

#include "groat.h"

/* Reads the rules and those they use. Says on standard error what is wrong with them, warnings too
 * when `warnings`. They are read as groat_reading.unrounded says, when `unrounded`. NULL when there
 * is an error. */
groat_method *rules_read(const char *name, bool warnings, bool unrounded);

/* Says every error of a report on standard error, and its warnings when `warnings`. */
void rules_say(const groat_report *report, bool warnings);

#endif
