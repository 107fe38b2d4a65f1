/* Turns text into a tree: the lexer, the layout and the grammar, one after the other. */
#ifndef GROAT_PARSE_H
#define GROAT_PARSE_H

#include "source/diagnostic.h"
#include "tree/tree.h"

/* The bytes a parser needs while it reads. A caller that reads many cells keeps them. */
size_t parse_room(void);

/* What is read, and with what. `room` is parse_room() bytes, aligned for any type. */
struct parse {
    struct arena *arena;
    const struct source *source;
    struct diagnostics *diagnostics;
    size_t depth_most;
    void *room;
};

/* A whole rules file. Errors go to the diagnostics; what could be read is returned. Sets `*lost` when
 * some statement could not. */
struct statement *parse_file(const struct parse *parse, bool *lost);
/* One value, as in a cell or on the command line. NULL, with a diagnostic, when it is none. */
struct expression *parse_value(const struct parse *parse);
/* A parts cell, `screws 8 + linseed_oil 15 ml`. */
struct tree_part *parse_parts(const struct parse *parse);

#endif
