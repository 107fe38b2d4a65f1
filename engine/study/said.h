/* Copies of a result's texts, because those in a scratch are lost with its next result. The caller
 * frees what these functions return; they return NULL if memory runs out. */
#ifndef GROAT_STUDY_SAID_H
#define GROAT_STUDY_SAID_H

#include "groat.h"

char *said_copy(const char *text);
/* Whether there is no result because memory ran out. A study then stops: this is no reason that a row
 * could give. */
bool said_no_memory(const groat_scratch *scratch);
/* Why the result has no price, or is refused; empty where it is priced. NULL also if memory ran out
 * before there was a result. */
char *said_reason(const groat_scratch *scratch);
/* All notes of the result, with `between` between them. */
char *said_notes(const groat_scratch *scratch, const char *between);

#endif
