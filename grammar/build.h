/* The functions that the grammar's actions call. Each makes one piece of the tree. */
#ifndef GROAT_BUILD_H
#define GROAT_BUILD_H

#include "source/diagnostic.h"
#include "tree/tree.h"

/* The reading of one text. The result is in `statements`, `value` or `parts`, depending on what is
 * read. */
struct build {
    struct arena *arena;
    const struct source *source;
    struct diagnostics *diagnostics;
    size_t depth_most; /* how deep expressions may nest */
    struct statement *statements;
    struct expression *value;
    struct tree_part *parts;
    bool lost;    /* some statement could not be read */
    bool gave_up; /* nothing after that statement can be read */
    struct open_words {
        unsigned ifs, thens, allowings; /* those whose `then`, `else` or `lost` has not come yet */
    } open;
    struct span sign;  /* the sign of the shop's money, or its code, once it is read */
    bool recovering;   /* after a syntax error, until the statement ends */
    struct span token; /* the token being read */
    struct span last;  /* the last token before it except line ends; `source` is NULL if there is
                        * none */
    int last_kind;
    struct span wrong; /* the token that did not fit, while its message is made */
    int wrong_kind;
    uint64_t expected[2]; /* a bit for each token that could stand in its place */
};

struct statement_list {
    struct statement *first, *last;
};
struct expression_list {
    struct expression *first, *last;
};
struct word_list {
    struct tree_word *first, *last;
};
struct cell_list {
    struct tree_cell *first, *last;
};
struct part_list {
    struct tree_part *first, *last;
};
struct field_end {
    bool optional;
    struct expression *value;
};
struct grid {
    struct expression *every;
    struct tree_word *endings;
};

/* ---- lists ---- */
struct statement_list build_append(struct statement_list list, struct statement *statement);
struct expression_list build_expressions(struct expression_list *list, struct expression *item);
struct word_list build_words(struct build *build, struct word_list *list, struct span name);
struct cell_list build_cells(struct cell_list *list, struct tree_cell *cell);
struct part_list build_parts(struct part_list *list, struct tree_part *part);
struct expression_list build_texts(struct build *build, struct span first, struct span second);

/* ---- statements: `head` is the statement's word ---- */
struct statement *build_currency(struct build *, struct span head, struct span code,
                                 struct span symbol);
struct statement *build_named(struct build *, enum statement_kind, struct span head,
                              struct span name, struct expression *value);
struct statement *build_line(struct build *, enum statement_kind, struct span head,
                             struct expression *value);
struct statement *build_texted(struct build *, enum statement_kind, struct span head,
                               struct span text, struct expression *value);
/* The same statement with lines of its own, or with words. */
struct statement *build_block(struct statement *head, struct statement_list parts);
struct statement *build_with_words(struct statement *head, struct word_list words);
struct statement *build_table(struct build *, struct span head, struct span name,
                              struct expression_list keys, bool sliced, struct statement_list rows);
struct statement *build_function(struct build *, struct span head, struct span name,
                                 struct word_list parameters, struct expression *value);
struct statement *build_show(struct build *, struct span head, struct span name,
                             struct tree_unit *as, struct expression *value);
struct statement *build_material(struct build *, struct span name, struct expression *price,
                                 struct expression *density);
struct statement *build_field(struct build *, struct span name, struct tree_unit *type,
                              struct tree_unit *as, struct span column, struct field_end end);
struct statement *build_round(struct build *, struct span head, enum tree_rounding rounding,
                              struct expression *grid);
struct statement *build_row(struct build *, struct cell_list cells, struct expression *value);
struct statement *build_band(struct build *, struct span head, struct expression *bound,
                             struct grid grid);
struct tree_cell *build_cell(struct build *, enum cell_kind, struct span word,
                             struct expression *bound, struct expression *upper);
struct tree_part *build_part(struct build *, struct span name, struct expression *amount);

/* ---- expressions ---- */
struct expression *build_literal(struct build *, enum expression_kind, struct span text);
struct expression *build_fraction(struct build *, struct span text, struct tree_unit *unit);
struct expression *build_money(struct build *, struct span symbol, struct span digits);
struct expression *build_quantity(struct build *, struct expression *before, struct span digits,
                                  struct tree_unit *unit);
struct expression *build_call(struct build *, struct span name, struct expression_list arguments,
                              struct span close);
struct expression *build_on(struct build *, struct span name, struct span channel);
struct expression *build_worth(struct build *, struct span word, struct span field);
struct expression *build_group(struct build *, struct span open, struct expression *inside,
                               struct span close);
struct expression *build_before(struct build *, enum expression_kind, struct span word,
                                struct expression *operand);
struct expression *build_after(struct build *, enum expression_kind, struct expression *operand,
                               struct span word);
struct expression *build_per(struct build *, struct expression *operand, struct span digits,
                             struct tree_unit *unit);
struct expression *build_as(struct build *, struct expression *operand, struct tree_unit *unit);
struct expression *build_two(struct build *, enum expression_kind, struct expression *left,
                             struct expression *right);
struct expression *build_allowing(struct build *, struct expression *left, struct expression *rate,
                                  struct span lost);
struct expression *build_rounded(struct build *, enum tree_rounding, struct expression *left,
                                 struct expression *grid);
struct expression *build_between(struct build *, struct expression *value, struct expression *low,
                                 struct expression *high);
struct expression *build_range(struct build *, struct expression *low, struct expression *high,
                               struct expression *likely);
struct expression *build_if(struct build *, struct span word, struct expression *condition,
                            struct expression *then, struct expression *otherwise);
struct tree_unit *build_unit(struct build *, struct span name, struct span power);
struct tree_unit *build_unit_per(struct build *, struct tree_unit *unit, struct tree_unit *per);

/* ---- errors ---- */
void build_syntax_error(struct build *, int kind, struct span token);
void build_expected(struct build *, int kind);
void build_syntax_error_end(struct build *);
/* Counts the words that need another word later, so that a message can name the missing one. */
void build_open(struct build *, int kind);
void build_gave_up(struct build *);
void build_nested_too_deep(struct build *);

#endif
