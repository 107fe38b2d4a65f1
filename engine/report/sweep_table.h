/* A sweep for a person: all steps of one product, a row for each of many products, and pictures. */
#ifndef GROAT_REPORT_SWEEP_TABLE_H
#define GROAT_REPORT_SWEEP_TABLE_H

#include "chart/chart.h"
#include "listing/listing.h"
#include "report/price_place.h"
#include "study/sweep.h"
#include "study/sweep_line.h"

/* What all functions here need. Everything it points to must outlive what is made with it. */
struct sweep_showing {
    const struct sweep *sweep;
    struct listing_plan plan;   /* for tables; everything except the columns */
    bool plain;                 /* only ASCII */
    const groat_method *method; /* with the current rate */
};

/* Writes one line in full: a picture of its steps, and below it a row for every price with the
 * values of the rate that give it. Returns false when it could not be written; errno says why. */
bool sweep_show_line(const struct sweep_showing *showing, const struct price_place *place,
                     const struct sweep_line *line, FILE *out);

/* Appends how often a line has no price, and the first reason; returns false if it always has
 * one. */
bool sweep_say_without(struct bytes *text, const struct sweep_showing *showing,
                       const struct sweep_line *line);

/* Many lines, with a row for each. NULL and false mean the same as for a listing. */
struct sweep_summary;
struct sweep_summary *sweep_summary_open(const struct sweep_showing *showing, FILE *out);
bool sweep_summary_add(struct sweep_summary *summary, const struct price_place *place,
                       const struct sweep_line *line);
bool sweep_summary_close(struct sweep_summary *summary, bool whole);

/* A picture of many lines, with a panel for each product. Products after CHART_PANELS_MOST, and
 * lines of a product after CHART_SERIES_MOST, are left out. */
struct sweep_picture;
struct sweep_picture *sweep_picture_open(const struct sweep_showing *showing);
bool sweep_picture_add(struct sweep_picture *picture, const struct price_place *place,
                       const struct sweep_line *line);
bool sweep_picture_write(struct sweep_picture *picture, FILE *out);
void sweep_picture_close(struct sweep_picture *picture);

#endif
