/* The columns for the shows of the rules, with headings in plain words. Private to this room. */
#ifndef GROAT_REPORT_SHOW_COLUMNS_H
#define GROAT_REPORT_SHOW_COLUMNS_H

#include "listing/listing.h"

/* A name of the rules in words: `Earned per hour` for `earned_per_hour`. The caller frees it; NULL
 * when memory runs out. */
char *show_column_words(const char *name);

/* Makes the column of one show; the caller frees its heading. Returns false when memory runs
 * out. */
bool show_column_make(struct listing_column *column, const groat_method *method, size_t show);

/* The columns of a list with shows: fixed columns, those of the shows, and the last columns. Also
 * holds the cells of a row. */
struct show_columns {
    struct listing_column *columns;
    struct listing_cell *cells;
    size_t fixed, shows, count; /* count: all, with the last ones */
};

/* Makes the columns; the given ones are copied. Returns false when memory runs out. They must be
 * closed in either case. */
bool show_columns_open(struct show_columns *made, const groat_method *method,
                       const struct listing_column *fixed, size_t fixed_count,
                       const struct listing_column *last, size_t last_count);
void show_columns_close(struct show_columns *made);
/* Sets the cells of the shows from the result. */
void show_columns_take(struct show_columns *made, const groat_scratch *scratch);
/* The cells after those of the shows. */
struct listing_cell *show_columns_last(const struct show_columns *made);

#endif
