/* Product sheets: CSV, TSV, a JSON array of objects, or one JSON object a line, as rows of cell
 * texts. Nothing here knows of rules: a cell is the text in the sheet.
 *
 * The whole sheet is read before the first row is handed out, so that a broken one is found before
 * anything is priced. A sheet may be read from any number of threads once it is open. */
#ifndef GROAT_SHEET_H
#define GROAT_SHEET_H

#include <stdbool.h>
#include <stddef.h>

enum sheet_form { SHEET_CSV, SHEET_TSV, SHEET_JSON, SHEET_NDJSON };

/* Belongs to the sheet and lives as long as it does. */
struct sheet_text {
    const char *start; /* UTF-8, not terminated by a zero byte; NULL when the cell is absent */
    size_t length;
};

/* What is wrong with a sheet and where. */
struct sheet_error {
    size_t line, column; /* from 1, in characters; 0 when the place is not known */
    char message[256];   /* to a maker, without the sheet's name and place */
    char help[160];      /* what to do, the text after `Try:`; or empty */
};

struct sheet;

/* Finds the form from the ending of a file name (.csv .tsv .json .ndjson, in any case); false for
 * any other ending. */
bool sheet_form_of_name(const char *file_name, enum sheet_form *form);
bool sheet_form_of_word(const char *word, enum sheet_form *form); /* csv tsv json ndjson */

/* Reads a whole sheet from memory; the bytes are not needed afterwards. Returns NULL and fills
 * `*error` when the sheet is broken or memory runs out.
 *
 * CSV: RFC 4180; lines end in CR LF, LF or a lone CR, a byte-order mark is passed over, and `;`
 * instead of `,` is recognised when the heading line (outside quotes) has more `;` than `,`. Blank
 * lines, and lines of nothing but separators, are passed over. A row with fewer cells than headings
 * has the last ones absent; one with more is an error. Spaces around an unquoted cell and every
 * heading are dropped. A column without a heading is left out when its cells are empty, and an
 * error when one is not; two columns may not have the same heading. TSV: the same, with tabs.
 *
 * JSON: the columns are the keys of all rows in the order in which they first appear. Numbers keep
 * the text they are written with, also `1e400`: the reader of the cell decides which numbers are
 * valid. True and false become `yes` and `no`; null and an empty text are an absent cell; an object
 * of texts or numbers becomes parts, `screws 8 + linseed_oil 15 ml`, in its own order, without
 * those that are null or empty. A part's name may hold no space and no `+`. A list, an object
 * inside parts, a repeated key, half a surrogate pair, `NaN` and the like are errors. NDJSON: each
 * line that is not blank is one object.
 *
 * Every form: a sheet without text, a zero byte, bytes that are not UTF-8, more than 16384 columns
 * or 4 GB are errors; headings alone, or `[]`, are a sheet of no rows. */
struct sheet *sheet_read(enum sheet_form form, const char *bytes, size_t length,
                         struct sheet_error *error);
void sheet_free(struct sheet *sheet);

size_t sheet_column_count(const struct sheet *sheet);
struct sheet_text sheet_heading(const struct sheet *sheet, size_t column);
size_t sheet_row_count(const struct sheet *sheet);
/* An empty cell is absent: start is NULL. */
struct sheet_text sheet_cell(const struct sheet *sheet, size_t row, size_t column);
/* The line of the file a row begins on, from 1. */
size_t sheet_row_line(const struct sheet *sheet, size_t row);

#endif
