/* What the three writers of lists have in common. Private to this room. */
#ifndef GROAT_LISTING_FORMS_H
#define GROAT_LISTING_FORMS_H

#include "listing/bytes.h"
#include "listing/listing.h"

struct table;

struct listing {
    struct listing_plan plan;
    FILE *out;                  /* NULL for a part, which keeps its line */
    struct listing_cell *cells; /* of the next row, */
    struct bytes notes;         /* its notes, each ended by a zero byte, */
    struct amounts room;        /* and what is worked out for it */
    struct bytes line;          /* text that is not written yet */
    size_t rows;
    struct table *table; /* for a list that is a table */
};

/* A writer. Each of its functions returns false when it failed, with errno set. */
struct form {
    const char *word;
    bool (*open)(struct listing *list);
    bool (*add)(struct listing *list, size_t group);
    bool (*finish)(struct listing *list);
    void (*free)(struct listing *list);
    size_t between; /* number of separator bytes before each row but the first */
};
extern const struct form form_table, form_csv, form_json;

/* The next row's note after this one, or its first for NULL; NULL after its last. */
const char *form_note(const struct listing *list, const char *before);

/* Writes the line to `out` and empties it; a part keeps its line. */
bool form_flush(struct listing *list);

#define LISTING_SHARE_PLACES 4
#define LISTING_VALUE_PLACES 6

#endif
