/* What stands below a line of a whole account: the parts of a `worth of`, and values that are one
 * of a range. */
#include <string.h>

#include "explain/explain.h"

static bool is_range(const struct explaining *explaining, const struct symbol *symbol)
{
    const groat_record *record = explaining->scratch->record;
    if (symbol->kind == SYMBOL_FIELD)
        return record && groat_record_range(record, symbol->order, NULL);
    return symbol->statement->value && symbol->statement->value->kind == EXPRESSION_RANGE &&
           !words_is_replaced(&explaining->words, symbol);
}

/* ---- parts ---- */

/* Units with their thousandths, in which less than one of them is easier to read. */
static const char *const thousandths[][2] = {{"l", "ml"}, {"kg", "g"}, {"m", "mm"}};

/* An amount in the unit that its material is bought by: `2.4 bf`, `25 ml`, `8`. */
static const char *amount_of(struct explaining *explaining, const struct part *part)
{
    groat_scratch *scratch = explaining->scratch;
    const struct rate_code *material = &scratch->core->program->rates[part->material];
    const struct familiar_unit *unit = material->symbol->unit;
    struct value value = value_number(part->amount);
    struct type type = {TYPE_NUMBER, material->per};
    struct num amount, more;
    char text[600];
    if (part->as_mass)
        type.dimension = dim_base(DIM_MASS);
    if (part->as_volume)
        type.dimension = dim_base_power(DIM_LENGTH, 3);
    if (part->as_mass || part->as_volume || !unit || !unit->per ||
        num_multiply(&scratch->heap, part->amount, unit->factor, &amount) != NUM_OK)
        return words_of(&explaining->words, &value, type, false);
    const char *name = unit->per;
    for (size_t i = 0; i < sizeof thousandths / sizeof *thousandths; i++) {
        if (strcmp(unit->per, thousandths[i][0]) == 0 && num_compare(amount, num_whole(1)) < 0 &&
            num_multiply(&scratch->heap, amount, num_whole(1000), &more) == NUM_OK) {
            amount = more;
            name = thousandths[i][1];
        }
    }
    num_write_short(amount, 4, '.', text, sizeof text);
    return arena_print(explaining->words.arena, "%s %s", text, name);
}

static void explain_part(struct explaining *explaining, groat_part kind, const struct part *part,
                         uint32_t step, unsigned depth)
{
    groat_scratch *scratch = explaining->scratch;
    struct words *words = &explaining->words;
    const struct rate_code *material = &scratch->core->program->rates[part->material];
    const struct symbol *symbol = material->symbol;
    const struct type money = {TYPE_NUMBER, dim_base(DIM_MONEY)};
    struct value *worth = arena_take(words->arena, sizeof *worth); /* the value of no step */
    groat_line line = explain_line(kind, symbol->name, symbol->statement->name.span, depth);
    const char *more = ""; /* on the price */
    if (part->as_mass || part->as_volume)
        more = arena_print(words->arena, ", weighing %s",
                           words_written(words, symbol->statement->other));
    if (is_range(explaining, symbol))
        more = arena_print(words->arena, "%s, %s", more, explain_likely(explaining, symbol));
    line.worked =
        arena_print(words->arena, "%s at %s%s", amount_of(explaining, part),
                    words_of_symbol(words, symbol, &scratch->values[material->step]), more);
    *worth = evaluate_part(&scratch->evaluation, part, step);
    explain_value(explaining, &line, worth, money, false);
    explain_add(explaining, &explaining->explanation->lines, line);
}

void explain_parts(struct explaining *explaining, groat_part kind,
                   const struct expression *expression, unsigned depth)
{
    const groat_scratch *scratch = explaining->scratch;
    const struct program *program = scratch->core->program;
    const struct leaf *leaf = explain_leaf(explaining, expression);
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
    groat_line *line = explain_symbol(explaining, GROAT_PART_DETAIL, symbol, 1);
    if (line && !line->worked)
        explaining->explanation->lines.count--;
}

/* ---- looks across ---- */

/* A look across is a choice by whether the other channel sells one piece. Where that is another
 * step than for the order's own quantity, the number of pieces decides. */
static const char *silence_of(const struct explaining *explaining, const struct expression *look)
{
    const struct program *program = explaining->words.core->program;
    const struct leaf *leaf = explain_leaf(explaining, look);
    const struct step *step = leaf ? &program->steps[leaf->step] : NULL;
    if (!step || step->operation != OP_SELECT || value_is_yes(explaining->scratch->values[step->a]))
        return NULL;
    unsigned channel = shop_channel(&explaining->words.core->shop, look->channel.text);
    return arena_print(explaining->words.arena, "%s does not sell %s", look->channel.text,
                       step->a == program->channels[channel].sold ? "this product" : "one");
}

static void visit_silent(struct explaining *explaining, const struct expression *name,
                         unsigned depth)
{
    const struct symbol *symbol = explain_find(explaining, name->name.text);
    if (explaining->silent)
        return;
    if (name->kind == EXPRESSION_ON)
        explaining->silent = silence_of(explaining, name);
    else if (symbol && symbol->kind == SYMBOL_LET)
        explain_names(explaining, symbol->statement->value, NULL, depth + 1, visit_silent);
}

const char *explain_silence(struct explaining *explaining, const struct expression *expression)
{
    explaining->silent = NULL;
    explain_names(explaining, expression, NULL, 0, visit_silent);
    return explaining->silent;
}

/* Where another value takes its place, it is said of the look itself. */
static void explain_look(struct explaining *explaining, const struct expression *look)
{
    const char *silence = silence_of(explaining, look);
    if (!silence)
        return;
    struct arena *arena = explaining->words.arena;
    const char *name = arena_print(arena, "%s on %s", look->name.text, look->channel.text);
    groat_line line = explain_line(GROAT_PART_DETAIL, name, look->span, 1);
    line.amount = "none";
    line.worked = arena_print(arena, "because %s", silence);
    explain_add(explaining, &explaining->explanation->lines, line);
}

static void visit(struct explaining *explaining, const struct expression *name, unsigned depth)
{
    const struct symbol *symbol = explain_find(explaining, name->name.text);
    if (name->kind == EXPRESSION_ON)
        explain_look(explaining, name);
    if (name->kind == EXPRESSION_ON || !symbol || explaining->told[symbol->number])
        return;
    const struct statement *statement = symbol->statement;
    explaining->told[symbol->number] = true;
    if (name->kind == EXPRESSION_WORTH)
        explain_parts(explaining, GROAT_PART_DETAIL, name, 1);
    else if (is_range(explaining, symbol))
        explain_range(explaining, symbol);
    else if (symbol->kind == SYMBOL_TABLE)
        for (const struct expression *key = statement->keys; key; key = key->next)
            explain_names(explaining, key, NULL, depth + 1, visit);
    else if (symbol->kind == SYMBOL_RATE || symbol->kind == SYMBOL_MATERIAL ||
             symbol->kind == SYMBOL_LET || symbol->kind == SYMBOL_FUNCTION)
        explain_names(explaining, statement->value, statement->words, depth + 1, visit);
}

void explain_details(struct explaining *explaining, const struct expression *expression)
{
    explain_names(explaining, expression, NULL, 0, visit);
}
