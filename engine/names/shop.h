/* A shop: everything that a rules file and the files it uses define, by name and by channel.
 *
 * Built in two steps: load.c reads the files one after the other; collect.c enters their
 * statements. Types and levels are filled in by the next stage. */
#ifndef GROAT_SHOP_H
#define GROAT_SHOP_H

#include "memory/index.h"
#include "number/number.h"
#include "source/diagnostic.h"
#include "tree/tree.h"
#include "unit/type.h"

enum symbol_kind {
    SYMBOL_FIELD,
    SYMBOL_RATE,
    SYMBOL_MATERIAL,
    SYMBOL_LET,
    SYMBOL_FUNCTION,
    SYMBOL_COST,
    SYMBOL_PAY,
    SYMBOL_FEE,
    SYMBOL_EXTRA, /* a buyer-pays line */
    SYMBOL_TABLE,
    SYMBOL_ROUNDING,
    SYMBOL_SHOW
};

/* What the engine itself names, in the order in which it is found. */
enum figure {
    FIGURE_QUANTITY,
    FIGURE_AS_OF,
    FIGURE_CHANNEL,
    FIGURE_COST,
    FIGURE_PAY,
    FIGURE_LIST,
    FIGURE_PRICE,
    FIGURE_EXTRAS,
    FIGURE_TAX,
    FIGURE_PAID,
    FIGURE_NET,
    FIGURE_FEES,
    FIGURE_KEEP,
    FIGURE_PROFIT,
    FIGURE_MARGIN,
    FIGURE_TAKE_HOME,
    FIGURES
};

/* How far along the engine's order a value stands: it may use what has a lower level or its own. */
enum level {
    LEVEL_RECORD,
    LEVEL_COST,
    LEVEL_LIST,
    LEVEL_PRICE, /* and each buyer-pays line */
    LEVEL_EXTRAS,
    LEVEL_TAX,
    LEVEL_NET, /* and each fee */
    LEVEL_FEES,
    LEVEL_KEEP,
    LEVEL_ALL
};

enum { NO_CHANNEL = UINT16_MAX };

/* More of them than any shop has. They are looked through one after the other, channels with every
 * definition beside them. */
enum { CHANNELS_MOST = 1000, UNITS_MOST = 1000, PARAMETERS_MOST = 16 };

enum typing { TYPING_NOT_YET, TYPING_NOW, TYPING_DONE };

struct symbol {
    enum symbol_kind kind;
    const char *name;
    struct statement *statement;
    uint16_t channel;        /* whose it is; NO_CHANNEL for the shop */
    uint32_t number;         /* among all symbols */
    uint32_t order;          /* among those of its kind: a field's column, a rate's place */
    struct symbol *replaces; /* the shop's own of that name, for a channel's */
    bool used;
    bool percent;                     /* a plain number that the rules write as a percentage */
    const struct familiar_unit *unit; /* the one it is written in; NULL for none of its own */
    /* of the next stage */
    enum typing typing;
    enum level level;
    struct type type;
    struct instance *instances; /* of a function: the types it was called with */
};

struct symbol_set {
    struct symbol **items;
    size_t count, room;
};

struct statement_set {
    struct statement **items;
    size_t count, room;
};

/* The lines of a price block, by kind; NULL where there is none. `aim` and `set` exclude each
 * other. A line that says `none` counts as there is none. */
struct price_lines {
    struct statement *aim, *set, *floor, *ceiling, *discount, *pin, *round;
};

/* One way of selling, with the shop's lines and its own already put together. */
struct channel {
    const char *name;
    struct statement *statement; /* NULL for `direct` */
    struct symbol_set costs;     /* costs and pays, in the file's order */
    struct symbol_set fees;
    struct symbol_set extras;
    struct symbol_set shows;
    struct statement_set warns;
    struct statement_set refuses;
    struct statement *only_when;
    struct statement *tax;
    struct price_lines price;
};

/* A unit the file defines. */
struct shop_unit {
    const char *name;
    struct statement *statement;
    struct dimension dimension;
    struct num factor;
    bool ready, busy, tried;
};

/* The lines of a goal, in the order of their statements' kinds. */
enum goal_line { GOAL_NEEDS, GOAL_GIVES, GOAL_TAKES, GOAL_HAS, GOAL_LINES };

struct shop {
    struct arena *arena;
    struct diagnostics *diagnostics;
    struct num_heap *heap; /* for the numbers of literals */

    struct statement *currency; /* NULL until it is given */
    int decimals;
    bool unrounded;      /* no ladder holds, and the smallest unit is a millionth of itself */
    int finest;          /* decimals of the smallest unit */
    struct num smallest; /* one smallest unit of the currency */

    struct shop_unit *units;
    size_t units_count, units_room;
    struct index unit_index;               /* of `units` by name */
    const char *dimension_names[DIM_MOST]; /* of the declared ones, from 0 */
    size_t dimensions_declared;

    struct symbol_set symbols;       /* every one, by number */
    struct symbol_set fields, rates; /* rates: materials too, in the file's order */
    struct index symbol_index;       /* of `symbols` by name and channel */

    struct channel *channels;
    size_t channels_count;
    struct statement_set same_price, goals, expects;
    struct type (*goal_types)[GOAL_LINES]; /* by goal, once they are checked */
    struct channel whole;                  /* the shop's own lines, before any channel's */

    size_t definitions, definitions_most, table_rows_most;
    bool overfull; /* some definitions were left out, and that is reported */
};

/* The symbol that the name means on a channel (NO_CHANNEL: in the shop), or NULL. */
struct symbol *shop_find(const struct shop *shop, unsigned channel, const char *name);
/* The unit of that name which the shop defines, or NULL. */
struct shop_unit *shop_unit(const struct shop *shop, const char *name);
/* The channel's number, or NO_CHANNEL. */
unsigned shop_channel(const struct shop *shop, const char *name);
/* The engine's own name, or FIGURES. */
enum figure figure_find(const char *name);
const char *figure_name(enum figure figure);
enum level figure_level(enum figure figure);
/* "rate", "cost", "buyer pays": how messages call one of the kind. */
const char *symbol_word(enum symbol_kind kind);

/* Enters every statement of every file, in the order of reading; reports doubles and what stands
 * where it may not. */
void shop_collect(struct shop *shop, struct statement *statements);

#endif
