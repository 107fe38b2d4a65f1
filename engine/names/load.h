/* Reads a rules file and the files it uses. */
#ifndef GROAT_LOAD_H
#define GROAT_LOAD_H

#include "source/diagnostic.h"
#include "tree/tree.h"

/* How the host hands out files: true when the text was found. `name` is as `use` says it, `from`
 * the full name of the file that says so. The full name, by which a file is known again, and the
 * text stay the host's and must live until the rules are read. */
struct loader {
    bool (*load)(void *context, const char *name, const char *from, const char **full_name,
                 const char **text, size_t *length);
    void *context;
};

struct load {
    struct arena *arena;
    struct diagnostics *diagnostics;
    const struct loader *loader; /* NULL: the host hands out no files */
    size_t source_most;          /* bytes of one file */
    size_t depth_most;
    /* filled while reading */
    struct source **sources;
    size_t count, room;
    bool lost; /* some statement, or a whole file, could not be read */
};

/* The statements of every file: those of a used file before those of the file that uses it. */
struct statement *load_all(struct load *load, const char *name, const char *text, size_t length);
/* Reads one text for its own errors alone; what it uses is not looked at. NULL, with a diagnostic,
 * when the text is too large. */
struct source *load_alone(struct load *load, const char *name, const char *text, size_t length);
/* Whether `user` uses `used`, directly or through others. */
bool load_uses(const struct source *user, const struct source *used);

#endif
