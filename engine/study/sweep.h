/* A sweep: changes one rate from one value to another in equal steps, and prices each product at
 * every value. The values are exact fractions; each has a method of its own. */
#ifndef GROAT_STUDY_SWEEP_H
#define GROAT_STUDY_SWEEP_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"
#include "number/amount.h"

#define SWEEP_POINTS_LEAST 2
#define SWEEP_POINTS_MOST 10000

/* Point i of n is from + (to - from) * i / (n - 1): both ends are among them. The ends are literals
 * of the rate's dimension, or changes such as `-10%`. */
struct sweep_range {
    const char *rate, *from, *to;
    size_t points;
};

/* Outside the study, a sweep is only read. */
struct sweep {
    const groat_method *method;
    const char *rate;
    size_t rate_index; /* in the method */
    size_t points;
    /* The rate at each point, and the rate in the method. The unit is that of the range's first
     * end (`$20 per h`: dollars per hour), or, if the end is a change, that of the rate in the
     * rules. */
    struct amount *values, now;
    groat_unit unit;
    /* private */
    groat_method **methods; /* one for each point */
    unsigned places;        /* decimals that every point has */
    struct amounts room;    /* of the amounts */
    struct arena arena;     /* of the lists and their texts */
};

/* Returns NULL on failure, with the reason in `*trouble`. A wrong end is reported like a rate of
 * groat_method_with_rates; an error of the sweep as a whole has no rate (`given`). For a range that
 * goes down, `help` is the reversed range, `$20..$30`. The method must outlive the sweep. */
struct sweep *sweep_open(const groat_method *method, const struct sweep_range *range,
                         groat_trouble *trouble);
void sweep_close(struct sweep *sweep);

/* `$22.40`, with as many decimals as every point of the sweep has, and this decimal mark. Follows
 * snprintf. */
size_t sweep_number(const struct sweep *sweep, const struct amount *value, char mark, char *buffer,
                    size_t size);
/* The same without unneeded decimals, for a number that is shown alone: `$8.28`, `15%`. */
size_t sweep_number_alone(const struct sweep *sweep, const struct amount *value, char mark,
                          char *buffer, size_t size);

/* Called with the result of an order at a point, which is in the scratch. */
typedef bool sweep_visitor(void *context, size_t order, size_t point, groat_outcome outcome,
                           const groat_scratch *scratch);
/* Prices a record at every point in turn, and at each point every order, so that what the orders
 * have in common is calculated once. Returns false if the visitor did. Several threads may do this
 * at once, each with its own scratch and record. */
bool sweep_walk(const struct sweep *sweep, groat_scratch *scratch, const groat_record *record,
                const groat_order *orders, size_t count, sweep_visitor *visit, void *context);

#endif
