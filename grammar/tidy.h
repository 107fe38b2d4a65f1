/* The layout of rules: a text that can be read, with its lines set out in one way. Words, comments
 * and line breaks stay as they are; LANGUAGE.md, "Tidy", says what changes. */
#ifndef GROAT_TIDY_H
#define GROAT_TIDY_H

#include "source/source.h"

/* In the arena; a zero byte stands after it. */
struct tidy_text {
    char *text;
    size_t length;
};

/* Sets out a source that was parsed without an error. Takes time and room in proportion to it. */
struct tidy_text tidy_source(struct arena *arena, const struct source *source);

#endif
