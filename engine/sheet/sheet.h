/* Product sheets: CSV, TSV, a JSON array of objects, or one JSON object a line, as rows of cell
 * texts. Nothing here knows of rules: a cell is the text in the sheet.
 *
 * A sheet is read in blocks of rows, so that it may be longer than memory, or whole. A row that
 * cannot be read does not stop those after it: it is a row without cells that knows why. A block in
 * hand may be read from any number of threads. */
#ifndef GROAT_SHEET_H
#define GROAT_SHEET_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

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

/* Gives the next bytes of a sheet, at least one and at most `room` of them, which is never 0.
 * Returns how many; 0 at the end; SHEET_GIVES_NONE when they cannot be had. Sets `*last` if it
 * knows that none come after these. */
typedef size_t sheet_giver(void *context, char *bytes, size_t room, bool *last);
#define SHEET_GIVES_NONE ((size_t)-1)

/* The size of a block in bytes that suits most sheets, and that of all of a sheet. */
#define SHEET_BLOCK ((size_t)1 << 17)
#define SHEET_WHOLE SIZE_MAX

/* Opens a sheet, with its first rows in hand. A block is about as many bytes as asked, and may be
 * fewer: it ends where `give` has no more for now. A JSON array is always one block. Returns NULL
 * and fills `*error` when the sheet is broken or memory runs out; its message is empty when `give`
 * gave SHEET_GIVES_NONE.
 *
 * CSV: RFC 4180; lines end in CR LF, LF or a lone CR, a byte-order mark is passed over, and `;`
 * instead of `,` is recognised when the heading line (outside quotes) has more `;` than `,`. Blank
 * lines, and lines of nothing but separators, are passed over. A row with fewer cells than headings
 * has the last ones absent; one with more cannot be read. A quote inside a cell that does not begin
 * with one stands for itself. A row with text after the quote that closes a cell cannot be read,
 * and reading goes on with the line after the one on which that cell opened. Spaces around an
 * unquoted cell and every heading are dropped. A column without a heading is left out when its
 * cells are empty; a row where one is not cannot be read. Two columns may not have the same
 * heading. TSV: the same, with tabs.
 *
 * JSON: the columns are the keys of all rows in the order in which they first appear; a later block
 * may add some. Numbers keep the text they are written with, also `1e400`: the reader of the cell
 * decides which numbers are valid; but one with an exponent that a double can have is written out,
 * `5e-05` as `0.00005`. True and false become `yes` and `no`; null and an empty text are an absent
 * cell; an object of texts or numbers becomes parts, `screws 8 + linseed_oil 15 ml`, in its own
 * order, without those that are null or empty. A part's name may hold no space and no `+`. A cell
 * with a list, with an object inside parts or with wrong parts cannot be read, nor can a row with a
 * repeated or an empty key. Text that is not JSON breaks an array, and a line of NDJSON. NDJSON:
 * each line that is not blank is one object.
 *
 * Every form: a sheet without text, text in UTF-16, more than 16384 columns, or a block of 4 GB
 * break the sheet; so does a quote that is never closed, and in blocks a row of more than 16 MB. A
 * zero byte, and bytes that are not UTF-8, break a JSON array and a line of headings; elsewhere the
 * row cannot be read. Headings alone, or
 * `[]`, are a sheet of no rows. */
struct sheet *sheet_open(enum sheet_form form, size_t block, sheet_giver *give, void *context,
                         struct sheet_error *error);
enum sheet_step { SHEET_ROWS, SHEET_END, SHEET_BROKEN };
/* Takes the next rows in hand; the texts of those before them are gone. `*error` is filled in when
 * the sheet is broken, as by sheet_open. */
enum sheet_step sheet_next(struct sheet *sheet, struct sheet_error *error);
/* Whether it is known that no row comes after those in hand. */
bool sheet_is_over(const struct sheet *sheet);

/* Opens a sheet that is in memory, all of it in one block. The bytes are not needed afterwards. */
struct sheet *sheet_read(enum sheet_form form, const char *bytes, size_t length,
                         struct sheet_error *error);
void sheet_free(struct sheet *sheet);

size_t sheet_column_count(const struct sheet *sheet);
struct sheet_text sheet_heading(const struct sheet *sheet, size_t column);
/* Rows are numbered through all blocks, from 0: those in hand are from the first up to the
 * count. */
size_t sheet_first_row(const struct sheet *sheet);
size_t sheet_row_count(const struct sheet *sheet);
/* An empty cell is absent: start is NULL. So are all cells of a row that is not in hand. */
struct sheet_text sheet_cell(const struct sheet *sheet, size_t row, size_t column);
/* The line of the file a row begins on, from 1. */
size_t sheet_row_line(const struct sheet *sheet, size_t row);
/* Why a row, or a cell, cannot be read; false if it can. */
bool sheet_row_trouble(const struct sheet *sheet, size_t row, struct sheet_error *why);
bool sheet_cell_trouble(const struct sheet *sheet, size_t row, size_t column,
                        struct sheet_error *why);

#endif
