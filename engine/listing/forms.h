/* What the three writers of lists have in common. Private to this room. */
#ifndef GROAT_LISTING_FORMS_H
#define GROAT_LISTING_FORMS_H

#include "listing/bytes.h"
#include "listing/listing.h"

struct table;

struct listing {
    struct listing_plan plan;
    FILE *out;         /* NULL for a part, which keeps its line */
    struct bytes line; /* text that is not written yet */
    size_t rows;
    struct table *table; /* for a list that is a table */
};

/* A writer. Each of its functions returns false when it failed, with errno set. */
struct form {
    const char *word;
    bool (*open)(struct listing *list);
    bool (*add)(struct listing *list, const struct listing_row *row);
    bool (*finish)(struct listing *list);
    void (*free)(struct listing *list);
    size_t between; /* number of separator bytes before each row but the first */
};
extern const struct form form_table, form_csv, form_json;

/* The figure that a cell with this look writes. */
struct figure form_figure(enum listing_look look, const struct listing_cell *cell);
/* Writes a cell that is a whole number; nothing if it is absent. */
void form_whole(struct bytes *bytes, const struct listing_cell *cell);

/* Writes the line to `out` and empties it; a part keeps its line. */
bool form_flush(struct listing *list);

#define LISTING_SHARE_PLACES 4
#define LISTING_VALUE_PLACES 6

#endif
