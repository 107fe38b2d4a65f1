/* The notes of a result, in the form that a row of a list needs. Private to this room. */
#ifndef GROAT_REPORT_NOTES_H
#define GROAT_REPORT_NOTES_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"

/* Must begin zeroed. The texts are valid as long as the result. */
struct notes {
    const char **texts;
    size_t count, room;
};

void notes_clear(struct notes *notes);
/* Adds one note, or all notes of the result. Returns false when memory runs out. */
bool notes_add(struct notes *notes, const char *text);
bool notes_add_all(struct notes *notes, const groat_scratch *scratch);
/* Replaces the notes by those of the result. Returns false when memory runs out. */
bool notes_gather(struct notes *notes, const groat_scratch *scratch);
void notes_free(struct notes *notes);

#endif
