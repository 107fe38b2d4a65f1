/* The structs behind the public interface. */
#ifndef GROAT_LIBRARY_H
#define GROAT_LIBRARY_H

#include <stdatomic.h>

#include "evaluate/evaluate.h"
#include "groat.h"
#include "cell/cell.h"

/* How the values of a column, or of money, are written. */
struct shown {
    unsigned decimals; /* of money */
    int64_t coins;     /* smallest units in one unit of the currency */
    bool money;
    struct num factor; /* of the unit of a show */
};

/* What a method shares with those made from it with other rates. Freed with the last of them. */
struct core {
    atomic_size_t holders;
    atomic_size_t serials; /* gives each method and record of a core its own number */
    groat_allocator allocator;
    struct memory memory;
    struct arena arena;
    struct num_heap heap;
    struct shop shop;
    struct program *program;
    struct limits limits;
    struct shown *shown; /* by column; then one for money, and one for all else */
};

struct groat_method {
    struct core *core;
    size_t serial;
    struct memory memory;
    struct arena arena;
    struct num_heap heap;
    struct value *overrides;    /* by rate */
    struct value_range *ranges; /* of the overrides */
    struct settled settled;
};

struct groat_record {
    struct core *core;
    struct memory memory;
    struct arena arena; /* texts and parts of the cells */
    struct num_heap heap;
    struct arena room; /* what is below, taken once */
    struct value *fields;
    struct value_range *ranges; /* by field: the range that its value is from */
    struct cell_reader reader;
};

struct groat_scratch {
    struct core *core;
    struct memory memory;
    struct arena notes; /* texts of the last result */
    struct num_heap heap;
    struct arena room; /* lists with a place for each step, channel, column, search and note */
    struct value *values;
    size_t serial; /* the method whose settled values are copied here; 0 for none */
    struct evaluation evaluation;
    /* the last result */
    const struct channel_code *channel;
    const struct groat_record *record;
    struct value *shows; /* by column, in their units */
    const char **note_texts;
    size_t notes_count, notes_most;
    char reason[512];
    groat_reason reason_kind;
    bool worked_out; /* the figures belong to this result: they were calculated */
    bool given;      /* the price was given, not searched for */
    struct value given_price;
    bool named_ready;
    bool no_memory; /* there is no result, because memory ran out */
};

struct core *core_hold(struct core *core);
void core_release(struct core *core);
struct memory core_memory(const struct core *core);
/* Zeroed memory for an object that holds the core; NULL if there is none. */
void *core_make(const struct core *core, size_t size);
/* Frees an object that core_make made, and then what it holds of the core. */
void core_unmake(struct core *core, void *object, size_t size);
/* Opens memory of its own within the core's limits, for an object or for one call. */
void core_open(const struct core *core, struct memory *memory, struct arena *arena,
               struct num_heap *heap);
/* A core for reading this text. NULL if the text is not usable, which `*report` then says, or if
 * memory runs out. `*name` becomes that of rules without a name if it is NULL. */
struct core *core_for(const char **name, groat_text rules, const groat_reading *reading,
                      groat_report **report);

/* Makes a method of the core, without values; NULL if memory runs out. */
groat_method *method_new(struct core *core);

/* The work of groat_method_with_rates. On failure `*made` is NULL and the trouble says why. For an
 * `expect`, rates are literals only: `-5%` is then a value, not a change. */
enum trouble_kind method_with_rates(const groat_method *method, const groat_rate_value *values,
                                    size_t count, bool changes, groat_method **made,
                                    struct trouble *trouble);

/* Copies the trouble to the host's, which may be NULL. Returns the matching status. */
groat_status trouble_hand_out(const struct trouble *inner, groat_trouble *trouble);
/* Writes a help for a person. Follows snprintf. */
size_t trouble_write_help(enum help_kind kind, const char *help, char *buffer, size_t size);

/* The channel's part in the search for its price. */
const struct member_code *price_member(const groat_scratch *scratch);
/* Call it before calculating more for the same result: starts memory and the limit on steps
 * anew. */
void price_more(groat_scratch *scratch);
/* Calculates what names, questions and explanations read besides the price; does so once for each
 * result. False without memory. */
bool price_named(groat_scratch *scratch);

/* Ends a pricing without a price, and stores the reason. */
groat_outcome price_fail(groat_scratch *scratch, groat_reason kind, const char *text);
/* The same for a call with wrong arguments; the scratch may be NULL. */
groat_outcome price_refuse_call(groat_scratch *scratch, const char *why);
/* Prepares the pricing of an order. Returns false if it cannot be priced, with the reason in the
 * scratch, if there is one. */
bool price_ready(groat_scratch *scratch, const groat_method *method, const groat_record *record,
                 const groat_order *order);
/* The pricing itself, at the given price, or, with NULL, at the price that the search finds. */
groat_outcome price_settled(groat_scratch *scratch, const struct value *given);
/* The outcome of a pricing with an error. The error becomes the reason. */
groat_outcome price_failed(groat_scratch *scratch, struct value error);

/* Prices fields without a record and without checking that required ones are set. */
groat_outcome price_record(groat_scratch *scratch, const groat_method *method,
                           const struct value *fields, size_t channel, int64_t quantity,
                           struct value as_of);

/* Says why a value is in error: "cost wood divides by zero (garden.rules:41)". */
groat_reason reason_kind(struct value error);
void reason_write(const groat_scratch *scratch, struct value error, char *buffer, size_t size);
/* An amount of money as a person writes it: `$12.50`, `45.00 kr`, `-$0.04`. */
size_t money_write(const struct shop *shop, struct num amount, char *buffer, size_t size);
/* The same with `places` decimals. */
size_t money_write_places(const struct shop *shop, struct num amount, unsigned places, char *buffer,
                          size_t size);

/* No value, and why: there is none, or it is unknown because memory ran out. */
groat_value result_none(groat_presence presence);
/* What a host sees a type as. */
groat_kind result_kind(struct type type);
/* A value in the form that the host gets; an amount is in base units. */
groat_value result_value(const struct core *core, const struct value *value, struct type type);
/* A range in the form that the host gets. */
groat_range range_shown(const struct core *core, const struct value_range *range, struct type type);
struct value range_end(const struct value_range *range, groat_end end);

/* In which amounts of a type are written; `own` is the unit of what it belongs to, or NULL. */
groat_unit unit_for(const struct core *core, struct type type, bool percent,
                    const struct familiar_unit *own);

struct groat_report {
    struct memory memory;
    struct arena arena;
    groat_diagnostic *items;
    size_t count, errors;
};

/* Makes a report of the sorted diagnostics; NULL if memory runs out. */
groat_report *report_new(const groat_allocator *allocator, struct diagnostics *diagnostics);
/* Passes a report to the host, or frees it if `wanted` is NULL. */
void report_hand_out(groat_report *report, groat_report **wanted);
/* Makes a report of one error about the rules as a whole. */
groat_report *report_alone(const struct core *core, const char *name, const char *message);
/* Makes a report that the rules need more memory than the limit. All other diagnostics were lost
 * with the memory. */
groat_report *report_limit(const struct core *core, const char *name);

#endif
