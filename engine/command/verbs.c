#include "command/verb.h"

#define VERB_ROW(name, products, options) {#name, products, options, &manual_##name, verb_##name},
const struct verb verbs[] = {VERBS(VERB_ROW)};
const size_t verbs_count = sizeof verbs / sizeof *verbs;
