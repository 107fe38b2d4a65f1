/* Statements, lists and literals of the tree. Expressions are in build_expression.c. */
#include "build.h"

#include <string.h>

static struct word word_of(struct build *build, struct span span)
{
    if (!span.source)
        return (struct word){0};
    return (struct word){arena_text(build->arena, span_text(span), span.end - span.start), span};
}

/* A text without its quotes and escapes. */
static struct word text_of(struct build *build, struct span span)
{
    struct word word = word_of(build, span);
    if (!word.text)
        return word;
    char *to = arena_take(build->arena, span.end - span.start + 1);
    word.text = to;
    const char *from = span_text(span) + 1, *end = span_text(span) + (span.end - span.start);
    for (; from < end && *from != '"'; from++) {
        if (*from == '\\' && from + 1 < end)
            from++;
        *to++ = *from;
    }
    *to = '\0';
    return word;
}

/* ---- lists ---- */

#define APPEND(list, item)                                                                         \
    do {                                                                                           \
        if ((list).last)                                                                           \
            (list).last->next = (item);                                                            \
        else                                                                                       \
            (list).first = (item);                                                                 \
        (list).last = (item);                                                                      \
    } while (0)

/* The function that makes a list longer, or a new list where there is none. */
#define LONGER(function, list_type, item_type)                                                     \
    struct list_type function(struct list_type *list, struct item_type *item)                      \
    {                                                                                              \
        struct list_type longer = list ? *list : (struct list_type){0};                            \
        APPEND(longer, item);                                                                      \
        return longer;                                                                             \
    }

LONGER(build_expressions, expression_list, expression)
LONGER(build_cells, cell_list, tree_cell)
LONGER(build_parts, part_list, tree_part)
static LONGER(longer_words, word_list, tree_word)

    struct statement_list build_append(struct statement_list list, struct statement *statement)
{
    if (statement)
        APPEND(list, statement);
    return list;
}

struct word_list build_words(struct build *build, struct word_list *list, struct span name)
{
    struct tree_word *item = arena_take(build->arena, sizeof *item);
    item->word = word_of(build, name);
    return longer_words(list, item);
}

struct expression_list build_texts(struct build *build, struct span first, struct span second)
{
    struct expression_list list =
        build_expressions(NULL, build_literal(build, EXPRESSION_TEXT, first));
    return build_expressions(&list, build_literal(build, EXPRESSION_TEXT, second));
}

/* ---- statements ---- */

struct statement *build_line(struct build *build, enum statement_kind kind, struct span head,
                             struct expression *value)
{
    struct statement *statement = arena_take(build->arena, sizeof *statement);
    statement->kind = kind;
    statement->span = head;
    statement->value = value;
    return statement;
}

struct statement *build_named(struct build *build, enum statement_kind kind, struct span head,
                              struct span name, struct expression *value)
{
    struct statement *statement = build_line(build, kind, span_join(head, name), value);
    statement->name = word_of(build, name);
    return statement;
}

struct statement *build_texted(struct build *build, enum statement_kind kind, struct span head,
                               struct span text, struct expression *value)
{
    struct statement *statement = build_line(build, kind, span_join(head, text), value);
    statement->text = text_of(build, text);
    return statement;
}

struct statement *build_block(struct statement *head, struct statement_list parts)
{
    head->parts = parts.first;
    return head;
}

struct statement *build_with_words(struct statement *head, struct word_list words)
{
    head->words = words.first;
    return head;
}

struct statement *build_currency(struct build *build, struct span head, struct span code,
                                 struct span symbol)
{
    struct statement *statement = build_named(build, STATEMENT_CURRENCY, head, code, NULL);
    statement->symbol = word_of(build, symbol);
    build->sign = symbol.source ? symbol : code;
    return statement;
}

struct statement *build_table(struct build *build, struct span head, struct span name,
                              struct expression_list keys, bool sliced, struct statement_list rows)
{
    struct statement *statement = build_named(build, STATEMENT_TABLE, head, name, NULL);
    statement->parts = rows.first;
    statement->keys = keys.first;
    statement->sliced = sliced;
    return statement;
}

struct statement *build_function(struct build *build, struct span head, struct span name,
                                 struct word_list parameters, struct expression *value)
{
    struct statement *statement = build_named(build, STATEMENT_LET, head, name, value);
    statement->function = true;
    return build_with_words(statement, parameters);
}

struct statement *build_show(struct build *build, struct span head, struct span name,
                             struct tree_unit *as, struct expression *value)
{
    struct statement *statement = build_named(build, STATEMENT_SHOW, head, name, value);
    statement->as = as;
    return statement;
}

struct statement *build_material(struct build *build, struct span name, struct expression *price,
                                 struct expression *density)
{
    struct statement *statement = build_named(build, STATEMENT_MATERIAL, name, name, price);
    statement->other = density;
    return statement;
}

struct statement *build_field(struct build *build, struct span name, struct tree_unit *type,
                              struct tree_unit *as, struct span column, struct field_end end)
{
    struct statement *statement = build_named(build, STATEMENT_FIELD, name, name, end.value);
    statement->unit = type;
    statement->as = as;
    statement->optional = end.optional;
    if (column.source)
        statement->text = text_of(build, column);
    return statement;
}

struct statement *build_round(struct build *build, struct span head, enum tree_rounding rounding,
                              struct expression *grid)
{
    struct statement *statement = build_line(build, STATEMENT_ROUND, head, grid);
    statement->rounding = rounding;
    return statement;
}

struct statement *build_row(struct build *build, struct cell_list cells, struct expression *value)
{
    struct span span = span_join(cells.first->span, cells.last->span);
    struct statement *statement = build_line(build, STATEMENT_ROW, span, value);
    statement->cells = cells.first;
    return statement;
}

struct statement *build_band(struct build *build, struct span head, struct expression *bound,
                             struct grid grid)
{
    struct span span = bound ? span_join(head, bound->span) : head;
    struct statement *statement = build_line(build, STATEMENT_BAND, span, grid.every);
    statement->other = bound;
    statement->words = grid.endings;
    return statement;
}

struct tree_cell *build_cell(struct build *build, enum cell_kind kind, struct span word,
                             struct expression *bound, struct expression *upper)
{
    struct tree_cell *cell = arena_take(build->arena, sizeof *cell);
    cell->kind = kind;
    cell->span = word;
    for (struct expression *each = bound; each; each = each->next)
        cell->span = span_join(cell->span, each->span);
    if (upper)
        cell->span = span_join(cell->span, upper->span);
    cell->bound = bound;
    cell->upper = upper;
    return cell;
}

struct tree_part *build_part(struct build *build, struct span name, struct expression *amount)
{
    struct tree_part *part = arena_take(build->arena, sizeof *part);
    part->name = word_of(build, name);
    part->amount = amount;
    return part;
}

/* ---- units and literals ---- */

struct tree_unit *build_unit(struct build *build, struct span name, struct span power)
{
    struct tree_unit *unit = arena_take(build->arena, sizeof *unit);
    unit->name = word_of(build, name);
    unit->power = 1;
    if (!power.source)
        return unit;
    const char *digits = span_text(power);
    if (span_length(power) == 1 && digits[0] >= '1' && digits[0] <= '9') {
        unit->power = digits[0] - '0';
        unit->name.span = span_join(name, power);
    } else {
        unit->power = 0;
        diagnostics_error(build->diagnostics, power, "ft^2",
                          "the power of a unit must be a whole number from 1 to 9");
        diagnostics_help_is(build->diagnostics, HELP_EXAMPLE);
    }
    return unit;
}

/* With more than these, the dimension would be out of range as well. */
enum { PER_MOST = 2 * 9 };

struct tree_unit *build_unit_per(struct build *build, struct tree_unit *unit, struct tree_unit *per)
{
    struct tree_unit *last = unit;
    int count = 1;
    for (; last->per; count++)
        last = last->per;
    if (count <= PER_MOST)
        last->per = per;
    else
        diagnostics_error(build->diagnostics, unit->name.span, NULL,
                          "`per` may be followed by at most %d units", PER_MOST);
    return unit;
}

struct expression *build_literal(struct build *build, enum expression_kind kind, struct span span)
{
    struct expression *expression = arena_take(build->arena, sizeof *expression);
    expression->kind = kind;
    expression->span = span;
    expression->name = kind == EXPRESSION_TEXT ? text_of(build, span) : word_of(build, span);
    if (kind == EXPRESSION_PERCENT)
        ((char *)expression->name.text)[span.end - span.start - 1] = '\0';
    return expression;
}
