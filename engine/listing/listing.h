/* Lists of rows, written as CSV, as JSON or as a table for a person. This room knows the library
 * and columns, but nothing of shops or of the command line.
 *
 *     struct listing *list = listing_open(&plan, out);
 *     listing_cells(list)[0].text = …; listing_note(list, …); listing_add(list, group);   a row
 *     listing_close(list, true);
 *
 * CSV and JSON are written row by row. A table is kept until it is closed, because its columns are
 * as wide as their widest cell. */
#ifndef GROAT_LISTING_LISTING_H
#define GROAT_LISTING_LISTING_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include "groat.h"
#include "listing/bytes.h"

enum listing_form { LISTING_TABLE, LISTING_CSV, LISTING_JSON, LISTING_NDJSON };
/* The form of a word: table csv json ndjson. */
bool listing_form_of_word(const char *word, enum listing_form *form);

/* What the cells of a column hold and how they are written. */
enum listing_look {
    LISTING_TEXT,   /* absent if its start is NULL */
    LISTING_WHOLE,  /* a whole number */
    LISTING_PIECES, /* the same, of pieces */
    LISTING_COINS,  /* money that is always whole in the currency's smallest unit */
    LISTING_MONEY,  /* other money: the currency's decimals, and in JSON six more; with its sign
                     * in a table */
    LISTING_SHARE,  /* four decimals; a percentage with one in a table; ten decimals in JSON */
    LISTING_NUMBER, /* by the value's kind: money, or at most six decimals, in JSON ten; in a table
                     * fewer, and the same number in every cell of the column */
    LISTING_RATIO,  /* a share that is written as such a number */
    LISTING_MONEY_PER, /* the same for money per something else; a table adds the currency's sign */
    LISTING_MONEY_EXACT, /* money as such a number; exact in JSON */
    LISTING_WORD,        /* a value that is a text, a flag or a date */
    LISTING_NOTES        /* the notes of the row */
};

/* When a table may leave out a column, because nothing is lost. */
enum listing_omission {
    LISTING_ALWAYS,
    LISTING_UNLESS_ONE,    /* every cell is 1 */
    LISTING_UNLESS_ZERO,   /* every cell is zero or empty */
    LISTING_UNLESS_NEXT,   /* every cell equals that of the next column */
    LISTING_IF_ROOM = 8,   /* combined with one of these: only if the table is too wide */
    LISTING_IF_CHOSEN = 16 /* combined with one of these: in data, only if it is chosen */
};

struct listing_column {
    const char *name;    /* in CSV and JSON; NULL: the column is only in tables */
    const char *heading; /* in a table; NULL: the column is only in CSV and JSON */
    const char *unit; /* below the heading; or NULL. If a table is too wide, a currency written as a
                       * word goes there too instead of into the cells */
    enum listing_look look;
    unsigned omission;   /* of enum listing_omission */
    bool extra;          /* shown below the row if a table is still too wide */
    const char *measure; /* the unit of its numbers in JSON, if `unit` is not that; or NULL */
};

/* The columns that are wanted, by the names that they have in data, in their order. The notes are a
 * column, too: `notes`. */
struct listing_choice {
    const char *const *names;
    size_t count;
    /* Told of a name that no column has. The list is then not opened, and errno is ECANCELED. */
    void (*unknown)(const struct listing_column *columns, size_t count, const char *name);
};

/* The form and the columns of a list, which copies the columns. Everything else that it points to
 * must live until the list is closed. Rows are grouped by the first column: a table shows it once
 * for the rows of a group. */
struct listing_plan {
    enum listing_form form;
    const struct listing_column *columns;
    size_t columns_count;
    groat_currency currency;
    size_t width;       /* of a table, in character cells, if possible */
    bool decimal_comma; /* in a table, and in CSV, which then has semicolons between its cells */
    bool exact;         /* all of every amount in data */
    bool raw;           /* texts of CSV that a spreadsheet would run are left as they are */
    const char *as_of;  /* the date that the prices are for; or NULL */
    const struct listing_choice *choice; /* NULL: all columns */
    bool bold;                           /* the headings of a table */
    bool ranked;         /* the order of the rows matters: a table never groups them, and leaves out
                          * extra columns instead */
    const char *nothing; /* printed for a table without rows; NULL: its headings */
};

/* The decimal mark of a table and of CSV. */
static inline char listing_mark(const struct listing_plan *plan)
{
    return plan->decimal_comma ? ',' : '.';
}

/* The marks of numbers in tables; what stands in data has no mark between thousands. */
static inline struct bytes_marks listing_marks(const struct listing_plan *plan)
{
    char thousands = plan->decimal_comma ? '.' : ',';
    return (struct bytes_marks){listing_mark(plan), plan->form == LISTING_TABLE ? thousands : '\0'};
}

/* A cell, by its column's look: a text, an amount, or a value of the library. Beside an amount, the
 * value may give the kind, which otherwise is a plain number, or money in a column of money. */
struct listing_cell {
    groat_text text;
    struct amount amount;
    groat_value value;
};

/* Makes a text for a cell from one that ends with a zero byte; NULL makes an absent one. */
groat_text listing_text(const char *text);

/* The width of a text in a table, in character cells. */
unsigned listing_width(const char *start, size_t length);

struct listing;

/* NULL when memory runs out; `out` stays the caller's. */
struct listing *listing_open(const struct listing_plan *plan, FILE *out);
/* The cells of the next row, one for each column; each is empty until it is set. */
struct listing_cell *listing_cells(struct listing *list);
/* Room for the amounts of the next row. */
struct amounts *listing_room(struct listing *list);
/* Adds a note to the next row. If memory runs out, adding the row fails. */
void listing_note(struct listing *list, const char *note);
/* The same, for notes that are put together in place: each must end with a zero byte. */
struct bytes *listing_notes(struct listing *list);
/* Adds the next row. `group` is any number; consecutive rows with the same number are a group.
 * Returns false when the row could not be written or kept; errno says why. An amount that has too
 * many digits leaves its cell empty, and a note says so. */
bool listing_add(struct listing *list, size_t group);
/* What JSON has as the summary behind its rows: a value, which the caller appends before it closes
 * the list. */
struct bytes *listing_summary(struct listing *list);
/* Drops what is set of the next row. */
void listing_drop(struct listing *list);
/* Writes the end of the list if `whole` (otherwise the list stays incomplete), and frees it.
 * Returns false when that failed; errno says why. Does not flush `out`. */
bool listing_close(struct listing *list, bool whole);

/* A list of rows that are prepared separately and join the given list later, so that several
 * threads can each prepare some. Not for tables. NULL when memory runs out. */
struct listing *listing_part(const struct listing *list);
/* Writes the rows of the part, and empties it. Returns false as listing_add does. */
bool listing_join(struct listing *list, struct listing *part);

#endif
