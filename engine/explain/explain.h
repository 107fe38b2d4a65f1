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
    struct words words; /* its arena is the explanation's */
    bool *told;         /* by symbol: it has had its turn */
    bool figures[FIGURES];
    const char *silent; /* why a look across has no value: see explain_silence */
};

/* A line about this place in the rules. It has no value yet. */
groat_line explain_line(groat_part part, const char *name, struct span span, unsigned depth);
/* Gives a line a value: its words, the value itself and its unit. The value must live as long as
 * the explanation. */
void explain_value(struct explaining *explaining, groat_line *line, const struct value *value,
                   struct type type, bool percent);
/* The same, as the rules write values of this definition. */
void explain_value_of(struct explaining *explaining, groat_line *line, const struct symbol *symbol,
                      const struct value *value);
/* Adds a line. Its texts must be the explanation's own; names that belong to the rules are
 * copied. */
groat_line *explain_add(struct explaining *explaining, struct lines *lines, groat_line line);
/* Adds a line for a definition: its expression as written, and with values. Returns NULL if the
 * definition has no step on the channel. */
groat_line *explain_symbol(struct explaining *explaining, groat_part part,
                           const struct symbol *symbol, unsigned depth);
groat_line *explain_figure(struct explaining *explaining, groat_part part, enum figure figure,
                           unsigned depth);

/* The definition with this name on the channel, or NULL. */
const struct symbol *explain_find(const struct explaining *explaining, const char *name);
/* What a name in an expression of the channel's stands for, or NULL. */
const struct leaf *explain_leaf(const struct explaining *explaining,
                                const struct expression *expression);
/* Calls `visit` for each name in an expression, from left to right, but not for a function's
 * parameters. Definitions that depend on each other more deeply than EXPLAIN_DEPTH_MOST are not
 * worth a line, and are not visited. */
enum { EXPLAIN_DEPTH_MOST = 20 };
typedef void explain_visit(struct explaining *explaining, const struct expression *name,
                           unsigned depth);
void explain_names(struct explaining *explaining, const struct expression *expression,
                   const struct tree_word *parameters, unsigned depth, explain_visit *visit);

/* Adds detail lines to the line before, each only once: the cost of each part of a `worth of` in
 * the expression, and each value in it, also through lets and rates, that comes from a range. */
void explain_details(struct explaining *explaining, const struct expression *expression);
/* Why an expression has no value, if that is because it looks across, also through lets, to a
 * channel that does not sell the product: `wholesale does not sell one`. Otherwise NULL. */
const char *explain_silence(struct explaining *explaining, const struct expression *expression);
/* `the likely value of $4 to $6 likely $4.50`, for a rate or material that the rules give as a
 * range. */
const char *explain_likely(struct explaining *explaining, const struct symbol *symbol);
/* Adds the parts of one `worth of` as lines of this kind. */
void explain_parts(struct explaining *explaining, groat_part kind,
                   const struct expression *expression, unsigned depth);
/* Adds the lines of the price block, and the reason why the price is not lower. */
void explain_price(struct explaining *explaining);
/* Explains why a product is not sold on the channel. */
void explain_not_sold(struct explaining *explaining);
/* Explains a definition or a figure, and its parts. */
void explain_name(struct explaining *explaining, const char *name);

#endif
