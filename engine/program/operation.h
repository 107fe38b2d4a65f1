/* The operations of a program, with all their properties. Their arithmetic is in
 * evaluate/evaluate.c, and as a line of the price in solve/line.c. All other code looks operations
 * up in this list. */
#ifndef GROAT_OPERATION_H
#define GROAT_OPERATION_H

#include <stdint.h>

/* Which steps an operation reads. */
enum operands {
    READS_NONE,
    READS_A,
    READS_A_B,
    READS_A_B_C,
    READS_DEFAULT, /* b, unless it is NO_STEP */
    READS_LOOKUP,  /* the keys, values and bounds of lookup a */
    READS_SEARCH,  /* what search a reads once for a record */
    READS_PARTS    /* a, and the price and density of every material */
};

/* How a value's dependence on the price follows from that of its two operands. */
enum degree_rule {
    DEGREE_OF_NONE,     /* the code that writes the step knows it */
    DEGREE_OF_SUM,      /* as the worse of the two */
    DEGREE_OF_PRODUCT,  /* the same, but at least one must not be a line */
    DEGREE_OF_QUOTIENT, /* a ratio if b is a line */
    DEGREE_OF_CONDITION /* stepped if they are lines */
};

/* When a value may be missing. */
enum missing_rule { MISSING_AS_EITHER, MISSING_AS_BOTH, MISSING_AS_B };

/* How an operation is calculated for lines of the price. */
enum line_rule {
    LINE_BY_NONE,      /* not at all: prices are tried */
    LINE_BY_NAME,      /* by its own case */
    LINE_BY_AMOUNT,    /* from one amount */
    LINE_BY_AMOUNTS,   /* from two amounts */
    LINE_BY_CHOICE,    /* one of two amounts; if one is missing, the other */
    LINE_BY_COMPARISON /* yes or no, from two amounts */
};

/* Further properties of an operation. */
enum {
    FOLDS = 1 << 0,        /* with constant operands it is a constant */
    FOLDS_NUMBER = 1 << 1, /* with constant operands it is a number, a flag or missing */
    FAILS = 1 << 2, /* it can fail by itself: equal steps of two definitions are not merged, so that
                     * a message names the right one */
    SMALL = 1 << 3, /* small numbers a and b are calculated in line */
    JUMPS = 1 << 4, /* its value may jump as the price rises */
    WITH_RECORD = 1 << 5, /* it runs for each record, even if all its operands are settled */
    NEUTRAL_B = 1 << 6,   /* it is a where b is zero */
    NEUTRAL_A = 1 << 7,   /* it is b where a is zero */
    NEUTRAL_ONE = 1 << 8  /* where it is one, not zero */
};

/* X(NAME, its name in a dump, operands, degree, missing, line, further properties) */
/* clang-format off */
#define OPERATIONS(X)                                                                             \
    /* constants[a]; a text where b is 1 */                                                        \
    X(CONSTANT, "constant", READS_NONE, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NONE, 0)        \
    /* field a of the record; where it is absent, step b; without a step b it is                   \
     * missing where c is 1, and an error otherwise */                                             \
    X(FIELD, "field", READS_DEFAULT, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NONE,              \
      WITH_RECORD)                                                                                 \
    /* rate b, by default step a */                                                                \
    X(RATE, "rate", READS_A, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NONE, 0)                   \
    X(QUANTITY, "quantity", READS_NONE, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NONE,           \
      WITH_RECORD)                                                                                 \
    X(AS_OF, "as_of", READS_NONE, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NONE,                 \
      WITH_RECORD)                                                                                 \
    /* the list price being tried; a tells the searches apart */                                   \
    X(TRIAL, "trial", READS_NONE, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NAME, WITH_RECORD)    \
    /* a + b, and so on */                                                                         \
    X(ADD, "add", READS_A_B, DEGREE_OF_SUM, MISSING_AS_EITHER, LINE_BY_AMOUNTS,                    \
      FOLDS_NUMBER | SMALL | NEUTRAL_B | NEUTRAL_A)                                                \
    X(SUBTRACT, "subtract", READS_A_B, DEGREE_OF_SUM, MISSING_AS_EITHER, LINE_BY_AMOUNTS,          \
      FOLDS_NUMBER | SMALL | NEUTRAL_B)                                                            \
    X(MULTIPLY, "multiply", READS_A_B, DEGREE_OF_PRODUCT, MISSING_AS_EITHER, LINE_BY_AMOUNTS,      \
      FOLDS_NUMBER | SMALL | NEUTRAL_B | NEUTRAL_A | NEUTRAL_ONE)                                  \
    X(DIVIDE, "divide", READS_A_B, DEGREE_OF_QUOTIENT, MISSING_AS_EITHER, LINE_BY_AMOUNTS,         \
      FOLDS_NUMBER | FAILS | SMALL | NEUTRAL_B | NEUTRAL_ONE)                                      \
    /* 1 - a, where a must be below one; with b 1, a discount, not below zero either */            \
    X(COMPLEMENT, "complement", READS_A, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_AMOUNT,        \
      FOLDS_NUMBER | FAILS)                                                                        \
    /* a to multiples of b, by `rounding` */                                                       \
    X(ROUND, "round", READS_A_B, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_AMOUNT,                \
      FOLDS_NUMBER | FAILS | SMALL)                                                                \
    /* a to a price of ladder b, by `rounding` */                                                  \
    X(LADDER, "ladder", READS_A, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NONE,                  \
      FAILS | WITH_RECORD)                                                                         \
    /* of a and b; the other one where one is missing */                                           \
    X(LARGER, "larger", READS_A_B, DEGREE_OF_SUM, MISSING_AS_BOTH, LINE_BY_CHOICE,                 \
      FOLDS_NUMBER | SMALL)                                                                        \
    X(SMALLER, "smaller", READS_A_B, DEGREE_OF_SUM, MISSING_AS_BOTH, LINE_BY_CHOICE,               \
      FOLDS_NUMBER | SMALL)                                                                        \
    /* comparisons of numbers */                                                                   \
    X(EQUAL, "equal", READS_A_B, DEGREE_OF_CONDITION, MISSING_AS_EITHER, LINE_BY_COMPARISON,       \
      FOLDS_NUMBER | SMALL)                                                                        \
    X(BELOW, "below", READS_A_B, DEGREE_OF_CONDITION, MISSING_AS_EITHER, LINE_BY_COMPARISON,       \
      FOLDS_NUMBER | SMALL)                                                                        \
    /* a <= b */                                                                                   \
    X(UP_TO, "up to", READS_A_B, DEGREE_OF_CONDITION, MISSING_AS_EITHER, LINE_BY_COMPARISON,       \
      FOLDS_NUMBER | SMALL)                                                                        \
    X(TEXT_EQUAL, "text equal", READS_A_B, DEGREE_OF_CONDITION, MISSING_AS_EITHER, LINE_BY_NAME,   \
      FOLDS_NUMBER)                                                                                \
    X(AND, "and", READS_A_B, DEGREE_OF_CONDITION, MISSING_AS_EITHER, LINE_BY_NAME, FOLDS_NUMBER)   \
    X(OR, "or", READS_A_B, DEGREE_OF_CONDITION, MISSING_AS_EITHER, LINE_BY_NAME, FOLDS_NUMBER)     \
    X(NOT, "not", READS_A, DEGREE_OF_CONDITION, MISSING_AS_EITHER, LINE_BY_NAME, FOLDS_NUMBER)     \
    X(IS_MISSING, "is missing", READS_A, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NAME,          \
      FOLDS_NUMBER)                                                                                \
    /* a, or b where a is missing */                                                               \
    X(OTHERWISE, "otherwise", READS_A_B, DEGREE_OF_SUM, MISSING_AS_B, LINE_BY_NAME, FOLDS)         \
    /* b where a is yes, else c */                                                                 \
    X(SELECT, "select", READS_A_B_C, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NAME,              \
      FOLDS | JUMPS)                                                                               \
    /* a / b where b is above zero */                                                              \
    X(MARGIN, "margin", READS_A_B, DEGREE_OF_QUOTIENT, MISSING_AS_EITHER, LINE_BY_AMOUNTS,         \
      SMALL)                                                                                       \
    /* lookup a */                                                                                 \
    X(TABLE, "table", READS_LOOKUP, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NAME,               \
      FAILS | JUMPS)                                                                               \
    /* lookup a */                                                                                 \
    X(SLICED, "sliced", READS_LOOKUP, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NAME,             \
      FAILS | WITH_RECORD)                                                                         \
    /* of the parts in step a */                                                                   \
    X(WORTH, "worth", READS_PARTS, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NONE, WITH_RECORD)   \
    /* a as a price: whole smallest units, above zero */                                           \
    X(PIN, "pin", READS_A, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NONE, FAILS)                 \
    /* search a: the list price it finds */                                                        \
    X(PRICE, "price", READS_SEARCH, DEGREE_OF_NONE, MISSING_AS_EITHER, LINE_BY_NONE,               \
      FAILS | WITH_RECORD)
/* clang-format on */

#define OPERATION_NAME(NAME, text, operands, degree, missing, line, traits) OP_##NAME,
enum operation { OPERATIONS(OPERATION_NAME) OPERATIONS_COUNT };
#undef OPERATION_NAME

struct operation_traits {
    const char *name;
    uint8_t operands; /* enum operands */
    uint8_t degree;   /* enum degree_rule */
    uint8_t missing;  /* enum missing_rule */
    uint8_t line;     /* enum line_rule */
    uint16_t traits;
};

/* By operation. */
extern const struct operation_traits operation_traits[];

/* A bit for each operation that is calculated in line, for code where reading the table is too
 * slow. */
#define OPERATION_SMALL(NAME, text, operands, degree, missing, line, traits)                       \
    ((uint64_t)(((traits)&SMALL) != 0) << OP_##NAME) |
#define SMALL_OPERATIONS (OPERATIONS(OPERATION_SMALL) UINT64_C(0))

#endif
