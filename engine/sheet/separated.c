/* CSV and TSV, with libcsv in its strict mode: a quote where none may stand is an error. libcsv
 * does not know places, so it gets the sheet line by line, and after an error the row is read again
 * to find the cell. */
#include "sheet/reader.h"

#include <csv.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define NO_HEADING UINT16_MAX

struct separated {
    const struct sheet_source *source;
    struct sheet *sheet;
    char separator;
    size_t line;                /* being read, from 1 */
    size_t row_start, row_line; /* of the row being read */
    bool row_open;              /* the row has begun and not ended */
    size_t cell;                /* of the row, from 0 */
    bool row_kept;              /* some cell of the row holds something */
    size_t heading_line;        /* from 1 */
    size_t heading_cells;       /* of the heading line, with or without text; 0 before it */
    bool failed;                /* after an error the rest is ignored, as libcsv's callbacks cannot
                                 * stop it */
    uint16_t columns[SHEET_COLUMNS_MAX]; /* the sheet's column of each cell, or NO_HEADING */
};

/* The offset of cell `number` (from 0) of the row being read, or of the last cell that begins
 * before `until`, whichever comes first. */
static size_t cell_place(const struct separated *reader, size_t until, size_t number)
{
    const char *bytes = reader->source->bytes;
    size_t start = reader->row_start;
    bool quoted = false;
    for (size_t at = start; at < until && number > 0; at++) {
        if (bytes[at] == '"') {
            quoted = !quoted;
        } else if (bytes[at] == reader->separator && !quoted) {
            start = at + 1;
            number--;
        }
    }
    while (start < until && bytes[start] == ' ')
        start++;
    return start;
}

static size_t numbered_place(const struct separated *reader, size_t number)
{
    return cell_place(reader, reader->source->length, number);
}

/* ---- headings ---- */

static bool fail_repeated(const struct separated *reader, size_t column, struct sheet_text text)
{
    size_t first = 0;
    while (reader->columns[first] != column)
        first++;
    return sheet_fail(reader->source, numbered_place(reader, reader->cell),
                      "rename or remove one of them",
                      "columns %zu and %zu both have the heading `%s`", first + 1, reader->cell + 1,
                      sheet_shown(text.start, text.length).text);
}

static bool take_heading(struct separated *reader, const char *bytes, size_t length)
{
    size_t number = reader->cell;
    if (number == SHEET_COLUMNS_MAX)
        return sheet_fail(reader->source, reader->row_start,
                          "leave out the columns that the rules do not use",
                          "the sheet has more than %d columns", SHEET_COLUMNS_MAX);
    struct sheet_text text = sheet_trimmed(bytes, length);
    reader->columns[number] = NO_HEADING;
    if (text.length == 0)
        return true;
    size_t column = sheet_grid_find(reader->sheet, text.start, text.length);
    if (column != SHEET_NO_COLUMN)
        return fail_repeated(reader, column, text);
    column = sheet_column_count(reader->sheet);
    if (!sheet_grid_add_column(reader->sheet, reader->source, reader->row_start, text.start,
                               text.length))
        return false;
    reader->columns[number] = (uint16_t)column;
    return true;
}

/* ---- cells ---- */

/* Whether the first line is a title: a single cell, followed by a row that may be the headings. */
static bool may_be_title(const struct separated *reader, const char *text)
{
    bool letter =
        (*text >= 'a' && *text <= 'z') || (*text >= 'A' && *text <= 'Z') || (*text & 0x80);
    return letter && sheet_column_count(reader->sheet) == 1 && sheet_row_count(reader->sheet) == 1;
}

static bool fail_title(const struct separated *reader, size_t number)
{
    char help[64];
    struct sheet_text title = sheet_heading(reader->sheet, 0);
    snprintf(help, sizeof help, "remove line %zu", reader->heading_line);
    return sheet_fail(reader->source, numbered_place(reader, number), help,
                      "line %zu contains only the heading `%s`; are the headings in line %zu?",
                      reader->heading_line, sheet_shown(title.start, title.length).text,
                      reader->row_line);
}

static bool take_cell(struct separated *reader, const char *text, size_t length)
{
    if (length == 0)
        return true;
    if (!reader->row_kept && !sheet_grid_begin_row(reader->sheet, reader->row_line))
        return sheet_fail_memory(reader->source);
    reader->row_kept = true;
    if (reader->cell == 1 && reader->heading_cells > 0 &&
        (reader->heading_cells == 1 || reader->columns[1] == NO_HEADING) &&
        may_be_title(reader, text))
        return fail_title(reader, 0);
    if (reader->cell >= reader->heading_cells)
        return true; /* reported at the end of the row, when its cells are counted */
    size_t column = reader->columns[reader->cell];
    if (column == NO_HEADING)
        return sheet_fail(reader->source, numbered_place(reader, reader->cell),
                          "give the column a heading, or empty its cells",
                          "column %zu has no heading, but this cell contains `%s`",
                          reader->cell + 1, sheet_shown(text, length).text);
    return (sheet_grid_write(reader->sheet, text, length) &&
            sheet_grid_end_cell(reader->sheet, column)) ||
           sheet_fail_memory(reader->source);
}

static void on_cell(void *text, size_t length, void *context)
{
    struct separated *reader = context;
    if (reader->failed)
        return;
    reader->failed = reader->heading_cells == 0 ? !take_heading(reader, text, length)
                                                : !take_cell(reader, text, length);
    reader->cell++;
}

static bool end_row(struct separated *reader)
{
    if (reader->heading_cells == 0) {
        /* A line of only separators above the headings counts as blank. */
        if (sheet_column_count(reader->sheet) > 0)
            reader->heading_cells = reader->cell;
        reader->heading_line = reader->row_line;
        return true;
    }
    if (!reader->row_kept)
        return true;
    if (reader->cell > reader->heading_cells)
        return sheet_fail(
            reader->source, numbered_place(reader, reader->heading_cells),
            "put a cell with a separator inside it in quotes, or remove the extra cells",
            "this row has %zu cells, but the sheet has %zu headings", reader->cell,
            reader->heading_cells);
    sheet_grid_end_row(reader->sheet);
    return true;
}

static void on_row(int ending, void *context)
{
    (void)ending;
    struct separated *reader = context;
    if (!reader->failed)
        reader->failed = !end_row(reader);
    reader->row_open = reader->row_kept = false;
    reader->cell = 0;
}

/* ---- lines ---- */

/* The separator of a CSV's heading line: the first line that holds more than separators. A
 * spreadsheet in a country with a decimal comma separates by `;`. */
static char csv_separator(const struct sheet_source *source)
{
    size_t commas = 0, semicolons = 0;
    bool quoted = false, found = false;
    for (size_t at = 0; at < source->length; at++) {
        char byte = source->bytes[at];
        bool ended = !quoted && (byte == '\n' || byte == '\r');
        if (ended && found)
            break;
        if (ended)
            commas = semicolons = 0;
        else if (byte == '"')
            quoted = !quoted;
        else if (!quoted && byte == ',')
            commas++;
        else if (!quoted && byte == ';')
            semicolons++;
        else if (byte != ' ' && byte != '\t')
            found = true;
    }
    return semicolons > commas ? ';' : ',';
}

static bool is_blank_line(const struct separated *reader, size_t at, size_t end)
{
    const char *bytes = reader->source->bytes;
    while (at < end && (bytes[at] == ' ' || (bytes[at] == '\t' && reader->separator != '\t')))
        at++;
    return at == end || bytes[at] == '\n' || bytes[at] == '\r';
}

static bool fail_quote(const struct separated *reader, size_t at)
{
    const struct sheet_source *source = reader->source;
    size_t start = cell_place(reader, at, SIZE_MAX);
    if (start == at || source->bytes[start] != '"')
        return sheet_fail(source, at,
                          "put the whole cell in quotes and write the one inside twice: "
                          "\"3/4\"\" dowel\"",
                          "there is a quote inside a cell that does not begin with one");
    return sheet_fail(source, at,
                      "write a quote inside a quoted cell twice, or close the cell where it ends",
                      "there is text after the quote that closes this cell, which opened on "
                      "line %zu",
                      sheet_line_of(source, start));
}

static bool read_line(struct separated *reader, struct csv_parser *parser, size_t at, size_t end)
{
    if (!reader->row_open) {
        reader->row_start = at;
        reader->row_line = reader->line;
        reader->row_open = !is_blank_line(reader, at, end);
    }
    size_t read = csv_parse(parser, reader->source->bytes + at, end - at, on_cell, on_row, reader);
    if (reader->failed)
        return false;
    if (read == end - at)
        return true;
    return csv_error(parser) == CSV_EPARSE ? fail_quote(reader, at + read)
                                           : sheet_fail_memory(reader->source);
}

static bool end_sheet(struct separated *reader, struct csv_parser *parser)
{
    const struct sheet_source *source = reader->source;
    if (csv_fini(parser, on_cell, on_row, reader) != 0)
        return sheet_fail(source, cell_place(reader, source->length, SIZE_MAX),
                          "close the cell with another quote, or remove this one",
                          "the quote that opens this cell is never closed");
    if (reader->failed)
        return false;
    return reader->heading_cells > 0 || sheet_fail_empty(source);
}

static bool read_lines(struct separated *reader)
{
    struct csv_parser parser;
    csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI);
    csv_set_blk_size(&parser, 1 << 16); /* with its own 128 bytes a long cell grows slowly */
    csv_set_delim(&parser, (unsigned char)reader->separator);
    bool fine = true;
    size_t at = 0;
    while (fine && at < reader->source->length) {
        size_t end = sheet_line_end(reader->source, at);
        reader->line++;
        fine = read_line(reader, &parser, at, end);
        at = end;
    }
    fine = fine && end_sheet(reader, &parser);
    csv_free(&parser);
    return fine;
}

bool sheet_read_separated(const struct sheet_source *source, enum sheet_form form,
                          struct sheet *sheet)
{
    struct separated *reader = calloc(1, sizeof *reader);
    if (!reader)
        return sheet_fail_memory(source);
    reader->source = source;
    reader->sheet = sheet;
    reader->separator = form == SHEET_TSV ? '\t' : csv_separator(source);
    bool fine = read_lines(reader);
    free(reader);
    return fine;
}
