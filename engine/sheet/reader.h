/* The readers of the two families of sheets. Private to this room. Each fills an empty sheet from
 * text that sheet_source_check has passed, or reports what is wrong and returns false; the sheet
 * is then only good for sheet_free.
 */
#ifndef GROAT_SHEET_READER_H
#define GROAT_SHEET_READER_H

#include "sheet/grid.h"

/* CSV or TSV. */
bool sheet_read_separated(const struct sheet_source *source, enum sheet_form form,
                          struct sheet *sheet);
/* An array of objects or, `by_line`, one object a line. */
bool sheet_read_json(const struct sheet_source *source, bool by_line, struct sheet *sheet);

#endif
