/* The scale of an axis: the range of numbers it shows, and its ticks, whose steps are 1, 2 or 5
 * times a power of ten. Only for drawing, so doubles are exact enough. Private to this room. */
#ifndef GROAT_CHART_SCALE_H
#define GROAT_CHART_SCALE_H

#include <stdbool.h>
#include <stddef.h>

#include "chart/chart.h"

struct scale {
    double low, high; /* what the axis shows; low < high */
    double step;      /* between ticks */
    double first;     /* the first tick is this many steps */
    unsigned count;   /* of ticks */
    unsigned decimals;
};

/* Whether a number can be drawn: finite and not beyond 1e300. */
bool scale_holds(double number);

/* Widens a range to hold those of the numbers that can be drawn. */
void scale_widen(const double *numbers, size_t count, double *least, double *most);

/* A scale with about `wanted` ticks, the first at or below `least` and the last at or above `most`,
 * at least `finest` apart. */
struct scale scale_around(double least, double most, unsigned wanted, double finest);
/* A scale from `least` to `most`, with at most `wanted` ticks within. */
struct scale scale_within(double least, double most, unsigned wanted);

double scale_tick(const struct scale *scale, unsigned index);
/* The place of a number: 0 at the low end, 1 at the high end. */
double scale_share(const struct scale *scale, double number);
/* Writes a number with this many decimals and this decimal mark. This and the following writers
 * follow snprintf. */
size_t scale_number(double number, unsigned places, char mark, char *buffer, size_t size);
/* Writes the number of a tick, with as many decimals as the scale needs, and at least `decimals` if
 * it needs any. */
size_t scale_label(const struct scale *scale, unsigned index, unsigned decimals, char mark,
                   char *buffer, size_t size);
/* Write a number, and that of a tick, with the texts of the axis around it. A minus sign comes
 * first. */
size_t scale_on_axis(const struct chart_axis *axis, double number, unsigned places, char mark,
                     char *buffer, size_t size);
size_t scale_tick_on_axis(const struct chart_axis *axis, const struct scale *scale, unsigned index,
                          char mark, char *buffer, size_t size);
/* How many decimals a place between ticks needs when it is written with six digits, and at least
 * `decimals` if it needs any. */
unsigned scale_places(double number, unsigned decimals);

#endif
