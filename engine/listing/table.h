/* A table that is kept in memory until its layout is known. Private to this room. */
#ifndef GROAT_LISTING_TABLE_H
#define GROAT_LISTING_TABLE_H

#include "listing/forms.h"

/* A cell as it will be printed. `left` is the part of its width before the decimal mark (all of it
 * if there is none), by which the cells of a number column are aligned. */
struct table_cell {
    size_t start; /* in the table's texts */
    unsigned length;
    unsigned width, left; /* in character cells */
    struct amount amount; /* of a number, which is written when the table is whole, and it is known
                             with how many decimals */
    bool money;           /* it is an amount of money, written with its currency */
};

struct table_row {
    size_t notes; /* their offset in the table's texts; each ends with a zero byte */
    unsigned notes_count;
    size_t group;
    bool same; /* in the same group as the row before: its first cell is not repeated */
};

struct table {
    struct bytes texts;
    struct amounts amounts;   /* of the cells */
    struct table_cell *cells; /* row by row */
    struct table_row *rows;
    size_t count, room; /* of rows */
    bool *needed;       /* by column: some row has something there that no other column has */
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
