/* Pictures as SVG: black and greys, so that they are read as well on paper. What tells lines apart
 * is their dashes, the marks at their steps and the words beside them. */
#include "chart/chart.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "chart/scale.h"
#include "chart/svg.h"

/* In the picture's own units, which a browser shows as pixels. */
#define ALONE_WIDTH 760.0
#define ALONE_HEIGHT 440.0
#define PANEL_WIDTH 460.0
#define PANEL_HEIGHT 320.0
#define PANELS_ABREAST 2
#define HEAD 44.0 /* for the title above several panels */
#define ABOVE 46.0
#define BELOW 58.0
#define LEFT 70.0
#define RIGHT_LEAST 24.0
#define LETTER 7.2 /* the width of a letter, about */
#define LABEL_LETTERS 24
#define TITLE_LETTERS 44
#define LABEL_APART 16.0 /* the lines of labels */
#define MARKS_APART 26.0 /* along a line */

/* How a line is told from the others. */
struct style {
    const char *dashes; /* "none": an unbroken line */
    const char *grey;
    enum svg_mark mark;
    bool filled;
};
static const struct style styles[CHART_SERIES_MOST] = {
    {"none", "#111", SVG_ROUND, true},   {"9 4", "#333", SVG_SQUARE, false},
    {"2 3", "#111", SVG_TRIANGLE, true}, {"12 3 2 3", "#555", SVG_DIAMOND, false},
    {"none", "#777", SVG_SQUARE, true},  {"5 3", "#111", SVG_ROUND, false},
    {"1 5", "#333", SVG_DIAMOND, true},  {"14 4 2 4 2 4", "#555", SVG_TRIANGLE, false},
};

struct panel {
    const struct chart *chart;
    struct svg *svg;
    double left, top, right, bottom; /* of the field in which the lines are */
    struct scale across, up;
    double *ends; /* where the labels of the series stand */
};

static double x_of(const struct panel *panel, double number)
{
    return panel->left + scale_share(&panel->across, number) * (panel->right - panel->left);
}

static double y_of(const struct panel *panel, double number)
{
    return panel->bottom - scale_share(&panel->up, number) * (panel->bottom - panel->top);
}

/* ---- the field ---- */

/* The number of a tick between the marks of its axis. */
static void put_tick(struct panel *panel, const struct chart_axis *axis, const struct scale *scale,
                     unsigned index, double x, double y, enum svg_anchor anchor)
{
    char number[64], label[128];
    scale_label(scale, index, axis->decimals, number, sizeof number);
    char *point = panel->svg->decimal_comma ? strchr(number, '.') : NULL;
    if (point)
        *point = ',';
    bool negative = number[0] == '-';
    snprintf(label, sizeof label, "%s%.16s%.40s%.16s", negative ? "-" : "", axis->before,
             number + negative, axis->after);
    svg_text(panel->svg, x, y, anchor, "tick", label);
}

static void put_axes(struct panel *panel)
{
    const struct chart *chart = panel->chart;
    struct svg *svg = panel->svg;
    for (unsigned i = 0; i < panel->up.count; i++) {
        double y = y_of(panel, scale_tick(&panel->up, i));
        svg_line(svg, panel->left, y, panel->right, y, "grid");
        put_tick(panel, &chart->up, &panel->up, i, panel->left - 8, y + 4, SVG_END);
    }
    for (unsigned i = 0; i < panel->across.count; i++) {
        double x = x_of(panel, scale_tick(&panel->across, i));
        svg_line(svg, x, panel->bottom, x, panel->bottom + 5, "axis");
        put_tick(panel, &chart->across, &panel->across, i, x, panel->bottom + 19, SVG_MIDDLE);
    }
    svg_line(svg, panel->left, panel->top, panel->left, panel->bottom, "axis");
    svg_line(svg, panel->left, panel->bottom, panel->right, panel->bottom, "axis");
    svg_text(svg, panel->right, panel->bottom + 40, SVG_END, "name", chart->across.title);
    svg_text(svg, panel->left - 8, panel->top - 12, SVG_START, "name", chart->up.title);
    svg_text_short(svg, panel->left - 8, panel->top - 30, "title", chart->title, TITLE_LETTERS);
}

/* The place on the axis across that is worth a word. */
static void put_mark(struct panel *panel)
{
    const struct chart *chart = panel->chart;
    double share = chart->mark_label ? scale_share(&panel->across, chart->mark) : -1;
    if (!(share >= 0 && share <= 1))
        return;
    double x = x_of(panel, chart->mark);
    svg_line(panel->svg, x, panel->top, x, panel->bottom, "mark");
    svg_text(panel->svg, share > 0.7 ? x - 5 : x + 5, panel->bottom - 7,
             share > 0.7 ? SVG_END : SVG_START, "tick", chart->mark_label);
}

/* ---- the lines ---- */

static double number_at(const struct chart *chart, size_t point)
{
    if (chart->points < 2)
        return chart->from;
    double share = (double)point / (double)(chart->points - 1);
    return chart->from + share * (chart->to - chart->from);
}

/* The stretch of points from `first` on whose numbers are one; their end. */
static size_t end_of_tread(const struct chart *chart, const double *numbers, size_t first)
{
    size_t end = first + 1;
    while (end < chart->points && numbers[end] == numbers[first])
        end++;
    return end;
}

/* Where a tread begins or ends: half-way to the next point, except at the ends of the line. */
static double edge_before(const struct panel *panel, size_t point)
{
    const struct chart *chart = panel->chart;
    double x = x_of(panel, number_at(chart, point));
    return point == 0 ? x : (x + x_of(panel, number_at(chart, point - 1))) / 2;
}

static double edge_after(const struct panel *panel, size_t point)
{
    return point + 1 >= panel->chart->points ? x_of(panel, number_at(panel->chart, point))
                                             : edge_before(panel, point + 1);
}

static void put_path(struct panel *panel, const double *numbers, const struct style *style)
{
    const struct chart *chart = panel->chart;
    bool down = false; /* the pen */
    svg_path_begin(panel->svg);
    for (size_t i = 0, end; i < chart->points; i = end) {
        end = end_of_tread(chart, numbers, i);
        if (!scale_holds(numbers[i])) {
            down = false;
            end = i + 1;
            continue;
        }
        double y = y_of(panel, numbers[i]);
        if (down)
            svg_path_down(panel->svg, y);
        else
            svg_path_move(panel->svg, edge_before(panel, i), y);
        svg_path_across(panel->svg, edge_after(panel, end - 1));
        down = true;
    }
    svg_path_end(panel->svg, style->grey, style->dashes);
}

/* A mark at the middle of treads that are far enough from each other. */
static void put_marks(struct panel *panel, const double *numbers, const struct style *style)
{
    const struct chart *chart = panel->chart;
    double free_from = -INFINITY;
    for (size_t i = 0, end; i < chart->points; i = end) {
        end = end_of_tread(chart, numbers, i);
        if (!scale_holds(numbers[i]))
            continue;
        double x = (edge_before(panel, i) + edge_after(panel, end - 1)) / 2;
        if (x < free_from)
            continue;
        svg_mark(panel->svg, x, y_of(panel, numbers[i]), style->mark, style->grey, style->filled);
        free_from = x + MARKS_APART;
    }
}

/* ---- their names ---- */

static double last_number(const struct chart *chart, const double *numbers)
{
    for (size_t i = chart->points; i > 0; i--)
        if (scale_holds(numbers[i - 1]))
            return numbers[i - 1];
    return NAN;
}

/* Labels stand at the height where their line ends, and as far apart as they must. */
static void place_labels(struct panel *panel)
{
    const struct chart *chart = panel->chart;
    size_t order[CHART_SERIES_MOST];
    for (size_t i = 0; i < chart->series_count; i++) {
        double last = last_number(chart, chart->series[i].numbers);
        panel->ends[i] = isfinite(last) ? y_of(panel, last) : panel->bottom;
        size_t at = i;
        for (; at > 0 && panel->ends[order[at - 1]] > panel->ends[i]; at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    for (size_t i = 1; i < chart->series_count; i++)
        panel->ends[order[i]] =
            fmax(panel->ends[order[i]], panel->ends[order[i - 1]] + LABEL_APART);
    double lowest = panel->bottom;
    for (size_t i = chart->series_count; i > 0; i--) {
        panel->ends[order[i - 1]] = fmin(panel->ends[order[i - 1]], lowest);
        lowest = panel->ends[order[i - 1]] - LABEL_APART;
    }
}

static void put_labels(struct panel *panel)
{
    const struct chart *chart = panel->chart;
    place_labels(panel);
    for (size_t i = 0; i < chart->series_count; i++) {
        const struct style *style = &styles[i];
        double y = panel->ends[i], x = panel->right + 8;
        svg_sample(panel->svg, x, y, x + 26, style->grey, style->dashes);
        svg_mark(panel->svg, x + 13, y, style->mark, style->grey, style->filled);
        svg_text_short(panel->svg, x + 32, y + 4, "label", chart->series[i].label, LABEL_LETTERS);
    }
}

/* ---- a panel ---- */

static void choose_scales(struct panel *panel, bool alone)
{
    const struct chart *chart = panel->chart;
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < chart->series_count; i++) {
        for (size_t j = 0; j < chart->points; j++) {
            double number = chart->series[i].numbers[j];
            if (!scale_holds(number))
                continue;
            least = fmin(least, number);
            most = fmax(most, number);
        }
    }
    if (most < least)
        least = 0, most = 1;
    panel->up = scale_around(least, most, alone ? 7 : 5);
    panel->across = scale_within(chart->from, chart->to, alone ? 9 : 6);
}

/* How much space the names of the lines take at the right. */
static double names_width(const struct chart *chart)
{
    size_t longest = 0;
    for (size_t i = 0; i < chart->series_count; i++) {
        size_t letters = svg_letters(chart->series[i].label, LABEL_LETTERS);
        longest = letters > longest ? letters : longest;
    }
    return longest > 0 ? 44 + (double)longest * LETTER : RIGHT_LEAST;
}

static bool put_panel(struct svg *svg, const struct chart *chart, double left, double top,
                      double width, double height)
{
    double ends[CHART_SERIES_MOST];
    struct panel panel = {.chart = chart,
                          .svg = svg,
                          .left = left + LEFT,
                          .top = top + ABOVE,
                          .right = left + width - names_width(chart),
                          .bottom = top + height - BELOW,
                          .ends = ends};
    choose_scales(&panel, width >= ALONE_WIDTH);
    put_axes(&panel);
    put_mark(&panel);
    for (size_t i = 0; i < chart->series_count; i++) {
        put_path(&panel, chart->series[i].numbers, &styles[i]);
        put_marks(&panel, chart->series[i].numbers, &styles[i]);
    }
    put_labels(&panel);
    return svg_fine(svg);
}

bool chart_svg(const char *title, const struct chart *charts, size_t count, bool decimal_comma,
               FILE *out)
{
    struct svg svg = {.out = out, .decimal_comma = decimal_comma};
    bool alone = count <= 1;
    double width = alone ? ALONE_WIDTH : PANEL_WIDTH, height = alone ? ALONE_HEIGHT : PANEL_HEIGHT;
    double head = alone || !title ? 0 : HEAD;
    size_t abreast = alone ? 1 : PANELS_ABREAST, rows = (count + abreast - 1) / abreast;
    svg_begin(&svg, width * (double)abreast, head + height * (double)(rows ? rows : 1),
              title       ? title
              : count > 0 ? charts[0].title
                          : "");
    if (head > 0)
        svg_text(&svg, 24, 30, SVG_START, "head", title);
    for (size_t i = 0; i < count; i++)
        put_panel(&svg, &charts[i], width * (double)(i % abreast),
                  head + height * (double)(i / abreast), width, height);
    if (count == 0)
        svg_text(&svg, 24, 60, SVG_START, "name", "there is nothing to draw");
    return svg_end(&svg);
}
