/* Says the errors of yajl in words for a maker. Private to this room. */
#ifndef GROAT_SHEET_COMPLAINT_H
#define GROAT_SHEET_COMPLAINT_H

#include "sheet/source.h"

/* Reports broken JSON and returns false. `words` are yajl's own; All places are offsets: `good_end`
 * is the end of the last good token, `token` the beginning of the next one, `read` the end of what
 * yajl had read. */
bool complaint_fail(const struct sheet_source *source, const char *words, size_t good_end,
                    size_t token, size_t read);

#endif
