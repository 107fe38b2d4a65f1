/* A sweep as SVG: a panel for each product, a line for each channel. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "report/sweep_words.h"

#define LABEL_BYTES 160

struct series {
    char label[LABEL_BYTES];
    double *numbers;
    unsigned style;
};

struct panel {
    size_t row;
    char title[LABEL_BYTES];
    struct series series[CHART_SERIES_MOST];
    size_t count;
};

struct sweep_picture {
    const struct sweep_showing *showing;
    struct panel panels[CHART_PANELS_MOST];
    size_t count;
};

struct sweep_picture *sweep_picture_open(const struct sweep_showing *showing)
{
    struct sweep_picture *picture = calloc(1, sizeof *picture);
    if (picture)
        picture->showing = showing;
    return picture;
}

void sweep_picture_close(struct sweep_picture *picture)
{
    if (!picture)
        return;
    for (size_t i = 0; i < picture->count; i++)
        for (size_t j = 0; j < picture->panels[i].count; j++)
            free(picture->panels[i].series[j].numbers);
    free(picture);
}

/* The product's panel; NULL when there are as many as there can be. */
static struct panel *panel_of(struct sweep_picture *picture, const struct price_place *place)
{
    struct panel *last = picture->count > 0 ? &picture->panels[picture->count - 1] : NULL;
    if (last && last->row == place->row)
        return last;
    if (picture->count == CHART_PANELS_MOST)
        return NULL;
    struct panel *panel = &picture->panels[picture->count++];
    panel->row = place->row;
    snprintf(panel->title, sizeof panel->title, "%.*s",
             place->product.length < LABEL_BYTES ? (int)place->product.length : LABEL_BYTES - 1,
             place->product.start);
    return panel;
}

bool sweep_picture_add(struct sweep_picture *picture, const struct price_place *place,
                       const struct sweep_line *line)
{
    if (!sweep_line_sold(line))
        return true;
    struct panel *panel = panel_of(picture, place);
    if (!panel || panel->count == CHART_SERIES_MOST)
        return true;
    struct series *series = &panel->series[panel->count];
    size_t points = picture->showing->sweep->points;
    series->numbers = calloc(points, sizeof *series->numbers);
    errno = ENOMEM;
    if (!series->numbers)
        return false;
    panel->count++;
    char pieces[40] = "";
    if (place->quantity != 1)
        snprintf(pieces, sizeof pieces, ", %lld pieces", (long long)place->quantity);
    snprintf(series->label, sizeof series->label, "%.100s%s", place->channel, pieces);
    sweep_line_draw(line, points, series->numbers);
    return true;
}

/* A line of one name is drawn in one way in every panel, as long as there are as many ways as
 * names; what is beyond takes one that its panel leaves free. */
static void choose_styles(struct sweep_picture *picture)
{
    const char *names[CHART_SERIES_MOST];
    size_t known = 0;
    for (size_t i = 0; i < picture->count; i++) {
        struct panel *panel = &picture->panels[i];
        bool taken[CHART_SERIES_MOST] = {false}, styled[CHART_SERIES_MOST] = {false};
        for (size_t j = 0; j < panel->count; j++) {
            size_t style = 0;
            while (style < known && strcmp(names[style], panel->series[j].label) != 0)
                style++;
            if (style == CHART_SERIES_MOST)
                continue;
            if (style == known)
                names[known++] = panel->series[j].label;
            panel->series[j].style = (unsigned)style;
            taken[style] = styled[j] = true;
        }
        for (size_t j = 0, style = 0; j < panel->count; j++) {
            while (!styled[j] && taken[style])
                style++;
            if (!styled[j])
                panel->series[j].style = (unsigned)style++;
        }
    }
}

static bool write_panels(const struct sweep_picture *picture, struct chart *charts,
                         struct chart_series *series, FILE *out)
{
    const struct sweep_showing *showing = picture->showing;
    struct sweep_chart_words words;
    const struct chart chart = sweep_words_chart(showing, &words);
    for (size_t i = 0; i < picture->count; i++) {
        const struct panel *panel = &picture->panels[i];
        charts[i] = chart;
        charts[i].title = panel->title;
        charts[i].series = series + i * CHART_SERIES_MOST;
        charts[i].series_count = panel->count;
        for (size_t j = 0; j < panel->count; j++)
            series[i * CHART_SERIES_MOST + j] = (struct chart_series){
                panel->series[j].label, panel->series[j].numbers, panel->series[j].style};
    }
    struct bytes title = {0};
    bytes_text(&title, "Prices as ");
    sweep_words_range(&title, showing);
    bytes_char(&title, '\0');
    errno = ENOMEM;
    bool written = !title.failed && chart_svg(title.start, charts, picture->count,
                                              listing_mark(&showing->plan), out);
    bytes_free(&title);
    return written;
}

bool sweep_picture_write(struct sweep_picture *picture, FILE *out)
{
    struct chart *charts = calloc(CHART_PANELS_MOST, sizeof *charts);
    struct chart_series *series = calloc(CHART_PANELS_MOST * CHART_SERIES_MOST, sizeof *series);
    choose_styles(picture);
    errno = ENOMEM;
    bool written = charts && series && write_panels(picture, charts, series, out);
    int why = errno;
    free(charts);
    free(series);
    errno = why;
    return written;
}
