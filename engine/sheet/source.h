/* The bytes of a sheet while it is read, and how its readers report errors. Private to this
 * room. */
#ifndef GROAT_SHEET_SOURCE_H
#define GROAT_SHEET_SOURCE_H

#include "sheet/sheet.h"

/* Text that is being read. */
struct sheet_source {
    const char *bytes;
    size_t length;
    size_t mark, mark_line; /* the beginning of a line from which places are counted; its number */
    struct sheet_error *error;
};

/* The bytes of a sheet as they come: those of the block in hand, and the beginning of the next. */
struct sheet_feed {
    sheet_giver *give;
    void *context;
    size_t block; /* bytes */
    char *bytes;  /* with room for one more */
    size_t length, room;
    size_t at;  /* where the first row begins that is not in hand */
    bool ended; /* there are no more bytes */
};

/* Passed as the place of an error that has none. */
#define SHEET_NO_PLACE ((size_t)-1)

/* Checks that the file does not begin as one that is not text. */
bool sheet_check_signature(const struct sheet_source *source);
/* Checks the bytes from `at` to `end`: that they are UTF-8, without a zero byte. */
bool sheet_check_characters(const struct sheet_source *source, size_t at, size_t end);

/* Does a line end with the byte at `at`? Lines end in LF, CR LF or a lone CR. */
bool sheet_ends_line(const struct sheet_source *source, size_t at);
/* The offset after the line break that ends the line of `at`. */
size_t sheet_line_end(const struct sheet_source *source, size_t at);

/* The line of the byte at `at`, from 1; walks from the mark, which is not after it. */
size_t sheet_line_of(const struct sheet_source *source, size_t at);

/* Fill the error with the place of the byte at `at`, and return false, so that a reader can say
 * `return sheet_fail(...)`. `help` is the text after "Try:" and may be "". */
bool sheet_fail(const struct sheet_source *source, size_t at, const char *help, const char *format,
                ...) __attribute__((format(printf, 4, 5)));
bool sheet_fail_empty(const struct sheet_source *source);
bool sheet_fail_memory(const struct sheet_source *source);

/* A text of the sheet as a message may show it: short, in one line, without control characters. */
struct sheet_shown {
    char text[56];
};
struct sheet_shown sheet_shown(const char *text, size_t length);

/* The same text without the spaces and tabs around it. */
struct sheet_text sheet_trimmed(const char *text, size_t length);

#endif
