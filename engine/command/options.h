/* Reading the command line. */
#ifndef GROAT_COMMAND_OPTIONS_H
#define GROAT_COMMAND_OPTIONS_H

#include <stdio.h>

#include "command/verb.h"

/* Reads the arguments, from argv[1] on. Returns false and says on standard error what is wrong.
 * Either way the request is to be freed. */
bool options_read(struct request *request, int argc, char **argv);
void options_free(struct request *request);

/* The options of these bits, with what they mean. */
void options_write(FILE *out, unsigned options);

#endif
