/* A table that is being kept until its layout is known. Private to this room. */
#ifndef GROAT_LISTING_TABLE_H
#define GROAT_LISTING_TABLE_H

#include "listing/forms.h"

/* A cell as it will be printed. `left` is how much of its width stands before the decimal mark (all
 * of it where there is none): cells of a number column are aligned by that. */
struct table_cell {
    size_t start; /* in the table's texts */
    unsigned length;
    unsigned coarse; /* of a number, until the table is whole: as long is the text behind it that
                        says the same with fewer decimals */
    unsigned width, left; /* in character cells */
};

struct table_row {
    size_t notes; /* where they stand in the table's texts, each closed by a zero byte */
    unsigned notes_count;
    size_t group;
    bool same; /* of the group of the row before: the first cell is not said again */
};

struct table {
    struct bytes texts;
    struct table_cell *cells; /* row by row */
    struct table_row *rows;
    size_t count, room; /* of rows */
    bool *needed;       /* of each column: it says something that the others do not, in some row */
};

/* The table's own texts. */
static inline const char *table_text(const struct table *table, const struct table_cell *cell)
{
    return cell->length ? table->texts.start + cell->start : "";
}

bool table_column_is_text(const struct listing *list, size_t column);

/* Prints the whole table. */
bool table_print(struct listing *list);

#endif
