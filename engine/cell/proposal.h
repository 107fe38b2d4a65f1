/* What a maker may have meant by a cell that cannot be read: proposes the cell's own number,
 * written so that it can be read. */
#ifndef GROAT_PROPOSAL_H
#define GROAT_PROPOSAL_H

#include "cell/cell.h"

/* Whether a text can be read as what is wanted; whatever it leaves behind is forgotten. */
typedef bool cell_reads(struct cell_reader *reader, const struct cell_wanted *wanted,
                        const char *text, size_t length);

/* A text in the reader's arena, which is known to be read; or NULL. `near` is what the message
 * proposes already for a word of the text, or empty. */
const char *cell_proposal(struct cell_reader *reader, const struct cell_wanted *wanted,
                          const char *text, size_t length, const char *near, cell_reads *reads);

#endif
