/* Checks a shop: every value's kind, dimension and level, before anything is evaluated. */
#ifndef GROAT_CHECK_H
#define GROAT_CHECK_H

#include "names/shop.h"
#include "types/literal.h"

/* What a value is, and how far along the engine's order of names it stands. */
struct typed {
    struct type type;
    enum level level;
};

/* How far looking may go: functions and what leans on what can be written to take for ever. */
struct check_bounds {
    size_t depth_most;
    size_t work_left; /* expressions to be looked at */
    bool met;         /* one of them, and that is reported */
};

/* The whole shop, every error at once. Also makes its units and currency ready. `beginning` is where
 * the rules begin: what is missing altogether is reported there. `whole` says that every statement
 * could be read; otherwise a name that is not known may stand in one that could not, and is passed
 * over in silence. */
void check_shop(struct shop *shop, struct span beginning, struct check_bounds bounds, bool whole);

/* ---- between the files of this room ---- */

/* A function's parameter while its body is looked at. */
struct parameter {
    const char *name;
    struct typed typed;
    struct parameter *next;
};

/* The definitions that are being looked at, innermost first. */
struct trail {
    const struct symbol *symbol;
    const struct trail *outer;
};

struct check {
    struct shop *shop;
    struct literal_scope scope;
    unsigned channel; /* where names are looked up */
    const struct parameter *parameters;
    const struct trail *trail;
    size_t depth;
    struct check_bounds *bounds;
    bool whole; /* every statement could be read */
};

struct typed check_expression(struct check *check, const struct expression *expression);
/* Whether there is depth and work left for one thing more; reports, once, that there is not. */
bool check_goes_on(struct check *check, struct span span);
/* What the symbol is worth, its own expression checked when it is first met. */
struct typed check_symbol(struct check *check, struct symbol *symbol, struct span from);
/* A function's body for these arguments. */
struct typed check_call(struct check *check, struct symbol *function,
                        const struct expression *call);
/* Table rows and keys; `call` is NULL for the declared keys. */
struct typed check_table(struct check *check, struct symbol *table,
                         const struct expression *arguments, struct span from);

struct typed typed_wrong(void);
struct typed typed_kind(enum type_kind kind, enum level level);
struct typed typed_number(struct dimension dimension, enum level level);
bool type_equal(struct type a, struct type b);
/* "money per volume", "a text", "yes or no". */
const char *type_words(struct check *check, struct type type);
/* The source text of an expression when it is short, else "this". */
const char *expression_words(struct check *check, const struct expression *expression);

/* What is called although it takes nothing, with a sign before the parentheses. */
const char *propose_product(struct check *check, const struct expression *call);
/* `a at least b` for `max(a, b)`, and `at most` for `min`; NULL for any other call. */
const char *propose_limit(struct check *check, const struct expression *call);
/* A product of the value with a field or a rate that is of the wanted type, to propose; or NULL. */
const char *factor_for(struct check *check, const struct expression *expression,
                       struct dimension has, struct type wanted);

/* Each reports and returns false when the value is not of the kind; a wrong one passes in silence. */
bool check_flag(struct check *check, const struct expression *expression, struct typed typed);
bool check_plain(struct check *check, const struct expression *expression, struct typed typed);
bool check_money(struct check *check, const struct expression *expression, struct typed typed);
bool check_same(struct check *check, const struct expression *expression, struct typed typed,
                struct type wanted);
/* The same, with what to propose. */
bool check_same_or(struct check *check, const struct expression *expression, struct typed typed,
                   struct type wanted, const char *help);
/* A name that is no channel's, with the nearest one that is. `quoted`: it is written as a text. */
void report_no_channel(struct check *check, struct word name, bool quoted);
/* That a value stands early enough: `what` may not use it otherwise. */
void check_level(struct check *check, const struct expression *expression, struct typed typed,
                 enum level most, const char *what, const char *help);

#endif
