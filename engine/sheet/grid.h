/* A sheet while its reader fills it. Private to this room.
 *
 * Memory grows with the bytes of a block, not with rows times columns: only cells that hold
 * something are kept, each row's in the order of their columns. Functions that return bool return
 * false when memory runs out, unless they say otherwise.
 */
#ifndef GROAT_SHEET_GRID_H
#define GROAT_SHEET_GRID_H

#include "sheet/source.h"

#include <stdint.h>

#include "memory/index.h"

/* As many as a spreadsheet has. Limits the cost of a hostile sheet. */
#define SHEET_COLUMNS_MAX 16384
#define SHEET_NO_COLUMN ((size_t)-1)

/* Texts, rows and cells are counted in 32 bits, so a longer sheet is refused. */
#define SHEET_BYTES_MAX ((size_t)UINT32_MAX)

/* A longer row is refused where a sheet is read in blocks: inside quotes that are never closed all
 * the rest of the sheet is one row. */
#define SHEET_ROW_MOST ((size_t)16 << 20)

struct sheet_reader;

struct cell {
    uint32_t start;  /* in the texts of the sheet; of a cell that cannot be read, its complaint */
    uint32_t length; /* SHEET_UNREADABLE: it cannot be read */
    uint32_t column;
};
#define SHEET_UNREADABLE UINT32_MAX

struct row {
    size_t line;
    uint32_t first_cell;
    uint32_t complaint; /* why it cannot be read, from 1; 0: it can */
};

/* A message about a row or a cell, in `said`. */
struct complaint {
    size_t line, column;
    size_t message, help;
};

struct heading {
    const char *text;
    size_t length;
    size_t claimed; /* the last row with this column, counted through all blocks from 1 */
};

struct sheet {
    struct sheet_feed feed;
    struct sheet_reader *reader; /* NULL until the sheet is known to be text */
    struct heading *headings;
    size_t heading_count, heading_room;
    struct index index; /* of the headings */
    struct arena arena; /* the memory of the index and of the headings */
    struct memory memory;
    /* The block in hand. */
    size_t first_row; /* how many rows came before it */
    struct row *rows;
    size_t row_count, row_room;
    struct cell *cells;
    size_t cell_count, cell_room;
    bool unsorted;  /* the open row's cells are not yet in the order of their columns */
    bool own_texts; /* the texts of cells are in `text`; otherwise in the bytes of the feed */
    char *text;     /* of cells, end to end */
    size_t text_length, text_room;
    size_t cell_start; /* where the next cell's text begins */
    struct complaint *complaints;
    size_t complaint_count, complaint_room;
    char *said; /* their texts, each ended by a zero byte */
    size_t said_length, said_room;
};

/* NULL when memory runs out. */
struct sheet *sheet_grid_open(void);
/* Forgets the rows of the block in hand. */
void sheet_grid_clear(struct sheet *sheet);

/* The column with this heading, or SHEET_NO_COLUMN. */
size_t sheet_grid_find(const struct sheet *sheet, const char *heading, size_t length);
/* Adds a column after the last. Its heading must be new. Reports its own failures: memory, and more
 * columns than SHEET_COLUMNS_MAX. */
bool sheet_grid_add_column(struct sheet *sheet, const struct sheet_source *source, size_t at,
                           const char *heading, size_t length);

bool sheet_grid_begin_row(struct sheet *sheet, size_t line);
void sheet_grid_end_row(struct sheet *sheet);
/* Drops the row that was begun last. */
void sheet_grid_drop_row(struct sheet *sheet);
/* Makes the last row one that cannot be read, for this reason. */
bool sheet_grid_spoil_row(struct sheet *sheet, const struct sheet_error *why);
/* Marks a column as given in the open row; false if it already was. */
bool sheet_grid_claim(struct sheet *sheet, size_t column);

/* Adds a cell of the open row: a text in the bytes of the feed. */
bool sheet_grid_add_cell(struct sheet *sheet, size_t column, size_t start, size_t length);

/* Adds to the text of the next cell. */
bool sheet_grid_write(struct sheet *sheet, const char *text, size_t length);
/* Is there text for the next cell yet? */
bool sheet_grid_wrote(const struct sheet *sheet);
/* Makes the written text the cell of a column in the open row. Without text there is no cell. */
bool sheet_grid_end_cell(struct sheet *sheet, size_t column);
/* Drops the written text: the cell of this column cannot be read, for this reason. */
bool sheet_grid_spoil_cell(struct sheet *sheet, size_t column, const struct sheet_error *why);

#endif
