/* What --help and --version print. */
#ifndef GROAT_COMMAND_HELP_H
#define GROAT_COMMAND_HELP_H

#include "command/verb.h"

/* Prints the help of a verb, or of the command if `verb` is NULL, on standard output. */
enum status help_print(const struct verb *verb);
enum status help_print_version(void);

#endif
