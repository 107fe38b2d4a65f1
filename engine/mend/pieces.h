/* A line of rules in pieces: words, numbers, quoted texts and signs, as they stand. */
#ifndef GROAT_PIECES_H
#define GROAT_PIECES_H

#include <stdbool.h>
#include <stddef.h>

enum piece_kind { PIECE_WORD, PIECE_NUMBER, PIECE_SHARE, PIECE_TEXT, PIECE_SIGN };

/* Offsets in the whole text. */
struct piece {
    size_t start, end;
    enum piece_kind kind;
};

/* No line that a maker writes has more; the rest of a longer one is not looked at. */
enum { PIECES_MOST = 48 };

/* The part of a line that holds one statement, without its comment. */
struct pieces {
    const char *text;
    size_t start, end;
    struct piece items[PIECES_MOST];
    size_t count;
    bool opens; /* a `{` follows */
};

/* The statement at a place, of the line that begins at `line`. */
struct pieces pieces_at(const char *text, size_t length, size_t line, size_t place);
/* Copies a piece, as much of it as fits. */
void piece_text(const struct pieces *pieces, size_t index, char *buffer, size_t size);
/* Whether a byte may be part of a name. */
bool piece_letter(char letter);
bool piece_is(const struct pieces *pieces, size_t index, const char *word);

#endif
