/* The words of a command line that are not options: the verb, the rules and the products. */
#ifndef GROAT_COMMAND_PLACES_H
#define GROAT_COMMAND_PLACES_H

#include <stdbool.h>

#include "command/verb.h"

/* The verb of this name, or NULL. */
const struct verb *places_verb(const char *name);

/* Takes the verb, the rules and the products out of the request's places. If help or the version is
 * asked for, by an option or by the word `help`, there may be fewer. Returns false and says on
 * standard error what is wrong. */
bool places_settle(struct request *request);

#endif
