/* Words of a command that somebody is to type. */
#ifndef GROAT_COMMAND_SHELL_H
#define GROAT_COMMAND_SHELL_H

#include "listing/bytes.h"

/* Appends a word as a shell reads it: in single quotes where it needs them. */
void shell_word(struct bytes *out, const char *word);

#endif
