/* A shop: everything that a rules file and the files it uses define, by name and by channel.
 *
 * It is built in two steps: load.c reads the files one after the other, and collect.c enters their
 * statements. The next stage fills in types and levels. */
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

/* The names that the engine defines itself, in the order in which it calculates them. */
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

/* The place of a value in the engine's order. It may use values of its own or a lower level. */
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

/* More than any shop has. They are searched one after the other, and each channel has a list of
 * every definition. */
enum { CHANNELS_MOST = 1000, UNITS_MOST = 1000, PARAMETERS_MOST = 16 };

enum typing { TYPING_NOT_YET, TYPING_NOW, TYPING_DONE };

struct symbol {
    enum symbol_kind kind;
    const char *name;
    struct statement *statement;
    uint16_t channel;        /* the channel that defines it; NO_CHANNEL for the shop */
    uint32_t number;         /* among all symbols */
    uint32_t order;          /* among those of its kind: the index of a field or a rate */
    struct symbol *replaces; /* for a channel's definition: the shop's of the same name */
    bool used;
    bool percent;                     /* a plain number that the rules write as a percentage */
    const struct familiar_unit *unit; /* the unit it is written in; NULL for none */
    /* filled in by the next stage */
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

/* The lines of a price block, by kind; NULL where there is none. There is never both an `aim` and a
 * `set`. A line that says `none` counts as no line. */
struct price_lines {
    struct statement *aim, *set, *floor, *ceiling, *discount, *pin, *round;
};

/* One channel, with the shop's lines and its own already combined. */
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
    bool unrounded;      /* ladders do not apply, and a millionth of the smallest unit takes its
                          * place */
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
    struct type (*goal_types)[GOAL_LINES]; /* by goal; set when they are checked */
    struct channel whole;                  /* the shop's own lines, before any channel's */

    size_t definitions, definitions_most, table_rows_most;
    bool overfull; /* some definitions were left out, which was reported */
};

/* The symbol that the name means on a channel (NO_CHANNEL: in the shop), or NULL. */
struct symbol *shop_find(const struct shop *shop, unsigned channel, const char *name);
/* The unit with this name that the shop defines, or NULL. */
struct shop_unit *shop_unit(const struct shop *shop, const char *name);
/* The channel's number, or NO_CHANNEL. */
unsigned shop_channel(const struct shop *shop, const char *name);
/* The engine's own figure with this name, or FIGURES. */
enum figure figure_find(const char *name);
const char *figure_name(enum figure figure);
enum level figure_level(enum figure figure);
struct type figure_type(enum figure figure);
/* The figures that a figure adds up, with `+` or `-` before all but the first; for the margin, with
 * `/`. Ends with a sign of zero. No figure adds up more than three; of others the list is empty. */
struct figure_term {
    char sign; /* a space for the first */
    enum figure figure;
};
const struct figure_term *figure_terms(enum figure figure);
/* Whether a term counts on the channel: tax is a term of what is paid only if it is added, and of
 * the net only if it is included. */
bool figure_counts(const struct channel *channel, enum figure sum, enum figure term);
/* "rate", "cost", "buyer pays": the words for this kind in messages. */
const char *symbol_word(enum symbol_kind kind);

/* Enters every statement of every file, in the order of reading. Reports duplicates and statements
 * in the wrong place. */
void shop_collect(struct shop *shop, struct statement *statements);

#endif
