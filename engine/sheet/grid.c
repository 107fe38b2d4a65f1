#include "sheet/reader.h"

#include <stdlib.h>
#include <string.h>

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
    if (sheet->reader)
        sheet->reader->close(sheet->reader);
    free(sheet->feed.bytes);
    free(sheet->text);
    free(sheet->complaints);
    free(sheet->said);
    free(sheet->headings);
    free(sheet->rows);
    free(sheet->cells);
    arena_close(&sheet->arena);
    free(sheet);
}

void sheet_grid_clear(struct sheet *sheet)
{
    sheet->first_row += sheet->row_count;
    sheet->row_count = sheet->cell_count = 0;
    sheet->text_length = sheet->cell_start = 0;
    sheet->complaint_count = sheet->said_length = 0;
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
    return known->length == asked->length && memcmp(known->text, asked->text, asked->length) == 0;
}

size_t sheet_grid_find(const struct sheet *sheet, const char *heading, size_t length)
{
    const struct asked asked = {sheet, heading, length};
    uint32_t found =
        index_look(&sheet->index, index_hash_text(INDEX_HASH, heading, length), is_heading, &asked);
    return found == INDEX_NONE ? SHEET_NO_COLUMN : found;
}

static bool add_column(struct sheet *sheet, const char *text, size_t length)
{
    struct heading *headings = with_room(sheet->headings, &sheet->heading_room,
                                         sheet->heading_count + 1, sizeof *headings);
    if (!headings)
        return false;
    sheet->headings = headings;
    const char *kept = arena_text(&sheet->arena, text, length);
    if (!kept)
        return false;
    const struct asked asked = {sheet, text, length};
    uint32_t *column = index_find(&sheet->index, &sheet->arena,
                                  index_hash_text(INDEX_HASH, text, length), is_heading, &asked);
    if (!column)
        return false;
    *column = (uint32_t)sheet->heading_count;
    sheet->headings[sheet->heading_count++] = (struct heading){kept, length, 0};
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
    size_t row = sheet->first_row + sheet->row_count;
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
    rows[sheet->row_count++] = (struct row){line, (uint32_t)sheet->cell_count, 0};
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

void sheet_grid_drop_row(struct sheet *sheet)
{
    sheet->cell_count = sheet->rows[--sheet->row_count].first_cell;
}

bool sheet_grid_add_cell(struct sheet *sheet, size_t column, size_t start, size_t length)
{
    struct cell *cells =
        with_room(sheet->cells, &sheet->cell_room, sheet->cell_count + 1, sizeof *cells);
    if (!cells)
        return false;
    sheet->cells = cells;
    size_t first = sheet->rows[sheet->row_count - 1].first_cell;
    if (sheet->cell_count > first && cells[sheet->cell_count - 1].column > column)
        sheet->unsorted = true;
    cells[sheet->cell_count++] = (struct cell){(uint32_t)start, (uint32_t)length, (uint32_t)column};
    return true;
}

bool sheet_grid_write(struct sheet *sheet, const char *text, size_t length)
{
    if (length == 0)
        return true;
    if (length > SHEET_BYTES_MAX - 1 - sheet->text_length)
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
    size_t start = sheet->cell_start, length = sheet->text_length - start;
    sheet->cell_start = sheet->text_length;
    return sheet_grid_add_cell(sheet, column, start, length);
}

/* ---- what cannot be read ---- */

static bool keep_said(struct sheet *sheet, const char *text, size_t *start)
{
    size_t size = strlen(text) + 1;
    char *said = with_room(sheet->said, &sheet->said_room, sheet->said_length + size, 1);
    if (!said)
        return false;
    sheet->said = said;
    *start = sheet->said_length;
    memcpy(said + *start, text, size);
    sheet->said_length += size;
    return true;
}

/* Keeps a message; 0 when memory runs out. Rows that are wrong in the same way are often many, and
 * share its texts. */
static uint32_t keep_complaint(struct sheet *sheet, const struct sheet_error *why)
{
    struct complaint kept = {why->line, why->column, 0, 0};
    size_t count = sheet->complaint_count;
    struct complaint *complaints =
        with_room(sheet->complaints, &sheet->complaint_room, count + 1, sizeof *complaints);
    if (!complaints || count == UINT32_MAX)
        return 0;
    sheet->complaints = complaints;
    const struct complaint *last = count > 0 ? &complaints[count - 1] : NULL;
    if (last && strcmp(sheet->said + last->message, why->message) == 0 &&
        strcmp(sheet->said + last->help, why->help) == 0) {
        kept.message = last->message;
        kept.help = last->help;
    } else if (!keep_said(sheet, why->message, &kept.message) ||
               !keep_said(sheet, why->help, &kept.help)) {
        return 0;
    }
    complaints[sheet->complaint_count++] = kept;
    return (uint32_t)sheet->complaint_count;
}

bool sheet_grid_spoil_row(struct sheet *sheet, const struct sheet_error *why)
{
    struct row *row = &sheet->rows[sheet->row_count - 1];
    sheet->cell_count = row->first_cell;
    sheet->cell_start = sheet->text_length;
    row->complaint = keep_complaint(sheet, why);
    return row->complaint > 0;
}

bool sheet_grid_spoil_cell(struct sheet *sheet, size_t column, const struct sheet_error *why)
{
    uint32_t complaint = keep_complaint(sheet, why);
    sheet->text_length = sheet->cell_start;
    return complaint > 0 && sheet_grid_add_cell(sheet, column, complaint, SHEET_UNREADABLE);
}

static bool tell(const struct sheet *sheet, size_t number, struct sheet_error *why)
{
    if (number == 0)
        return false;
    const struct complaint *complaint = &sheet->complaints[number - 1];
    *why = (struct sheet_error){.line = complaint->line, .column = complaint->column};
    strcpy(why->message, sheet->said + complaint->message);
    strcpy(why->help, sheet->said + complaint->help);
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
    return (struct sheet_text){heading->text, heading->length};
}

size_t sheet_first_row(const struct sheet *sheet)
{
    return sheet->first_row;
}

size_t sheet_row_count(const struct sheet *sheet)
{
    return sheet->first_row + sheet->row_count;
}

/* The row of the block in hand, or NULL. */
static const struct row *row_at(const struct sheet *sheet, size_t row)
{
    size_t at = row - sheet->first_row;
    return row >= sheet->first_row && at < sheet->row_count ? &sheet->rows[at] : NULL;
}

size_t sheet_row_line(const struct sheet *sheet, size_t row)
{
    const struct row *found = row_at(sheet, row);
    return found ? found->line : 0;
}

static const struct cell *cell_at(const struct sheet *sheet, size_t row, size_t column)
{
    const struct row *found = row_at(sheet, row);
    if (!found)
        return NULL;
    bool last = found + 1 == sheet->rows + sheet->row_count;
    size_t low = found->first_cell, high = last ? sheet->cell_count : found[1].first_cell;
    /* A cell's index in the row is at most its column. In a row without empty cells it is exactly
     * its column, so this index is tried first. */
    size_t middle = high - low > column ? low + column : high - 1;
    while (low < high) {
        const struct cell *cell = &sheet->cells[middle];
        if (cell->column == column)
            return cell;
        if (cell->column < column)
            low = middle + 1;
        else
            high = middle;
        middle = low + (high - low) / 2;
    }
    return NULL;
}

struct sheet_text sheet_cell(const struct sheet *sheet, size_t row, size_t column)
{
    const struct cell *cell = cell_at(sheet, row, column);
    if (!cell || cell->length == SHEET_UNREADABLE)
        return (struct sheet_text){NULL, 0};
    const char *texts = sheet->own_texts ? sheet->text : sheet->feed.bytes;
    return (struct sheet_text){texts + cell->start, cell->length};
}

bool sheet_row_trouble(const struct sheet *sheet, size_t row, struct sheet_error *why)
{
    const struct row *found = row_at(sheet, row);
    return found && tell(sheet, found->complaint, why);
}

bool sheet_cell_trouble(const struct sheet *sheet, size_t row, size_t column,
                        struct sheet_error *why)
{
    if (sheet->complaint_count == 0)
        return false;
    const struct cell *cell = cell_at(sheet, row, column);
    return cell && cell->length == SHEET_UNREADABLE && tell(sheet, cell->start, why);
}
