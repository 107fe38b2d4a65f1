/* Reading the command line. */
#ifndef GROAT_COMMAND_OPTIONS_H
#define GROAT_COMMAND_OPTIONS_H

#include <stdio.h>

#include "command/verb.h"

/* Reads the arguments, from argv[1] on. Returns false and says on standard error what is wrong. In
 * either case the caller frees the request. */
bool options_read(struct request *request, int argc, char **argv);
void options_free(struct request *request);

/* Writes the options of these bits, with their meanings. */
void options_write(FILE *out, uint64_t options);

#endif
