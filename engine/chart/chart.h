/* Pictures of figures: steps over a rate and bars, for a terminal and as SVG. Positions are
 * doubles, which are exact enough for a picture; every number to be read is in a text beside it.
 *
 * A price stays the same over a stretch of the rate and then jumps, so lines are drawn as steps: a
 * point's number is drawn half-way to its neighbours on both sides. NaN is a gap. */
#ifndef GROAT_CHART_CHART_H
#define GROAT_CHART_CHART_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

struct chart_axis {
    const char *title;          /* `hourly, $ per h` */
    const char *before, *after; /* around the number of a tick: `$` */
    unsigned decimals;          /* the least number, for a tick that is not whole */
    double finest;              /* the least distance of two ticks; 0: any */
};

struct chart_series {
    const char *label;
    const double *numbers; /* one for each point */
    unsigned style;        /* how an SVG draws it, below CHART_SERIES_MOST */
};

/* A diagram of points at equal distances along the axis. */
struct chart {
    const char *title;
    struct chart_axis across, up;
    double from, to; /* the first point and the last */
    size_t points;   /* at least 1 */
    const struct chart_series *series;
    size_t series_count;
    /* A place on the horizontal axis that gets a label, `now $24 per h`; NULL: none. */
    const char *mark_label;
    double mark;
    /* The label of an SVG for a stretch without numbers, `no price`. */
    const char *gap;
    /* The label at the end of a line that ends before others do: `none above`. */
    const char *beyond;
};

/* How a picture for a terminal is written. */
struct chart_pen {
    size_t width; /* in character cells */
    bool plain;   /* only ASCII */
    char mark;    /* the decimal mark */
};

/* Writes the steps of one series, each price on its own line if there are few. Returns false when
 * it could not be written; errno says why. */
bool chart_steps(const struct chart *chart, size_t series, const struct chart_pen *pen, FILE *out);

/* Writes a series as one line of `width` cells whose heights follow the numbers. The text ends with
 * a zero byte; a cell takes at most 3 bytes. Returns the length. */
size_t chart_strip(const double *numbers, size_t points, size_t width, bool plain, char *buffer,
                   size_t size);
#define CHART_CELL_BYTES 3

/* Writes a bar over `share` of `width` cells; the bar of a number below zero is hatched. The text
 * and the return value are as for chart_strip. */
size_t chart_bar(double share, size_t width, bool plain, char *buffer, size_t size);

/* ---- SVG ---- */

#define CHART_SERIES_MOST 8 /* as many as a reader can tell apart without colour */
#define CHART_PANELS_MOST 24

/* Diagrams side by side in one picture. Up to CHART_PANELS_MOST of them with up to
 * CHART_SERIES_MOST series each. `title` is above all of them; NULL: none. `mark` is the decimal
 * mark. */
bool chart_svg(const char *title, const struct chart *charts, size_t count, char mark, FILE *out);

struct chart_row {
    const char *label;
    const char *text; /* the label of the bar: `+0.43%` */
    double number;
};
/* Bars, one in each row, as long as their numbers; those below zero go to the left of the axis and
 * are hollow. `note` is printed below the picture, and `below` is the legend for hollow bars,
 * printed only if there are any. */
bool chart_svg_bars(const char *title, const char *note, const char *below,
                    const struct chart_row *rows, size_t count, FILE *out);

#endif
