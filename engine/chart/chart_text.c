/* Pictures for a terminal. */
#include "chart/chart.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <uniwidth.h>

#include "listing/bytes.h"
#include "chart/scale.h"

#define LINES_MOST 14   /* of prices that each have a line of their own */
#define TICKS_UP 6      /* where they have not */
#define LINES_BETWEEN 3 /* from one tick to the next */
#define CELLS_A_TICK 12 /* across */
#define ACROSS_LEAST 16 /* cells, however narrow the terminal */
#define LABEL_BYTES 64  /* of a tick */

struct ink {
    const char *tread, *wall, *corner, *floor, *tick, *foot, *mark;
};
static const struct ink rich = {"━", "│", "└", "─", "┤", "┬", "▲"};
static const struct ink poor = {"=", "|", "+", "-", "|", "+", "^"};

static size_t cells_of(const char *text)
{
    int width = u8_strwidth((const uint8_t *)text, "UTF-8");
    return width > 0 ? (size_t)width : 0;
}

static void put_times(struct bytes *line, const char *text, size_t count)
{
    for (; count > 0; count--)
        bytes_text(line, text);
}

/* ---- a diagram of steps ---- */

struct drawing {
    const struct chart *chart;
    const struct chart_series *series;
    const struct chart_pen *pen;
    const struct ink *ink;
    size_t across;  /* cells */
    size_t left;    /* cells before the axis */
    double *levels; /* each one that occurs, falling; where every one has a line */
    size_t levels_count;
    bool own_lines;
    struct scale scale; /* otherwise */
    size_t lines;
    struct bytes line;
};

static int compare_falling(const void *a, const void *b)
{
    double one = *(const double *)a, two = *(const double *)b;
    return (one < two) - (one > two);
}

/* The numbers that occur, each once. */
static bool find_levels(struct drawing *drawing)
{
    const struct chart *chart = drawing->chart;
    drawing->levels = calloc(chart->points + 1, sizeof *drawing->levels);
    if (!drawing->levels)
        return false;
    size_t count = 0, kept = 0;
    for (size_t i = 0; i < chart->points; i++)
        if (scale_holds(drawing->series->numbers[i]))
            drawing->levels[count++] = drawing->series->numbers[i];
    qsort(drawing->levels, count, sizeof *drawing->levels, compare_falling);
    for (size_t i = 0; i < count; i++)
        if (kept == 0 || drawing->levels[i] < drawing->levels[kept - 1])
            drawing->levels[kept++] = drawing->levels[i];
    drawing->levels_count = kept;
    return true;
}

static void choose_lines(struct drawing *drawing)
{
    drawing->own_lines = drawing->levels_count <= LINES_MOST;
    drawing->lines = drawing->levels_count;
    if (drawing->own_lines)
        return;
    drawing->scale = scale_around(drawing->levels[drawing->levels_count - 1], drawing->levels[0],
                                  TICKS_UP, drawing->chart->up.finest);
    drawing->lines = (drawing->scale.count - 1) * LINES_BETWEEN + 1;
}

/* The line of a number, from the top; SIZE_MAX for a gap. */
static size_t line_of(const struct drawing *drawing, double number)
{
    if (!scale_holds(number))
        return SIZE_MAX;
    if (!drawing->own_lines) {
        double share = scale_share(&drawing->scale, number);
        return (size_t)lround((1 - share) * (double)(drawing->lines - 1));
    }
    size_t low = 0, high = drawing->levels_count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (drawing->levels[middle] >= number)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* What stands at the axis beside a line; an empty text where nothing does. */
static void label_of(const struct drawing *drawing, size_t line, char *label)
{
    const struct chart_axis *axis = &drawing->chart->up;
    char mark = drawing->pen->mark;
    label[0] = '\0';
    if (drawing->own_lines)
        scale_on_axis(axis, drawing->levels[line], axis->decimals, mark, label, LABEL_BYTES);
    else if (line % LINES_BETWEEN == 0)
        scale_tick_on_axis(axis, &drawing->scale,
                           drawing->scale.count - 1 - (unsigned)(line / LINES_BETWEEN), mark, label,
                           LABEL_BYTES);
}

static void measure_labels(struct drawing *drawing)
{
    for (size_t i = 0; i < drawing->lines; i++) {
        char label[LABEL_BYTES];
        label_of(drawing, i, label);
        size_t cells = cells_of(label);
        drawing->left = cells > drawing->left ? cells : drawing->left;
    }
    size_t beside = drawing->left + 2;
    size_t width = drawing->pen->width;
    drawing->across = width > beside + ACROSS_LEAST ? width - beside : ACROSS_LEAST;
}

/* The point that is drawn in a cell: the nearest. */
static size_t point_of(const struct drawing *drawing, size_t cell)
{
    double share = (double)cell / (double)(drawing->across - 1);
    return (size_t)lround(share * (double)(drawing->chart->points - 1));
}

static bool end_line(struct drawing *drawing, FILE *out)
{
    bytes_trim(&drawing->line);
    bytes_char(&drawing->line, '\n');
    return bytes_flush(&drawing->line, out);
}

static bool write_line(struct drawing *drawing, size_t line, FILE *out)
{
    char label[LABEL_BYTES];
    label_of(drawing, line, label);
    bytes_spaces(&drawing->line, drawing->left - cells_of(label));
    bytes_text(&drawing->line, label);
    bytes_char(&drawing->line, ' ');
    bytes_text(&drawing->line, label[0] ? drawing->ink->tick : drawing->ink->wall);
    for (size_t cell = 0; cell < drawing->across; cell++) {
        double number = drawing->series->numbers[point_of(drawing, cell)];
        bool drawn = line_of(drawing, number) == line;
        bytes_text(&drawing->line, drawn ? drawing->ink->tread : " ");
    }
    return end_line(drawing, out);
}

/* ---- below it ---- */

/* The cell of a number on the axis across; SIZE_MAX when it lies beside it. */
static size_t cell_of(const struct drawing *drawing, double number)
{
    const struct chart *chart = drawing->chart;
    double share = (number - chart->from) / (chart->to - chart->from);
    if (!(share > -1e-9 && share < 1 + 1e-9))
        return SIZE_MAX;
    return (size_t)lround(share * (double)(drawing->across - 1));
}

/* The axis itself, and the numbers under its ticks; those that would touch are left out. */
static bool write_ticks(struct drawing *drawing, const struct scale *scale, FILE *out)
{
    const struct ink *ink = drawing->ink;
    struct bytes numbers = {0};
    size_t at = 0, used = 0;
    bytes_spaces(&drawing->line, drawing->left + 1);
    bytes_text(&drawing->line, ink->corner);
    for (unsigned i = 0; i < scale->count; i++) {
        char label[LABEL_BYTES];
        size_t cell = cell_of(drawing, scale_tick(scale, i));
        if (cell == SIZE_MAX || cell < at)
            continue;
        put_times(&drawing->line, ink->floor, cell - at);
        bytes_text(&drawing->line, ink->foot);
        at = cell + 1;
        scale_tick_on_axis(&drawing->chart->across, scale, i, drawing->pen->mark, label,
                           sizeof label);
        size_t cells = cells_of(label);
        size_t start = cell + cells > drawing->across ? drawing->across - cells : cell;
        if (cells > drawing->across || start < used)
            continue;
        bytes_spaces(&numbers, start - used);
        bytes_text(&numbers, label);
        bytes_char(&numbers, ' ');
        used = start + cells + 1;
    }
    put_times(&drawing->line, ink->floor, drawing->across - at);
    bool written = end_line(drawing, out);
    bytes_spaces(&drawing->line, drawing->left + 2);
    if (numbers.length > 0)
        bytes_put(&drawing->line, numbers.start, numbers.length);
    drawing->line.failed |= numbers.failed;
    bytes_free(&numbers);
    return written && end_line(drawing, out);
}

/* What the axis across shows, and the place on it that is worth a word. */
static bool write_foot(struct drawing *drawing, FILE *out)
{
    const struct chart *chart = drawing->chart;
    struct bytes *line = &drawing->line;
    size_t title = cells_of(chart->across.title), used = 0;
    size_t cell = chart->mark_label ? cell_of(drawing, chart->mark) : SIZE_MAX;
    bytes_spaces(line, drawing->left + 2);
    if (cell != SIZE_MAX) {
        size_t label = cells_of(chart->mark_label) + 2;
        bool before = cell + label > drawing->across && cell >= label;
        bytes_spaces(line, before ? cell - label + 1 : cell);
        bytes_text(line, before ? chart->mark_label : drawing->ink->mark);
        bytes_char(line, ' ');
        bytes_text(line, before ? drawing->ink->mark : chart->mark_label);
        used = before ? cell + 1 : cell + label;
        if (used + title + 3 > drawing->across) {
            if (!end_line(drawing, out))
                return false;
            bytes_spaces(line, drawing->left + 2);
            used = 0;
        }
    }
    if (drawing->across > used + title)
        bytes_spaces(line, drawing->across - used - title);
    bytes_text(line, chart->across.title);
    return end_line(drawing, out);
}

static bool draw(struct drawing *drawing, FILE *out)
{
    const struct chart *chart = drawing->chart;
    errno = ENOMEM;
    if (!find_levels(drawing))
        return false;
    choose_lines(drawing);
    measure_labels(drawing);
    for (size_t i = 0; i < drawing->lines; i++)
        if (!write_line(drawing, i, out))
            return false;
    struct scale across =
        scale_within(chart->from, chart->to, (unsigned)(drawing->across / CELLS_A_TICK) + 1);
    return write_ticks(drawing, &across, out) && write_foot(drawing, out);
}

bool chart_steps(const struct chart *chart, size_t series, const struct chart_pen *pen, FILE *out)
{
    struct drawing drawing = {.chart = chart,
                              .series = &chart->series[series],
                              .pen = pen,
                              .ink = pen->plain ? &poor : &rich};
    bool drawn = draw(&drawing, out);
    int why = errno;
    bytes_free(&drawing.line);
    free(drawing.levels);
    errno = why;
    return drawn;
}

/* ---- pictures in a line ---- */

/* Adds a cell to a text that is closed by a zero byte. */
static size_t add_cell(const char *cell, char *buffer, size_t size, size_t length)
{
    size_t more = strlen(cell);
    if (length + more >= size)
        return length;
    memcpy(buffer + length, cell, more + 1);
    return length + more;
}

size_t chart_strip(const double *numbers, size_t points, size_t width, bool plain, char *buffer,
                   size_t size)
{
    static const char *const full[] = {"▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};
    static const char *const bare[] = {"_", ".", "-", "~", "=", "+", "*", "#"};
    enum { HEIGHTS = sizeof full / sizeof *full };
    double least = INFINITY, most = -INFINITY;
    scale_widen(numbers, points, &least, &most);
    size_t length = 0;
    buffer[0] = '\0';
    for (size_t cell = 0; cell < width && points > 0; cell++) {
        double share = width > 1 ? (double)cell / (double)(width - 1) : 0;
        double number = numbers[(size_t)lround(share * (double)(points - 1))];
        const char *ink = " ";
        if (scale_holds(number)) {
            double high = most > least ? (number - least) / (most - least) : 0;
            ink = (plain ? bare : full)[lround(high * (HEIGHTS - 1))];
        }
        length = add_cell(ink, buffer, size, length);
    }
    return length;
}

size_t chart_bar(double share, size_t width, bool plain, char *buffer, size_t size)
{
    static const char *const parts[] = {"", "▏", "▎", "▍", "▌", "▋", "▊", "▉"};
    enum { PARTS = sizeof parts / sizeof *parts };
    bool below = share < 0;
    double cells = isfinite(share) ? fmin(fabs(share), 1) * (double)width : 0;
    size_t length = 0;
    buffer[0] = '\0';
    if (plain || below) { /* whole cells alone, and one for whatever is not nothing */
        size_t count = (size_t)lround(cells) + (cells > 0 && cells < 0.5);
        const char *ink = plain ? below ? "-" : "#" : "░";
        for (size_t i = 0; i < count; i++)
            length = add_cell(ink, buffer, size, length);
        return length;
    }
    size_t eighths = (size_t)lround(cells * PARTS) + (cells > 0 && cells * PARTS < 0.5);
    for (size_t i = 0; i < eighths / PARTS; i++)
        length = add_cell("█", buffer, size, length);
    return add_cell(parts[eighths % PARTS], buffer, size, length);
}
