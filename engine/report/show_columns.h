/* The columns that the rules' shows make, with headings in plain words. Private to this room. */
#ifndef GROAT_REPORT_SHOW_COLUMNS_H
#define GROAT_REPORT_SHOW_COLUMNS_H

#include "listing/listing.h"

/* A name of the rules as words: `earned_per_hour` is `Earned per hour`. To be freed; NULL when
 * memory runs out. */
char *show_column_words(const char *name);

/* The column of one show; its heading is to be freed. False when memory runs out. */
bool show_column_make(struct listing_column *column, const groat_method *method, size_t show);

/* The columns of a list that has shows among them: fixed ones, those of the shows, and some last.
 * With room for the cells of a row. */
struct show_columns {
    struct listing_column *columns;
    struct listing_cell *cells;
    size_t fixed, shows, count; /* count: with the last ones */
};

/* Makes them, of copies; False when memory runs out; whatever is
 * returned, they are to be closed. */
bool show_columns_open(struct show_columns *made, const groat_method *method,
                       const struct listing_column *fixed, size_t fixed_count,
                       const struct listing_column *last, size_t last_count);
void show_columns_close(struct show_columns *made);
/* Puts the shows of the result into their cells. */
void show_columns_take(struct show_columns *made, const groat_scratch *scratch);
/* The cells behind those of the shows. */
struct listing_cell *show_columns_last(const struct show_columns *made);

#endif
