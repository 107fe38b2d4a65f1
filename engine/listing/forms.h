/* What the three writers of lists have in common. Private to this room. */
#ifndef GROAT_LISTING_FORMS_H
#define GROAT_LISTING_FORMS_H

#include "listing/bytes.h"
#include "listing/listing.h"

struct table;

struct listing {
    struct listing_plan plan;       /* its columns are those that are written, with the notes */
    struct listing_plan asked;      /* as it was given */
    FILE *out;                      /* NULL for a part, which keeps its line */
    struct listing_cell *cells;     /* of the next row, as it is given, */
    struct listing_cell *row;       /* as its columns are written, */
    struct bytes notes;             /* its notes, each ended by a zero byte, */
    struct amounts room;            /* and what is worked out for it */
    struct bytes line;              /* text that is not written yet */
    struct bytes summary;           /* what stands behind the rows of JSON */
    size_t given;                   /* how many columns the list was opened with */
    struct listing_column *all;     /* those, */
    struct listing_column *columns; /* and those that are written */
    size_t *from;                   /* for each of them, which cell is its own */
    char **headings;                /* made for columns that have none of their own */
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
extern const struct form form_table, form_csv, form_json, form_ndjson;

/* The next row's note after this one, or its first for NULL; NULL after its last. */
const char *form_note(const struct listing *list, const char *before);

/* Writes the line to `out` and empties it; a part keeps its line. */
bool form_flush(struct listing *list);

/* Whether the cells of a column are whole numbers that count something. */
static inline bool form_is_count(enum listing_look look)
{
    return look == LISTING_WHOLE || look == LISTING_PIECES;
}

/* How many decimals the amounts of a column have in JSON. */
unsigned form_json_places(const struct listing *list, const struct listing_column *column,
                          const struct listing_cell *cell);

#define LISTING_SHARE_PLACES 4
#define LISTING_VALUE_PLACES 6

#endif
