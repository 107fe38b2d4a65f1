/* Bars as SVG. */
#include "chart/chart.h"

#include <math.h>

#include "chart/scale.h"
#include "chart/svg.h"

#define WIDTH 760.0
#define ABOVE 56.0
#define ROW 24.0
#define BAR 15.0
#define BELOW 44.0
#define LETTER 7.0
#define LABEL_LETTERS 30
#define TEXT_ROOM 90.0 /* behind the longest bar */

static double longest_number(const struct chart_row *rows, size_t count)
{
    double longest = 0;
    for (size_t i = 0; i < count; i++)
        if (scale_holds(rows[i].number))
            longest = fmax(longest, fabs(rows[i].number));
    return longest;
}

static double labels_width(const struct chart_row *rows, size_t count)
{
    size_t longest = 0;
    for (size_t i = 0; i < count; i++) {
        size_t letters = svg_letters(rows[i].label, LABEL_LETTERS);
        longest = letters > longest ? letters : longest;
    }
    return (double)longest * LETTER;
}

bool chart_svg_bars(const char *title, const char *note, const struct chart_row *rows, size_t count,
                    FILE *out)
{
    struct svg svg = {.out = out};
    double longest = longest_number(rows, count);
    double left = 24, bars = left + labels_width(rows, count) + 16;
    double room = WIDTH - bars - TEXT_ROOM;
    svg_begin(&svg, WIDTH, ABOVE + ROW * (double)count + BELOW, title);
    svg_text(&svg, left, 30, SVG_START, "head", title);
    for (size_t i = 0; i < count; i++) {
        double y = ABOVE + ROW * (double)i;
        double share = longest > 0 && scale_holds(rows[i].number) ? rows[i].number / longest : 0;
        double length = fabs(share) * room;
        svg_text_short(&svg, left, y + BAR - 3, "label", rows[i].label, LABEL_LETTERS);
        svg_box(&svg, bars, y, length, BAR, share < 0 ? "below" : "bar");
        svg_text(&svg, bars + length + 7, y + BAR - 3, SVG_START, "label", rows[i].text);
    }
    svg_line(&svg, bars, ABOVE - 6, bars, ABOVE + ROW * (double)count - 4, "axis");
    svg_text(&svg, left, ABOVE + ROW * (double)count + 22, SVG_START, "name", note);
    return svg_end(&svg);
}
