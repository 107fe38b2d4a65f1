/* Turns text into a tree: the lexer, the layout and the grammar, one after the other. */
#ifndef GROAT_PARSE_H
#define GROAT_PARSE_H

#include "source/diagnostic.h"
#include "tree/tree.h"

/* The number of bytes a parser needs while it reads. A caller that reads many cells can use the
 * same room for all. */
size_t parse_room(void);

/* What to read. `room` has parse_room() bytes, aligned for any type. */
struct parse {
    struct arena *arena;
    const struct source *source;
    struct diagnostics *diagnostics;
    size_t depth_most;
    void *room;
};

/* Reads a whole rules file. Reports errors in the diagnostics and returns the statements that could
 * be read. Sets `*lost` if some could not. */
struct statement *parse_file(const struct parse *parse, bool *lost);
/* Reads one value, as in a cell or on the command line. Returns NULL, with a diagnostic, if it is
 * not a value. */
struct expression *parse_value(const struct parse *parse);
/* Reads a parts cell, `screws 8 + linseed_oil 15 ml`. */
struct tree_part *parse_parts(const struct parse *parse);

#endif
