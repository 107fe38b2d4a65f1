/* What yajl's complaints mean to a maker. Private to this room. */
#ifndef GROAT_SHEET_COMPLAINT_H
#define GROAT_SHEET_COMPLAINT_H

#include "sheet/source.h"

/* Reports broken JSON and returns false. `words` are yajl's own; `token` is where the token begins
 * that follows the last good one, which ended at `good_end`; `read` is how far yajl had read. */
bool complaint_fail(const struct sheet_source *source, const char *words, size_t good_end,
                    size_t token, size_t read);

#endif
