/* Product sheets: CSV, TSV, a JSON array of objects, or one JSON object a line, as rows of cell
 * texts. Knows nothing of rules: a cell is the text as it stands in the sheet.
 *
 * The whole sheet is read before the first row is handed out, so that a broken one is found before
 * anything is priced. A sheet may be read from any number of threads once it is open.
 */
#ifndef GROAT_SHEET_H
#define GROAT_SHEET_H

#include <stdbool.h>
#include <stddef.h>

enum sheet_form { SHEET_CSV, SHEET_TSV, SHEET_JSON, SHEET_NDJSON };

struct sheet_text {
    const char *start; /* UTF-8, not closed by a zero byte; NULL when the cell is absent */
    size_t length;
};

/* What is wrong with a sheet and where. */
struct sheet_error {
    size_t line, column; /* from 1, in characters; 0 when the place is not known */
    char message[256];   /* to a maker, without the sheet's name and place */
    char help[160];      /* what to do, or empty */
};

struct sheet;

/* The form a file's name tells by its ending (.csv .tsv .json .ndjson, any case). */
bool sheet_form_of_name(const char *file_name, enum sheet_form *form);
bool sheet_form_of_word(const char *word, enum sheet_form *form); /* csv tsv json ndjson */

/* Reads a whole sheet from memory; the bytes may go away afterwards. Returns NULL and fills
 * `*error` when the sheet is broken or memory runs out.
 *
 * CSV: RFC 4180, CR LF or LF, a byte-order mark passed over, and `;` instead of `,` recognised when
 * the heading line (outside quotes) has more `;` than `,`. Blank lines are passed over. A row with
 * fewer cells than headings has the last ones absent; one with more is an error. Spaces around an
 * unquoted cell and every heading are dropped.
 * JSON: numbers keep the text they are written with; true and false become `yes` and `no`; null is
 * an absent cell; an object of texts or numbers becomes parts, `screws 8 + linseed_oil 15 ml`, in
 * its own order. A list, a repeated key, bytes that are not UTF-8, `NaN` and the like are errors.
 */
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
