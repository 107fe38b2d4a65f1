/* Checks of tables, ladders, shows and the lines of a channel. */
#include "types/rules.h"

#include <string.h>

#include "text/near.h"
#include "types/propose.h"
#include "types/share.h"

/* ---- tables ---- */

static void check_bound(struct check *check, const struct expression *bound, struct type key)
{
    rules_only_rates(check, bound, "a table's cell");
    check_same(check, bound, check_expression(check, bound), key);
}

static bool is_literal(const struct expression *expression)
{
    return expression->kind == EXPRESSION_NUMBER || expression->kind == EXPRESSION_MONEY ||
           expression->kind == EXPRESSION_PERCENT || expression->kind == EXPRESSION_QUANTITY;
}

static void check_cell(struct check *check, const struct tree_cell *cell, struct type key)
{
    if (cell->kind == CELL_ANY || key.kind == TYPE_WRONG)
        return;
    bool ordered = key.kind == TYPE_NUMBER || key.kind == TYPE_DATE;
    if (!ordered && cell->kind != CELL_VALUE && cell->kind != CELL_TEXTS) {
        check_refuse(check, cell->span, NULL,
                     "this cell needs a key that can be ordered, but the key is %s",
                     type_words(check, key));
        return;
    }
    const struct expression *only = cell->kind == CELL_VALUE ? cell->bound : NULL;
    if (only && only->kind == EXPRESSION_SUBTRACT && is_literal(only->left) &&
        is_literal(only->right)) {
        check_refuse(
            check, only->span,
            arena_print(check->shop->arena, "%s to %s", expression_words(check, only->left),
                        expression_words(check, only->right)),
            "this is a subtraction; a range from one amount to another is written with `to`");
        return;
    }
    for (const struct expression *bound = cell->bound; bound; bound = bound->next)
        check_bound(check, bound, key);
    if (cell->upper)
        check_bound(check, cell->upper, key);
}

/* The cells of one row against the keys. */
static void check_row(struct check *check, const struct statement *row, const struct type *keys,
                      size_t count)
{
    size_t cells = 0;
    for (const struct tree_cell *cell = row->cells; cell; cell = cell->next, cells++)
        if (cells < count)
            check_cell(check, cell, keys[cells]);
    if (cells != count && row->cells)
        check_refuse(check, row->span, NULL, "this row has %zu %s, but the table has %zu %s", cells,
                     cells == 1 ? "cell" : "cells", count, count == 1 ? "key" : "keys");
}

static struct typed check_values(struct check *check, const struct statement *table,
                                 const struct type *keys, size_t count)
{
    struct typed result = typed_wrong();
    size_t rows = 0;
    for (const struct statement *row = table->parts; row; row = row->next, rows++) {
        struct typed value = check_expression(check, row->value);
        check_row(check, row, keys, count);
        if (!row->cells && row->next)
            check_refuse(check, row->span, NULL,
                         "otherwise must be the last row; no row after it can match");
        if (rows == 0 || result.type.kind == TYPE_WRONG)
            result.type = value.type;
        else
            check_same(check, row->value, value, result.type);
        if (value.level > result.level)
            result.level = value.level;
    }
    if (rows == 0 && check->whole)
        check_refuse(check, table->span, NULL, "the table %s has no rows", table->name.text);
    if (rows > check->shop->table_rows_most)
        check_refuse(check, table->span, NULL, "the table %s has more than %zu rows",
                     table->name.text, check->shop->table_rows_most);
    return result;
}

enum { KEYS_MOST = 16 };

struct typed rules_table(struct check *check, const struct statement *table)
{
    struct type keys[KEYS_MOST];
    size_t count = 0;
    enum level level = LEVEL_RECORD;
    for (const struct expression *key = table->keys; key; key = key->next) {
        if (count == KEYS_MOST)
            return check_refuse(check, key->span, NULL, "a table may have at most %d keys",
                                KEYS_MOST);
        struct typed typed = check_expression(check, key);
        level = typed.level > level ? typed.level : level;
        keys[count++] = typed.type;
    }
    struct typed result = check_values(check, table, keys, count);
    result.level = result.level > level ? result.level : level;
    if (!table->sliced || result.type.kind == TYPE_WRONG || keys[0].kind == TYPE_WRONG)
        return result;
    if (count != 1 || keys[0].kind != TYPE_NUMBER || result.type.kind != TYPE_NUMBER ||
        !dim_multiply(result.type.dimension, keys[0].dimension, &result.type.dimension))
        return check_refuse(
            check, table->span, NULL,
            "a sliced table needs one key that is an amount, and values to multiply its slices by");
    return result;
}

/* ---- ladders ---- */

/* An ending is counted in smallest units, in a machine word; and each is looked at for each
 * price. */
enum { ENDING_MOST = 12, ENDINGS_MOST = 100 };

static void check_ending(struct check *check, const struct tree_word *ending)
{
    const char *point = strchr(ending->word.text, '.');
    size_t length = strlen(ending->word.text);
    int decimals = point && length <= ENDING_MOST ? (int)strlen(point + 1) : 0;
    if (length > ENDING_MOST)
        check_refuse(check, ending->word.span, NULL, "an ending may have at most %d digits",
                     ENDING_MOST);
    else if (decimals > check->shop->decimals)
        check_refuse(check, ending->word.span, NULL,
                     "the currency has %d decimals, but this ending has %d", check->shop->decimals,
                     decimals);
}

/* `0.49` where `.49` may be meant: the nought is a digit before the point like any other. */
static bool has_lone_nought(const struct tree_word *ending)
{
    return strncmp(ending->word.text, "0.", 2) == 0;
}

static void warn_of_noughts(struct check *check, const struct statement *band)
{
    const struct shop *shop = check->shop;
    const struct tree_word *first = band->words;
    while (first && !has_lone_nought(first))
        first = first->next;
    if (!first || !shop->currency || shop->decimals == 0)
        return;
    const char *help = "ends in";
    for (const struct tree_word *each = band->words; each; each = each->next)
        help = arena_print(shop->arena, "%s%s %s", help, each == band->words ? "" : " or",
                           each->word.text + has_lone_nought(each));
    const char *digits = first->word.text;
    diagnostics_warning(
        shop->diagnostics, first->word.span, help,
        "the 0 before the point is part of the ending, which comes once in every %s: %s, %s, %s …",
        propose_money(shop, "10"), propose_money(shop, digits),
        propose_money(shop, arena_print(shop->arena, "1%s", digits)),
        propose_money(shop, arena_print(shop->arena, "2%s", digits)));
}

void rules_rounding(struct check *check, const struct statement *rounding)
{
    struct type money = typed_number(dim_base(DIM_MONEY), LEVEL_RECORD).type;
    size_t bands = 0;
    if (!rounding->parts && check->whole) {
        check_refuse(check, rounding->span, "otherwise : ends in .99",
                     "the rounding %s has no bands", rounding->name.text);
        diagnostics_help_is(check->shop->diagnostics, HELP_EXAMPLE);
    }
    for (const struct statement *band = rounding->parts; band; band = band->next) {
        if (band->other)
            check_bound(check, band->other, money);
        if (!band->other && band->next)
            check_refuse(check, band->next->span, NULL,
                         "otherwise must be the last band; no band after it is ever used");
        if (band->value)
            check_bound(check, band->value, money);
        size_t endings = 0;
        for (const struct tree_word *ending = band->words; ending; ending = ending->next, endings++)
            check_ending(check, ending);
        if (endings <= ENDINGS_MOST)
            warn_of_noughts(check, band);
        else
            check_refuse(check, band->span, NULL, "a band may have at most %d endings",
                         ENDINGS_MOST);
        bands++;
    }
    if (bands > check->shop->table_rows_most)
        check_refuse(check, rounding->span, NULL, "the rounding %s has more than %zu bands",
                     rounding->name.text, check->shop->table_rows_most);
}

/* ---- shows ---- */

/* The show with its unit, as it would be typed. */
static const char *show_in_unit(struct check *check, const struct statement *show,
                                struct typed typed)
{
    const char *unit = propose_unit(check->shop, typed.type.dimension);
    const char *value = show->value ? expression_words(check, show->value) : show->name.text;
    if (show->value && strcmp(value, "this") == 0)
        value = "…";
    const char *name = show->name.text; /* of its own: a show with a value defines it */
    if (!show->value)
        name = arena_print(check->shop->arena, "%s_shown", name);
    return arena_print(check->shop->arena, "show %s as %s = %s", name, unit ? unit : "…", value);
}

struct typed rules_show(struct check *check, const struct symbol *show)
{
    const struct statement *statement = show->statement;
    struct typed typed;
    if (statement->value) {
        typed = check_expression(check, statement->value);
    } else {
        struct expression name = {
            .kind = EXPRESSION_NAME, .span = statement->name.span, .name = statement->name};
        typed = check_expression(check, &name);
    }
    if (typed.type.kind == TYPE_PARTS) {
        const struct expression *value = statement->value;
        const char *parts = value && value->kind == EXPRESSION_NAME ? value->name.text : show->name;
        return check_refuse(
            check, statement->span,
            arena_print(check->shop->arena, "show %s_worth = worth of %s", parts, parts),
            "a list of parts cannot be shown");
    }
    struct dimension dimension;
    struct num factor;
    if (statement->as && literal_unit(check->scope, statement->as, &dimension, &factor))
        check_same(check,
                   statement->value ? statement->value
                                    : &(struct expression){.kind = EXPRESSION_NAME,
                                                           .span = statement->name.span,
                                                           .name = statement->name},
                   typed, typed_number(dimension, LEVEL_RECORD).type);
    bool needs_unit = typed.type.kind == TYPE_NUMBER && !dim_is_none(typed.type.dimension) &&
                      !dim_is_money(typed.type.dimension);
    if (needs_unit && !statement->as)
        check_refuse(check, statement->span, show_in_unit(check, statement, typed),
                     "%s is %s; say which unit to show it in", show->name,
                     type_words(check, typed.type));
    return typed;
}

/* ---- goals ---- */

/* Whether the one type is the other per time. */
static bool is_per_time(struct type type, struct type whole)
{
    struct dimension dimension;
    return dim_divide(whole.dimension, dim_base(DIM_TIME), &dimension) &&
           dim_equal(type.dimension, dimension);
}

/* `$450 per month`: the amount for each of the time that another is for. NULL for a long one. */
static const char *propose_per(struct check *check, const struct expression *amount,
                               const struct expression *like)
{
    bool per = like && like->kind == EXPRESSION_PER && like->unit && !like->name.text;
    bool whole = amount->kind <= EXPRESSION_NAME || amount->kind == EXPRESSION_GROUP;
    struct span time = per ? (struct span){like->span.source, like->left->span.end, like->span.end}
                           : (struct span){0};
    const char *words = expression_words(check, amount);
    if (strcmp(words, "this") == 0)
        return NULL;
    return arena_print(check->shop->arena, whole ? "%s%.*s" : "(%s)%.*s", words,
                       per ? span_length(time) : 10, per ? span_text(time) : " per month");
}

/* What there is is per time where the need is, and only there: `40 h per month`, or `40 h`. */
static void check_has(struct check *check, const struct statement *const *lines,
                      const struct typed *typed, struct type wanted)
{
    const struct expression *has = lines[GOAL_HAS]->value, *needs = lines[GOAL_NEEDS]->value;
    struct type type = typed[GOAL_HAS].type, takes = typed[GOAL_TAKES].type;
    struct arena *arena = check->shop->arena;
    if (!type_equal(type, wanted) && type_equal(type, takes)) {
        check_refuse(check, has->span, propose_per(check, has, needs),
                     "`needs` is an amount per time, so `has` must be one too");
    } else if (type_equal(wanted, takes) && is_per_time(type, takes)) {
        const char *help = propose_per(check, needs, has);
        if (help && has->kind == EXPRESSION_PER)
            help =
                arena_print(arena, "needs %s, or has %s", help, expression_words(check, has->left));
        else if (help)
            help = arena_print(arena, "needs %s", help);
        check_refuse(check, has->span, help, "`has` is an amount per time, but `needs` is not");
        diagnostics_help_is(check->shop->diagnostics,
                            has->kind == EXPRESSION_PER ? HELP_CHOICE : HELP_ELSEWHERE);
    } else {
        check_same(check, has, typed[GOAL_HAS], wanted);
    }
}

/* Whether what a goal takes or has is a number of something. */
static bool goal_amount(struct check *check, const struct statement *line, struct typed typed)
{
    if (typed.type.kind != TYPE_NUMBER && typed.type.kind != TYPE_WRONG)
        check_refuse(check, line->value->span, NULL, "%s must be an amount, but this is %s",
                     statement_word(line->kind), type_words(check, typed.type));
    return typed.type.kind == TYPE_NUMBER;
}

void rules_goal(struct check *check, size_t number)
{
    const struct statement *goal = check->shop->goals.items[number];
    const struct statement *lines[GOAL_LINES] = {0};
    struct typed typed[GOAL_LINES];
    for (const struct statement *line = goal->parts; line; line = line->next) {
        unsigned index = (unsigned)(line->kind - STATEMENT_NEEDS);
        if (lines[index])
            check_refuse(check, line->span, NULL, "%s is given twice", statement_word(line->kind));
        lines[index] = line;
        typed[index] = check_expression(check, line->value);
        check->shop->goal_types[number][index] = typed[index].type;
    }
    if (!lines[GOAL_NEEDS] || !lines[GOAL_GIVES] || !lines[GOAL_TAKES] != !lines[GOAL_HAS]) {
        if (check->whole)
            check_refuse(
                check, goal->span, NULL,
                "a goal must have needs and gives, and either both takes and has or neither");
        return;
    }
    struct dimension money = dim_base(DIM_MONEY), per_time;
    dim_divide(money, dim_base(DIM_TIME), &per_time);
    check_money(check, lines[GOAL_GIVES]->value, typed[GOAL_GIVES]);
    struct typed needs = typed[GOAL_NEEDS];
    if (needs.type.kind != TYPE_WRONG &&
        !(needs.type.kind == TYPE_NUMBER && dim_equal(needs.type.dimension, per_time)))
        check_money(check, lines[GOAL_NEEDS]->value, needs);
    if (!lines[GOAL_TAKES] || !goal_amount(check, lines[GOAL_TAKES], typed[GOAL_TAKES]) ||
        !goal_amount(check, lines[GOAL_HAS], typed[GOAL_HAS]) || needs.type.kind != TYPE_NUMBER)
        return;
    struct dimension has;
    if (dim_divide(needs.type.dimension, money, &has) &&
        dim_multiply(has, typed[GOAL_TAKES].type.dimension, &has))
        check_has(check, lines, typed, typed_number(has, LEVEL_RECORD).type);
}

/* ---- expects ---- */

static void check_given(struct check *check, const struct statement *given)
{
    struct type wanted;
    const char *name = given->name.text;
    struct symbol *symbol = shop_find(check->shop, NO_CHANNEL, name);
    if (strcmp(name, "quantity") == 0) {
        wanted = typed_number(dim_none(), LEVEL_RECORD).type;
    } else if (strcmp(name, "as_of") == 0) {
        wanted = typed_kind(TYPE_DATE, LEVEL_RECORD).type;
    } else if (symbol && (symbol->kind == SYMBOL_FIELD || symbol->kind == SYMBOL_RATE ||
                          symbol->kind == SYMBOL_MATERIAL)) {
        wanted = check_symbol(check, symbol, given->name.span).type;
    } else if (!check->whole) {
        return;
    } else {
        struct near near = near_to(name, strlen(name));
        for (size_t i = 0; i < check->shop->fields.count; i++)
            near_offer(&near, check->shop->fields.items[i]->name);
        for (size_t i = 0; i < check->shop->rates.count; i++)
            near_offer(&near, check->shop->rates.items[i]->name);
        check_refuse(check, given->name.span, near.best,
                     "%s is not a field, a rate, quantity or as_of", name);
        return;
    }
    struct literal literal;
    enum literal_outcome outcome = literal_read(check->scope, given->value, &literal);
    if (outcome == LITERAL_NONE)
        check_refuse(check, given->value->span, NULL,
                     "a value given in an expect must be a literal");
    bool parts = wanted.kind == TYPE_PARTS && literal.type.kind == TYPE_TEXT;
    if (outcome == LITERAL_READ && !parts)
        check_same(check, given->value, (struct typed){literal.type, LEVEL_RECORD}, wanted);
}

static void check_warned(struct check *check, const struct statement *then)
{
    if (!check->whole || diagnostics_full(check->shop->diagnostics))
        return;
    struct near near = near_to(then->text.text, strlen(then->text.text));
    for (size_t i = 0; i < check->shop->channels_count; i++) {
        const struct statement_set *warns = &check->shop->channels[i].warns;
        for (size_t j = 0; j < warns->count; j++) {
            if (strcmp(warns->items[j]->text.text, then->text.text) == 0)
                return;
            near_offer(&near, warns->items[j]->text.text);
        }
    }
    check_refuse(check, then->text.span,
                 near.best ? arena_print(check->shop->arena, "\"%s\"", near.best) : NULL,
                 "there is no warn with the text \"%s\"", then->text.text);
}

void rules_expect(struct check *check, const struct statement *expect)
{
    unsigned channel = NO_CHANNEL;
    bool then = false;
    for (const struct statement *line = expect->parts; line; line = line->next) {
        if (line->kind != STATEMENT_ON)
            continue;
        if (channel != NO_CHANNEL)
            check_refuse(check, line->span, NULL,
                         "an expect may have only one `on`; without it, all channels are checked");
        channel = shop_channel(check->shop, line->name.text);
        if (channel == NO_CHANNEL)
            report_no_channel(check, line->name, false);
    }
    check->channel = channel;
    for (const struct statement *line = expect->parts; line; line = line->next) {
        if (line->kind == STATEMENT_GIVEN)
            check_given(check, line);
        else if (line->kind == STATEMENT_THEN)
            check_flag(check, line->value, check_expression(check, line->value));
        else if (line->kind == STATEMENT_THEN_WARNED)
            check_warned(check, line);
        then = then || line->kind >= STATEMENT_THEN;
    }
    check->channel = NO_CHANNEL;
    if (!then && check->whole) {
        check_refuse(check, expect->span, "then price = $20",
                     "this expect has no `then`, so it checks nothing");
        diagnostics_help_is(check->shop->diagnostics, HELP_EXAMPLE);
    }
}

/* ---- channels ---- */

typedef bool checking(struct check *check, const struct expression *expression, struct typed typed);

/* That the value of a line is of its kind, and stands early enough. */
static void check_line(struct check *check, const struct statement *line, checking *is_kind,
                       enum level most)
{
    if (!line || !line->value)
        return;
    struct typed typed = check_expression(check, line->value);
    const char *help = is_kind == check_flag ? "refuse, which may depend on the price" : NULL;
    if (is_kind(check, line->value, typed))
        check_level(check, line->value, typed, most, statement_word(line->kind), help);
}

static const char *round_with(struct check *check, const struct statement *round, const char *words)
{
    return arena_print(check->shop->arena, "%s %s", words, expression_words(check, round->value));
}

static void check_round(struct check *check, const struct channel *channel)
{
    const struct statement *round = channel->price.round;
    if (!round)
        return;
    if (round->rounding == ROUNDING_EVEN)
        check_refuse(check, round->span, round_with(check, round, "round nearest to"),
                     "prices can only be rounded up, down or to the nearest");
    bool up = round->rounding == ROUNDING_UP || round->rounding == ROUNDING_PLAIN;
    if (channel->price.aim && !up)
        check_refuse(check, round->span, round_with(check, round, "round up to"),
                     "an aim takes the least allowed price that meets it, so it can only round up");
    const struct expression *grid = round->value;
    if (grid->kind != EXPRESSION_NAME) {
        check_money(check, grid, check_expression(check, grid));
        return;
    }
    struct symbol *ladder = shop_find(check->shop, NO_CHANNEL, grid->name.text);
    if (ladder && ladder->kind == SYMBOL_ROUNDING) {
        ladder->used = true;
        return;
    }
    if (!check->whole)
        return;
    struct near near = near_to(grid->name.text, strlen(grid->name.text));
    for (size_t i = 0; i < check->shop->symbols.count; i++)
        if (check->shop->symbols.items[i]->kind == SYMBOL_ROUNDING)
            near_offer(&near, check->shop->symbols.items[i]->name);
    check_refuse(check, grid->span, near.best, "there is no rounding %s", grid->name.text);
}

static void check_price(struct check *check, const struct channel *channel)
{
    const struct price_lines *price = &channel->price;
    if (!price->aim && !price->set && check->whole) {
        struct span span = channel->statement      ? channel->statement->span
                           : check->shop->currency ? check->shop->currency->span
                                                   : (struct span){0};
        if (span.source) {
            check_refuse(check, span, "price { aim margin >= 35% }",
                         channel->statement
                             ? "there is neither an aim nor a set for the price on channel %s"
                             : "there is neither an aim nor a set for the price",
                         channel->name);
            diagnostics_help_is(check->shop->diagnostics, HELP_EXAMPLE);
        }
    }
    check_line(check, price->aim, check_flag, LEVEL_ALL);
    check_line(check, price->set, check_money, LEVEL_COST);
    check_line(check, price->floor, check_money, LEVEL_COST);
    check_line(check, price->ceiling, check_money, LEVEL_COST);
    check_line(check, price->pin, check_money, LEVEL_COST);
    check_line(check, price->discount, check_plain, LEVEL_LIST);
    if (price->discount && price->discount->value)
        share_check_discount(check, price->discount->value);
    check_round(check, channel);
}

void rules_channel(struct check *check, const struct channel *channel)
{
    check->channel = (unsigned)(channel - check->shop->channels);
    check_price(check, channel);
    check_line(check, channel->tax, check_plain, LEVEL_EXTRAS);
    if (channel->tax)
        share_warn_of_whole(check, channel->tax->value);
    check_line(check, channel->only_when, check_flag, LEVEL_COST);
    for (size_t i = 0; i < channel->warns.count; i++)
        check_line(check, channel->warns.items[i], check_flag, LEVEL_ALL);
    for (size_t i = 0; i < channel->refuses.count; i++)
        check_line(check, channel->refuses.items[i], check_flag, LEVEL_ALL);
    check->channel = NO_CHANNEL;
}
