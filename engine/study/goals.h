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

/* In the order in which the rows of a goal stand. */
enum goals_answer {
    GOALS_SUFFICES,   /* there is no limit, or what there is suffices */
    GOALS_TOO_LITTLE, /* at this price, what there is does not suffice */
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
    bool per_time, limited; /* as that is */
    bool pinned;            /* the price is a promise */
    size_t product, channel;
    size_t place; /* in which row it was added: of two that are as good, the first stays first */
    enum goals_answer answer;
    groat_goal_line lacking; /* of GOALS_UNANSWERED: the first line that is missing */
    bool failed;             /* … because it could not be worked out */
    bool starved;            /* … because memory ran out, which ends the study */
    enum num_status status;  /* … or what of the row could not: NUM_OK, NUM_TOO_LARGE */
    enum goals_way way;
    struct amount price, needs, gives; /* `needs` is per second where the goal is per time */
    struct amount sales;               /* rounded up; a month's where the goal is per time */
    struct amount sales_per_week;      /* of a goal per time; not rounded */
    struct amount weeks;               /* `sales` at the pace; of a goal that is not per time */
    /* Of a goal with a limit, where a sale takes of it; a month's where the goal is per time. */
    struct amount sales_allowed; /* has / takes; not rounded */
    struct amount brings;        /* the most it can bring: gives * has / takes */
    struct amount price_needed, ceiling;
    char *reason; /* or NULL */
};

struct goals {
    const groat_method *method;
    struct amount pace; /* sales a week; or absent */
    const char *only;   /* the text of the goals that are asked for; NULL: all */
    struct goals_row **rows;
    size_t count, room;
    struct amounts amounts; /* where those of the rows live: a study stays where it is */
};

/* `pace` may be absent. Every goal is answered, unless `only` is set then. */
void goals_open(struct goals *goals, const groat_method *method, struct amount pace);
void goals_close(struct goals *goals);

/* Prices the record, and adds a row for every goal when it is priced. Returns false when memory ran
 * out. `*outcome` is as of groat_price; unless it is GROAT_PRICED its reason is in the scratch. */
bool goals_add(struct goals *goals, groat_scratch *scratch, const groat_record *record,
               const groat_order *order, size_t product, groat_outcome *outcome);

/* Whether a goal, by its index, is asked for. */
bool goals_wants(const struct goals *goals, size_t goal);

/* Puts the rows goal by goal, and within a goal the best first: those that suffice, then those with
 * too little, never, and not answered. Of a goal per time with a limit, whatever can bring the most
 * of what there is comes first, and no limit before all; of others the fewest sales. What gives the
 * most decides between equals. */
void goals_sort(struct goals *goals);
/* Whether two rows of a goal are as good as each other, whatever one sale gives. */
bool goals_alike(const struct goals_row *a, const struct goals_row *b);

#endif
