/* Compiles a checked shop into a program. */
#ifndef GROAT_COMPILE_H
#define GROAT_COMPILE_H

#include "program/program.h"
#include "types/literal.h"

/* Compiles the shop. Reports errors that depend on the channel: values that could be missing where
 * they must not be, and aims and fees that are not piecewise linear. The program lives in the
 * shop's arena. */
struct program *compile_shop(struct shop *shop, struct limits limits);

enum settling_outcome {
    SETTLED,
    SETTLED_WRONG, /* with these rates, a rate has no value or a ladder is out of order */
    SETTLED_NOT    /* memory ran out */
};

/* Calculates everything that depends on rates alone. `overrides` is by rate, or NULL; it must
 * outlive the result. All memory comes from the arena and the heap. If `diagnostics` is given, each
 * wrong ladder and rate is reported. */
enum settling_outcome settle(const struct program *program, const struct value *overrides,
                             struct arena *arena, struct num_heap *heap,
                             struct diagnostics *diagnostics, struct settled *out);

/* ---- between the files of this room ---- */

/* The slices of a sliced table; `items` is NULL when memory runs out. */
struct slices slices_of(const struct settled *settled, const struct table_code *table,
                        struct arena *arena);

/* How a value depends on the price of its channel. */
enum degree {
    DEGREE_FIXED,
    DEGREE_STEPPED, /* constant between two bends */
    DEGREE_LINEAR,  /* a straight line between two bends */
    DEGREE_RATIO,   /* a quotient of two lines; allowed only as a whole side of a comparison */
    DEGREE_BAD      /* anything else; `bad` says why and where */
};

/* What is known about a value once its step was written. */
struct flow {
    uint32_t step;
    uint8_t degree; /* enum degree */
    bool may_miss;
    bool text;
    const char *bad;
    struct span bad_span;
};

/* Where an expression is evaluated: on a channel, at either quantity, at the final price or a trial
 * price. */
enum { CONTEXTS_A_CHANNEL = 4 };
struct context {
    uint32_t number; /* among all contexts; indexes their flows */
    uint32_t channel;
    bool one;   /* at quantity 1, not that of the order */
    bool trial; /* at a trial price */
};

/* A function's parameter, or a name that a condition has shown not to be missing. */
struct bound_name {
    const char *name;
    struct flow flow;
    const struct bound_name *next;
};
struct known_name {
    const char *name;
    const struct known_name *next;
};

/* What the names in an expression mean besides the definitions. */
struct surroundings {
    const struct bound_name *parameters;
    const struct known_name *known;
    bool in_function;
};

struct compile {
    struct shop *shop;
    struct program *program;
    struct arena *arena;
    struct diagnostics *diagnostics;
    struct literal_scope scope;
    struct value *values; /* by step; set for constant steps */
    size_t values_room;
    struct index steps;         /* but for constants */
    struct index numbers;       /* the steps of constant numbers; not of large ones */
    struct flow **memo;         /* by context: by symbol, then by figure */
    uint32_t *trial_steps;      /* by context: the step that holds the trial price; or NO_STEP */
    uint32_t *price_steps;      /* by context: the step that finds its price */
    struct table_code **tables; /* by symbol */
    uint32_t *ladders;          /* by symbol, for roundings; NO_STEP until made */
    uint32_t *columns;          /* by symbol, for shows; NO_STEP until made */
    struct index lookups;
    uint32_t *groups;         /* by channel: the same-price statement that names it, or NO_STEP */
    bool *for_one;            /* by channel: its list price is found at quantity 1, because it or a
                               * channel that shares its price has a discount */
    uint32_t *group_searches; /* by same-price statement and quantity mode */
    uint32_t *first_leaves;   /* by context: its first leaf; NO_STEP if there is none */
    uint64_t *marks;          /* a bit for each step, for one list at a time */
    size_t work_left;         /* of the limit on steps: calls and channels multiply steps */
    size_t warning_work;      /* of the limit for warnings on tables */
    size_t depth;
    bool gave_up; /* a limit was reached and reported */
    struct index origins;
    uint32_t origin;
    uint32_t missing; /* the step of a missing constant */
    uint32_t trials;  /* how many searches have a trial step */
    struct surroundings around;
    struct otherwise_note {
        const struct expression *expression;
        bool may_miss;
    } * otherwises; /* each `otherwise` outside a function */
    size_t otherwises_count, otherwises_room;
    struct index otherwise_index;
};

/* for explanations */

/* Notes how the rules write the values of each definition: as percentages, in which unit. */
void note_writing(struct compile *compile);
/* Remembers the step that a name in an expression refers to. */
void note_leaf(struct compile *compile, const struct context *context,
               const struct expression *expression, uint32_t step);
/* Call it when all steps are written: finds the units in which this shop writes amounts. */
void ready_explanations(struct compile *compile);

/* steps */
uint32_t emit_step(struct compile *compile, struct step step);
uint32_t emit_number(struct compile *compile, struct num number);
uint32_t emit_constant(struct compile *compile, struct value value);
uint32_t emit_text(struct compile *compile, const char *text);
uint32_t emit_one(struct compile *compile, enum operation operation, uint32_t a);
uint32_t emit_two(struct compile *compile, enum operation operation, uint32_t a, uint32_t b);
uint32_t emit_select(struct compile *compile, uint32_t condition, uint32_t yes, uint32_t no);
uint32_t emit_rounded(struct compile *compile, uint32_t a, uint32_t grid,
                      enum num_rounding rounding);
uint32_t emit_origin(struct compile *compile, const char *what, struct span span);
bool emit_is_constant(const struct compile *compile, uint32_t step, struct value *value);
/* Calls `visit` for every step that this one reads. */
void each_operand(const struct program *program, uint32_t index,
                  void (*visit)(void *context, uint32_t operand), void *context);

/* Calls `visit` for every step that a price on the channel asks for,
 * once the product is sold there. */
void each_asked(const struct channel_code *channel, void (*visit)(void *context, uint32_t step),
                void *context);

/* flows */
struct flow flow_fixed(uint32_t step);
struct flow flow_whole(struct compile *compile, int64_t number);
struct flow flow_bad(struct flow flow, struct span span, const char *why);
struct flow flow_join(uint32_t step, struct flow a, struct flow b); /* for a sum */

struct context context_of(struct compile *compile, uint32_t channel, bool one, bool trial);
struct flow emit_expression(struct compile *compile, const struct context *context,
                            const struct expression *expression);
struct flow emit_symbol(struct compile *compile, const struct context *context,
                        struct symbol *symbol, struct span from);
struct flow emit_figure(struct compile *compile, const struct context *context, enum figure figure,
                        struct span from);
struct flow emit_lookup(struct compile *compile, const struct context *context,
                        struct symbol *table, const struct expression *arguments, struct span span);
/* The step that says whether the channel sells; NO_STEP when it always does. */
uint32_t emit_sold(struct compile *compile, const struct context *context);
/* The pinned price; NO_STEP where there is no pin. */
uint32_t emit_pin(struct compile *compile, const struct context *context);
/* The place for messages about a channel as a whole. */
struct span channel_span(const struct compile *compile, uint32_t channel);
/* Subtracts work from what is left; reports once if not enough is left, and returns false. */
bool spend_work(struct compile *compile, struct span span, size_t work);
/* Goes one level deeper, at the cost of one step of work; reports once if a limit is reached, and
 * returns false. After true, the caller must decrease `depth` again. */
bool go_deeper(struct compile *compile, struct span span);
uint32_t emit_ladder(struct compile *compile, const struct statement *round);
uint32_t emit_named_ladder(struct compile *compile, const struct symbol *symbol);
/* The step that finds the price of a channel, or of the channels that share it. */
uint32_t emit_price_search(struct compile *compile, const struct context *context);
/* A member of a search with only a trial price and what is kept at it. `*trial` becomes the context
 * in which to evaluate its aim. */
struct member_code member_alone(struct compile *compile, const struct context *place,
                                struct context *trial);
/* The step that finds a price for such a member with an aim. `round` may be NULL. */
uint32_t emit_search(struct compile *compile, const struct member_code *member,
                     const struct statement *round, const char *meets);
/* The step of a floor or a ceiling; NO_STEP if there is none. */
uint32_t emit_limit(struct compile *compile, const struct context *context,
                    const struct statement *line);
/* Writes the steps for the other questions about a channel. */
void emit_questions(struct compile *compile, uint32_t channel, struct channel_code *code);

/* Remembers whether the left side of an `otherwise` could be missing anywhere. */
void note_otherwise(struct compile *compile, const struct expression *expression, bool may_miss);
/* Reports a value that could be missing where it must not be. */
void require_there(struct compile *compile, struct flow *flow, const struct expression *expression,
                   const char *what);
/* Reports a value that is not piecewise linear where it must be. */
void require_linear(struct compile *compile, struct flow flow, const struct expression *expression,
                    const char *what);
enum num_rounding rounding_of(enum tree_rounding rounding);

/* Makes the list of steps that each channel and each expect runs. */
void assemble(struct compile *compile);
/* Warnings on tables: rows that never match, amounts that no row matches. */
void warn_of_tables(struct compile *compile, const struct settled *settled);
/* Warnings on looks across to a channel that may not sell a single piece. */
void warn_of_looks(struct compile *compile, const struct settled *settled);

/* Whether a program whose rules have no error satisfies what program.h promises; for asserts. */
bool program_is_sound(const struct program *program);

#endif
