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
#define KEY 22.0 /* more where a key stands there */
#define LETTER 7.0
#define LABEL_LETTERS 30
#define TEXT_ROOM 90.0 /* behind the longest bar */

/* Of `sign` times the numbers; at least 0. */
static double longest_number(const struct chart_row *rows, size_t count, double sign)
{
    double longest = 0;
    for (size_t i = 0; i < count; i++)
        if (scale_holds(rows[i].number))
            longest = fmax(longest, sign * rows[i].number);
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

/* What stands under the bars. */
static void put_foot(struct svg *svg, double left, double y, const char *note, const char *below)
{
    svg_text(svg, left, y, SVG_START, "name", note);
    if (!below)
        return;
    svg_box(svg, left, y + 9, 24, BAR, "below");
    svg_text(svg, left + 31, y + 9 + BAR - 3, SVG_START, "label", below);
}

bool chart_svg_bars(const char *title, const char *note, const char *below,
                    const struct chart_row *rows, size_t count, FILE *out)
{
    struct svg svg = {.out = out};
    double most = longest_number(rows, count, 1), least = longest_number(rows, count, -1);
    double longest = fmax(most, least); /* their sum may be beyond all numbers */
    double shares = longest > 0 ? most / longest + least / longest : 1;
    double left = 24, start = left + labels_width(rows, count) + 16;
    double room = (WIDTH - start - TEXT_ROOM) / shares;
    double axis = start + (longest > 0 ? least / longest * room : 0);
    svg_begin(&svg, WIDTH, ABOVE + ROW * (double)count + BELOW + (least > 0 ? KEY : 0), title);
    svg_text(&svg, left, 30, SVG_START, "head", title);
    for (size_t i = 0; i < count; i++) {
        double y = ABOVE + ROW * (double)i;
        double share = longest > 0 && scale_holds(rows[i].number) ? rows[i].number / longest : 0;
        double length = fabs(share) * room;
        bool falls = share < 0;
        svg_text_short(&svg, left, y + BAR - 3, "label", rows[i].label, LABEL_LETTERS);
        svg_box(&svg, falls ? axis - length : axis, y, length, BAR, falls ? "below" : "bar");
        svg_text(&svg, axis + (falls ? 0 : length) + 7, y + BAR - 3, SVG_START, "label",
                 rows[i].text);
    }
    svg_line(&svg, axis, ABOVE - 6, axis, ABOVE + ROW * (double)count - 4, "axis");
    put_foot(&svg, left, ABOVE + ROW * (double)count + 22, note, least > 0 ? below : NULL);
    return svg_end(&svg);
}
