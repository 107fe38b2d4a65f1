/* Tidies the layout of rules that can be read. Words, comments and line breaks stay as they are;
 * LANGUAGE.md, "Tidy", says what changes. */
#ifndef GROAT_TIDY_H
#define GROAT_TIDY_H

#include "source/source.h"

/* In the arena, followed by a zero byte. */
struct tidy_text {
    char *text;
    size_t length;
};

/* Tidies a source that was parsed without an error, in time and room proportional to its length. */
struct tidy_text tidy_source(struct arena *arena, const struct source *source);

#endif
