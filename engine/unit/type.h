/* What kind a value is and what it measures. */
#ifndef GROAT_TYPE_H
#define GROAT_TYPE_H

#include "unit/dimension.h"

enum type_kind {
    TYPE_WRONG,  /* an error was reported; nothing more is said of it */
    TYPE_NUMBER, /* with its dimension: plain numbers, money, quantities */
    TYPE_FLAG,
    TYPE_TEXT,
    TYPE_DATE, /* held as days since 0000-03-01, proleptic Gregorian */
    TYPE_PARTS
};

struct type {
    enum type_kind kind;
    struct dimension dimension;
};

#endif
