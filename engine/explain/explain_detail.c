/* What stands below a line of a whole account: the parts of a `worth of`, and values that are one
 * of a range. */
#include <string.h>

#include "explain/explain.h"

/* Definitions depend on each other no deeper than this for what is worth a line. */
enum { DEPTH_MOST = 20 };

static bool is_range(const struct explaining *explaining, const struct symbol *symbol)
{
    const groat_record *record = explaining->scratch->record;
    if (symbol->kind == SYMBOL_FIELD)
        return record && groat_record_range(record, symbol->order, NULL);
    return symbol->statement->value && symbol->statement->value->kind == EXPRESSION_RANGE &&
           !words_is_replaced(&explaining->words, symbol);
}

/* ---- parts ---- */

/* Units in which less than one of another is easier to read. */
static const struct {
    const char *unit, *smaller;
    int64_t times;
} smaller_units[] = {{"l", "ml", 1000}, {"kg", "g", 1000}, {"m", "mm", 1000}};

/* An amount in the unit that its material is bought by: `2.4 bf`, `25 ml`, `8`. */
static const char *amount_of(struct explaining *explaining, const struct part *part)
{
    groat_scratch *scratch = explaining->scratch;
    const struct rate_code *material = &scratch->core->program->rates[part->material];
    const struct familiar_unit *unit = material->symbol->unit;
    struct value value = value_number(part->amount);
    struct type type = {TYPE_NUMBER, material->per};
    struct num amount;
    char text[600];
    if (part->as_mass)
        type.dimension = dim_base(DIM_MASS);
    if (part->as_volume)
        type.dimension = dim_base_power(DIM_LENGTH, 3);
    if (part->as_mass || part->as_volume || !unit || !unit->per ||
        num_multiply(&scratch->heap, part->amount, unit->factor, &amount) != NUM_OK)
        return words_of(&explaining->words, &value, type, false);
    const char *name = unit->per;
    for (size_t i = 0; i < sizeof smaller_units / sizeof *smaller_units; i++) {
        if (strcmp(name, smaller_units[i].unit) != 0 || num_compare(amount, num_whole(1)) >= 0)
            continue;
        struct num more;
        if (num_multiply(&scratch->heap, amount, num_whole(smaller_units[i].times), &more) !=
            NUM_OK)
            continue;
        amount = more;
        name = smaller_units[i].smaller;
        break;
    }
    num_write_short(amount, 4, '.', text, sizeof text);
    return arena_print(&explaining->explanation->arena, "%s %s", text, name);
}

static void explain_part(struct explaining *explaining, groat_part kind, const struct part *part,
                         uint32_t step, unsigned depth)
{
    groat_scratch *scratch = explaining->scratch;
    const struct rate_code *material = &scratch->core->program->rates[part->material];
    const struct symbol *symbol = material->symbol;
    struct type money = {TYPE_NUMBER, dim_base(DIM_MONEY)};
    struct value worth = evaluate_part(&scratch->evaluation, part, step);
    struct span span = symbol->statement->name.span;
    const char *price =
        words_of_symbol(&explaining->words, symbol, &scratch->values[material->step]);
    const char *more = ""; /* on the price */
    if (part->as_mass || part->as_volume)
        more = arena_print(&explaining->explanation->arena, ", weighing %s",
                           words_written(&explaining->words, symbol->statement->other));
    if (is_range(explaining, symbol))
        more = arena_print(&explaining->explanation->arena, "%s, %s", more,
                           explain_likely(explaining, symbol));
    groat_line line = {.part = kind,
                       .name = symbol->name,
                       .worked = arena_print(&explaining->explanation->arena, "%s at %s%s",
                                             amount_of(explaining, part), price, more),
                       .amount = words_of(&explaining->words, &worth, money, false),
                       .file = span.source->name,
                       .line = span_place(span).line,
                       .depth = depth};
    groat_line *added = explain_add(explaining, &explaining->explanation->lines, line);
    added->value = explain_kept(explaining, worth, money);
    added->unit = unit_for(explaining->scratch->core, money, false, NULL);
}

void explain_parts(struct explaining *explaining, groat_part kind,
                   const struct expression *expression, unsigned depth)
{
    const groat_scratch *scratch = explaining->scratch;
    const struct program *program = scratch->core->program;
    const struct leaf *leaf = leaf_find(program, expression, scratch->channel->context);
    if (!leaf)
        leaf = leaf_find(program, expression, scratch->channel->price_context);
    const struct step *worth = leaf ? &program->steps[leaf->step] : NULL;
    if (!worth || worth->operation != OP_WORTH || scratch->values[worth->a].state != VALUE_THERE)
        return;
    const struct parts *parts = scratch->values[worth->a].parts;
    for (size_t i = 0; i < parts->count; i++)
        explain_part(explaining, kind, &parts->items[i], leaf->step, depth);
}

/* ---- ranges ---- */

/* A field or rate that counts as the likely one of a range. */
static void explain_range(struct explaining *explaining, const struct symbol *symbol)
{
    struct lines *lines = &explaining->explanation->lines;
    size_t before = lines->count;
    explain_symbol(explaining, GROAT_PART_DETAIL, symbol, 1);
    if (lines->count > before && !lines->items[before].worked)
        lines->count = before;
}

/* ---- the walk through an expression ---- */

static void walk(struct explaining *explaining, const struct expression *expression,
                 const struct tree_word *parameters, unsigned depth);

static void walk_symbol(struct explaining *explaining, const struct symbol *symbol, unsigned depth)
{
    const struct statement *statement = symbol->statement;
    if (explaining->detailed[symbol->number])
        return;
    explaining->detailed[symbol->number] = true;
    switch (symbol->kind) {
    case SYMBOL_FIELD:
        if (is_range(explaining, symbol))
            explain_range(explaining, symbol);
        break;
    case SYMBOL_RATE:
    case SYMBOL_MATERIAL:
        if (is_range(explaining, symbol))
            explain_range(explaining, symbol);
        else
            walk(explaining, statement->value, NULL, depth + 1);
        break;
    case SYMBOL_LET:
    case SYMBOL_FUNCTION: walk(explaining, statement->value, statement->words, depth + 1); break;
    case SYMBOL_TABLE:
        for (const struct expression *key = statement->keys; key; key = key->next)
            walk(explaining, key, NULL, depth + 1);
        break;
    default: break; /* it has a line of its own */
    }
}

static void walk(struct explaining *explaining, const struct expression *expression,
                 const struct tree_word *parameters, unsigned depth)
{
    if (!expression || depth > DEPTH_MOST)
        return;
    const struct shop *shop = &explaining->scratch->core->shop;
    const struct symbol *symbol = NULL;
    enum expression_kind kind = expression->kind;
    bool hidden = false;
    for (const struct tree_word *each = parameters; each && kind == EXPRESSION_NAME;
         each = each->next)
        hidden = hidden || strcmp(each->word.text, expression->name.text) == 0;
    if (!hidden && (kind == EXPRESSION_NAME || kind == EXPRESSION_CALL || kind == EXPRESSION_WORTH))
        symbol = shop_find(shop, (unsigned)(explaining->channel - shop->channels),
                           expression->name.text);
    if (symbol && kind != EXPRESSION_WORTH) {
        walk_symbol(explaining, symbol, depth);
    } else if (symbol && !explaining->detailed[symbol->number]) {
        explaining->detailed[symbol->number] = true;
        explain_parts(explaining, GROAT_PART_DETAIL, expression, 1);
    }
    walk(explaining, expression->left, parameters, depth);
    walk(explaining, expression->right, parameters, depth);
    walk(explaining, expression->third, parameters, depth);
    for (const struct expression *each = expression->arguments; each; each = each->next)
        walk(explaining, each, parameters, depth);
}

void explain_details(struct explaining *explaining, const struct expression *expression)
{
    if (explaining->detailed)
        walk(explaining, expression, NULL, 0);
}
