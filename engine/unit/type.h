/* The kind of a value, and what it measures. */
#ifndef GROAT_TYPE_H
#define GROAT_TYPE_H

#include "unit/dimension.h"

enum type_kind {
    TYPE_WRONG,  /* an error was reported, so no other is */
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
