/* Cells: reads the text of a product sheet or a command line as a value, with the lexer and the
 * grammar of the rules, and accepts what sheets write in addition: thousands separators, a decimal
 * comma, bare numbers. */
#ifndef GROAT_CELL_H
#define GROAT_CELL_H

#include "program/program.h"

/* The state for reading cells. It belongs to one thread. cell_read sets the arena's escape. */
struct cell_reader {
    const struct program *program;
    struct arena *arena;
    struct num_heap *heap;
    void *parse_room; /* parse_room() bytes */
    bool decimal_comma;
    struct value_range range; /* of the last cell; valid as long as its value */
};

/* What a cell is expected to hold. */
struct cell_wanted {
    const char *name; /* of the field or rate, for messages */
    struct type type;
    bool count, percent;
    bool bare;    /* a bare number is allowed */
    bool measure; /* may not be below zero */
    bool may_be_empty;
    bool rate;           /* not a cell of a sheet */
    const char *unit;    /* that the rules use for it: `min`, `per h`; or NULL */
    const char *written; /* a value as the rules write it, for an example; or NULL */
    struct num factor;   /* of a bare number */
};

/* Reads a cell. An empty cell gives a missing value, and a range its likely value. The value lives
 * in the reader's arena and heap. Returns the kind of `*trouble`, which is always filled in. */
enum trouble_kind cell_read(struct cell_reader *reader, const struct cell_wanted *wanted,
                            const char *text, size_t length, struct value *out,
                            struct trouble *trouble);
/* Reads a cell of digits with at most one point as a number of the field, by far the most cells.
 * False if the cell is anything else; cell_read then says what it is. */
bool cell_read_plain(const struct cell_reader *reader, const struct field_code *field,
                     const char *text, size_t length, struct value *out);
/* Whether a number, in the unit of a bare one, is allowed for the field or rate: whole if it is a
 * count, and not below zero if it is a measure. Otherwise says why. */
bool cell_number_fits(const struct program *program, const struct cell_wanted *wanted,
                      struct num number, struct trouble *trouble);
struct cell_wanted cell_wanted_of_field(const struct field_code *field);
struct cell_wanted cell_wanted_of_rate(const struct rate_code *rate);

#endif
