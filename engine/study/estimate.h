/* Estimates: what a price may come to where the sheet or the rules give ranges.
 *
 * Exact: a combination takes each range that bears on the row at one of its two ends, all of them
 * are priced, and each as groat_price prices it. With n ranges there are 2 to the n of them, so no
 * more than ESTIMATE_RANGES_MOST are combined; a row with more is refused.
 *
 * Not claimed: that every price in between lies between the lowest and the highest. Only ends are
 * combined, and a method may turn within a range: at a table's row, at a cap, at a rung.
 *
 * The mean of the cost is the three-point mean of PERT, (a + 4m + b) / 6: of the lowest and the
 * highest cost over the combinations, and the likely one. Source: D. G. Malcolm, J. H. Roseboom,
 * C. E. Clark, W. Fazar, "Application of a Technique for Research and Development Program
 * Evaluation", Operations Research 7(5), 1959 (value from memory: the paper was not read for this).
 */
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
    ESTIMATE_TOO_MANY, /* ranges affect the row: there are no amounts */
    ESTIMATE_NO_MEMORY
};

/* Of one row. */
struct estimate_result {
    enum estimate_outcome outcome;
    const struct estimate_range *ranges; /* first fields, then rates */
    size_t ranges_count;
    /* Over the combinations; where no range bears on the row, of the row itself. */
    struct amount lowest, highest; /* price, over those that have one */
    struct amount mean;            /* of the cost; absent where one of them has none */
    size_t corners;                /* how many combinations there are */
    size_t unpriced;               /* how many of them have no price, or are refused */
    const char *reason;            /* why the first of those has none */
};

struct estimate;

/* For the rows of a method, which must outlive it. NULL if memory runs out. */
struct estimate *estimate_open(const groat_method *method);
void estimate_close(struct estimate *estimate);
/* Works out a row. The record is leaned on the way, and likely again afterwards. The result lives
 * until the next one. */
const struct estimate_result *estimate_row(struct estimate *estimate, groat_record *record,
                                           const groat_order *order);

#endif
