/* The lexer: turns text into tokens. It decides from a single line alone, without the grammar. */
#ifndef GROAT_LEXER_H
#define GROAT_LEXER_H

#include "source/diagnostic.h"

/* A token. Its kind is one of the numbers in grammar.h; `start` and `end` are bytes of the text. */
struct token {
    int kind;
    uint32_t start, end;
};

struct token_list {
    struct token *items;
    size_t count, room;
};

/* Reads a whole source. Every line end becomes a TOKEN_NL; the layout decides which of them end a
 * statement. Characters that are not part of the language are reported and left out. With `parts`,
 * a list of parts such as `twine 3/4 m` is read, in which a fraction may follow a name. */
struct token_list lexer_read(struct arena *arena, const struct source *source,
                             struct diagnostics *diagnostics, bool parts);

/* Drops the line ends that do not end a statement, adds one where a `}`, a `;` or the end of the
 * text ends a statement, and adds a missing `)` or `}` where a new statement shows that it is
 * missing. */
struct token_list layout_read(struct arena *arena, const struct source *source,
                              struct token_list tokens, struct diagnostics *diagnostics);

#endif
