/* Literals: the value of a written amount, in base units, and its type. */
#ifndef GROAT_LITERAL_H
#define GROAT_LITERAL_H

#include "names/shop.h"

/* What reading a literal needs: the shop's units and currency, and where to report errors and store
 * results. */
struct literal_scope {
    const struct shop *shop;
    struct diagnostics *diagnostics;
    struct num_heap *heap;
    struct arena *arena;
};

/* The unit in which a maker of this shop would read a kind of amount. */
struct familiar_unit {
    struct dimension dimension;
    struct num factor;
    const char *text; /* "min"; "per h" for money */
    const char *per;  /* for money per something: "h"; otherwise NULL */
};

struct literal {
    struct type type;
    struct num number; /* numbers in base units; flags 0 or 1; dates as days */
    const char *text;  /* for a text */
    struct num step;   /* one unit of the last written decimal: 0.1 for 35.1, 0.001 for 35.1% */
    bool bare;         /* a number without sign or unit */
    bool percent;
};

enum literal_outcome {
    LITERAL_READ,
    LITERAL_NONE, /* the expression is not just a literal */
    LITERAL_WRONG /* reported */
};

enum literal_outcome literal_read(struct literal_scope scope, const struct expression *expression,
                                  struct literal *out);

/* Finds the dimension of a unit (`USD per h`, `ft^2`) and its size in base units. Returns false if
 * it is unknown, which is reported. */
bool literal_unit(struct literal_scope scope, const struct tree_unit *unit,
                  struct dimension *dimension, struct num *factor);
/* Whether the name is a unit here; reports nothing. */
bool literal_is_unit(const struct shop *shop, const char *name);
/* Whether the word or sign means the shop's money. */
bool literal_is_money(const struct shop *shop, const char *symbol);
/* Whether the expression is just an amount of money: `$3`, `3 USD`, `3 kr`. */
bool literal_writes_money(const struct shop *shop, const struct expression *expression);
/* The unit as it is written. */
const char *literal_unit_text(struct literal_scope scope, const struct tree_unit *unit);
/* A unit to show amounts in, from the scope's arena. NULL for money and plain numbers, which need
 * none. For `USD per h` it is "per h". */
const struct familiar_unit *literal_familiar(struct literal_scope scope,
                                             const struct tree_unit *unit);
/* A unit of that size with its name; `per` as in the structure. */
struct familiar_unit *literal_familiar_named(struct literal_scope scope, struct dimension dimension,
                                             struct num factor, const char *text, const char *per);
/* Money per something, `per h`. */
struct familiar_unit *literal_familiar_per(struct literal_scope scope, struct dimension dimension,
                                           struct num factor, const char *per);
/* The only unit that an amount is written in, `h` of `2 h` or `per h` of `$26 per h`; NULL if there
 * is none, or more than one. */
const struct familiar_unit *literal_written_in(struct literal_scope scope,
                                               const struct expression *expression);
/* The day number (type.h) of `2027-01-31`; false if there is no such day. */
bool literal_date(const char *text, int64_t *days);
/* Writes the date with this day number; needs 11 bytes. Follows snprintf. */
size_t literal_write_date(int64_t days, char *buffer, size_t size);

/* Reports an arithmetic failure in a literal or a constant, if there is one. Returns LITERAL_READ
 * if there is none, otherwise LITERAL_WRONG. */
enum literal_outcome literal_report(struct literal_scope scope, struct span span,
                                    enum num_status status);

#endif
