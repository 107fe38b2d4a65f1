/* Pictures of figures: steps over a rate and bars, for a terminal and as SVG. What is drawn are
 * doubles, good enough for the eye; every figure that is to be read stands in a text beside it.
 *
 * A price holds over a stretch of the rate and then jumps, so lines are drawn as steps: a point's
 * number is drawn half-way to its neighbours on both sides. One that is not a number is a gap. */
#ifndef GROAT_CHART_CHART_H
#define GROAT_CHART_CHART_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

struct chart_axis {
    const char *title;          /* `hourly, $ per h` */
    const char *before, *after; /* around the number of a tick: `$` */
    unsigned decimals;          /* of a tick that is not whole, at least */
    double finest;              /* no ticks lie closer than this; 0: any may */
};

struct chart_series {
    const char *label;
    const double *numbers; /* one a point */
    unsigned style;        /* how an SVG draws it, below CHART_SERIES_MOST */
};

/* A diagram of points that lie at even distances along the axis. */
struct chart {
    const char *title;
    struct chart_axis across, up;
    double from, to; /* the first point and the last */
    size_t points;   /* at least 1 */
    const struct chart_series *series;
    size_t series_count;
    /* A place on the axis across that is worth a word, `now $24 per h`; NULL: none. */
    const char *mark_label;
    double mark;
    /* What an SVG says of a stretch without numbers, `no price`. */
    const char *gap;
    /* And at the end of a line where others go on, before where it ends: `none above`. */
    const char *beyond;
};

/* What a picture for a terminal is written with. */
struct chart_pen {
    size_t width;       /* in character cells */
    bool plain;         /* ASCII alone */
    bool decimal_comma; /* in the numbers of ticks */
};

/* The steps of one series, each price on a line of its own where they are few. Returns false when
 * it could not be written; errno says why. */
bool chart_steps(const struct chart *chart, size_t series, const struct chart_pen *pen, FILE *out);

/* A series in one line of `width` cells: low where the number is, high where it is. What is
 * written ends with a zero byte; a cell takes at most 3 bytes. Returns the length. */
size_t chart_strip(const double *numbers, size_t points, size_t width, bool plain, char *buffer,
                   size_t size);
#define CHART_CELL_BYTES 3

/* A bar of `share` of `width` cells; the bar of a number below zero is hatched. Written as
 * chart_strip is. */
size_t chart_bar(double share, size_t width, bool plain, char *buffer, size_t size);

/* ---- SVG ---- */

#define CHART_SERIES_MOST 8 /* that a reader can tell apart without colour */
#define CHART_PANELS_MOST 24

/* Diagrams side by side in one picture. Up to CHART_PANELS_MOST of them with up to
 * CHART_SERIES_MOST series each. `title` stands above them all; NULL: none. */
bool chart_svg(const char *title, const struct chart *charts, size_t count, bool decimal_comma,
               FILE *out);

struct chart_row {
    const char *label;
    const char *text; /* what the bar says: `+0.43%` */
    double number;
};
/* Bars, one a row, as long as their numbers; those below zero go to the left of the axis and are
 * hollow. `note` stands under the picture, and `below` there too, where there are such bars, beside
 * one of them. */
bool chart_svg_bars(const char *title, const char *note, const char *below,
                    const struct chart_row *rows, size_t count, FILE *out);

#endif
