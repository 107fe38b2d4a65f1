#include "program/operation.h"

#define OPERATION_TRAITS(NAME, text, operands, degree, missing, line, traits)                      \
    [OP_##NAME] = {text, operands, degree, missing, line, traits},
const struct operation_traits operation_traits[] = {OPERATIONS(OPERATION_TRAITS)};

_Static_assert(OPERATIONS_COUNT <= 64, "there is a bit for each operation in SMALL_OPERATIONS");
