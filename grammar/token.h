/* The list of all tokens of the rules language, with everything about each of them that the layout,
 * the messages and tidying need to know. Only how a token is read is in lexer.re, and where it may
 * come in a text is in grammar.y. */
#ifndef GROAT_TOKEN_H
#define GROAT_TOKEN_H

#include <stdbool.h>
#include <stdint.h>

#include "grammar.h"

/* The end of the text, to which the parser gives no name. */
enum { TOKEN_END = 0 };

/* What is true of a token. A trait that includes others implies them. */
enum token_trait {
    BEFORE_VALUE = 1 << 0,              /* it is not part of a value, so a `-` after it negates */
    WANTS_MORE = 1 << 1 | BEFORE_VALUE, /* a statement cannot end after it */
    AFTER_VALUE = 1 << 2,               /* it may come after an amount, and is not its unit */
    GOES_ON = 1 << 3 | AFTER_VALUE,     /* a line that begins with it continues the statement */
    OPERATOR = WANTS_MORE | GOES_ON,    /* it comes between two values */
    BEGINS_VALUE = 1 << 4,
    ENDS_VALUE = 1 << 5, /* a `/` after it divides, and a `-` subtracts */
    WHOLE_VALUE = BEGINS_VALUE | ENDS_VALUE,
    CONDITION = 1 << 6, /* it is part of a condition, or begins an `if` */
    COMPARISON = 1 << 7 | CONDITION,
    NO_EQUALS = 1 << 8, /* its value follows directly, without a `=` */
    /* A line of this block may begin with it. */
    IN_PRICE = 1 << 9 | NO_EQUALS,
    IN_GOAL = 1 << 10 | NO_EQUALS,
    IN_EXPECT = 1 << 11 | NO_EQUALS,
    IN_CHANNEL = 1 << 12,
    IN_PRODUCT = 1 << 13, /* as the name of a field */
    IN_BOTH = IN_CHANNEL | IN_PRODUCT
};

/* What comes after the keyword of a statement. */
enum token_form {
    NO_STATEMENT,
    FORM_CODE,        /* a currency's code */
    FORM_BLOCK,       /* `{` */
    FORM_NAMED_BLOCK, /* a name and `{` */
    FORM_TEXT_BLOCK,  /* a text and `{` */
    FORM_TABLE,       /* a name, `by`, keys and `{` */
    FORM_DEFINITION,  /* a name, `=` and a value */
    FORM_FUNCTION,    /* the same, or parameters before the `=` */
    FORM_UNIT,        /* a name, and perhaps `=` */
    FORM_SHOW,        /* a name, and perhaps `as` or `=` */
    FORM_TAX,         /* `added` or `included` */
    FORM_EXTRA,       /* the same as a definition; the keyword can never be a name */
    FORM_NAMES,
    FORM_TEXT,
    FORM_MESSAGE /* a text and `when` */
};

/* X(NAME, spelling, what a message calls it and others like it, traits, form). A token without a
 * spelling is a class, such as numbers. A message lists tokens in this order. */
/* clang-format off */
#define TOKENS(X)                                                                                  \
    X(END, NULL, NULL, 0, NO_STATEMENT)                                                            \
    X(BEGIN_VALUE, NULL, NULL, 0, NO_STATEMENT)                                                    \
    X(BEGIN_PARTS, NULL, NULL, 0, NO_STATEMENT)                                                    \
    X(RB, "}", "`}`", BEFORE_VALUE, NO_STATEMENT)                                                  \
    X(RP, ")", "`)`", ENDS_VALUE, NO_STATEMENT)                                                    \
    X(ASSIGN, "=", "`=`", OPERATOR | COMPARISON, NO_STATEMENT)                                     \
    X(LB, "{", "`{`", WANTS_MORE, NO_STATEMENT)                                                    \
    X(LP, "(", NULL, BEFORE_VALUE | BEGINS_VALUE, NO_STATEMENT)                                    \
    X(COLON, ":", "`:`", WANTS_MORE, NO_STATEMENT)                                                 \
    X(SEMICOLON, ";", NULL, BEFORE_VALUE, NO_STATEMENT)                                            \
    X(BY, "by", "`by`", BEFORE_VALUE, NO_STATEMENT)                                                \
    X(WHEN, "when", "`when`", BEFORE_VALUE, NO_STATEMENT)                                          \
    X(ALLOWING, "allowing", NULL, OPERATOR, NO_STATEMENT)                                          \
    X(LOST, "lost", "`lost`", GOES_ON | ENDS_VALUE, NO_STATEMENT)                                  \
    X(IF, "if", NULL, WANTS_MORE | CONDITION, NO_STATEMENT)                                        \
    X(THEN, "then", "`then`", OPERATOR | IN_EXPECT, NO_STATEMENT)                                  \
    X(ELSE, "else", "`else`", OPERATOR, NO_STATEMENT)                                              \
    X(ROUNDED, "rounded", NULL, OPERATOR, NO_STATEMENT)                                            \
    X(ROUNDED_TO, "rounded to", NULL, OPERATOR, NO_STATEMENT)                                      \
    X(UP_TO, "up to", NULL, WANTS_MORE, NO_STATEMENT)                                              \
    X(DOWN_TO, "down to", "`to`, `up to`, `down to` or `nearest to`", WANTS_MORE, NO_STATEMENT)    \
    X(NEAREST_TO, "nearest to", NULL, WANTS_MORE, NO_STATEMENT)                                    \
    X(EVEN_TO, "even to", NULL, WANTS_MORE, NO_STATEMENT)                                          \
    X(TO, "to", NULL, BEFORE_VALUE | AFTER_VALUE, NO_STATEMENT)                                    \
    X(LIKELY, "likely", NULL, BEFORE_VALUE | AFTER_VALUE, NO_STATEMENT)                            \
    X(COMMA, ",", "a comma", WANTS_MORE, NO_STATEMENT)                                             \
    X(TEXT, NULL, "a text in quotes", WHOLE_VALUE, NO_STATEMENT)                                   \
    X(PLUS, "+", "an operator", OPERATOR, NO_STATEMENT)                                            \
    X(MINUS, "-", NULL, WANTS_MORE, NO_STATEMENT)                                                  \
    X(STAR, "*", NULL, OPERATOR, NO_STATEMENT)                                                     \
    X(SLASH, "/", NULL, OPERATOR, NO_STATEMENT)                                                    \
    X(CARET, "^", NULL, WANTS_MORE, NO_STATEMENT)                                                  \
    X(NE, "!=", NULL, OPERATOR | COMPARISON, NO_STATEMENT)                                         \
    X(LT, "<", NULL, OPERATOR | COMPARISON, NO_STATEMENT)                                          \
    X(LE, "<=", NULL, OPERATOR | COMPARISON, NO_STATEMENT)                                         \
    X(GT, ">", NULL, OPERATOR | COMPARISON, NO_STATEMENT)                                          \
    X(GE, ">=", NULL, OPERATOR | COMPARISON, NO_STATEMENT)                                         \
    X(BETWEEN, "between", NULL, OPERATOR | CONDITION, NO_STATEMENT)                                \
    X(AND, "and", NULL, OPERATOR | CONDITION, NO_STATEMENT)                                        \
    X(OR, "or", NULL, OPERATOR | CONDITION, NO_STATEMENT)                                          \
    X(NOT, "not", NULL, WANTS_MORE | CONDITION, NO_STATEMENT)                                      \
    X(OTHERWISE, "otherwise", NULL, OPERATOR, NO_STATEMENT)                                        \
    X(OF, "of", NULL, OPERATOR, NO_STATEMENT)                                                      \
    X(PER, "per", NULL, OPERATOR, NO_STATEMENT)                                                    \
    X(PER_ORDER, "per order", NULL, GOES_ON | ENDS_VALUE, NO_STATEMENT)                            \
    X(EACH, "each", NULL, GOES_ON | ENDS_VALUE, NO_STATEMENT)                                      \
    X(AS, "as", NULL, OPERATOR, NO_STATEMENT)                                                      \
    X(AT_LEAST, "at least", NULL, OPERATOR, NO_STATEMENT)                                          \
    X(AT_MOST, "at most", NULL, OPERATOR, NO_STATEMENT)                                            \
    X(AT_MARGIN, "at margin", NULL, OPERATOR, NO_STATEMENT)                                        \
    X(MARKED_UP, "marked up", NULL, OPERATOR, NO_STATEMENT)                                        \
    X(MARKED_DOWN, "marked down", NULL, OPERATOR, NO_STATEMENT)                                    \
    X(IS_MISSING, "is missing", NULL, GOES_ON | ENDS_VALUE, NO_STATEMENT)                          \
    X(OR_MORE, "or more", NULL, GOES_ON | ENDS_VALUE, NO_STATEMENT)                                \
    X(WORTH_OF, "worth of", NULL, WANTS_MORE | BEGINS_VALUE, NO_STATEMENT)                         \
    X(NUMBER, NULL, "a value", WHOLE_VALUE, NO_STATEMENT)                                          \
    X(PERCENT, NULL, NULL, WHOLE_VALUE, NO_STATEMENT)                                              \
    X(FRACTION, NULL, NULL, WHOLE_VALUE, NO_STATEMENT)                                             \
    X(DATE, NULL, NULL, WHOLE_VALUE, NO_STATEMENT)                                                 \
    X(SYMBOL, NULL, NULL, WHOLE_VALUE, NO_STATEMENT)                                               \
    X(YES, "yes", NULL, WHOLE_VALUE, NO_STATEMENT)                                                 \
    X(NO, "no", NULL, WHOLE_VALUE, NO_STATEMENT)                                                   \
    X(NAME, NULL, "a name", WHOLE_VALUE, NO_STATEMENT)                                             \
    X(EVERY, "every", "`every` or `ends in`", BEFORE_VALUE, NO_STATEMENT)                          \
    X(ENDS_IN, "ends in", NULL, BEFORE_VALUE, NO_STATEMENT)                                        \
    X(ADDED, "added", "`added` or `included`", BEFORE_VALUE | NO_EQUALS, NO_STATEMENT)             \
    X(INCLUDED, "included", NULL, BEFORE_VALUE | NO_EQUALS, NO_STATEMENT)                          \
    X(NL, NULL, "the end of the line", 0, NO_STATEMENT)                                            \
    X(CURRENCY, "currency", "a statement", 0, FORM_CODE)                                           \
    X(UNIT, "unit", NULL, IN_PRODUCT, FORM_UNIT)                                                   \
    X(USE, "use", NULL, 0, FORM_TEXT)                                                              \
    X(MATERIALS, "materials", NULL, 0, FORM_BLOCK)                                                 \
    X(PRODUCT, "product", NULL, 0, FORM_BLOCK)                                                     \
    X(PRICE, "price", NULL, BEGINS_VALUE | IN_CHANNEL, FORM_BLOCK)                                 \
    X(CHANNEL, "channel", NULL, 0, FORM_NAMED_BLOCK)                                               \
    X(ROUNDING, "rounding", NULL, 0, FORM_NAMED_BLOCK)                                             \
    X(GOAL, "goal", NULL, 0, FORM_TEXT_BLOCK)                                                      \
    X(EXPECT, "expect", NULL, 0, FORM_TEXT_BLOCK)                                                  \
    X(TABLE, "table", NULL, 0, FORM_TABLE)                                                         \
    X(RATE, "rate", NULL, IN_PRODUCT, FORM_DEFINITION)                                             \
    X(LET, "let", NULL, IN_BOTH, FORM_FUNCTION)                                                    \
    X(COST, "cost", NULL, BEGINS_VALUE | IN_BOTH, FORM_DEFINITION)                                 \
    X(PAY, "pay", NULL, BEGINS_VALUE | IN_BOTH, FORM_DEFINITION)                                   \
    X(FEE, "fee", NULL, IN_BOTH, FORM_DEFINITION)                                                  \
    X(BUYER_PAYS, "buyer pays", NULL, BEFORE_VALUE | IN_CHANNEL, FORM_EXTRA)                       \
    X(TAX, "tax", NULL, BEGINS_VALUE | IN_CHANNEL, FORM_TAX)                                       \
    X(SHOW, "show", NULL, IN_BOTH, FORM_SHOW)                                                      \
    X(WARN, "warn", NULL, IN_CHANNEL, FORM_MESSAGE)                                                \
    X(REFUSE, "refuse", NULL, IN_CHANNEL, FORM_MESSAGE)                                            \
    X(SAME_PRICE_ON, "same price on", NULL, BEFORE_VALUE, FORM_NAMES)                              \
    X(AIM, "aim", NULL, IN_PRICE, NO_STATEMENT)                                                    \
    X(SET, "set", NULL, IN_PRICE, NO_STATEMENT)                                                    \
    X(FLOOR, "floor", NULL, IN_PRICE, NO_STATEMENT)                                                \
    X(CEILING, "ceiling", NULL, IN_PRICE, NO_STATEMENT)                                            \
    X(DISCOUNT, "discount", NULL, IN_PRICE, NO_STATEMENT)                                          \
    X(PIN, "pin", NULL, IN_PRICE, NO_STATEMENT)                                                    \
    X(ROUND, "round", NULL, IN_PRICE, NO_STATEMENT)                                                \
    X(NEEDS, "needs", NULL, IN_GOAL, NO_STATEMENT)                                                 \
    X(GIVES, "gives", NULL, IN_GOAL, NO_STATEMENT)                                                 \
    X(TAKES, "takes", NULL, IN_GOAL, NO_STATEMENT)                                                 \
    X(HAS, "has", NULL, IN_GOAL, NO_STATEMENT)                                                     \
    X(ONLY_WHEN, "only when", NULL, BEFORE_VALUE | NO_EQUALS | IN_CHANNEL, NO_STATEMENT)           \
    X(ON, "on", NULL, BEFORE_VALUE, NO_STATEMENT)                                                  \
    X(FROM, "from", NULL, BEFORE_VALUE | AFTER_VALUE, NO_STATEMENT)                                \
    X(OPTIONAL, "optional", NULL, AFTER_VALUE, NO_STATEMENT)                                       \
    X(WEIGHS, "weighs", NULL, BEFORE_VALUE, NO_STATEMENT)                                          \
    X(BELOW, "below", NULL, BEFORE_VALUE, NO_STATEMENT)                                            \
    X(OVER, "over", NULL, BEFORE_VALUE, NO_STATEMENT)                                              \
    X(ANY, "any", NULL, 0, NO_STATEMENT)                                                           \
    X(SLICED, "sliced", NULL, 0, NO_STATEMENT)                                                     \
    X(NONE, "none", NULL, 0, NO_STATEMENT)                                                         \
    X(REFUSED, "refused", NULL, 0, NO_STATEMENT)                                                   \
    X(WARNED, "warned", NULL, 0, NO_STATEMENT)                                                     \
    X(ERROR, "error", NULL, 0, NO_STATEMENT)                                                       \
    X(MARKED, "marked", NULL, 0, NO_STATEMENT)                                                     \
    X(WORTH, "worth", NULL, 0, NO_STATEMENT)                                                       \
    X(MORE, "more", NULL, 0, NO_STATEMENT)                                                         \
    X(MISSING, "missing", NULL, 0, NO_STATEMENT)
/* clang-format on */

#define TOKEN_ONE(NAME, spelling, said, traits, form) +1
enum { TOKENS_COUNT = 0 TOKENS(TOKEN_ONE) };
#undef TOKEN_ONE

struct token_traits {
    const char *spelling; /* NULL if it is a class */
    const char *said;     /* NULL if no message lists it */
    uint16_t traits;      /* enum token_trait */
    uint8_t form;         /* enum token_form */
};

/* Indexed by the numbers in grammar.h. */
extern const struct token_traits token_traits[];

static inline bool token_is(int kind, enum token_trait trait)
{
    unsigned wanted = trait;
    return (token_traits[kind].traits & wanted) == wanted;
}

/* Whether it is the keyword of a statement. */
static inline bool token_begins_statement(int kind)
{
    return token_traits[kind].form != NO_STATEMENT;
}

#endif
