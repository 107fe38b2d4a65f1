/* Estimates: what a price may be if the sheet or the rules give ranges.
 *
 * What is exact: a combination sets each range that affects the row to one of its two ends, and
 * every combination is priced as groat_price would. n ranges have 2^n combinations, so at most
 * ESTIMATE_RANGES_MOST ranges are combined; a row with more is refused.
 *
 * What is not claimed: that the lowest and highest price bound every price for values within the
 * ranges. Only ends are combined, and within a range the price may turn: at a row of a table, a cap
 * or a rung.
 *
 * The mean of the cost is the three-point mean of PERT, (a + 4m + b) / 6: of the lowest and the
 * highest cost over the combinations, and the likely one. Source: D. G. Malcolm, J. H. Roseboom, C.
 * E. Clark, W. Fazar, "Application of a Technique for Research and Development Program Evaluation",
 * Operations Research 7(5), 1959 (value from memory: the paper was not read for this). */
#ifndef GROAT_STUDY_ESTIMATE_H
#define GROAT_STUDY_ESTIMATE_H

#include "groat.h"
#include "number/amount.h"

enum { ESTIMATE_RANGES_MOST = 10, ESTIMATE_CORNERS_MOST = 1 << ESTIMATE_RANGES_MOST };

/* A range that affects a row. */
struct estimate_range {
    bool is_rate;
    size_t index; /* of the rate or of the field */
};

enum estimate_outcome {
    ESTIMATE_DONE,
    ESTIMATE_TOO_MANY, /* too many ranges affect the row, so there are no amounts */
    ESTIMATE_NO_MEMORY
};

/* The estimate of one row. */
struct estimate_result {
    enum estimate_outcome outcome;
    const struct estimate_range *ranges; /* first fields, then rates */
    size_t ranges_count;
    /* Over all combinations; if no range affects the row, for the row itself. */
    struct amount lowest, highest; /* price, of the combinations that have one */
    struct amount mean;            /* of the cost; absent if a combination has none */
    size_t corners;                /* number of combinations */
    size_t unpriced;               /* number of them that are refused or have no price */
    const char *reason;            /* the reason of the first of those */
};

struct estimate;

/* Makes estimates for a method, which must outlive them. NULL if memory runs out. */
struct estimate *estimate_open(const groat_method *method);
void estimate_close(struct estimate *estimate);
/* Estimates a row. Sets the record's ranges to their ends, and afterwards back to their likely
 * values. The result is valid until the next call. */
const struct estimate_result *estimate_row(struct estimate *estimate, groat_record *record,
                                           const groat_order *order);

#endif
