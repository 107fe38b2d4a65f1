#include "mend/pieces.h"

#include <stdio.h>
#include <string.h>

#include "text/utf8.h"

/* Signs of two characters, and those that people write for them. */
static size_t sign_length(const char *at, size_t length)
{
    static const char *const pairs[] = {">=", "<=", "!=", "==", ":=", "=>", "=<", "&&", "||"};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        if (length >= 2 && memcmp(at, pairs[i], 2) == 0)
            return 2;
    size_t character = text_character(at, length);
    return character ? character : 1;
}

static struct piece piece_from(const char *text, size_t at, size_t end)
{
    struct piece piece = {at, at, PIECE_SIGN};
    if (text_is_letter(text[at])) {
        piece.kind = PIECE_WORD;
        while (piece.end < end &&
               (text_is_letter(text[piece.end]) || text_is_digit(text[piece.end])))
            piece.end++;
    } else if (text_is_digit(text[at]) ||
               (text[at] == '.' && at + 1 < end && text_is_digit(text[at + 1]))) {
        piece.kind = PIECE_NUMBER;
        while (piece.end < end && (text_is_digit(text[piece.end]) ||
                                   (strchr(".,_", text[piece.end]) && piece.end + 1 < end &&
                                    text_is_digit(text[piece.end + 1]))))
            piece.end++;
        if (piece.end < end && text[piece.end] == '%') {
            piece.kind = PIECE_SHARE;
            piece.end++;
        }
    } else if (text[at] == '"') {
        piece.kind = PIECE_TEXT;
        for (piece.end++; piece.end < end && !strchr("\"\n", text[piece.end]); piece.end++)
            piece.end += text[piece.end] == '\\' && piece.end + 1 < end;
        bool closed = piece.end < end && text[piece.end] == '"';
        piece.kind = closed ? PIECE_TEXT : PIECE_SIGN;
        piece.end = closed ? piece.end + 1 : at + 1;
    } else {
        piece.end += sign_length(text + at, end - at);
    }
    return piece;
}

static bool parts_statements(const struct pieces *pieces, const struct piece *piece)
{
    return piece->end == piece->start + 1 && strchr("{};", pieces->text[piece->start]);
}

struct pieces pieces_at(const char *text, size_t length, size_t line, size_t place)
{
    struct pieces pieces = {.text = text, .start = line, .end = line};
    size_t at = line;
    while (at < length && text[at] != '\n' && text[at] != '\r' && text[at] != '#') {
        if (text[at] == ' ' || text[at] == '\t') {
            at++;
            continue;
        }
        struct piece piece = piece_from(text, at, length);
        at = piece.end;
        if (parts_statements(&pieces, &piece)) {
            if (pieces.count > 0 && piece.start >= place)
                break;
            if (piece.end > place)
                continue; /* the place is the sign that begins the statement */
            pieces.count = 0;
        } else if (pieces.count < PIECES_MOST) {
            pieces.items[pieces.count++] = piece;
        }
    }
    if (pieces.count > 0) {
        pieces.start = pieces.items[0].start;
        pieces.end = pieces.items[pieces.count - 1].end;
        pieces.opens = at > pieces.end && text[at - 1] == '{';
    }
    return pieces;
}

bool piece_is(const struct pieces *pieces, size_t index, const char *word)
{
    if (index >= pieces->count)
        return false;
    const struct piece *piece = &pieces->items[index];
    size_t length = strlen(word);
    return piece->end - piece->start == length &&
           memcmp(pieces->text + piece->start, word, length) == 0;
}

void piece_text(const struct pieces *pieces, size_t index, char *buffer, size_t size)
{
    const struct piece *piece = &pieces->items[index];
    snprintf(buffer, size, "%.*s", (int)(piece->end - piece->start), pieces->text + piece->start);
}

bool piece_letter(char letter)
{
    return text_is_letter(letter) || text_is_digit(letter);
}
