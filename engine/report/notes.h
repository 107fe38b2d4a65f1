/* The notes of a result, as a row of a list takes them. Private to this room. */
#ifndef GROAT_REPORT_NOTES_H
#define GROAT_REPORT_NOTES_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"

/* Begins zeroed. The texts live as long as the result. */
struct notes {
    const char **texts;
    size_t count, room;
};

void notes_clear(struct notes *notes);
/* Puts one more behind those there are, or all of the result's. Returns false when memory runs out. */
bool notes_add(struct notes *notes, const char *text);
bool notes_add_all(struct notes *notes, const groat_scratch *scratch);
/* Puts the result's notes in place of those there were. Returns false when memory runs out. */
bool notes_gather(struct notes *notes, const groat_scratch *scratch);
void notes_free(struct notes *notes);

#endif
