/* The result of a sweep for one product on one channel: runs of points that have the same price. */
#ifndef GROAT_STUDY_SWEEP_LINE_H
#define GROAT_STUDY_SWEEP_LINE_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"
#include "number/amount.h"

/* Points that follow each other and have one price, or none of one kind. What may differ among them
 * is there for the first and the last. */
struct sweep_run {
    size_t first, last;
    groat_outcome outcome;
    struct amount price;
    struct amount keep[2], profit[2];
    char *note[2]; /* its notes, or why there is no price; NULL: nothing */
};

/* How much of it is wanted. */
enum sweep_detail {
    SWEEP_FULL,
    SWEEP_PRICES,  /* without keep, profit and notes */
    SWEEP_OUTCOMES /* not even the prices, which are taken for one */
};

struct sweep_line {
    struct sweep_run *runs;
    size_t count;
    size_t opened, room; /* runs whose notes are there to be freed, and that there is space for */
    size_t without;      /* points without a price, though the product is sold there */
    enum sweep_detail detail;
    struct amounts amounts; /* where those of its runs live: a line stays where it is */
};

void sweep_line_open(struct sweep_line *line, enum sweep_detail detail);
/* One that is {0}, or was opened. */
void sweep_line_close(struct sweep_line *line);
void sweep_line_clear(struct sweep_line *line);
/* Adds the result in the scratch. Points come in their order. False when memory runs out. */
bool sweep_line_add(struct sweep_line *line, size_t point, groat_outcome outcome,
                    const groat_scratch *scratch);

/* Whether the product is sold on the channel at any point. */
bool sweep_line_sold(const struct sweep_line *line);
/* The price at each of `points`, not a number where there is none; for drawing. */
void sweep_line_draw(const struct sweep_line *line, size_t points, double *numbers);
/* How many different prices follow each other. */
size_t sweep_line_prices(const struct sweep_line *line);

#endif
