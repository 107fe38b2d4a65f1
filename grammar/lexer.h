/* The lexer: turns text into tokens. It knows no grammar beyond what a single line shows. */
#ifndef GROAT_LEXER_H
#define GROAT_LEXER_H

#include "source/diagnostic.h"

/* A token of the grammar, by the numbers in grammar.h. */
struct token {
    int kind;
    uint32_t start, end;
};

/* The end of the text, and a sign that only the layout meets. */
enum { TOKEN_END = 0, TOKEN_SEMICOLON = 1000 };

struct token_list {
    struct token *items;
    size_t count, room;
};

/* Reads a whole source. Line ends come out as TOKEN_NL, every one of them; the layout decides which
 * of them end a statement. What is not of the language is reported and left out. In a list of
 * parts, `twine 3/4 m`, a fraction may follow a name. */
struct token_list lexer_read(struct arena *arena, const struct source *source,
                             struct diagnostics *diagnostics, bool parts);

/* Drops the line ends that do not end a statement, adds those that a `}`, a `;` and the end of the
 * text stand for, and closes what a new statement shows to be unclosed. */
struct token_list layout_read(struct arena *arena, const struct source *source,
                              struct token_list tokens, struct diagnostics *diagnostics);

#endif
