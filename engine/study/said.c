#include "study/said.h"

#include <stdlib.h>
#include <string.h>

char *said_copy(const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = malloc(size);
    if (copy)
        memcpy(copy, text, size);
    return copy;
}

bool said_no_memory(const groat_scratch *scratch)
{
    return groat_result_reason_kind(scratch) == GROAT_REASON_NO_MEMORY;
}

char *said_reason(const groat_scratch *scratch)
{
    return said_no_memory(scratch) ? NULL : said_copy(groat_result_reason(scratch));
}

static char *put(char *end, const char *text)
{
    size_t length = strlen(text);
    memcpy(end, text, length);
    return end + length;
}

char *said_notes(const groat_scratch *scratch, const char *between)
{
    size_t count = groat_result_notes(scratch), size = 1;
    for (size_t i = 0; i < count; i++)
        size += strlen(groat_result_note(scratch, i)) + strlen(between);
    char *notes = malloc(size), *end = notes;
    if (!notes)
        return NULL;
    for (size_t i = 0; i < count; i++) {
        end = i > 0 ? put(end, between) : end;
        end = put(end, groat_result_note(scratch, i));
    }
    *end = '\0';
    return notes;
}
