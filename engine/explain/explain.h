/* An explanation while it is being built. */
#ifndef GROAT_EXPLAIN_H
#define GROAT_EXPLAIN_H

#include "library/words.h"

struct lines {
    groat_line *items;
    size_t count, room;
};

struct groat_explanation {
    groat_allocator allocator;
    struct memory memory;
    struct arena arena;
    struct lines lines, misses;
    groat_below below;
};

/* What the functions that make lines share. The arena has an escape while they run. */
struct explaining {
    groat_explanation *explanation;
    groat_scratch *scratch;
    const struct channel *channel;
    struct words words;
    bool *detailed; /* by symbol: its details were given; NULL if none are wanted */
};

/* A copy that belongs to the explanation; NULL for NULL. */
const char *explain_own(struct explaining *explaining, const char *text);
/* Adds a line. Its texts must be the explanation's own; names that belong to the rules are
 * copied. */
groat_line *explain_add(struct explaining *explaining, struct lines *lines, groat_line line);
/* Adds a line for a definition: its expression as written, and with values. */
void explain_symbol(struct explaining *explaining, groat_part part, const struct symbol *symbol,
                    unsigned depth);
/* The symbol's step on the channel, or NO_STEP. */
uint32_t explain_step(const struct explaining *explaining, const struct symbol *symbol);
void explain_figure(struct explaining *explaining, groat_part part, enum figure figure,
                    unsigned depth);
/* Adds detail lines to the line before, each only once: the cost of each part of a `worth of` in
 * the expression, and each value in it, also through lets and rates, that comes from a range. */
void explain_details(struct explaining *explaining, const struct expression *expression);
/* `the likely one of $4 to $6 likely $4.50`, for a rate or material that the rules give as a
 * range. */
const char *explain_likely(struct explaining *explaining, const struct symbol *symbol);
/* Adds the parts of one `worth of` as lines of this kind. */
void explain_parts(struct explaining *explaining, groat_part kind,
                   const struct expression *expression, unsigned depth);
/* A value that is not the value of a step; it lives as long as the explanation. */
groat_value explain_kept(struct explaining *explaining, struct value value, struct type type);
/* Adds the lines of the price block, and the reason why the price is not lower. */
void explain_price(struct explaining *explaining);
/* Explains why a product is not sold on the channel. */
void explain_not_sold(struct explaining *explaining);
/* Explains a definition or a figure, and its parts. */
void explain_name(struct explaining *explaining, const char *name);

#endif
