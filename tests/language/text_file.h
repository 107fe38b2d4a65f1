/* A whole file as one text, for the tests of this folder. */
#ifndef GROAT_TEXT_FILE_H
#define GROAT_TEXT_FILE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

/* `text` is the owner's to free; a zero byte stands after it. */
struct text_file {
    char *text;
    size_t length;
};

/* False when there is no such file or it cannot be read. */
static inline bool text_file_read(const char *path, struct text_file *file)
{
    *file = (struct text_file){0};
    FILE *from = fopen(path, "rb");
    if (!from)
        return false;
    size_t room = 0, got;
    do {
        room += 4096;
        char *longer = realloc(file->text, room + 1);
        if (!longer)
            abort();
        file->text = longer;
        got = fread(file->text + file->length, 1, room - file->length, from);
        file->length += got;
    } while (got > 0);
    file->text[file->length] = '\0';
    bool whole = !ferror(from);
    fclose(from);
    if (!whole) {
        free(file->text);
        *file = (struct text_file){0};
    }
    return whole;
}

static inline void text_file_write(const char *path, const struct text_file *file)
{
    FILE *to = fopen(path, "wb");
    if (!to || fwrite(file->text, 1, file->length, to) != file->length || fclose(to) != 0) {
        fprintf(stderr, "%s cannot be written\n", path);
        abort();
    }
}

#endif
