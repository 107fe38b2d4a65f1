/* The message for a rate on the command line that is refused. */
#ifndef GROAT_COMMAND_REFUSED_RATE_H
#define GROAT_COMMAND_REFUSED_RATE_H

#include "groat.h"

/* Reports why, and proposes the whole option as it can be typed: `--set hourly='$25 per h'`.
 * `option` gave the values, and `method` was to use them. */
void refused_rate_say(const char *option, const groat_method *method,
                      const groat_rate_value *values, const groat_trouble *trouble);

#endif
