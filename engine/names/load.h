/* Reads a rules file and the files it uses. */
#ifndef GROAT_LOAD_H
#define GROAT_LOAD_H

#include "source/diagnostic.h"
#include "tree/tree.h"

/* How the host provides files: returns true if the text was found. `name` is the name written after
 * `use`, `from` the full name of the file that contains the `use`. The full name identifies a file;
 * it and the text belong to the host and must stay valid until the rules are read. */
struct loader {
    bool (*load)(void *context, const char *name, const char *from, const char **full_name,
                 const char **text, size_t *length);
    void *context;
};

struct load {
    struct arena *arena;
    struct diagnostics *diagnostics;
    const struct loader *loader; /* NULL: the host provides no files */
    size_t source_most;          /* most bytes of one file */
    size_t depth_most;
    /* filled while reading */
    struct source **sources;
    size_t count, room;
    bool lost; /* some statement, or a whole file, could not be read */
};

/* The statements of every file: those of a used file before those of the file that uses it. */
struct statement *load_all(struct load *load, const char *name, const char *text, size_t length);
/* Reads only this text, for its own errors; the files it uses are not read. NULL, with a
 * diagnostic, when the text is too large. */
struct source *load_alone(struct load *load, const char *name, const char *text, size_t length);
/* Whether `user` uses `used`, directly or through others. */
bool load_uses(const struct source *user, const struct source *used);

#endif
