#include "report/notes.h"

#include <stdlib.h>

bool notes_add(struct notes *notes, const char *text)
{
    if (notes->count == notes->room) {
        size_t room = notes->room ? notes->room * 2 : 8;
        const char **texts = realloc(notes->texts, room * sizeof *texts);
        if (!texts)
            return false;
        notes->texts = texts;
        notes->room = room;
    }
    notes->texts[notes->count++] = text;
    return true;
}

bool notes_add_all(struct notes *notes, const groat_scratch *scratch)
{
    for (size_t i = 0; i < groat_result_notes(scratch); i++)
        if (!notes_add(notes, groat_result_note(scratch, i)))
            return false;
    return true;
}

void notes_clear(struct notes *notes)
{
    notes->count = 0;
}

bool notes_gather(struct notes *notes, const groat_scratch *scratch)
{
    notes_clear(notes);
    return notes_add_all(notes, scratch);
}

void notes_free(struct notes *notes)
{
    free(notes->texts);
    *notes = (struct notes){0};
}
