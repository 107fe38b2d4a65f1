/* A compiled method: a straight line of steps, each computing one value from earlier ones.
 *
 * There are no jumps. `if` computes both sides and selects; errors are values, so an error in the
 * side that is not selected has no effect. Equal steps are one step, even on different channels. A
 * step comes after every step it reads, so a list of steps is evaluated by running it in ascending
 * order.
 *
 * Steps that depend on rates and literals alone are settled once, when the method is made or given
 * other rates. Steps that depend on a trial price run only while that price is searched for. All
 * others run once for each record. */
#ifndef GROAT_PROGRAM_H
#define GROAT_PROGRAM_H

#include "memory/index.h"
#include "names/shop.h"
#include "program/operation.h"
#include "program/value.h"
#include "types/literal.h"

#define NO_STEP UINT32_MAX

struct step {
    uint8_t operation;
    uint8_t rounding; /* enum num_rounding */
    bool forgiving;   /* a comparison in an aim, which is false if a side divides by zero */
    bool settled;     /* depends on rates and literals alone */
    bool on_trial;    /* depends on the price being tried */
    uint32_t a, b, c;
    uint32_t origin; /* the definition it comes from: an index into `origins` */
};

static inline bool step_has(const struct step *step, unsigned trait)
{
    return (operation_traits[step->operation].traits & trait) != 0;
}

/* Where a step comes from, for messages. */
struct origin {
    const char *what; /* "cost wood", "price" */
    struct span span;
};

/* ---- tables ---- */

struct cell_code {
    uint8_t kind; /* enum cell_kind */
    bool is_text;
    uint32_t bound; /* a step, or NO_STEP */
    uint32_t upper;
    const char *const *texts; /* for texts; ends with NULL */
};

struct table_code {
    const char *name;
    size_t keys, rows;
    struct cell_code *cells;       /* rows × keys; an `otherwise` row has cells of kind any */
    struct statement **statements; /* of the rows, for messages */
    bool sliced;
    size_t work;     /* cost of one lookup, in steps */
    uint32_t number; /* index among the tables and among a method's slices */
};

/* A lookup of a table with certain keys, and the values of its rows there. */
struct lookup_code {
    const struct table_code *table;
    uint32_t *keys;
    uint32_t *values; /* one a row */
};

/* ---- ladders ---- */

struct band_code {
    uint32_t bound;         /* a step; NO_STEP for the last band */
    uint32_t every;         /* a step; NO_STEP when endings are given */
    const int64_t *endings; /* in smallest units */
    const int64_t *periods;
    size_t count;
    struct span span;
};

struct ladder_code {
    const char *name; /* NULL if it is only an amount */
    struct span span;
    struct band_code *bands;
    size_t count;
};

/* ---- finding a price ---- */

/* One side of an aim's `and`s. */
struct aim_part {
    const struct expression *expression;
    uint32_t step;
};

/* One channel that takes part in a search. */
struct member_code {
    uint32_t channel;
    uint32_t trial; /* the step that holds the price being tried */
    uint32_t aim;   /* NO_STEP when the price is set */
    uint32_t keep;  /* what is kept at the price being tried, for the reason if no price is found */
    uint32_t set;
    uint32_t floor, ceiling; /* NO_STEP where there is none */
    uint32_t sold;           /* NO_STEP: always */
    uint32_t *block;         /* the steps that `aim` and `keep` need at each trial, ascending */
    size_t block_count;
    uint32_t *inputs; /* the steps that those read and that do not depend on the trial price */
    size_t inputs_count;
    bool jumps;       /* what is kept may jump down as the price rises */
    uint32_t context; /* of the trial, for the leaves of the aim */
    uint32_t *told;   /* the trial steps that an explanation of the aim reads */
    size_t told_count;
    struct aim_part *parts;
    size_t parts_count;
};

/* How a list price is found, for one channel or for several that share it. */
struct search_code {
    struct member_code *members;
    size_t count;
    uint32_t ladder;
    enum num_rounding rounding; /* of a set price */
    const char *channel;        /* the first one's name, for messages */
    const char *meets;          /* what a price that is found does: "meets the aim" */
};

/* ---- what is asked for ---- */

struct show_code {
    const struct symbol *symbol;
    uint32_t step;
    uint32_t column; /* among all shows of the method */
};

struct note_code {
    const char *text;
    uint32_t step;
    struct span span;
};

/* A goal on one channel: a step for each of its lines, by enum goal_line. */
struct goal_code {
    uint32_t lines[GOAL_LINES]; /* NO_STEP where there is none */
    uint32_t price_step;        /* finds the price that reaches the goal; NO_STEP without `has` */
};

struct channel_code {
    const char *name;
    uint32_t sold;    /* only when; NO_STEP: always */
    uint32_t *before; /* the steps that `sold` needs */
    size_t before_count;
    uint32_t *steps; /* every step of an evaluation except settled and trial steps */
    size_t steps_count;
    uint32_t figures[FIGURES];
    uint32_t search;        /* among the searches */
    uint32_t search_step;   /* the step that runs it */
    uint32_t context;       /* of its definitions and figures, for their leaves */
    uint32_t price_context; /* of its price lines */
    uint32_t pin;           /* NO_STEP if there is none; the same for the discount */
    uint32_t discount;
    uint32_t without_loss;   /* the step that finds the least price at which nothing is lost */
    struct goal_code *goals; /* as many as the shop has */
    struct show_code *shows;
    size_t shows_count;
    struct note_code *warns, *refuses;
    size_t warns_count, refuses_count;
    /* the channel's own lines by name */
    struct named_step {
        const struct symbol *symbol;
        uint32_t step;
    } * named;
    size_t named_count;
    uint32_t *named_steps; /* the steps that they and explanations need, run only on request */
    size_t named_steps_count;
};

/* One channel's part in an `expect`. */
struct expect_channel {
    uint32_t channel;
    uint32_t *thens; /* one a `then` with a condition, in their order */
    uint32_t *steps;
    size_t steps_count;
};

struct expect_code {
    const struct statement *statement;
    size_t thens_count;
    struct expect_channel *channels;
    size_t channels_count;
};

/* A column of the price list that a `show` makes. */
struct column_code {
    const char *name;
    struct type type;
    const struct tree_unit *unit;        /* as written, or NULL */
    const struct familiar_unit *written; /* the same with its size; also NULL for money */
    struct num factor;                   /* the unit's size */
    const char *unit_text;               /* "USD per h", or NULL */
};

struct field_code {
    const struct symbol *symbol;
    const char *column;       /* its heading */
    const char *type_text;    /* the type as written */
    const char *default_text; /* the default as written, or NULL */
    bool count, percent;      /* the field's type has this name, which decides how cells are read */
    bool required;
    bool bare;                       /* a bare number is allowed */
    struct num factor;               /* of a bare number */
    const struct value_range *range; /* the default, where it is one; or NULL */
};

struct rate_code {
    const struct symbol *symbol;
    uint32_t step;
    const char *text;                /* its value as written */
    uint32_t density;                /* of a material; NO_STEP */
    struct dimension per;            /* of a material: what its price is per */
    const struct value_range *range; /* its value in the rules, where it is one; or NULL */
};

/* A name in an expression, and the step that it stands for in a context: what it takes to write the
 * expression with its numbers. Sorted by expression, then context. */
struct leaf {
    const struct expression *expression;
    uint32_t context;
    uint32_t step;
    uint32_t next; /* of the same context; NO_STEP after the last */
    struct type type;
    bool percent;                /* a plain number that the rules write as a percentage */
    const struct symbol *symbol; /* NULL for a figure of the engine's own */
};

struct limits {
    size_t source, depth, definitions, table_rows, number_bits, bends, trials, steps, memory;
};

struct program {
    struct shop *shop;
    struct limits limits;
    struct step *steps;
    size_t count, room;
    struct value *constants;
    size_t constants_count, constants_room;
    struct origin *origins;
    size_t origins_count, origins_room;
    uint32_t *settled; /* the settled steps, ascending */
    size_t settled_count;
    struct table_code **tables;
    size_t tables_count, tables_room;
    struct lookup_code *lookups;
    size_t lookups_count, lookups_room;
    struct ladder_code *ladders;
    size_t ladders_count, ladders_room;
    struct search_code *searches;
    size_t searches_count, searches_room;
    struct channel_code *channels;
    size_t channels_count;
    struct expect_code *expects;
    size_t expects_count;
    struct column_code *columns;
    size_t columns_count, columns_room;
    struct field_code *fields;
    size_t fields_count;
    struct rate_code *rates;
    size_t rates_count;
    uint32_t name_field; /* the field `name`, or NO_STEP */
    struct leaf *leaves;
    size_t leaves_count, leaves_room;
    struct index leaf_index; /* by expression and context */
    struct familiar_unit *familiar;
    size_t familiar_count, familiar_room;
};

/* The unit in which this shop writes such amounts, or NULL. */
static inline const struct familiar_unit *familiar_for(const struct program *program,
                                                       struct dimension dimension)
{
    for (size_t i = 0; i < program->familiar_count; i++)
        if (dim_equal(program->familiar[i].dimension, dimension))
            return &program->familiar[i];
    return NULL;
}

/* The leaf that a name in an expression is in a context, or NULL. */
const struct leaf *leaf_find(const struct program *program, const struct expression *expression,
                             uint32_t context);

/* The channel's own part in the search for its price. */
static inline const struct member_code *channel_member(const struct program *program,
                                                       const struct channel_code *channel)
{
    const struct search_code *search = &program->searches[channel->search];
    for (size_t i = 0; i < search->count; i++)
        if (&program->channels[search->members[i].channel] == channel)
            return &search->members[i];
    return &search->members[0];
}

/* ---- settled for one set of rates ---- */

/* The result of a lookup that finds no row, or whose key is missing or an error. */
enum { ROW_NONE = -1, ROW_UNKNOWN = -2 };

/* A stretch of a sliced table: what lies above the bound before it, up to its own. */
struct slice {
    struct num upper;
    bool endless;
    int32_t row; /* ROW_NONE where none matches */
};

struct slices {
    struct slice *items;
    size_t count;
};

/* Prices in smallest units. */
struct rung {
    int64_t from, to; /* prices from..to - 1 */
    int64_t every;    /* 0 when endings are given */
    const int64_t *endings, *periods;
    size_t count;
};

struct ladder {
    struct rung *rungs;
    size_t count;
    size_t work; /* of looking for a price on it, in steps */
};

/* The steps, tables and ladders that depend on rates alone. */
struct settled {
    const struct program *program;
    struct value *values;          /* by step; only the settled ones are set */
    const struct value *overrides; /* by rate; missing if the method's own value applies */
    struct slices *slices;         /* by table */
    const struct ladder *ladders;  /* by ladder */
    bool large; /* some values are large numbers, which are freed with the method */
};

#endif
