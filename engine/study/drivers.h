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
    char *reason;
    struct amount after, change, share; /* share: change / before */
};

/* One product on one channel. */
struct drivers_result {
    groat_outcome outcome; /* with unchanged rates; if there is no price, the rest is undefined */
    char *reason;
    struct amount before;
    struct drivers_move *moves; /* one for each rate; absent amounts for a rate that cannot be
                                 * changed */
    size_t count;
    struct amounts room; /* of the amounts, so a result must not be moved */
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

#endif
