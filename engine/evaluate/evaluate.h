/* Runs the steps of a method for one record. */
#ifndef GROAT_EVALUATE_H
#define GROAT_EVALUATE_H

#include "program/program.h"

/* The result of a search, kept for the notes of a row and for explanations. */
struct finding {
    bool found;       /* a price meets the aim, whether above the ceiling or not */
    bool held;        /* the price is the ceiling, because the aim or set price is above it */
    bool raised;      /* a set price was raised to the floor */
    int64_t wanted;   /* what the aim or the set price asked for, when found */
    struct num slope; /* of what is kept, per smallest unit of the price, if no price was found */
    bool has_slope;
    struct num asked; /* what the aim asks of it, where that is told */
    bool has_asked;
    bool fixed;       /* the aim does not hold, whatever the price */
    bool fixed_part;  /* the same of a part of it */
    bool capped;      /* a part of the aim holds at the lowest price, but not at much higher ones */
    bool ladder_ends; /* no price, because the ladder ends */
    bool tried;       /* `wanted` was tried last, so the trial steps have their values at it */
};

/* The state of an evaluation. It belongs to one thread. Everything it points to must outlive it. */
struct evaluation {
    const struct settled *settled;
    const struct program *program;
    struct value *values; /* by step; those of settled steps are set before */
    struct num_heap *heap;
    const struct value *fields; /* of the record, by field; missing where absent */
    struct num quantity;
    struct value as_of; /* missing when the host gave none */
    size_t steps_left;  /* of the limit for one record */
    size_t charged;     /* the part of the heap's effort that was already subtracted from them */
    struct finding *findings; /* by search */
    void *lines;              /* the search's own working room */
    /* Finds a list price. Set from outside, because the search is in a later room. */
    struct value (*find)(struct evaluation *evaluation, uint32_t search, uint32_t step);
};

struct value evaluate_step(struct evaluation *evaluation, uint32_t index);
/* The cost of one part: its amount times the material's price. An error has the step `index` as its
 * origin. */
struct value evaluate_part(struct evaluation *evaluation, const struct part *part, uint32_t index);
void evaluate_list(struct evaluation *evaluation, const uint32_t *steps, size_t count);

/* Subtracts steps from what is left, down to zero. */
static inline void evaluate_spend(struct evaluation *evaluation, size_t steps)
{
    size_t left = evaluation->steps_left;
    evaluation->steps_left = steps < left ? left - steps : 0;
}

/* Subtracts the effort on large numbers that was not yet subtracted. */
static inline void evaluate_charge(struct evaluation *evaluation)
{
    evaluate_spend(evaluation, evaluation->heap->effort - evaluation->charged);
    evaluation->charged = evaluation->heap->effort;
}

/* The same. Returns false if it left no steps; the caller then ends with an error. */
static inline bool evaluate_goes_on(struct evaluation *evaluation)
{
    if (evaluation->heap->effort == evaluation->charged)
        return true;
    evaluate_charge(evaluation);
    return evaluation->steps_left > 0;
}

/* Starts the limit on steps anew, for a record. */
static inline void evaluate_begin(struct evaluation *evaluation)
{
    evaluation->steps_left = evaluation->program->limits.steps;
    evaluation->charged = evaluation->heap->effort;
}

/* Whether a cell of texts matches a key that is there. */
bool evaluate_text_cell(struct evaluation *evaluation, const struct cell_code *cell,
                        struct value key);
/* The row of a lookup whose cells all match, ROW_NONE, or ROW_UNKNOWN: then `*why` is the key's
 * error or missing value, or says that the steps ran out. */
int32_t evaluate_row(struct evaluation *evaluation, const struct lookup_code *lookup,
                     struct value *why);

/* ---- allowed prices, in smallest units ---- */

/* The least allowed price at or above `from`; false if the ladder ends before. */
bool ladder_next(const struct ladder *ladder, int64_t from, int64_t *price);
/* The greatest allowed price at or below `from` and above zero; false if there is none. */
bool ladder_previous(const struct ladder *ladder, int64_t from, int64_t *price);
/* Rounds to an allowed price; of two equally near ones, to the higher. Returns false if there is
 * none in that direction. */
bool ladder_round(struct num_heap *heap, const struct ladder *ladder, struct num coins,
                  enum num_rounding rounding, int64_t *price);
/* Rounds to a whole number; false if it is beyond COINS_MOST. */
bool coins_round(struct num_heap *heap, struct num coins, enum num_rounding rounding, int64_t *out);
/* All prices are below this many smallest units. */
#define COINS_MOST (INT64_MAX / 8)

#endif
