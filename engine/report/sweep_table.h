/* A sweep for a person: one product's steps in full, many products in a row each, and pictures. */
#ifndef GROAT_REPORT_SWEEP_TABLE_H
#define GROAT_REPORT_SWEEP_TABLE_H

#include "chart/chart.h"
#include "listing/listing.h"
#include "report/price_place.h"
#include "study/sweep.h"
#include "study/sweep_line.h"

/* What is the same for all of it. Everything it points to must outlive what is made with it. */
struct sweep_showing {
    const struct sweep *sweep;
    groat_currency currency;
    struct listing_plan plan; /* of tables, all but the columns */
    bool plain;               /* ASCII alone */
    const char *now;          /* what the rate is, for a person */
};

/* One line in full: a picture of its steps, and below it a row for every price, with the values it
 * holds for. False when that could not be written; errno says why. */
bool sweep_show_line(const struct sweep_showing *showing, const struct price_place *place,
                     const struct sweep_line *line, FILE *out);

/* How often a line has no price, and why first; false when it always has one. */
bool sweep_say_without(const struct sweep_showing *showing, const struct sweep_line *line,
                       char *text);
#define SWEEP_WITHOUT_BYTES 640

/* Many lines, a row each. NULL and false as of a listing. */
struct sweep_summary;
struct sweep_summary *sweep_summary_open(const struct sweep_showing *showing, FILE *out);
bool sweep_summary_add(struct sweep_summary *summary, const struct price_place *place,
                       const struct sweep_line *line);
bool sweep_summary_close(struct sweep_summary *summary, bool whole);

/* A picture of many lines: a panel for each product. At most CHART_PANELS_MOST products, each with
 * CHART_SERIES_MOST lines; what is beyond that is left out. */
struct sweep_picture;
struct sweep_picture *sweep_picture_open(const struct sweep_showing *showing);
bool sweep_picture_add(struct sweep_picture *picture, const struct price_place *place,
                       const struct sweep_line *line);
bool sweep_picture_write(struct sweep_picture *picture, FILE *out);
void sweep_picture_close(struct sweep_picture *picture);

#endif
