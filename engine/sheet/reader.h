/* The readers of the two families of sheets. Private to this room. */
#ifndef GROAT_SHEET_READER_H
#define GROAT_SHEET_READER_H

#include "sheet/grid.h"

struct sheet_reader {
    /* Takes every row that is whole out of the feed, and moves the feed's `at` behind it. At the
     * end of the sheet everything must be. Returns false, with the error filled in, if the sheet is
     * broken; it is then only good for sheet_free. */
    bool (*take)(struct sheet_reader *reader, struct sheet_error *error);
    void (*close)(struct sheet_reader *reader);
};

/* Make the reader of an empty sheet. NULL when memory runs out. */
/* CSV or TSV. */
struct sheet_reader *sheet_open_separated(struct sheet *sheet, enum sheet_form form);
/* An array of objects or, `by_line`, one object a line. */
struct sheet_reader *sheet_open_json(struct sheet *sheet, bool by_line);

#endif
