/* Values and expressions written for a maker: with currency signs, units and percent signs. */
#ifndef GROAT_WORDS_H
#define GROAT_WORDS_H

#include "library/library.h"

/* What writing needs. Texts are taken from the arena, and are NULL if memory runs out. The heap is
 * used for calculation. */
struct words {
    const struct core *core;
    const struct value *values;    /* by step; needed for words_worked */
    const struct value *overrides; /* by rate, or NULL */
    struct num_heap *heap;
    struct arena *arena;
    unsigned percent_places; /* decimals of a percentage */
    unsigned finer;          /* additional decimals for these, and for the currency */
};

/* `$14.04`, `25 min`, `$26 per h`, `12%`, `"larch"`, `yes`; "missing"; "no value". */
const char *words_of(const struct words *words, const struct value *value, struct type type,
                     bool percent);
/* The same, as the rules write values of this definition; a rate as it is written there. */
const char *words_of_symbol(const struct words *words, const struct symbol *symbol,
                            const struct value *value);
/* Whether the symbol is a rate whose value was given from outside. */
bool words_is_replaced(const struct words *words, const struct symbol *symbol);
/* Whether the expression is a literal, so that its value need not be shown as well. */
bool words_says_itself(const struct expression *expression);
/* The text of the rules between two places, on one line. */
const char *words_between(const struct words *words, struct span from, struct span to);
/* The expression on one line. */
const char *words_written(const struct words *words, const struct expression *expression);
/* The same with each name replaced by its value in the context. */
const char *words_worked(const struct words *words, const struct expression *expression,
                         uint32_t context);

#endif
