/* A ranking: one product's channels side by side, best first by one of their figures.
 *
 * For each product: begin, add its orders, settle, then read the places. Orders of different
 * quantities are ranked separately. The results of all rankings are counted for a summary. */
#ifndef GROAT_STUDY_RANK_H
#define GROAT_STUDY_RANK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "groat.h"
#include "number/amount.h"

/* The figures that every place has, whatever the ranking is by. */
enum { RANK_PRICE, RANK_KEEP, RANK_PROFIT, RANK_MARGIN, RANK_TAKE_HOME, RANK_FIGURES };

/* A channel's place. Prices that meet their aim come before those held to their ceiling, and
 * greater values before smaller ones. After them come prices without such a value, then refused
 * ones, then those without a price. */
struct rank_place {
    size_t channel;
    int64_t quantity;
    groat_outcome outcome; /* GROAT_PRICED, GROAT_REFUSED or GROAT_FAILED */
    bool held;             /* the price is held to its ceiling */
    struct amount place;   /* from 1, equal for equal values; absent if it has no place */
    struct amount figures[RANK_FIGURES]; /* all absent unless priced */
    struct amount value;                 /* what it is ranked by */
    struct amount gap;                   /* the first place's value minus this one's */
    const char *const *notes;            /* the row's notes; without a price, the reason */
    size_t notes_count;
};

struct rank;

/* Ranks by a show, or by any name that groat_result_named takes; the method must outlive the
 * ranking. NULL when memory runs out. */
struct rank *rank_open(const groat_method *method, const char *by);
void rank_close(struct rank *rank);

/* The kind of the ranked value. Returns false if no result has shown it yet. */
bool rank_kind(const struct rank *rank, groat_kind *kind);

enum rank_status {
    RANK_FINE,
    RANK_NO_NUMBER, /* the name is neither money nor a number nor a quantity; see rank_kind */
    RANK_NO_MEMORY
};

/* Begins a product; frees the places of the previous one. */
void rank_begin(struct rank *rank);
/* Prices the record; where it is not sold, nothing is added. */
enum rank_status rank_add(struct rank *rank, groat_scratch *scratch, const groat_record *record,
                          const groat_order *order);
/* Sorts the places, smaller quantities first. */
void rank_settle(struct rank *rank);
size_t rank_count(const struct rank *rank);
const struct rank_place *rank_at(const struct rank *rank, size_t index);

/* Whether a place has a greater value than the first place and comes after it only because it is
 * held to its ceiling. */
bool rank_is_ahead(const struct rank_place *place);

/* Counts over everything settled so far. */
struct rank_counts {
    size_t rankings; /* with a first place */
    size_t *firsts;  /* for each channel: in which it had that place */
    size_t alone;    /* with a single place */
    size_t ahead;    /* places for which rank_is_ahead */
};
const struct rank_counts *rank_counts(const struct rank *rank);

#endif
