/* The lines of a text while it is being tidied. Each stage fills in what the next one reads. */
#ifndef GROAT_TIDY_LINES_H
#define GROAT_TIDY_LINES_H

#include "tidy.h"

struct tidy_token {
    int kind;
    uint32_t start, end; /* in the source */
    uint32_t width;      /* characters, as it is written out */
    uint32_t gap;        /* spaces before it, unless it begins a line */
    bool begins;         /* it is the first of a statement */
};

enum { TIDY_STOPS = 3 };

/* A line with something on it. */
struct tidy_line {
    uint32_t first, count;         /* its tokens */
    uint32_t comment, comment_end; /* in the source; the same: none */
    uint32_t comment_column;       /* where it stood; TIDY_NO_COLUMN where tabs leave that open */
    int16_t block;                 /* the word of the block it stands in, 0 outside */
    uint8_t blanks;                /* blank lines before it */
    /* columns */
    uint8_t family; /* lines that are set out together; 0: by itself */
    uint8_t stops_count;
    uint32_t stops[TIDY_STOPS]; /* the tokens that begin a column */
    /* places on the page, from 0 */
    uint32_t indent;
    uint32_t above;      /* the indent of a comment above it */
    uint32_t width;      /* up to its comment */
    uint32_t comment_at; /* where the comment at its end goes */
};

#define TIDY_NO_COLUMN UINT32_MAX

struct tidy {
    struct arena *arena;
    const struct source *source;
    struct tidy_token *tokens;
    uint32_t tokens_count;
    struct tidy_line *lines;
    size_t lines_count;
};

/* What pads a column, indents a line or moves a comment stays below these, so that a text cannot
 * grow by more than so much a line. */
enum { TIDY_INDENT_MOST = 60, TIDY_CELL_MOST = 90, TIDY_CODE_MOST = 100 };

/* Lines and tokens, with the one space or none between two tokens. */
void tidy_read(struct tidy *tidy);
/* Widens gaps so that neighbouring lines of a kind stand in columns. */
void tidy_columns(struct tidy *tidy);
/* Where each line begins and ends. */
void tidy_indent(struct tidy *tidy);
/* Where the comments at the ends of lines go. */
void tidy_comments(struct tidy *tidy);
struct tidy_text tidy_write(const struct tidy *tidy);

#endif
