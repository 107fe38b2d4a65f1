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

/* What the makers of lines share. The arena has an escape while they work. */
struct explaining {
    groat_explanation *explanation;
    groat_scratch *scratch;
    const struct channel *channel;
    struct words words;
    bool *detailed; /* by symbol: its details were told; NULL where none are */
};

/* A copy of the explanation's own; NULL of NULL. */
const char *explain_own(struct explaining *explaining, const char *text);
/* Takes over what the line says, and copies of the names that are the rules'. */
groat_line *explain_add(struct explaining *explaining, struct lines *lines, groat_line line);
/* A line of a definition: its expression as it stands and as it works out. */
void explain_symbol(struct explaining *explaining, groat_part part, const struct symbol *symbol,
                    unsigned depth);
/* How an exact value of the type is written. */
const struct shown *explain_shown(const struct explaining *explaining, struct type type);
/* Its step on the channel, or NO_STEP. */
uint32_t explain_step(const struct explaining *explaining, const struct symbol *symbol);
void explain_figure(struct explaining *explaining, groat_part part, enum figure figure,
                    unsigned depth);
/* Lines below the one before them, each once: what each part of a `worth of` in the expression costs,
 * and each value in it, through lets and rates, that is one of a range. */
void explain_details(struct explaining *explaining, const struct expression *expression);
/* `the likely one of $4 to $6 likely $4.50`, of a rate or material that the rules give as a range. */
const char *explain_likely(struct explaining *explaining, const struct symbol *symbol);
/* The parts of one `worth of`, as lines of the kind. */
void explain_parts(struct explaining *explaining, groat_part kind,
                   const struct expression *expression, unsigned depth);
/* A value that is no step's, kept as long as the explanation. */
groat_value explain_kept(struct explaining *explaining, struct value value, struct type type);
/* The price block's lines, and why not a coin less. */
void explain_price(struct explaining *explaining);
/* Of a product that is not sold on the channel. */
void explain_not_sold(struct explaining *explaining);
/* A definition or figure, and what it is made of. */
void explain_name(struct explaining *explaining, const char *name);

#endif
