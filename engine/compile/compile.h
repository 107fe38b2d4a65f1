/* Compiles a checked shop into a program. */
#ifndef GROAT_COMPILE_H
#define GROAT_COMPILE_H

#include "program/program.h"

/* Compiles; reports what only shows on a channel: what could be missing where it must not, and aims
 * and fees that are not linear in pieces. The program lives in the shop's arena. */
struct program *compile_shop(struct shop *shop, struct limits limits);

enum settling_outcome {
    SETTLED,
    SETTLED_WRONG, /* a rate has no value with these rates, or a ladder is out of order */
    SETTLED_NOT    /* memory ran out */
};

/* Settles what rates decide. `overrides` is by rate, or NULL; it must outlive the result. Everything
 * is taken from the arena and the heap. With `diagnostics` each wrong ladder and rate is reported. */
enum settling_outcome settle(const struct program *program, const struct value *overrides,
                             struct arena *arena, struct num_heap *heap,
                             struct diagnostics *diagnostics, struct settled *out);

/* ---- between the files of this room ---- */

/* The stretches of a sliced table; without items when memory runs out. */
struct slices slices_of(const struct settled *settled, const struct table_code *table,
                        struct arena *arena);

/* How a value depends on the price of its channel. */
enum degree {
    DEGREE_FIXED,
    DEGREE_STEPPED, /* the same between two bends */
    DEGREE_LINEAR,  /* a straight line between two bends */
    DEGREE_RATIO,   /* one such by another; only for a whole side of a comparison */
    DEGREE_BAD      /* anything else; `bad` says why and where */
};

/* What is known of a value when its step has been written. */
struct flow {
    uint32_t step;
    uint8_t degree; /* enum degree */
    bool may_miss;
    bool text;
    const char *bad;
    struct span bad_span;
};

/* Where an expression is worked out: on a channel, at either quantity, at the price or a trial one. */
enum { CONTEXTS_A_CHANNEL = 4 };
struct context {
    uint32_t number; /* among all contexts: where its flows are kept */
    uint32_t channel;
    bool one;   /* at quantity 1, not the order's own */
    bool trial; /* at a price being tried */
};

/* A function's parameter, and a name that a condition has shown to be there. */
struct bound_name {
    const char *name;
    struct flow flow;
    const struct bound_name *next;
};
struct known_name {
    const char *name;
    const struct known_name *next;
};

struct compile {
    struct shop *shop;
    struct program *program;
    struct arena *arena;
    struct diagnostics *diagnostics;
    struct value *values; /* by step: of the constant ones */
    size_t values_room;
    uint32_t *slots; /* a hash table over the steps */
    size_t slots_count;
    uint32_t *numbers; /* and one over the constant numbers */
    size_t numbers_count, numbers_used;
    struct flow **memo;         /* by context: by symbol, then by figure */
    uint32_t *trial_steps;      /* by context: what stands for the price being tried; or NO_STEP */
    uint32_t *price_steps;      /* by context: the step that finds its price */
    struct table_code **tables; /* by symbol */
    uint32_t *ladders;          /* by symbol: of roundings; NO_STEP until there is one */
    uint32_t *columns;          /* by symbol: of shows; NO_STEP until there is one */
    struct index lookups;
    uint32_t *groups;         /* by channel: the same-price statement that names it, or NO_STEP */
    bool *for_one;            /* by channel: its list price is found at quantity 1, as there is a
                                   discount on it or on one that shares its price */
    uint32_t *group_searches; /* by same-price statement and quantity mode */
    uint32_t *first_leaves;   /* by context: its first leaf; NO_STEP where there is none */
    uint64_t *marks;          /* a bit for each step, for one list at a time */
    size_t work_left;         /* of the limit on steps: functions unfold, channels multiply */
    size_t warning_work;      /* left for warnings on tables */
    size_t depth;
    bool gave_up; /* a limit was met, and reported */
    struct index origins;
    uint32_t origin;
    uint32_t missing; /* the step of a missing constant */
    uint32_t trials;  /* how many searches have a trial step */
    const struct bound_name *parameters;
    const struct known_name *known;
    bool in_function;
    struct otherwise_note {
        const struct expression *expression;
        bool may_miss;
    } * otherwises; /* each `otherwise` outside a function */
    size_t otherwises_count, otherwises_room;
    struct index otherwise_index;
};

/* what explanations need */

/* Notes how the rules write each definition's values: as percentages, in what unit. */
void note_writing(struct compile *compile);
/* Remembers what a name in an expression stands for. */
void note_leaf(struct compile *compile, const struct context *context,
               const struct expression *expression, uint32_t step);
/* Once everything is written: finds the units this shop reads in. */
void ready_explanations(struct compile *compile);

/* steps */
uint32_t emit_step(struct compile *compile, struct step step);
uint32_t emit_number(struct compile *compile, struct num number);
uint32_t emit_constant(struct compile *compile, struct value value);
uint32_t emit_text(struct compile *compile, const char *text);
uint32_t emit_two(struct compile *compile, enum operation operation, uint32_t a, uint32_t b);
uint32_t emit_rounded(struct compile *compile, uint32_t a, uint32_t grid,
                      enum num_rounding rounding);
uint32_t emit_origin(struct compile *compile, const char *what, struct span span);
bool emit_is_constant(const struct compile *compile, uint32_t step, struct value *value);
/* Calls `visit` for every step that this one reads. */
void each_operand(const struct program *program, uint32_t index,
                  void (*visit)(void *context, uint32_t operand), void *context);

/* flows */
struct flow flow_fixed(uint32_t step);
struct flow flow_bad(struct flow flow, struct span span, const char *why);
struct flow flow_join(uint32_t step, struct flow a, struct flow b); /* a sum's */

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
/* Where messages point for what a channel as a whole does. */
struct span channel_span(const struct compile *compile, uint32_t channel);
/* Takes work off what is left; reports, once, that there is not so much. */
bool spend_work(struct compile *compile, struct span span, size_t work);
/* One level down, for one thing's work; reports, once, that there is no way down. Whoever is let in
 * takes the level off `depth` again. */
bool go_deeper(struct compile *compile, struct span span);
uint32_t emit_ladder(struct compile *compile, const struct statement *round);
uint32_t emit_named_ladder(struct compile *compile, const struct symbol *symbol);
/* The step that finds the price of a channel, or of those it shares its price with. */
uint32_t emit_price_search(struct compile *compile, const struct context *context);
/* A part in a search that has nothing but a price to try and what is kept at it; `*trial` becomes
 * where its aim is to be worked out. */
struct member_code member_alone(struct compile *compile, const struct context *place,
                                struct context *trial);
/* A step that finds a price by such a part with an aim. `round` may be NULL. */
uint32_t emit_search(struct compile *compile, const struct member_code *member,
                     const struct statement *round, const char *meets);
/* A floor or a ceiling; NO_STEP where there is none. */
uint32_t emit_limit(struct compile *compile, const struct context *context,
                    const struct statement *line);
/* What may be asked of a channel beside its price. */
void emit_questions(struct compile *compile, uint32_t channel, struct channel_code *code);

/* Remembers whether the left side of an `otherwise` could be missing anywhere. */
void note_otherwise(struct compile *compile, const struct expression *expression, bool may_miss);
/* Reports a value that could be missing where there must be one. */
void require_there(struct compile *compile, struct flow *flow, const struct expression *expression,
                   const char *what);
/* Reports a value that is not linear in pieces where it must be. */
void require_linear(struct compile *compile, struct flow flow, const struct expression *expression,
                    const char *what);
enum num_rounding rounding_of(enum tree_rounding rounding);

/* Puts together what each channel and each expect needs run. */
void assemble(struct compile *compile);
/* Warnings on tables: rows that are never met, amounts that no row takes. */
void warn_of_tables(struct compile *compile, const struct settled *settled);

/* Whether a program whose rules have no error is what program.h says; for asserts. */
bool program_is_sound(const struct program *program);

#endif
