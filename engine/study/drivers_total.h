/* What each rate does to all prices together. */
#ifndef GROAT_STUDY_DRIVERS_TOTAL_H
#define GROAT_STUDY_DRIVERS_TOTAL_H

#include "study/drivers.h"

/* Shares of a price are averaged with this many decimals, because the exact mean of thousands of
 * fractions would be too long. */
#define DRIVERS_MEAN_DECIMALS 12

/* Which price it is; any numbers of the caller's. */
struct drivers_place {
    size_t row, channel;
    int64_t quantity;
};

struct drivers_total {
    size_t prices;              /* there with the rate as it is and with the rate moved */
    size_t moved;               /* of them, those that are not what they were */
    size_t fallen;              /* of those, what is lower */
    size_t lost;                /* there before only */
    struct amount mean;         /* of the shares; absent without prices, until drivers_totals_end */
    struct amount largest;      /* share, by size */
    struct drivers_place place; /* where that is; the first, where several are */
    struct amount sum;          /* of the shares so far */
};

struct drivers_totals {
    struct drivers_total *rates; /* one each */
    size_t *order;               /* by the size of the mean, after drivers_totals_end */
    size_t count;
    size_t prices;           /* there before */
    struct amounts rooms[2]; /* of the amounts, one after the other: totals stay where they are */
    size_t turn;
};

bool drivers_totals_open(struct drivers_totals *totals, const struct drivers *drivers);
void drivers_totals_close(struct drivers_totals *totals); /* one that is {0}, or was opened */
void drivers_totals_add(struct drivers_totals *totals, const struct drivers_result *result,
                        const struct drivers_place *place);
/* Works out the means and the order. */
void drivers_totals_end(struct drivers_totals *totals);

#endif
