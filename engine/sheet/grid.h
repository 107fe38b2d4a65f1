/* A sheet while its reader fills it. Private to this room.
 *
 * Memory grows with the bytes of the file, not with rows times columns: only cells that hold
 * something are kept, each row's in the order of their columns. Functions that return bool return
 * false when memory runs out, unless they say otherwise.
 */
#ifndef GROAT_SHEET_GRID_H
#define GROAT_SHEET_GRID_H

#include "sheet/source.h"

#include <stdint.h>

/* As many as a spreadsheet has. Limits the cost of a hostile sheet. */
#define SHEET_COLUMNS_MAX 16384
#define SHEET_NO_COLUMN ((size_t)-1)

/* Texts, rows and cells are counted in 32 bits, so a longer sheet is refused. */
#define SHEET_BYTES_MAX ((size_t)UINT32_MAX)

/* NULL when memory runs out. */
struct sheet *sheet_grid_open(void);

/* The column with this heading, or SHEET_NO_COLUMN. */
size_t sheet_grid_find(const struct sheet *sheet, const char *heading, size_t length);
/* Adds a column after the last. Its heading must be new. Reports its own failures: memory, and more
 * columns than SHEET_COLUMNS_MAX. */
bool sheet_grid_add_column(struct sheet *sheet, const struct sheet_source *source, size_t at,
                           const char *heading, size_t length);

bool sheet_grid_begin_row(struct sheet *sheet, size_t line);
void sheet_grid_end_row(struct sheet *sheet);
/* Marks a column as given in the open row; false if it already was. */
bool sheet_grid_claim(struct sheet *sheet, size_t column);

/* Adds to the text of the next cell. */
bool sheet_grid_write(struct sheet *sheet, const char *text, size_t length);
/* Is there text for the next cell yet? */
bool sheet_grid_wrote(const struct sheet *sheet);
/* Makes the written text the cell of a column in the open row. Without text there is no cell. */
bool sheet_grid_end_cell(struct sheet *sheet, size_t column);

#endif
