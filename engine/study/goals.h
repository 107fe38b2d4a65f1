/* How each product contributes to the goals of the rules: how many sales a goal needs, how many a
 * week, how long it takes at a pace; whether the goal's limit is enough and, if not, the price that
 * would be. All amounts are exact.
 *
 * A week is 7 days, a month a twelfth of 365.2425 days.
 *
 *     goals_open(&goals, method, pace);
 *     goals_add(&goals, scratch, method, record, &order, product);   for each product and channel
 *     goals_sort(&goals);
 *     … goals.rows …
 *     goals_close(&goals);
 */
#ifndef GROAT_STUDY_GOALS_H
#define GROAT_STUDY_GOALS_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"
#include "number/amount.h"

#define GOALS_SECONDS_OF_WEEK 604800
#define GOALS_SECONDS_OF_MONTH 2629746

/* In the order of a goal's rows. */
enum goals_answer {
    GOALS_SUFFICES,   /* there is no limit, or the limit suffices */
    GOALS_TOO_LITTLE, /* at this price, the limit does not suffice */
    GOALS_NEVER,      /* a sale gives nothing */
    GOALS_UNANSWERED  /* a line is missing */
};

/* What would reach the goal if its limit is not enough at the price. */
enum goals_way {
    GOALS_NOT_ASKED,
    GOALS_PRICE,         /* `price_needed`, within the ceiling */
    GOALS_ABOVE_CEILING, /* `price_needed`, above `ceiling` */
    GOALS_PRICE_REFUSED, /* `price_needed`, which the rules refuse: `reason` */
    GOALS_NO_PRICE       /* `reason` */
};

/* One product on one channel, and one goal. */
struct goals_row {
    size_t goal;            /* index in the method */
    bool per_time, limited; /* the goal's properties */
    bool pinned;            /* the price is pinned */
    size_t product, channel;
    size_t place; /* the order of adding, which decides between equally good rows */
    enum goals_answer answer;
    groat_goal_line lacking; /* for GOALS_UNANSWERED: the first line that is missing */
    bool failed;             /* … because it could not be calculated */
    bool starved;            /* … because memory ran out, which ends the study */
    enum num_status status;  /* … or why the row could not: NUM_OK, NUM_TOO_LARGE */
    enum goals_way way;
    struct amount price, needs, gives; /* `needs` is per second where the goal is per time */
    struct amount sales;               /* rounded up; in a month if the goal is per time */
    struct amount sales_per_week;      /* for a goal per time; not rounded */
    struct amount weeks;               /* for `sales` at the pace, if the goal is not per time */
    /* For a goal with a limit that a sale uses up; in a month if the goal is per time. */
    struct amount sales_allowed; /* has / takes; not rounded */
    struct amount brings;        /* the most that can be reached: gives * has / takes */
    struct amount price_needed, ceiling;
    const char *reason; /* or NULL */
};

struct goals {
    const groat_method *method;
    struct amount pace; /* sales a week; or absent */
    const char *only;   /* the text of the wanted goals; NULL: all goals */
    struct goals_row **rows;
    size_t count, room;
    struct amounts amounts; /* of the rows, so a study must not be moved */
    struct arena arena;     /* of the rows and their reasons */
};

/* `pace` may be absent. Every goal is answered, unless `only` is set afterwards. */
void goals_open(struct goals *goals, const groat_method *method, struct amount pace);
void goals_close(struct goals *goals);

/* Prices the record and, if it has a price, adds a row for every goal. Returns false when memory
 * runs out. `*outcome` is that of groat_price; unless it is GROAT_PRICED, the reason is in the
 * scratch. */
bool goals_add(struct goals *goals, groat_scratch *scratch, const groat_record *record,
               const groat_order *order, size_t product, groat_outcome *outcome);

/* Whether the goal with this index is wanted. */
bool goals_wants(const struct goals *goals, size_t goal);

/* Sorts the rows by goal, and within a goal by how good they are: GOALS_SUFFICES first, then
 * GOALS_TOO_LITTLE, GOALS_NEVER and GOALS_UNANSWERED. For a goal per time with a limit, rows
 * without a limit come first, then those that can bring the most; for other goals, those with the
 * fewest sales. Between equal rows, the one that gives more comes first. */
void goals_sort(struct goals *goals);
/* Whether two rows of a goal are equally good, ignoring what one sale gives. */
bool goals_alike(const struct goals_row *a, const struct goals_row *b);

#endif
