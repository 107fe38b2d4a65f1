/* The structs behind the public interface. */
#ifndef GROAT_LIBRARY_H
#define GROAT_LIBRARY_H

#include <stdatomic.h>

#include "evaluate/evaluate.h"
#include "groat.h"
#include "cell/cell.h"

/* How values of a column, or of money, are written. */
struct shown {
    unsigned decimals; /* of money */
    int64_t coins;     /* smallest units that one of the currency is */
    bool money;
    struct num factor; /* of the unit of a show */
};

/* What a method and all those made from it with other rates share. Freed with the last of them. */
struct core {
    atomic_size_t holders;
    atomic_size_t serials; /* tells methods, and records, of one core apart */
    groat_allocator allocator;
    struct memory memory;
    struct arena arena;
    struct num_heap heap;
    struct shop shop;
    struct program *program;
    struct limits limits;
    struct shown *shown; /* by column; then money; then anything else */
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
    uint64_t serial;  /* tells the records of a core apart */
    uint64_t changes; /* how often a field was set */
    struct memory memory;
    struct arena arena;
    struct num_heap heap;
    struct value *fields;
    struct value_range *ranges; /* by field: what its value is one of */
    struct cell_reader reader;
};

/* What the values of a scratch were worked out for. Its state is a number that goes up whenever some
 * of it changes (evaluation.state); the last changes are remembered, as what leans on them. */
enum { STANDING_STATES = 16 };
struct standing {
    bool lost;            /* nothing that was worked out is to be used again */
    size_t effort;        /* of the heap, before this pricing */
    uint64_t other_rates; /* of the method in place */
    uint64_t record, changes;
    int64_t quantity;
    uint64_t changed[STANDING_STATES]; /* by state, in a ring */
    uint64_t *listed; /* by channel: the state in which its whole list last ran; 0 for none */
};

struct groat_scratch {
    struct core *core;
    struct memory memory;
    struct arena notes; /* texts of the last result */
    struct num_heap heap;
    struct value *values;
    size_t serial; /* of the method whose settled values are in place; 0 for none */
    struct evaluation evaluation;
    struct standing standing;
    /* the last result */
    const struct channel_code *channel;
    const struct groat_record *record;
    struct value *shows; /* by column, in their units */
    const char **note_texts;
    size_t notes_count, notes_most;
    char reason[512];
    groat_reason reason_kind;
    bool worked_out; /* the figures are this result's: it got as far as working them out */
    bool given;      /* at a price that was given, not found */
    struct value given_price;
    bool named_ready;
    bool no_memory; /* the last result is not one: memory ran out on the way */
};

/* With one holder, the caller; NULL without memory. `reading` may be NULL. */
struct core *core_new(const groat_reading *reading);
struct core *core_hold(struct core *core);
void core_release(struct core *core);
struct memory core_memory(const struct core *core);

/* A method of the core, without values; NULL without memory. */
groat_method *method_new(struct core *core);

/* groat_method_with_rates, with the reason why there is none; `*made` is NULL then. An `expect` knows
 * literals alone: there `-5%` is a value, not a change. */
enum trouble_kind method_with_rates(const groat_method *method, const groat_rate_value *values,
                                    size_t count, bool changes, groat_method **made,
                                    struct trouble *trouble);

/* The trouble as a host sees it, which may not want it, and the status that it amounts to. */
groat_status trouble_hand_out(const struct trouble *inner, groat_trouble *trouble);
/* A help as a person reads it. Follows snprintf. */
size_t trouble_write_help(enum help_kind kind, const char *help, char *buffer, size_t size);

/* What stands of the pricings before. `begin` takes up what the next one is for; `check` comes before
 * the heap is rewound. */
bool standing_open(groat_scratch *scratch); /* false without memory */
void standing_close(groat_scratch *scratch);
void standing_check(groat_scratch *scratch);
/* Before more is worked out for the same result: what went wrong so far is not forgotten, and memory
 * and the limit on steps begin anew. */
void standing_more(groat_scratch *scratch);
void standing_begin(groat_scratch *scratch, const groat_method *method, const groat_record *record,
                    int64_t quantity, struct value as_of);
/* On what has changed since the channel's list last ran; and that it ran now. */
uint64_t standing_changed(const groat_scratch *scratch);
void standing_listed(groat_scratch *scratch);

/* The channel's own part in the search for its price. */
const struct member_code *price_member(const groat_scratch *scratch);
/* Works out what names, questions and explanations read beyond the price itself; once a result.
 * False without memory. */
bool price_named(groat_scratch *scratch);

/* Ends a pricing without a price, for a reason in words. */
groat_outcome price_fail(groat_scratch *scratch, groat_reason kind, const char *text);
/* The same of a call that makes no sense; the scratch may be NULL. */
groat_outcome price_refuse_call(groat_scratch *scratch, const char *why);
/* Takes up an order; false where nothing can be priced, with the reason, if there is a scratch. */
bool price_ready(groat_scratch *scratch, const groat_method *method, const groat_record *record,
                 const groat_order *order);
/* The pricing itself; at the price given, or with NULL at the one found. */
groat_outcome price_settled(groat_scratch *scratch, const struct value *given);
/* The outcome of a pricing that met an error, which becomes its reason. */
groat_outcome price_failed(groat_scratch *scratch, struct value error);

/* One pricing of fields that are no record's, without the check for required ones. */
groat_outcome price_record(groat_scratch *scratch, const groat_method *method,
                           const struct value *fields, size_t channel, int64_t quantity,
                           struct value as_of);

/* Says why a value is in error: "cost wood divides by zero (garden.rules:41)". */
groat_reason reason_kind(struct value error);
void reason_write(const groat_scratch *scratch, struct value error, char *buffer, size_t size);
/* An amount of money as a person writes it: `$12.50`, `45.00 kr`, `-$0.04`. */
size_t money_write(const struct shop *shop, struct num amount, char *buffer, size_t size);
/* The same with so many decimals. */
size_t money_write_places(const struct shop *shop, struct num amount, unsigned places, char *buffer,
                          size_t size);

/* A value as the host sees it. */
groat_value result_value(const struct value *value, struct type type, const struct shown *shown);
/* A range as the host sees it. */
groat_range range_shown(const struct core *core, const struct value_range *range, struct type type);
struct value range_end(const struct value_range *range, groat_end end);
/* How values of a type are written that no column gives a unit. */
const struct shown *shown_of_type(const struct core *core, struct type type);

/* In which amounts of a type are written; `own` is the unit of what it belongs to, or NULL. */
groat_unit unit_for(const struct core *core, struct type type, bool percent,
                    const struct familiar_unit *own);

struct groat_report {
    struct memory memory;
    struct arena arena;
    groat_diagnostic *items;
    size_t count, errors;
};

/* A report of the diagnostics, sorted; NULL without memory. */
groat_report *report_new(const groat_allocator *allocator, struct diagnostics *diagnostics);
/* Hands a report to a host, or frees it where there is nowhere to put it. */
void report_hand_out(groat_report *report, groat_report **wanted);
/* The name of rules that a host gives none, in messages. */
#define NAME_OF_NONE "rules"
/* Of one error, about rules as a whole. */
groat_report *report_alone(const struct core *core, const char *name, const char *message);
/* Of rules that need more than they may have: what else there was to say went with the memory. */
groat_report *report_limit(const struct core *core, const char *name);

#endif
