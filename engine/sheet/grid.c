#include "sheet/grid.h"

#include <stdlib.h>
#include <string.h>

#include "memory/index.h"

struct cell {
    uint32_t start, length; /* in `text` */
    uint32_t column;
};

struct row {
    uint32_t first_cell;
    uint32_t line;
};

struct heading {
    uint32_t start, length; /* in `text` */
    uint32_t claimed;       /* the last row with this column, from 1 */
};

struct sheet {
    char *text; /* every heading and every cell, end to end */
    size_t text_length, text_room;
    size_t cell_start; /* where the next cell's text begins */
    struct heading *headings;
    size_t heading_count, heading_room;
    struct row *rows;
    size_t row_count, row_room;
    struct cell *cells;
    size_t cell_count, cell_room;
    bool unsorted;      /* the open row's cells are not yet in the order of their columns */
    struct index index; /* of the headings */
    struct arena arena; /* the memory of the index */
    struct memory memory;
};

/* The block with room for at least `needed` things of `size` bytes, at least doubled where it grows
 * so that adding one at a time stays cheap. `*room` counts things. NULL when memory runs out; the
 * block is then unchanged. */
static void *with_room(void *block, size_t *room, size_t needed, size_t size)
{
    if (needed <= *room)
        return block;
    size_t grown = *room < 16 ? 16 : *room;
    while (grown < needed) {
        if (grown > SIZE_MAX / 2)
            return NULL;
        grown *= 2;
    }
    if (grown > SIZE_MAX / size)
        return NULL;
    void *moved = realloc(block, grown * size);
    if (moved)
        *room = grown;
    return moved;
}

struct sheet *sheet_grid_open(void)
{
    struct sheet *sheet = calloc(1, sizeof *sheet);
    if (!sheet)
        return NULL;
    sheet->memory = memory_standard();
    arena_open(&sheet->arena, &sheet->memory);
    return sheet;
}

void sheet_free(struct sheet *sheet)
{
    if (!sheet)
        return;
    free(sheet->text);
    free(sheet->headings);
    free(sheet->rows);
    free(sheet->cells);
    arena_close(&sheet->arena);
    free(sheet);
}

/* ---- columns ---- */

/* A heading that is searched for. */
struct asked {
    const struct sheet *sheet;
    const char *text;
    size_t length;
};

static bool is_heading(const void *context, uint32_t column)
{
    const struct asked *asked = context;
    const struct heading *known = &asked->sheet->headings[column];
    return known->length == asked->length &&
           memcmp(asked->sheet->text + known->start, asked->text, asked->length) == 0;
}

size_t sheet_grid_find(const struct sheet *sheet, const char *heading, size_t length)
{
    const struct asked asked = {sheet, heading, length};
    uint32_t found =
        index_look(&sheet->index, index_hash_text(INDEX_HASH, heading, length), is_heading, &asked);
    return found == INDEX_NONE ? SHEET_NO_COLUMN : found;
}

/* Everything that may fail is done first, so that a failure changes only the texts. */
static bool add_column(struct sheet *sheet, const char *text, size_t length)
{
    struct heading *headings = with_room(sheet->headings, &sheet->heading_room,
                                         sheet->heading_count + 1, sizeof *headings);
    if (!headings)
        return false;
    sheet->headings = headings;
    if (!sheet_grid_write(sheet, text, length))
        return false;
    const struct asked asked = {sheet, text, length};
    uint32_t *column = index_find(&sheet->index, &sheet->arena,
                                  index_hash_text(INDEX_HASH, text, length), is_heading, &asked);
    if (!column)
        return false;
    *column = (uint32_t)sheet->heading_count;
    sheet->headings[sheet->heading_count++] =
        (struct heading){(uint32_t)sheet->cell_start, (uint32_t)length, 0};
    sheet->cell_start = sheet->text_length;
    return true;
}

bool sheet_grid_add_column(struct sheet *sheet, const struct sheet_source *source, size_t at,
                           const char *heading, size_t length)
{
    if (sheet->heading_count == SHEET_COLUMNS_MAX)
        return sheet_fail(source, at, "leave out the columns that the rules do not use",
                          "the sheet has more than %d columns", SHEET_COLUMNS_MAX);
    return add_column(sheet, heading, length) || sheet_fail_memory(source);
}

bool sheet_grid_claim(struct sheet *sheet, size_t column)
{
    uint32_t row = (uint32_t)sheet->row_count;
    if (sheet->headings[column].claimed == row)
        return false;
    sheet->headings[column].claimed = row;
    return true;
}

/* ---- rows and cells ---- */

bool sheet_grid_begin_row(struct sheet *sheet, size_t line)
{
    struct row *rows = with_room(sheet->rows, &sheet->row_room, sheet->row_count + 1, sizeof *rows);
    if (!rows)
        return false;
    sheet->rows = rows;
    rows[sheet->row_count++] = (struct row){(uint32_t)sheet->cell_count, (uint32_t)line};
    sheet->unsorted = false;
    return true;
}

static int by_column(const void *left, const void *right)
{
    const struct cell *a = left, *b = right;
    return a->column < b->column ? -1 : a->column > b->column;
}

void sheet_grid_end_row(struct sheet *sheet)
{
    size_t first = sheet->rows[sheet->row_count - 1].first_cell;
    if (sheet->unsorted)
        qsort(sheet->cells + first, sheet->cell_count - first, sizeof *sheet->cells, by_column);
    sheet->unsorted = false;
}

bool sheet_grid_write(struct sheet *sheet, const char *text, size_t length)
{
    if (length == 0)
        return true;
    if (length > SHEET_BYTES_MAX - sheet->text_length)
        return false;
    char *grown = with_room(sheet->text, &sheet->text_room, sheet->text_length + length, 1);
    if (!grown)
        return false;
    sheet->text = grown;
    memcpy(grown + sheet->text_length, text, length);
    sheet->text_length += length;
    return true;
}

bool sheet_grid_wrote(const struct sheet *sheet)
{
    return sheet->text_length > sheet->cell_start;
}

bool sheet_grid_end_cell(struct sheet *sheet, size_t column)
{
    if (!sheet_grid_wrote(sheet))
        return true;
    struct cell *cells =
        with_room(sheet->cells, &sheet->cell_room, sheet->cell_count + 1, sizeof *cells);
    if (!cells)
        return false;
    sheet->cells = cells;
    size_t first = sheet->rows[sheet->row_count - 1].first_cell;
    if (sheet->cell_count > first && cells[sheet->cell_count - 1].column > column)
        sheet->unsorted = true;
    uint32_t length = (uint32_t)(sheet->text_length - sheet->cell_start);
    cells[sheet->cell_count++] =
        (struct cell){(uint32_t)sheet->cell_start, length, (uint32_t)column};
    sheet->cell_start = sheet->text_length;
    return true;
}

/* ---- reading ---- */

size_t sheet_column_count(const struct sheet *sheet)
{
    return sheet->heading_count;
}

struct sheet_text sheet_heading(const struct sheet *sheet, size_t column)
{
    if (column >= sheet->heading_count)
        return (struct sheet_text){NULL, 0};
    const struct heading *heading = &sheet->headings[column];
    return (struct sheet_text){sheet->text + heading->start, heading->length};
}

size_t sheet_row_count(const struct sheet *sheet)
{
    return sheet->row_count;
}

size_t sheet_row_line(const struct sheet *sheet, size_t row)
{
    return row < sheet->row_count ? sheet->rows[row].line : 0;
}

struct sheet_text sheet_cell(const struct sheet *sheet, size_t row, size_t column)
{
    if (row >= sheet->row_count || column >= sheet->heading_count)
        return (struct sheet_text){NULL, 0};
    size_t low = sheet->rows[row].first_cell;
    size_t high = row + 1 < sheet->row_count ? sheet->rows[row + 1].first_cell : sheet->cell_count;
    /* A cell's index in the row is at most its column. In a row without empty cells it is exactly
     * its column, so this index is tried first. */
    size_t middle = high - low > column ? low + column : high - 1;
    while (low < high) {
        const struct cell *cell = &sheet->cells[middle];
        if (cell->column == column)
            return (struct sheet_text){sheet->text + cell->start, cell->length};
        if (cell->column < column)
            low = middle + 1;
        else
            high = middle;
        middle = low + (high - low) / 2;
    }
    return (struct sheet_text){NULL, 0};
}
