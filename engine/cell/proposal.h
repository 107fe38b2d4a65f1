/* What a maker may have meant by a cell that cannot be read: proposes the cell's own number,
 * written so that it can be read. */
#ifndef GROAT_PROPOSAL_H
#define GROAT_PROPOSAL_H

#include "cell/cell.h"

/* Whether a text can be read as what is wanted. The value itself is thrown away. */
bool cell_reads(struct cell_reader *reader, const struct cell_wanted *wanted, const char *text);

/* A text in the reader's arena that was tried and can be read; or NULL. `near` is what the message
 * already proposes for a word of the text, or empty. */
const char *cell_proposal(struct cell_reader *reader, const struct cell_wanted *wanted,
                          const char *text, size_t length, const char *near);
/* The material of this name, or else the nearest to it; NULL if none is near. */
const struct rate_code *cell_material_like(const struct program *program, const char *name);

#endif
