/* Lists of rows, written as CSV, as JSON or as a table for a person. Knows the library and what a
 * column is; not the rules' words for things, and not the command line.
 *
 *     struct listing *list = listing_open(&plan, out);
 *     listing_add(list, &row);                             for each row
 *     listing_close(list, true);
 *
 * CSV and JSON are written row by row. A table is kept until it is closed, because its columns are
 * as wide as their widest cell.
 */
#ifndef GROAT_LISTING_LISTING_H
#define GROAT_LISTING_LISTING_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include "groat.h"
#include "number/amount.h"

enum listing_form { LISTING_TABLE, LISTING_CSV, LISTING_JSON };
bool listing_form_of_word(const char *word, enum listing_form *form); /* table csv json */

/* What the cells of a column hold and how they are written. */
enum listing_look {
    LISTING_TEXT,      /* one that starts nowhere (NULL) is absent */
    LISTING_WHOLE,     /* a whole number; with an amount it may be absent */
    LISTING_MONEY,     /* the currency's decimals; with its sign in a table */
    LISTING_SHARE,     /* four decimals; a percentage with one in a table */
    LISTING_NUMBER,    /* by the value's own kind: money, or at most six decimals; fewer in a table,
                       and there as many in every cell of the column */
    LISTING_MONEY_PER, /* the same of a quantity that is money per something else: with the
                          currency's sign in a table */
    LISTING_WORD       /* a value that is a text, a flag or a date */
};

/* When a table may do without a column, because nothing is lost. */
enum listing_omission {
    LISTING_ALWAYS,
    LISTING_UNLESS_ONE,  /* every cell is 1 */
    LISTING_UNLESS_ZERO, /* every cell is zero or empty */
    LISTING_UNLESS_NEXT, /* every cell is the next column's */
    LISTING_IF_ROOM = 8  /* with one of these: the table is too wide as well */
};

struct listing_column {
    const char *name;    /* in CSV and JSON; NULL: it is a table's alone */
    const char *heading; /* in a table; NULL: it is in the others alone */
    const char *unit; /* under the heading; or NULL. Where a table is too wide, a currency that is
                            written as a word stands there too, and not in the cells */
    enum listing_look look;
    unsigned omission; /* of enum listing_omission */
    bool extra;        /* said under the row where a table is still too wide */
};

/* What a list is like. Everything it points to must live until the list is closed. The first
 * column is what rows are grouped by: a table says it once for rows of a group. */
struct listing_plan {
    enum listing_form form;
    const struct listing_column *columns;
    size_t columns_count;
    groat_currency currency;
    size_t width;        /* a table's, in character cells, where it can be had */
    bool decimal_comma;  /* in a table */
    bool bold;           /* the headings of a table */
    bool ranked;         /* by what stands in its rows: a table never groups them, and rather does
                            without its extra columns */
    const char *nothing; /* what a table without a row says; NULL: its headings */
};

/* A cell, by its column's look. */
struct listing_cell {
    groat_text text;
    int64_t whole;
    groat_value value;
    const struct amount *amount; /* what is written instead of the value, which may still tell the
                                    kind; or NULL */
};

/* A text closed by a zero byte, for a cell; NULL: an absent one. */
groat_text listing_text(const char *text);

/* A row. `group` is any number; rows that follow each other with the same one are a group. */
struct listing_row {
    const struct listing_cell *cells;
    const char *const *notes;
    size_t notes_count;
    size_t group;
};

/* How many character cells a text takes in a table. */
unsigned listing_width(const char *start, size_t length);

struct listing;

/* NULL when memory runs out; `out` stays the caller's. */
struct listing *listing_open(const struct listing_plan *plan, FILE *out);
/* Returns false when the row could not be written or kept; errno says why. The row is not needed
 * afterwards. An amount that has too many digits leaves its cell empty, and a note says so. */
bool listing_add(struct listing *list, const struct listing_row *row);
/* Writes what is still to come, when `whole` (a list that is given up is left as it stands), and
 * frees the list. Returns false when that failed; errno says why. Does not flush `out`. */
bool listing_close(struct listing *list, bool whole);

/* Rows put together apart, which join the list when it is their turn: so several threads may each
 * prepare some. Not of a table. NULL, and false, when memory runs out or nothing can be written. */
struct listing_part;
struct listing_part *listing_part_new(const struct listing *list);
void listing_part_free(struct listing_part *part);
bool listing_part_add(struct listing_part *part, const struct listing_row *row);
/* Writes the rows of the part, and empties it. */
bool listing_join(struct listing *list, struct listing_part *part);

#endif
