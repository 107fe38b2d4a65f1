/* Checks a shop: every value's kind, dimension and level, before anything is evaluated. */
#ifndef GROAT_CHECK_H
#define GROAT_CHECK_H

#include "names/shop.h"
#include "types/literal.h"

/* The type of a value, and its place in the engine's order of names. */
struct typed {
    struct type type;
    enum level level;
};

/* Limits on checking, because calls and definitions can be nested so that checking would never
 * end. */
struct check_bounds {
    size_t depth_most;
    size_t work_left; /* expressions that may still be checked */
    bool met;         /* a limit was reached, which was reported */
};

/* Checks the whole shop and reports every error. Also prepares its units and currency. `beginning`
 * is the beginning of the rules; missing statements are reported there. `whole` says that every
 * statement could be read; otherwise unknown names are not reported, because a statement that could
 * not be read may define them. */
void check_shop(struct shop *shop, struct span beginning, struct check_bounds bounds, bool whole);

/* ---- between the files of this room ---- */

/* A function's parameter while its body is checked. */
struct parameter {
    const char *name;
    struct typed typed;
    struct parameter *next;
};

/* The definitions being checked, innermost first. */
struct trail {
    const struct symbol *symbol;
    const struct trail *outer;
};

struct check {
    struct shop *shop;
    struct literal_scope scope;
    unsigned channel; /* the channel in which names are looked up */
    const struct parameter *parameters;
    const struct trail *trail;
    size_t depth;
    struct check_bounds *bounds;
    bool whole; /* every statement could be read */
};

struct typed check_expression(struct check *check, const struct expression *expression);
/* Whether the limits allow one more thing to be checked; reports once that they do not. */
bool check_goes_on(struct check *check, struct span span);
/* The type and level of the symbol. Its expression is checked the first time. */
struct typed check_symbol(struct check *check, struct symbol *symbol, struct span from);
/* Checks a function's body for these arguments. */
struct typed check_call(struct check *check, struct symbol *function,
                        const struct expression *call);
/* Checks a table's rows and keys; `call` is NULL for the declared keys. */
struct typed check_table(struct check *check, struct symbol *table,
                         const struct expression *arguments, struct span from);

/* Reports an error, and gives what is then known of the type: nothing. `help` may be NULL. */
struct typed check_refuse(struct check *check, struct span span, const char *help,
                          const char *format, ...) __attribute__((format(printf, 4, 5)));
struct typed typed_wrong(void);
struct typed typed_kind(enum type_kind kind, enum level level);
struct typed typed_number(struct dimension dimension, enum level level);
bool type_equal(struct type a, struct type b);
/* "money per volume", "a text", "yes or no". */
const char *type_words(struct check *check, struct type type);
/* The source text of an expression if it is short, otherwise "this". */
const char *expression_words(struct check *check, const struct expression *expression);

/* For a call of something that takes no arguments: the same with an operator before the
 * parentheses. */
const char *propose_product(struct check *check, const struct expression *call);
/* `a at least b` for `max(a, b)`, and `at most` for `min`; NULL for any other call. */
const char *propose_limit(struct check *check, const struct expression *call);
/* A product of the value with a field or a rate that has the wanted type, to propose; or NULL. */
const char *factor_for(struct check *check, const struct expression *expression,
                       struct dimension has, struct type wanted);

/* Each reports and returns false if the value is not of the kind. A value with an error already
 * reported is not reported again. */
bool check_flag(struct check *check, const struct expression *expression, struct typed typed);
bool check_plain(struct check *check, const struct expression *expression, struct typed typed);
bool check_money(struct check *check, const struct expression *expression, struct typed typed);
bool check_same(struct check *check, const struct expression *expression, struct typed typed,
                struct type wanted);
/* The same, with what to propose. */
bool check_same_or(struct check *check, const struct expression *expression, struct typed typed,
                   struct type wanted, const char *help);
/* Reports a name that no channel has, and proposes the nearest one. `quoted`: it is written as a
 * text. */
struct typed report_no_channel(struct check *check, struct word name, bool quoted);
/* Checks that a value comes early enough in the order for `what` to use it. */
void check_level(struct check *check, const struct expression *expression, struct typed typed,
                 enum level most, const char *what, const char *help);

#endif
