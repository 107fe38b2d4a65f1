/* The message for a rate on the command line that is refused. */
#ifndef GROAT_COMMAND_REFUSED_RATE_H
#define GROAT_COMMAND_REFUSED_RATE_H

#include "groat.h"

/* Says why, and the whole option as it can be typed: `--set hourly='$25 per h'`. `option` is the
 * one that gave the values, `method` the one that they were for. */
void refused_rate_say(const char *option, const groat_method *method,
                      const groat_rate_value *values, const groat_trouble *trouble);

#endif
