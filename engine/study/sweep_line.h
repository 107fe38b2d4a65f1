/* The result of a sweep for one product on one channel: runs of points that have the same price. */
#ifndef GROAT_STUDY_SWEEP_LINE_H
#define GROAT_STUDY_SWEEP_LINE_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"
#include "number/amount.h"

/* Consecutive points with the same price, or with the same outcome without a price. Values that may
 * differ among them are kept for the first and the last point. */
struct sweep_run {
    size_t first, last;
    groat_outcome outcome;
    struct amount price;
    struct amount keep[2], profit[2];
    const char *note[2]; /* the notes, or the reason why there is no price; or NULL */
};

/* Which parts of the results are wanted. */
enum sweep_detail {
    SWEEP_FULL,
    SWEEP_PRICES,  /* without keep, profit and notes */
    SWEEP_OUTCOMES /* not even the prices; all prices count as the same */
};

struct sweep_line {
    struct sweep_run *runs;
    size_t count, room;
    size_t without; /* points without a price although the product is sold */
    enum sweep_detail detail;
    struct amounts amounts; /* of the runs, so a line must not be moved */
    struct arena arena;     /* of the runs and their notes */
};

void sweep_line_open(struct sweep_line *line, enum sweep_detail detail);
/* The line must be opened, or {0}. */
void sweep_line_close(struct sweep_line *line);
void sweep_line_clear(struct sweep_line *line);
/* Adds the result in the scratch. Points must come in their order. Returns false when memory runs
 * out. */
bool sweep_line_add(struct sweep_line *line, size_t point, groat_outcome outcome,
                    const groat_scratch *scratch);

/* Whether the product is sold on the channel at any point. */
bool sweep_line_sold(const struct sweep_line *line);
/* Writes the price at each of the `points`, for drawing; NaN where there is none. */
void sweep_line_draw(const struct sweep_line *line, size_t points, double *numbers);
/* The number of runs with a price. */
size_t sweep_line_prices(const struct sweep_line *line);

#endif
