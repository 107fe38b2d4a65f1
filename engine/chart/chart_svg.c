/* Pictures as SVG: black and greys, so that they are read as well on paper. What tells lines apart
 * is their dashes, the marks at their steps and the words beside them. */
#include "chart/chart.h"

#include <math.h>
#include <stdint.h>
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
#define AIR 9.0    /* below the lowest tick, so that a line there is seen */
#define LETTER 7.2 /* the width of a letter, about */
#define LABEL_LETTERS 24
#define TITLE_LETTERS 44
#define LABEL_APART 16.0 /* the lines of labels */
#define MARKS_APART 26.0 /* along a line */
#define TEXT_BYTES 256

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
    double bottom = panel->bottom - AIR;
    return bottom - scale_share(&panel->up, number) * (bottom - panel->top);
}

/* ---- the field ---- */

static void put_tick(struct panel *panel, const struct chart_axis *axis, const struct scale *scale,
                     unsigned index, double x, double y, enum svg_anchor anchor)
{
    char label[128];
    scale_tick_on_axis(axis, scale, index, panel->svg->mark, label, sizeof label);
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

static double width_of(const char *text)
{
    return LETTER * (double)svg_letters(text, SIZE_MAX);
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
    /* Over the field, behind the title of the axis. */
    double width = width_of(chart->mark_label);
    double start = fmin(x - width / 2, panel->right - width);
    start = fmax(start, panel->left + width_of(chart->up.title));
    svg_text(panel->svg, start, panel->top - 8, SVG_START, "tick", chart->mark_label);
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
    bool joined = false; /* to a tread before */
    svg_path_begin(panel->svg);
    for (size_t i = 0, end; i < chart->points; i = end) {
        end = end_of_tread(chart, numbers, i);
        bool drawn = scale_holds(numbers[i]);
        if (drawn)
            svg_path_tread(panel->svg, joined, edge_before(panel, i), edge_after(panel, end - 1),
                           y_of(panel, numbers[i]));
        joined = drawn;
    }
    svg_path_end(panel->svg, style->grey, style->dashes);
}

/* Marks on treads, far enough from each other. Each line has its own part of a tread for them, so
 * that they are told apart where lines coincide. */
static void put_marks(struct panel *panel, size_t index, const struct style *style)
{
    const struct chart *chart = panel->chart;
    const double *numbers = chart->series[index].numbers;
    double part = (double)(index + 1) / (double)(chart->series_count + 1);
    double free_from = -INFINITY;
    for (size_t i = 0, end; i < chart->points; i = end) {
        end = end_of_tread(chart, numbers, i);
        if (!scale_holds(numbers[i]))
            continue;
        double left = edge_before(panel, i), width = edge_after(panel, end - 1) - left;
        double x = left + width * (width > MARKS_APART ? part : 0.5);
        if (x < free_from)
            continue;
        svg_mark(panel->svg, x, y_of(panel, numbers[i]), style->mark, style->grey, style->filled);
        free_from = x + MARKS_APART;
    }
}

/* ---- where there is no number ---- */

/* How many points there are up to the last with a number; 0: none has one. */
static size_t reach_of(const struct chart *chart, const double *numbers)
{
    size_t reach = chart->points;
    while (reach > 0 && !scale_holds(numbers[reach - 1]))
        reach--;
    return reach;
}

static bool has_number(const struct chart *chart, size_t point)
{
    for (size_t i = 0; i < chart->series_count; i++)
        if (scale_holds(chart->series[i].numbers[point]))
            return true;
    return false;
}

/* Whether no line has a number at any of the points, so that they lie in a hatched stretch. */
static bool is_hatched(const struct panel *panel, size_t first, size_t end)
{
    for (size_t i = first; i < end; i++)
        if (has_number(panel->chart, i))
            return false;
    return true;
}

static void put_words(struct panel *panel, double left, double right, double y)
{
    const char *gap = panel->chart->gap;
    if (gap && right - left > width_of(gap))
        svg_text(panel->svg, (left + right) / 2, y + 4, SVG_MIDDLE, "over", gap);
}

/* Stretches in which no line has a number. */
static void put_hatched(struct panel *panel)
{
    const struct chart *chart = panel->chart;
    for (size_t i = 0, end; i < chart->points; i = end + 1) {
        for (end = i; end < chart->points && !has_number(chart, end);)
            end++;
        if (end == i)
            continue;
        double left = edge_before(panel, i), right = edge_after(panel, end - 1);
        svg_box(panel->svg, left, panel->top, right - left, panel->bottom - panel->top, "gap");
        put_words(panel, left, right, (panel->top + panel->bottom) / 2);
    }
}

/* Those of one line before its end, where others go on; its end has its name. */
static void put_gaps(struct panel *panel, const double *numbers)
{
    size_t reach = reach_of(panel->chart, numbers);
    for (size_t i = 0, end; i < reach; i = end + 1) {
        for (end = i; !scale_holds(numbers[end]);)
            end++;
        if (end > i && !is_hatched(panel, i, end))
            put_words(panel, edge_before(panel, i), edge_after(panel, end - 1),
                      y_of(panel, numbers[i > 0 ? i - 1 : end]));
    }
}

/* ---- their names ---- */

static const struct style *style_of(const struct chart_series *series)
{
    return &styles[series->style % CHART_SERIES_MOST];
}

/* The line under a name: what comes behind the end of a line that does not reach the right edge.
 * Empty where the line reaches it. */
static void write_remark(const struct panel *panel, size_t index, char text[TEXT_BYTES])
{
    const struct chart *chart = panel->chart;
    size_t reach = reach_of(chart, chart->series[index].numbers);
    text[0] = '\0';
    if (reach == chart->points)
        return;
    if (reach == 0 || !chart->beyond) {
        snprintf(text, TEXT_BYTES, "%.60s", chart->gap ? chart->gap : "-");
        return;
    }
    char text_of_place[TEXT_BYTES / 2];
    double place = number_at(chart, reach - 1);
    scale_on_axis(&chart->across, place, scale_places(place, chart->across.decimals),
                  panel->svg->mark, text_of_place, sizeof text_of_place);
    snprintf(text, TEXT_BYTES, "%.40s %.60s", chart->beyond, text_of_place);
}

/* The height at which the name of a line stands if nothing else is there: where the line ends. */
static double wanted_height(const struct panel *panel, size_t index)
{
    const double *numbers = panel->chart->series[index].numbers;
    size_t reach = reach_of(panel->chart, numbers);
    return reach > 0 ? y_of(panel, numbers[reach - 1]) : panel->bottom;
}

static double height_of_label(const struct panel *panel, size_t index)
{
    const struct chart *chart = panel->chart;
    bool whole = reach_of(chart, chart->series[index].numbers) == chart->points;
    return whole ? LABEL_APART : 2 * LABEL_APART;
}

/* Labels stand at the right, in the order in which their lines end, as far apart as they must. */
static void place_labels(struct panel *panel)
{
    size_t order[CHART_SERIES_MOST], count = panel->chart->series_count;
    for (size_t i = 0; i < count; i++) {
        panel->ends[i] = wanted_height(panel, i);
        size_t at = i;
        for (; at > 0 && panel->ends[order[at - 1]] > panel->ends[i]; at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    double highest = panel->top, lowest = panel->bottom + LABEL_APART;
    for (size_t i = 0; i < count; i++) {
        panel->ends[order[i]] = fmax(panel->ends[order[i]], highest);
        highest = panel->ends[order[i]] + height_of_label(panel, order[i]);
    }
    for (size_t i = count; i > 0; i--) {
        lowest -= height_of_label(panel, order[i - 1]);
        panel->ends[order[i - 1]] = fmin(panel->ends[order[i - 1]], lowest);
        lowest = panel->ends[order[i - 1]];
    }
}

static void put_labels(struct panel *panel)
{
    const struct chart *chart = panel->chart;
    for (size_t i = 0; i < chart->series_count; i++) {
        const struct style *style = style_of(&chart->series[i]);
        double y = panel->ends[i], x = panel->right + 8;
        char remark[TEXT_BYTES];
        write_remark(panel, i, remark);
        svg_sample(panel->svg, x, y, x + 26, style->grey, style->dashes);
        svg_mark(panel->svg, x + 13, y, style->mark, style->grey, style->filled);
        svg_text_short(panel->svg, x + 32, y + 4, "label", chart->series[i].label, LABEL_LETTERS);
        if (remark[0])
            svg_text(panel->svg, x + 32, y + LABEL_APART + 2, SVG_START, "label", remark);
    }
}

/* ---- a panel ---- */

static void choose_scales(struct panel *panel, bool alone)
{
    const struct chart *chart = panel->chart;
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < chart->series_count; i++)
        scale_widen(chart->series[i].numbers, chart->points, &least, &most);
    if (most < least)
        least = 0, most = 1;
    panel->up = scale_around(least, most, alone ? 7 : 5, chart->up.finest);
    panel->across = scale_within(chart->from, chart->to, alone ? 9 : 6);
}

/* How much space the names of the lines take at the right. */
static double names_width(const struct panel *panel)
{
    size_t longest = 0;
    for (size_t i = 0; i < panel->chart->series_count; i++) {
        char remark[TEXT_BYTES];
        write_remark(panel, i, remark);
        size_t letters = svg_letters(panel->chart->series[i].label, LABEL_LETTERS);
        size_t below = svg_letters(remark, SIZE_MAX);
        longest = letters > longest ? letters : longest;
        longest = below > longest ? below : longest;
    }
    return longest > 0 ? 44 + (double)longest * LETTER : RIGHT_LEAST;
}

/* `names` is the room for the names of lines: the same in all panels of a picture. */
static void put_panel(struct svg *svg, const struct chart *chart, double left, double top,
                      double width, double height, double names)
{
    double ends[CHART_SERIES_MOST];
    struct panel panel = {.chart = chart,
                          .svg = svg,
                          .left = left + LEFT,
                          .top = top + ABOVE,
                          .right = left + width - names,
                          .bottom = top + height - BELOW,
                          .ends = ends};
    choose_scales(&panel, width >= ALONE_WIDTH);
    place_labels(&panel);
    put_hatched(&panel);
    put_axes(&panel);
    put_mark(&panel);
    for (size_t i = 0; i < chart->series_count; i++) {
        const struct chart_series *series = &chart->series[i];
        put_path(&panel, series->numbers, style_of(series));
        put_marks(&panel, i, style_of(series));
    }
    for (size_t i = 0; i < chart->series_count; i++)
        put_gaps(&panel, chart->series[i].numbers);
    put_labels(&panel);
}

bool chart_svg(const char *title, const struct chart *charts, size_t count, char mark, FILE *out)
{
    struct svg svg = {.out = out, .mark = mark};
    bool alone = count <= 1;
    double width = alone ? ALONE_WIDTH : PANEL_WIDTH, height = alone ? ALONE_HEIGHT : PANEL_HEIGHT;
    double head = alone || !title ? 0 : HEAD;
    size_t abreast = alone ? 1 : PANELS_ABREAST, rows = (count + abreast - 1) / abreast;
    svg_begin(&svg, width * (double)abreast, head + height * (double)(rows ? rows : 1),
              title       ? title
              : count > 0 ? charts[0].title
                          : "");
    svg_hatch(&svg);
    if (head > 0)
        svg_text(&svg, 24, 30, SVG_START, "head", title);
    double names = RIGHT_LEAST;
    for (size_t i = 0; i < count; i++)
        names = fmax(names, names_width(&(struct panel){.chart = &charts[i], .svg = &svg}));
    for (size_t i = 0; i < count; i++)
        put_panel(&svg, &charts[i], width * (double)(i % abreast),
                  head + height * (double)(i / abreast), width, height, names);
    if (count == 0)
        svg_text(&svg, 24, 60, SVG_START, "name", "there is nothing to draw");
    return svg_end(&svg);
}
