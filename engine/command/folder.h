/* Writing several new files into a folder: all of them, or none. */
#ifndef GROAT_COMMAND_FOLDER_H
#define GROAT_COMMAND_FOLDER_H

#include <stdbool.h>
#include <stddef.h>

struct new_file {
    const char *name; /* in the folder */
    const char *bytes;
    size_t length;
    char *path;     /* of folder_write, until folder_free */
    bool was_there; /* with these very bytes, so it was left alone */
    bool made;
};

enum folder_outcome {
    FOLDER_WRITTEN,
    FOLDER_TAKEN, /* another file has one of the names */
    FOLDER_FAILED
};

/* Makes the folder and those above it if there are none, and writes the files. Never replaces a
 * file. Unless all is written, it takes away what it made, and says on standard error what is
 * wrong. */
enum folder_outcome folder_write(const char *folder, struct new_file *files, size_t count);
void folder_free(struct new_file *files, size_t count);

/* Whether there is a file or a folder of this name. */
bool folder_exists(const char *folder);

/* The path of a file in a folder, or NULL without memory; to be freed. */
char *folder_path(const char *folder, const char *name);

#endif
