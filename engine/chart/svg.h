/* The pieces of an SVG file. Numbers have two decimals, texts are escaped for XML, and the same
 * calls always write the same bytes. Private to this room. */
#ifndef GROAT_CHART_SVG_H
#define GROAT_CHART_SVG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

struct svg {
    FILE *out;
    char mark;   /* the decimal mark, for callers that write numbers as texts */
    bool failed; /* a write failed; errno says why */
};

enum svg_anchor { SVG_START, SVG_MIDDLE, SVG_END };
enum svg_mark { SVG_ROUND, SVG_SQUARE, SVG_TRIANGLE, SVG_DIAMOND };

void svg_begin(struct svg *svg, double width, double height, const char *title);
bool svg_end(struct svg *svg); /* whether everything was written */

/* Writes the pattern that fills boxes of the kind `gap`; call it once in a file that has such
 * boxes. */
void svg_hatch(struct svg *svg);

/* `kind` is a class of the style sheet that svg_begin writes. */
void svg_line(struct svg *svg, double x1, double y1, double x2, double y2, const char *kind);
void svg_box(struct svg *svg, double x, double y, double width, double height, const char *kind);
void svg_text(struct svg *svg, double x, double y, enum svg_anchor anchor, const char *kind,
              const char *text);
/* Writes at most `letters` letters of a text that begins at x; a longer text ends with an
 * ellipsis. */
void svg_text_short(struct svg *svg, double x, double y, const char *kind, const char *text,
                    size_t letters);
/* The number of letters that svg_text_short writes. */
size_t svg_letters(const char *text, size_t letters);
void svg_sample(struct svg *svg, double x1, double y, double x2, const char *grey,
                const char *dashes);
void svg_mark(struct svg *svg, double x, double y, enum svg_mark mark, const char *grey,
              bool filled);

/* A line of steps, from left to right. A tread that is not joined to the one before begins a new
 * part of the line. */
void svg_path_begin(struct svg *svg);
void svg_path_tread(struct svg *svg, bool joined, double left, double right, double y);
void svg_path_end(struct svg *svg, const char *grey, const char *dashes);

#endif
