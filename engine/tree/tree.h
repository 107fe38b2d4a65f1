/* The tree: the statements of a rules file, before any name or unit is resolved.
 *
 * A tree lives in the arena that it was read into. Its parts know the spans they came from. */
#ifndef GROAT_TREE_H
#define GROAT_TREE_H

#include "source/source.h"

/* A name or a literal, as it is written. */
struct word {
    const char *text; /* ends with a zero byte; texts are without quotes and escapes */
    struct span span;
};

/* `ft^2`, or `USD per h`: a unit, or one unit per another. */
struct tree_unit {
    struct word name;
    int power;             /* 1 if none is written; 0 if it is wrong, which was reported */
    struct tree_unit *per; /* NULL if there is none */
};

enum expression_kind {
    /* literals */
    EXPRESSION_NUMBER,   /* name: the digits */
    EXPRESSION_PERCENT,  /* name: the digits, without `%` */
    EXPRESSION_MONEY,    /* name: the digits; unit: the sign, word or code */
    EXPRESSION_QUANTITY, /* name: the digits; unit; left: the quantity before it, `1 h` of
                              `1 h 20 min`, or NULL */
    EXPRESSION_FRACTION, /* name: `3/4` or `1-1/2`; unit */
    EXPRESSION_TEXT,     /* name */
    EXPRESSION_DATE,     /* name */
    EXPRESSION_YES,
    EXPRESSION_NO,
    EXPRESSION_BROKEN, /* replaces something wrong that was reported */
    /* names */
    EXPRESSION_NAME,  /* name */
    EXPRESSION_CALL,  /* name, arguments */
    EXPRESSION_ON,    /* name, channel */
    EXPRESSION_WORTH, /* name: of the parts field */
    /* one or two sides: left, right */
    EXPRESSION_NEGATE,     /* left */
    EXPRESSION_NOT,        /* left */
    EXPRESSION_IS_MISSING, /* left */
    EXPRESSION_GROUP,      /* left: what is in parentheses */
    EXPRESSION_PER,        /* left; name: the number, or no text; unit, or NULL */
    EXPRESSION_EACH,       /* left */
    EXPRESSION_PER_ORDER,  /* left */
    EXPRESSION_AS,         /* left, unit */
    EXPRESSION_ADD,
    EXPRESSION_SUBTRACT,
    EXPRESSION_MULTIPLY,
    EXPRESSION_DIVIDE,
    EXPRESSION_MARKED_UP,
    EXPRESSION_MARKED_DOWN,
    EXPRESSION_AT_MARGIN,
    EXPRESSION_ALLOWING,
    EXPRESSION_OF,
    EXPRESSION_OTHERWISE,
    EXPRESSION_AT_LEAST,
    EXPRESSION_AT_MOST,
    EXPRESSION_EQUAL,
    EXPRESSION_UNEQUAL,
    EXPRESSION_BELOW,
    EXPRESSION_UP_TO, /* <= */
    EXPRESSION_ABOVE,
    EXPRESSION_NOT_BELOW, /* >= */
    EXPRESSION_AND,
    EXPRESSION_OR,
    EXPRESSION_ROUNDED, /* left to right, by `rounding` */
    /* three parts: left, right, third */
    EXPRESSION_BETWEEN, /* left between right and third */
    EXPRESSION_IF,      /* if left then right else third */
    /* only the whole value of a rate, a default or a cell, never part of another expression */
    EXPRESSION_RANGE /* left to right likely third, or NULL */
};

enum tree_rounding { ROUNDING_PLAIN, ROUNDING_UP, ROUNDING_DOWN, ROUNDING_NEAREST, ROUNDING_EVEN };

struct expression {
    enum expression_kind kind;
    enum tree_rounding rounding;
    unsigned depth; /* of this tree, itself included; 0 for a leaf */
    struct span span;
    struct word name;
    struct word channel;
    struct tree_unit *unit;
    struct expression *left, *right, *third;
    struct expression *arguments; /* of a call, chained by `next` */
    struct expression *next;
};

enum statement_kind {
    STATEMENT_CURRENCY,   /* name: the code; symbol */
    STATEMENT_UNIT,       /* name; value, or NULL for a new dimension */
    STATEMENT_USE,        /* text */
    STATEMENT_MATERIALS,  /* parts: STATEMENT_MATERIAL */
    STATEMENT_MATERIAL,   /* name, value; other: the density, or NULL */
    STATEMENT_PRODUCT,    /* parts: STATEMENT_FIELD */
    STATEMENT_FIELD,      /* name; unit: the type; as; text: the column, or none; optional;
                            value: the default, or NULL */
    STATEMENT_ROUNDING,   /* name; parts: STATEMENT_BAND */
    STATEMENT_BAND,       /* other: the bound, NULL for `otherwise`; value: `every`, or NULL;
                            words: the endings */
    STATEMENT_TABLE,      /* name; keys; sliced; parts: STATEMENT_ROW */
    STATEMENT_ROW,        /* cells, NULL for `otherwise`; value */
    STATEMENT_CHANNEL,    /* name; parts: lines */
    STATEMENT_SAME_PRICE, /* words: the channels */
    STATEMENT_GOAL,       /* text; parts: STATEMENT_NEEDS … STATEMENT_HAS */
    STATEMENT_NEEDS,      /* value; the same for the next three */
    STATEMENT_GIVES,
    STATEMENT_TAKES,
    STATEMENT_HAS,
    STATEMENT_EXPECT, /* text; parts: STATEMENT_GIVEN … STATEMENT_THEN_ERROR */
    STATEMENT_GIVEN,  /* name, value */
    STATEMENT_ON,     /* name */
    STATEMENT_THEN,   /* value */
    STATEMENT_THEN_REFUSED,
    STATEMENT_THEN_WARNED, /* text */
    STATEMENT_THEN_ERROR,
    STATEMENT_PRICE, /* parts: STATEMENT_AIM … STATEMENT_ROUND */
    STATEMENT_AIM,   /* value */
    STATEMENT_SET,   /* value */
    STATEMENT_FLOOR, /* value, NULL for `none`; the same for the next three */
    STATEMENT_CEILING,
    STATEMENT_DISCOUNT,
    STATEMENT_PIN,
    STATEMENT_ROUND, /* rounding; value: the ladder's name or an amount of money */
    /* lines of the shop or of a channel */
    STATEMENT_RATE, /* name, value */
    STATEMENT_LET,  /* name, value; words: the parameters; function */
    STATEMENT_COST, /* name, value */
    STATEMENT_PAY,
    STATEMENT_FEE,
    STATEMENT_BUYER_PAYS,
    STATEMENT_TAX_ADDED, /* value */
    STATEMENT_TAX_INCLUDED,
    STATEMENT_SHOW, /* name; as, or NULL; value, NULL for the name alone */
    STATEMENT_WARN, /* text, value */
    STATEMENT_REFUSE,
    STATEMENT_ONLY_WHEN /* value */
};

enum cell_kind {
    CELL_UP_TO,
    CELL_BELOW,
    CELL_OVER,
    CELL_OR_MORE,
    CELL_RANGE,
    CELL_VALUE,
    CELL_TEXTS,
    CELL_ANY
};

/* One cell of a table's row. */
struct tree_cell {
    enum cell_kind kind;
    struct span span;
    struct expression *bound; /* a range's lower bound; texts are chained by `next` */
    struct expression *upper; /* a range's upper bound */
    struct tree_cell *next;
};

struct tree_word {
    struct word word;
    struct tree_word *next;
};

struct statement {
    enum statement_kind kind;
    struct span span; /* of the head: the words up to `=` or `{` */
    struct word name;
    struct word symbol;
    struct word text; /* text.text is NULL if there is none */
    struct tree_unit *unit;
    struct tree_unit *as;
    bool optional, sliced, function;
    enum tree_rounding rounding;
    struct expression *value, *other;
    struct expression *keys; /* chained by `next` */
    struct tree_cell *cells;
    struct tree_word *words;
    struct statement *parts;
    struct statement *next;
};

/* A part of a parts cell, `linseed_oil 15 ml`. */
struct tree_part {
    struct word name;
    struct expression *amount;
    struct tree_part *next;
};

/* The word for a statement of this kind in messages: "cost", "fee", "table". */
const char *statement_word(enum statement_kind kind);

#endif
