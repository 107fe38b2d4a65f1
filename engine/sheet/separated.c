/* CSV and TSV. A row is read in one pass over its bytes, which stay where they are: its cells are
 * places in the feed. A row whose end has not come yet is read again when it has. */
#include "sheet/reader.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define NO_HEADING UINT16_MAX

struct separated {
    struct sheet_reader reader;
    struct sheet *sheet;
    enum sheet_form form;
    char separator;       /* 0 until it is known */
    size_t line;          /* of the byte at feed.at, from 1 */
    size_t heading_line;  /* from 1 */
    size_t heading_cells; /* of the heading line, with or without text; 0 before it */
    struct sheet_source source;
    /* The row being read. */
    struct span *cells;
    size_t cell_count, cell_room;
    size_t end;             /* behind its line break */
    bool breaks;            /* a quoted cell has a line break */
    size_t opened, strayed; /* after READ_STRAY: the quote of the cell, and the text after it */
    bool ends[256];         /* the bytes that end an unquoted cell */
    uint16_t columns[SHEET_COLUMNS_MAX]; /* the sheet's column of each cell, or NO_HEADING */
};

/* A cell of the row being read, without its quotes. */
struct span {
    size_t start, length;
    bool doubled; /* it has quotes that are written twice */
};

enum reading {
    READ_ROW,
    READ_CUT,      /* the bytes end before the row does */
    READ_STRAY,    /* there is text after the quote that closes a cell */
    READ_UNCLOSED, /* the sheet ends inside quotes */
    READ_NO_MEMORY
};

/* ---- one row ---- */

static bool is_space(const struct separated *reader, char byte)
{
    return byte == ' ' || (byte == '\t' && reader->separator != '\t');
}

static size_t pass_spaces(const struct separated *reader, size_t at)
{
    while (at < reader->source.length && is_space(reader, reader->source.bytes[at]))
        at++;
    return at;
}

static bool keep_span(struct separated *reader, struct span span)
{
    if (reader->cell_count == reader->cell_room) {
        size_t room = reader->cell_room ? 2 * reader->cell_room : 32;
        struct span *cells = realloc(reader->cells, room * sizeof *cells);
        if (!cells)
            return false;
        reader->cells = cells;
        reader->cell_room = room;
    }
    reader->cells[reader->cell_count++] = span;
    return true;
}

/* Reads the cell after the quote at `*at`, and moves behind the spaces after the quote that closes
 * it. */
static enum reading read_quoted(struct separated *reader, size_t *at, struct span *span)
{
    const char *bytes = reader->source.bytes;
    size_t length = reader->source.length, from = *at + 1;
    *span = (struct span){.start = from};
    reader->opened = *at;
    for (;;) {
        const char *quote = from < length ? memchr(bytes + from, '"', length - from) : NULL;
        if (!quote)
            return reader->sheet->feed.ended ? READ_UNCLOSED : READ_CUT;
        size_t found = (size_t)(quote - bytes);
        bool twice = found + 1 < length && bytes[found + 1] == '"';
        if (found + 1 == length && !reader->sheet->feed.ended)
            return READ_CUT; /* the next byte says whether it closes the cell */
        from = found + (twice ? 2 : 1);
        if (twice) {
            span->doubled = true;
            continue;
        }
        span->length = found - span->start;
        reader->breaks = reader->breaks || memchr(bytes + span->start, '\n', span->length) ||
                         memchr(bytes + span->start, '\r', span->length);
        *at = pass_spaces(reader, from);
        return READ_ROW;
    }
}

static void read_unquoted(const struct separated *reader, size_t *at, struct span *span)
{
    const char *bytes = reader->source.bytes;
    size_t from = *at, length = reader->source.length;
    while (*at < length && !reader->ends[(unsigned char)bytes[*at]])
        ++*at;
    size_t end = *at;
    while (end > from && is_space(reader, bytes[end - 1]))
        end--;
    *span = (struct span){from, end - from, false};
}

/* Moves behind the line break at `at`; false if it is not all there yet. */
static bool end_line(struct separated *reader, size_t at)
{
    const struct sheet_feed *feed = &reader->sheet->feed;
    if (at == feed->length) {
        reader->end = at;
        return feed->ended;
    }
    bool carriage = feed->bytes[at] == '\r';
    if (carriage && at + 1 == feed->length && !feed->ended)
        return false;
    reader->end = at + (carriage && at + 1 < feed->length && feed->bytes[at + 1] == '\n' ? 2 : 1);
    return true;
}

/* There is text after the quote that closes a cell. The quote that was meant to close it most
 * likely lacks on the line on which it opened, so the line after that is a row again. */
static enum reading end_stray(struct separated *reader, size_t at)
{
    const struct sheet_source *source = &reader->source;
    reader->strayed = at;
    reader->end = sheet_line_end(source, reader->opened);
    bool whole = reader->end < source->length || source->bytes[reader->end - 1] == '\n';
    return whole || reader->sheet->feed.ended ? READ_STRAY : READ_CUT;
}

static enum reading read_row(struct separated *reader, size_t at)
{
    const struct sheet_source *source = &reader->source;
    reader->cell_count = 0;
    reader->breaks = false;
    for (;; at++) {
        struct span span;
        at = pass_spaces(reader, at);
        if (at < source->length && source->bytes[at] == '"') {
            enum reading quoted = read_quoted(reader, &at, &span);
            if (quoted != READ_ROW)
                return quoted;
            if (at < source->length && !reader->ends[(unsigned char)source->bytes[at]])
                return end_stray(reader, at);
        } else {
            read_unquoted(reader, &at, &span);
        }
        if (!keep_span(reader, span))
            return READ_NO_MEMORY;
        if (at < source->length && source->bytes[at] == reader->separator)
            continue;
        return end_line(reader, at) ? READ_ROW : READ_CUT;
    }
}

static size_t count_lines(const struct sheet_source *source, size_t at, size_t end)
{
    size_t lines = 0;
    for (; at < end; at++)
        lines += sheet_ends_line(source, at);
    return lines;
}

static bool is_blank_row(const struct separated *reader)
{
    for (size_t i = 0; i < reader->cell_count; i++)
        if (reader->cells[i].length > 0)
            return false;
    return true;
}

/* Where a cell begins, with its quote. */
static size_t place_of(const struct separated *reader, size_t cell)
{
    size_t start = reader->cells[cell].start;
    bool quoted = start > reader->source.mark && reader->source.bytes[start - 1] == '"';
    return quoted ? start - 1 : start;
}

/* The text of a cell with each doubled quote once, made so in its place. */
static void undouble(char *bytes, struct span *span)
{
    char *to = bytes + span->start, *start = to;
    for (const char *from = to, *end = from + span->length; from < end; from++) {
        *to++ = *from;
        from += *from == '"';
    }
    span->length = (size_t)(to - start);
    span->doubled = false;
}

static struct sheet_text text_of(const struct separated *reader, size_t cell)
{
    const struct span *span = &reader->cells[cell];
    return (struct sheet_text){reader->source.bytes + span->start, span->length};
}

/* ---- headings ---- */

static bool fail_repeated(const struct separated *reader, size_t column, size_t number,
                          struct sheet_text text)
{
    size_t first = 0;
    while (reader->columns[first] != column)
        first++;
    return sheet_fail(&reader->source, place_of(reader, number), "rename or remove one of them",
                      "columns %zu and %zu both have the heading `%s`", first + 1, number + 1,
                      sheet_shown(text.start, text.length).text);
}

static bool take_heading(struct separated *reader, size_t number)
{
    struct sheet_text cell = text_of(reader, number);
    struct sheet_text text = sheet_trimmed(cell.start, cell.length);
    size_t place = reader->source.mark;
    if (number == SHEET_COLUMNS_MAX)
        return sheet_fail(&reader->source, place, "leave out the columns that the rules do not use",
                          "the sheet has more than %d columns", SHEET_COLUMNS_MAX);
    reader->columns[number] = NO_HEADING;
    if (text.length == 0)
        return true;
    size_t column = sheet_grid_find(reader->sheet, text.start, text.length);
    if (column != SHEET_NO_COLUMN)
        return fail_repeated(reader, column, number, text);
    column = sheet_column_count(reader->sheet);
    reader->columns[number] = (uint16_t)column;
    return sheet_grid_add_column(reader->sheet, &reader->source, place, text.start, text.length);
}

/* A line of only separators above the headings counts as blank. */
static bool take_headings(struct separated *reader)
{
    if (!sheet_check_characters(&reader->source, reader->source.mark, reader->end))
        return false;
    for (size_t i = 0; i < reader->cell_count; i++) {
        if (reader->cells[i].doubled)
            undouble(reader->sheet->feed.bytes, &reader->cells[i]);
        if (!take_heading(reader, i))
            return false;
    }
    if (sheet_column_count(reader->sheet) > 0)
        reader->heading_cells = reader->cell_count;
    reader->heading_line = reader->line;
    return true;
}

/* ---- rows ---- */

/* Whether the first line is a title: a single cell, followed by a row that may be the headings. */
static bool follows_title(const struct separated *reader)
{
    if (sheet_row_count(reader->sheet) != 1 || sheet_column_count(reader->sheet) != 1 ||
        reader->cell_count < 2 || (reader->heading_cells > 1 && reader->columns[1] != NO_HEADING))
        return false;
    struct sheet_text text = text_of(reader, 1);
    char first = text.length > 0 ? *text.start : '0';
    return (first >= 'a' && first <= 'z') || (first >= 'A' && first <= 'Z') || (first & 0x80);
}

static bool fail_title(const struct separated *reader)
{
    char help[64];
    struct sheet_text title = sheet_heading(reader->sheet, 0);
    snprintf(help, sizeof help, "remove line %zu", reader->heading_line);
    return sheet_fail(&reader->source, place_of(reader, 0), help,
                      "line %zu contains only the heading `%s`; are the headings in line %zu?",
                      reader->heading_line, sheet_shown(title.start, title.length).text,
                      reader->line);
}

/* Whether the cells can be those of a row; fills in the error of the source otherwise. */
static bool row_is_fine(const struct separated *reader)
{
    const struct sheet_source *source = &reader->source;
    if (!sheet_check_characters(source, source->mark, reader->end))
        return false;
    for (size_t i = 0; i < reader->cell_count && i < reader->heading_cells; i++) {
        struct sheet_text text = text_of(reader, i);
        if (reader->columns[i] == NO_HEADING && text.length > 0)
            return sheet_fail(source, place_of(reader, i),
                              "give the column a heading, or empty its cells",
                              "column %zu has no heading, but this cell contains `%s`", i + 1,
                              sheet_shown(text.start, text.length).text);
    }
    if (reader->cell_count > reader->heading_cells)
        return sheet_fail(
            source, place_of(reader, reader->heading_cells),
            "put a cell with a separator inside it in quotes, or remove the extra cells",
            "this row has %zu cells, but the sheet has %zu headings", reader->cell_count,
            reader->heading_cells);
    return true;
}

static bool take_cells(struct separated *reader)
{
    struct sheet *sheet = reader->sheet;
    for (size_t i = 0; i < reader->cell_count; i++) {
        struct span *span = &reader->cells[i];
        if (span->doubled)
            undouble(sheet->feed.bytes, span);
        if (span->length > 0 &&
            !sheet_grid_add_cell(sheet, reader->columns[i], span->start, span->length))
            return false;
    }
    sheet_grid_end_row(sheet);
    return true;
}

static bool spoil_row(struct separated *reader)
{
    return sheet_grid_spoil_row(reader->sheet, reader->source.error) ||
           sheet_fail_memory(&reader->source);
}

static bool take_row(struct separated *reader)
{
    if (is_blank_row(reader))
        return true;
    if (reader->heading_cells == 0)
        return take_headings(reader);
    if (!sheet_grid_begin_row(reader->sheet, reader->line))
        return sheet_fail_memory(&reader->source);
    if (follows_title(reader))
        return fail_title(reader);
    if (!row_is_fine(reader))
        return spoil_row(reader);
    return take_cells(reader) || sheet_fail_memory(&reader->source);
}

static bool take_stray(struct separated *reader)
{
    const struct sheet_source *source = &reader->source;
    sheet_fail(source, reader->strayed,
               "write a quote inside a quoted cell twice, or close the cell where it ends",
               "there is text after the quote that closes this cell, which opened on line %zu",
               sheet_line_of(source, reader->opened));
    if (reader->heading_cells == 0)
        return false;
    if (!sheet_grid_begin_row(reader->sheet, reader->line))
        return sheet_fail_memory(source);
    return spoil_row(reader);
}

/* ---- the sheet ---- */

/* The separator of a CSV's heading line: the first line that holds more than separators. A
 * spreadsheet in a country with a decimal comma separates by `;`. False if that line has not come
 * whole yet. */
static bool find_separator(struct separated *reader)
{
    const struct sheet_source *source = &reader->source;
    size_t commas = 0, semicolons = 0;
    bool quoted = false, found = false, begins = true, whole = reader->sheet->feed.ended;
    for (size_t at = source->mark; at < source->length; at++) {
        char byte = source->bytes[at];
        bool ended = !quoted && (byte == '\n' || byte == '\r');
        whole = whole || (ended && found);
        if (ended && found)
            break;
        if (ended)
            commas = semicolons = 0;
        else if (byte == '"' && (quoted || begins))
            quoted = !quoted;
        else if (!quoted && byte == ',')
            commas++;
        else if (!quoted && byte == ';')
            semicolons++;
        else if (byte != ' ' && byte != '\t')
            found = true;
        begins = ended || byte == ',' || byte == ';' || (begins && (byte == ' ' || byte == '\t')) ||
                 (byte == '"' && !quoted);
    }
    if (whole)
        reader->separator = semicolons > commas ? ';' : ',';
    return whole;
}

static bool settle_separator(struct separated *reader)
{
    if (reader->separator)
        return true;
    if (reader->form == SHEET_TSV)
        reader->separator = '\t';
    else if (!find_separator(reader))
        return false;
    reader->ends['\n'] = reader->ends['\r'] = reader->ends[(unsigned char)reader->separator] = true;
    return true;
}

static bool fail_unclosed(const struct separated *reader)
{
    return sheet_fail(&reader->source, reader->opened,
                      "close the cell with another quote, or remove this one",
                      "the quote that opens this cell is never closed");
}

/* Takes what was read of the row at `feed.at`, and moves behind it. */
static bool take_reading(struct separated *reader, enum reading reading)
{
    struct sheet_feed *feed = &reader->sheet->feed;
    /* Counted first: taking a cell moves its bytes. */
    bool many = reading == READ_STRAY || reader->breaks;
    size_t lines = many ? count_lines(&reader->source, feed->at, reader->end) : 1;
    bool taken = false;
    switch (reading) {
    case READ_ROW: taken = take_row(reader); break;
    case READ_STRAY: taken = take_stray(reader); break;
    case READ_UNCLOSED: return fail_unclosed(reader);
    default: return sheet_fail_memory(&reader->source);
    }
    reader->line += lines;
    feed->at = reader->end;
    return taken;
}

/* A row that is cut off because its line ends in the middle of the bytes so far. Inside quotes it
 * may be all the rest of the sheet, which is not kept to find that out. */
static bool cut_is_fine(const struct separated *reader)
{
    const struct sheet_feed *feed = &reader->sheet->feed;
    if (feed->block == SHEET_WHOLE || feed->length - feed->at < SHEET_ROW_MOST)
        return true;
    return sheet_fail(&reader->source, feed->at, "look for a quote that is not closed",
                      "this row is longer than %zu MB", SHEET_ROW_MOST >> 20);
}

static bool take_rows(struct sheet_reader *own, struct sheet_error *error)
{
    struct separated *reader = (struct separated *)own;
    struct sheet_feed *feed = &reader->sheet->feed;
    reader->source =
        (struct sheet_source){feed->bytes, feed->length, feed->at, reader->line, error};
    while (feed->at < feed->length) {
        reader->source.mark = feed->at;
        reader->source.mark_line = reader->line;
        if (!settle_separator(reader))
            return cut_is_fine(reader);
        enum reading reading = read_row(reader, feed->at);
        if (reading == READ_CUT)
            return cut_is_fine(reader);
        if (!take_reading(reader, reading))
            return false;
    }
    return !feed->ended || reader->heading_cells > 0 || sheet_fail_empty(&reader->source);
}

static void close_separated(struct sheet_reader *own)
{
    struct separated *reader = (struct separated *)own;
    free(reader->cells);
    free(reader);
}

struct sheet_reader *sheet_open_separated(struct sheet *sheet, enum sheet_form form)
{
    struct separated *reader = calloc(1, sizeof *reader);
    if (!reader)
        return NULL;
    reader->reader = (struct sheet_reader){take_rows, close_separated};
    reader->sheet = sheet;
    reader->form = form;
    reader->line = 1;
    return &reader->reader;
}
