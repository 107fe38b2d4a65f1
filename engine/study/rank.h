/* A ranking: one product's channels side by side, best first by one of their figures.
 *
 * Begin with each product, add its orders, settle; then read the places. Orders of different
 * quantities are ranked apart. What the rankings of a run come to is counted on the way. */
#ifndef GROAT_STUDY_RANK_H
#define GROAT_STUDY_RANK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "groat.h"
#include "number/amount.h"

/* The figures of a place that are told whatever it is ranked by. */
enum { RANK_PRICE, RANK_KEEP, RANK_PROFIT, RANK_MARGIN, RANK_TAKE_HOME, RANK_FIGURES };

/* A channel's place. What meets its aim comes before what is held to its ceiling, a greater value
 * before a smaller one; then what has no such value; then what is refused, then what has no price. */
struct rank_place {
    size_t channel;
    int64_t quantity;
    groat_outcome outcome; /* GROAT_PRICED, GROAT_REFUSED or GROAT_FAILED */
    bool held;             /* to its ceiling */
    struct amount place;   /* from 1, shared where values are equal; absent where there is none */
    struct amount figures[RANK_FIGURES]; /* all absent unless it is priced */
    struct amount value;                 /* what it is ranked by */
    struct amount gap;                   /* the first place's value less this one's */
    const char *const *notes;            /* the row's; of one without a price the reason */
    size_t notes_count;
};

struct rank;

/* Ranks by a show, or by any name that groat_result_named takes; the method must outlive the
 * ranking. NULL when memory runs out. */
struct rank *rank_open(const groat_method *method, const char *by);
void rank_close(struct rank *rank);

/* What the ranked value is. False while no result has told. */
bool rank_kind(const struct rank *rank, groat_kind *kind);

enum rank_status {
    RANK_FINE,
    RANK_NO_NUMBER, /* the name is neither money nor a number nor a quantity; see rank_kind */
    RANK_NO_MEMORY
};

/* Begins with a product: the places of the one before are gone. */
void rank_begin(struct rank *rank);
/* Prices the record; where it is not sold, nothing is added. */
enum rank_status rank_add(struct rank *rank, groat_scratch *scratch, const groat_record *record,
                          const groat_order *order);
/* Puts the places in order, the smaller quantity first. */
void rank_settle(struct rank *rank);
size_t rank_count(const struct rank *rank);
const struct rank_place *rank_at(const struct rank *rank, size_t index);

/* Over everything settled so far: the rankings with a first place, in how many of them a channel
 * had it, and how many had one place alone. */
size_t rank_rankings(const struct rank *rank);
size_t rank_firsts(const struct rank *rank, size_t channel);
size_t rank_alone(const struct rank *rank);

/* Whether a place has a greater value than the first one, which it comes after because it is held to
 * its ceiling; and how many there were of these. */
bool rank_is_ahead(const struct rank_place *place);
size_t rank_ahead(const struct rank *rank);

#endif
