/* The columns that the rules' shows make, with headings in plain words. Private to this room. */
#ifndef GROAT_REPORT_SHOW_COLUMNS_H
#define GROAT_REPORT_SHOW_COLUMNS_H

#include "listing/listing.h"

/* A name of the rules as words: `earned_per_hour` is `Earned per hour`. To be freed; NULL when
 * memory runs out. */
char *show_column_words(const char *name);

/* The column of one show; its heading is to be freed. False when memory runs out. */
bool show_column_make(struct listing_column *column, const groat_method *method, size_t show);

/* All of them into `columns`, which is zeroed and has room. Whatever is returned, they are to be
 * emptied. */
bool show_columns_fill(struct listing_column *columns, const groat_method *method);
void show_columns_empty(struct listing_column *columns, size_t count);

#endif
