/* Runs steps: the values of a method for one record. */
#ifndef GROAT_EVALUATE_H
#define GROAT_EVALUATE_H

#include "program/program.h"

/* What a search found, kept for the notes of a row and for explanations. */
struct finding {
    bool found;       /* a price that meets the aim, within any ceiling or not */
    bool held;        /* the price is the ceiling's, not the aim's or the set one */
    bool raised;      /* a set price lifted to the floor */
    int64_t wanted;   /* what the aim or the set price asked for, when found */
    struct num slope; /* of what is kept, per smallest unit of the price, when there is none */
    bool has_slope;
    bool capped; /* and a part of an aim holds at the lowest price, but not at far higher ones */
    bool ladder_ends; /* no price because the ladder has no more */
    bool tried;       /* `wanted` was tried last: the steps on trial are what they are at it */
    size_t spent;     /* steps of the limit that the search took */
};

/* One evaluation at work. Belongs to one thread; everything it points to outlives it. */
struct evaluation {
    const struct settled *settled;
    const struct program *program;
    struct value *values; /* by step; the settled ones already there */
    struct num_heap *heap;
    const struct value *fields; /* the record's, by field; missing where absent */
    struct num quantity;
    struct value as_of;       /* missing when the host gave none */
    size_t steps_left;        /* of the limit for one record */
    size_t charged;           /* of the heap's effort: what has been taken off them */
    struct finding *findings; /* by search */
    /* What the steps lean on is in some state, told apart by a number; and by step, in which state
     * its value was last known to be valid. */
    uint64_t state;
    uint64_t *valid;
    void *lines; /* the search's own working room */
    /* Finds a list price; set by whoever puts the stages together. */
    struct value (*find)(struct evaluation *evaluation, uint32_t search, uint32_t step);
};

struct value evaluate_step(struct evaluation *evaluation, uint32_t index);
/* What one part costs, its amount at the material's price; an error is that of the step `index`. */
struct value evaluate_part(struct evaluation *evaluation, const struct part *part, uint32_t index);
void evaluate_list(struct evaluation *evaluation, const uint32_t *steps, size_t count);
/* Runs those of the steps, none of them on trial, whose values do not stand: they lean on something in
 * `changed` and are not known to be valid in this state. The limit on steps is charged with all of
 * them, so that what a record may cost does not hang on the one before. */
void evaluate_changed(struct evaluation *evaluation, const uint32_t *steps, size_t count,
                      uint64_t changed);

/* Takes steps off what is left, down to none. */
static inline void evaluate_spend(struct evaluation *evaluation, size_t steps)
{
    size_t left = evaluation->steps_left;
    evaluation->steps_left = steps < left ? left - steps : 0;
}

/* Whether large numbers were worked on since that was last taken off the steps. */
static inline bool evaluate_owes(const struct evaluation *evaluation)
{
    return evaluation->heap->effort != evaluation->charged;
}

/* Takes it off. False when nothing is left: whatever is under way ends then, in error. */
static inline bool evaluate_goes_on(struct evaluation *evaluation)
{
    evaluate_spend(evaluation, evaluation->heap->effort - evaluation->charged);
    evaluation->charged = evaluation->heap->effort;
    return evaluation->steps_left > 0;
}

/* The steps that a record may take begin anew. */
static inline void evaluate_begin(struct evaluation *evaluation)
{
    evaluation->steps_left = evaluation->program->limits.steps;
    evaluation->charged = evaluation->heap->effort;
}

/* The row of a lookup whose cells all match, ROW_NONE, or ROW_UNKNOWN: then `*why` is what the key
 * is instead of a value, or that the steps ran out. */
int32_t evaluate_row(struct evaluation *evaluation, const struct lookup_code *lookup,
                     struct value *why);

/* ---- allowed prices, in smallest units ---- */

/* The least one at or above; false when the ladder ends before. */
bool ladder_next(const struct ladder *ladder, int64_t from, int64_t *price);
/* The greatest one at or below, above zero. */
bool ladder_previous(const struct ladder *ladder, int64_t from, int64_t *price);
/* As a rounding says; the dearer of two equally near ones. False when there is none that way. */
bool ladder_round(struct num_heap *heap, const struct ladder *ladder, struct num coins,
                  enum num_rounding rounding, int64_t *price);
/* The smallest whole number at or above, and the greatest at or below; false beyond prices. */
bool coins_up(struct num_heap *heap, struct num coins, int64_t *out);
bool coins_down(struct num_heap *heap, struct num coins, int64_t *out);
/* Prices are kept below this many smallest units. */
#define COINS_MOST (INT64_MAX / 8)

#endif
