/* The lines of a text while it is being tidied. Each stage fills in what the next one reads. */
#ifndef GROAT_TIDY_LINES_H
#define GROAT_TIDY_LINES_H

#include "tidy.h"

struct tidy_token {
    int kind;
    uint32_t start, end; /* in the source */
    uint32_t width;      /* in characters, as it is written */
    uint32_t gap;        /* spaces before it, unless it is the first on its line */
    bool begins;         /* it is the first token of a statement */
};

enum { TIDY_STOPS = 3 };

/* A line that is not blank. */
struct tidy_line {
    uint32_t first, count;         /* its tokens */
    uint32_t comment, comment_end; /* in the source; equal if there is no comment */
    uint32_t comment_column;       /* its column in the source; TIDY_NO_COLUMN if tabs make that
                                    * unclear */
    int16_t block;                 /* the keyword of the block that it is in; 0 outside blocks */
    uint8_t blanks;                /* blank lines before it */
    /* columns */
    uint8_t family; /* which lines are aligned with each other; 0: none */
    uint8_t stops_count;
    uint32_t stops[TIDY_STOPS]; /* the tokens that begin a column */
    /* columns in the result, from 0 */
    uint32_t indent;
    uint32_t above;      /* the indent of a comment above it */
    uint32_t width;      /* without its comment */
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

/* Padding, indents and comments stay below these columns, so that each line can grow only by so
 * much. */
enum { TIDY_INDENT_MOST = 60, TIDY_CELL_MOST = 90, TIDY_CODE_MOST = 100 };

/* Reads the lines and tokens, with one space or none between two tokens. */
void tidy_read(struct tidy *tidy);
/* Widens gaps so that neighbouring lines of the same kind are aligned in columns. */
void tidy_columns(struct tidy *tidy);
/* Finds the indent and the width of each line. */
void tidy_indent(struct tidy *tidy);
/* Places the comments at the ends of lines. */
void tidy_comments(struct tidy *tidy);
struct tidy_text tidy_write(const struct tidy *tidy);

#endif
