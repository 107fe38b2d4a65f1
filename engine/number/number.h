/* Exact numbers: fractions of whole numbers. Small ones are two machine words, large ones are
 * limbs.
 *
 * This stage knows nothing of the rules language. A number is always in lowest terms with a
 * positive denominator, so two equal numbers are equal in every field.
 *
 * Large numbers live in a `num_heap`. A heap belongs to one thread; it keeps its memory when it is
 * rewound, so that repeated work stops allocating after the first records. An operand may come from
 * another heap than the one that is passed: the result goes to the heap that is passed. */
#ifndef GROAT_NUMBER_H
#define GROAT_NUMBER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "memory/memory.h"

/* The most bits that a numerator or a denominator can have, whatever a host asks for, because it is
 * the size of the working arrays on the stack. 8192 bits are some 2,466 decimal digits; a sum of
 * sixty cost lines whose denominators are different 64-bit primes needs 3,840. */
enum { NUM_BITS_MOST = 8192, NUM_BITS_DEFAULT = 8192 };

struct num_big;

/* A number. When `bottom` is above zero the value is top / bottom. When `bottom` is zero the value
 * is large and `big` points to it, in some heap. INT64_MIN is never a `top`. */
struct num {
    union {
        int64_t top;
        const struct num_big *big;
    };
    int64_t bottom;
};

enum num_status {
    NUM_OK,
    NUM_TOO_LARGE, /* the result has more bits than the heap's limit */
    NUM_DIVIDED_BY_ZERO,
    NUM_NO_MEMORY,
    NUM_BAD_TEXT
};

/* Which multiple to take when a number is between two. Ties matter only for the last two. */
enum num_rounding {
    NUM_UP,      /* toward the greater one, also for negative numbers */
    NUM_DOWN,    /* toward the smaller one, also for negative numbers */
    NUM_NEAREST, /* ties away from zero */
    NUM_EVEN     /* ties to the even multiple */
};

/* Room for large numbers: a chain of blocks, used from the front. */
struct num_block;
struct num_heap {
    struct memory *memory;
    struct num_block *first;   /* every block, oldest first */
    struct num_block *current; /* the block in use; NULL while nothing is stored */
    size_t limit_bits;
    /* Some operation returned NUM_NO_MEMORY. Only the heap's owner clears this, so it is known even
     * if a caller reports the failure as another one. */
    bool starved;
    /* The cost of all work on large numbers so far, in steps on small ones: it grows with the
     * square of their length. The cost of each operation is added before it is done. Never
     * reset. */
    size_t effort;
};

/* A place in a heap to go back to. */
struct num_mark {
    struct num_block *block;
    size_t used;
};

/* A limit below 63 counts as 63, because small numbers take no room, and one above NUM_BITS_MOST as
 * NUM_BITS_MOST. */
void num_heap_open(struct num_heap *heap, struct memory *memory, size_t limit_bits);
void num_heap_close(struct num_heap *heap);
struct num_mark num_heap_mark(const struct num_heap *heap);
/* Forgets every number made since the mark was taken; keeps the memory for reuse. */
void num_heap_rewind(struct num_heap *heap, struct num_mark mark);

struct num num_whole(int64_t value); /* value may not be INT64_MIN */
enum num_status num_fraction(struct num_heap *heap, int64_t top, int64_t bottom, struct num *out);
enum num_status num_copy(struct num_heap *heap, struct num number, struct num *out);

/* Arithmetic. On any status except NUM_OK, `*out` is unchanged. `out` may be an operand's
 * variable. */
typedef enum num_status num_operation(struct num_heap *heap, struct num a, struct num b,
                                      struct num *out);
num_operation num_add, num_subtract, num_multiply, num_divide;
enum num_status num_negate(struct num_heap *heap, struct num a, struct num *out);

/* Comparison never fails: it works in fixed arrays on the stack. */
int num_compare(struct num a, struct num b); /* below, at or above zero */
/* The same, and adds the cost to the heap's effort. */
int num_order(struct num_heap *heap, struct num a, struct num b);
bool num_equal(struct num a, struct num b);
int num_sign(struct num a); /* -1, 0 or 1 */
bool num_is_whole(struct num a);
/* How many decimals the number has. False if no number of decimals writes it exactly, or if its
 * denominator has more than 64 bits. */
bool num_decimals(struct num a, unsigned *decimals);

/* A lower and an upper bound of the value, close together. They are equal only if both are exactly
 * the value. Infinite where the value is beyond the range of doubles. */
void num_bounds(struct num a, double *low, double *high);

/* Rounds to a whole number. */
enum num_status num_round(struct num_heap *heap, struct num a, enum num_rounding rounding,
                          struct num *out);
/* Rounds to a multiple of `step`. Returns NUM_DIVIDED_BY_ZERO unless `step` is above zero. */
enum num_status num_round_to(struct num_heap *heap, struct num a, struct num step,
                             enum num_rounding rounding, struct num *out);
/* The value as a machine word that num_whole accepts; false if it is not whole or does not fit. */
bool num_to_int64(struct num a, int64_t *out);

/* Reads `12`, `12.50`, `.99`, `1_850`: digits, single underscores between digits, at most one point
 * with a digit after it. A sign or an exponent is not allowed. Returns NUM_BAD_TEXT for any other
 * text. */
enum num_status num_read_decimal(struct num_heap *heap, const char *text, size_t length,
                                 struct num *out);

/* Reads `12`, `12.50`, `.99` if it takes two machine words, as a cell nearly always does: up to 18
 * digits, none of them negative, without underscores. False for any other text, which may be a
 * number all the same. */
bool num_read_plain(const char *text, size_t length, struct num *out);

/* Writers follow snprintf: they write at most `size` bytes, including the zero byte at the end, and
 * return the length of the whole text (without that byte). `buffer` may be NULL when `size` is
 * 0. */
size_t num_write_top(struct num a, char *buffer, size_t size);    /* the numerator, with its sign */
size_t num_write_bottom(struct num a, char *buffer, size_t size); /* the denominator */
/* Decimal digits with exactly `places` (0 to 60) after the decimal mark `mark`, ties away from
 * zero; a minus sign only when a digit other than zero remains. `12.50`, `-0.04`. */
size_t num_write_places(struct num a, unsigned places, char mark, char *buffer, size_t size);
/* The shortest text that is exact, if that takes at most `places` decimals; otherwise rounded to
 * `places` decimals, without trailing zeros. `12.5`, `0.333333`. */
size_t num_write_short(struct num a, unsigned places, char mark, char *buffer, size_t size);

#endif
