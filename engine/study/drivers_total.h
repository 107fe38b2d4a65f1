/* The effect of each rate on all prices together. */
#ifndef GROAT_STUDY_DRIVERS_TOTAL_H
#define GROAT_STUDY_DRIVERS_TOTAL_H

#include "study/drivers.h"

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
