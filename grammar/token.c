#include "token.h"

#include <stddef.h>

#define TOKEN_TRAITS(NAME, spelling, said, traits, form)                                           \
    [TOKEN_##NAME] = {spelling, said, traits, form},
const struct token_traits token_traits[] = {TOKENS(TOKEN_TRAITS)};
