/* The scale of an axis: which stretch of numbers it shows, and the round numbers on it, whose steps
 * are 1, 2 or 5 times a power of ten. For drawing alone: doubles will do. Private to this room. */
#ifndef GROAT_CHART_SCALE_H
#define GROAT_CHART_SCALE_H

#include <stdbool.h>
#include <stddef.h>

struct scale {
    double low, high; /* what the axis shows; low < high */
    double step;      /* between ticks */
    double first;     /* the first tick is this many steps */
    unsigned count;   /* of ticks */
    unsigned decimals;
};

/* Whether a number can be drawn at all: neither infinite nor beyond 1e300. */
bool scale_holds(double number);

/* About `wanted` ticks, from one at or below `least` to one at or above `most`, and never closer than
 * `finest` to each other. */
struct scale scale_around(double least, double most, unsigned wanted, double finest);
/* At most `wanted` ticks, all between `least` and `most`, which are the ends of the axis. */
struct scale scale_within(double least, double most, unsigned wanted);

double scale_tick(const struct scale *scale, unsigned index);
/* 0 at the low end, 1 at the high one. */
double scale_share(const struct scale *scale, double number);
/* A tick's number, with as many decimals as its scale needs and at least `decimals` where it needs
 * any. Follows snprintf. */
size_t scale_label(const struct scale *scale, unsigned index, unsigned decimals, char *buffer,
                   size_t size);

#endif
