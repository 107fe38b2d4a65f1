/* Drivers: the effect on prices when a single rate is a little higher or lower. Use it with a
 * method that was read unrounded, so that a price changes smoothly with every rate it depends on,
 * not in steps.
 *
 * A rate from which others are calculated changes these too. */
#ifndef GROAT_STUDY_DRIVERS_H
#define GROAT_STUDY_DRIVERS_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"
#include "number/amount.h"

struct drivers;

/* `change` is a sign and a percentage, `+1%`. Returns NULL on failure, with the reason in
 * `*trouble`. The method must outlive the study. */
struct drivers *drivers_open(const groat_method *method, const char *change,
                             groat_trouble *trouble);
void drivers_close(struct drivers *drivers);

/* The rates are those of the method, by their index there. */
size_t drivers_rates(const struct drivers *drivers);
/* Why a rate cannot be changed; NULL if it can. */
const char *drivers_still(const struct drivers *drivers, size_t rate);

/* The effect of a rate on one price. */
struct drivers_move {
    groat_outcome outcome; /* GROAT_PRICED, or why there is no new price */
    const char *reason;
    struct amount after, change, share; /* share: change / before */
};

/* One product on one channel. */
struct drivers_result {
    groat_outcome outcome; /* with unchanged rates; if there is no price, the rest is undefined */
    const char *reason;
    struct amount before;
    struct drivers_move *moves; /* one for each rate; absent amounts for a rate that cannot be
                                 * changed */
    size_t count;
    struct amounts room; /* of the amounts, so a result must not be moved */
    struct arena arena;  /* of the reasons */
};

/* Opens a result with absent amounts. Returns false when memory runs out; it may then be closed as
 * well. */
bool drivers_result_open(struct drivers_result *result, const struct drivers *drivers);
void drivers_result_close(struct drivers_result *result); /* opened, or {0} */
/* Prices a record once for every rate. Returns false when memory runs out. Several threads may do
 * this at once, each with its own scratch, record and result. */
bool drivers_price(const struct drivers *drivers, groat_scratch *scratch,
                   const groat_record *record, const groat_order *order,
                   struct drivers_result *result);

/* Orders rates by the size of their effect, the largest first; equal ones in the order of the
 * rules. `order` has room for every rate. */
void drivers_rank_moves(const struct drivers_result *result, size_t *order);

/* ---- the effect of each rate on all prices together ---- */

/* Shares of a price are averaged with this many decimals, because the exact mean of thousands of
 * fractions would be too long. */
#define DRIVERS_MEAN_DECIMALS 12

/* Identifies a price by numbers that the caller chooses. */
struct drivers_place {
    size_t row, channel;
    int64_t quantity;
};

struct drivers_total {
    size_t prices;              /* number of prices that exist both before and after the change */
    size_t moved;               /* how many of these changed */
    size_t fallen;              /* how many of those became lower */
    size_t lost;                /* how many prices exist only before */
    struct amount mean;         /* of the shares; absent without prices and before
                                 * drivers_totals_end */
    struct amount largest;      /* the largest share, ignoring its sign */
    struct drivers_place place; /* the first price with that share */
    struct amount sum;          /* sum of the shares so far */
};

struct drivers_totals {
    struct drivers_total *rates; /* one for each rate */
    size_t *order;               /* by the size of the mean, after drivers_totals_end */
    size_t count;
    size_t prices;           /* number of prices before the change */
    struct amounts rooms[2]; /* of the amounts, used in turn; totals must not be moved */
    size_t turn;
};

bool drivers_totals_open(struct drivers_totals *totals, const struct drivers *drivers);
void drivers_totals_close(struct drivers_totals *totals); /* one that is {0}, or was opened */
void drivers_totals_add(struct drivers_totals *totals, const struct drivers_result *result,
                        const struct drivers_place *place);
/* Calculates the means and the order. */
void drivers_totals_end(struct drivers_totals *totals);

#endif
