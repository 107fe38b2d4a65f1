/* What --help and --version print. */
#ifndef GROAT_COMMAND_HELP_H
#define GROAT_COMMAND_HELP_H

#include "command/verb.h"

/* On standard output: of a verb, or of the command when `verb` is NULL. */
enum status help_print(const struct verb *verb);
enum status help_print_version(void);

#endif
