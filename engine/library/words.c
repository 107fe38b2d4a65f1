#include "library/words.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "types/literal.h"

/* ---- values ---- */

static const char *amount_words(const struct words *words, struct num number, struct type type,
                                const struct familiar_unit *unit)
{
    const struct core *core = words->core;
    char text[600];
    if (dim_is_money(type.dimension)) {
        money_write_places(&core->shop, number, (unsigned)core->shop.decimals + words->finer, text,
                           sizeof text);
        return arena_text(words->arena, text, strlen(text));
    }
    if (!unit)
        unit = familiar_for(core->program, type.dimension);
    if (unit && num_divide(words->heap, number, unit->factor, &number) != NUM_OK)
        return "";
    if (unit && unit->per)
        money_write(&core->shop, number, text, sizeof text);
    else
        num_write_short(number, 4, '.', text, sizeof text);
    return unit ? arena_print(words->arena, "%s %s", text, unit->text)
                : arena_text(words->arena, text, strlen(text));
}

static const char *percent_words(const struct words *words, struct num number)
{
    char text[600];
    if (num_multiply(words->heap, number, num_whole(100), &number) != NUM_OK)
        return "";
    num_write_short(number, words->percent_places + words->finer, '.', text, sizeof text);
    return arena_print(words->arena, "%s%%", text);
}

/* As the rules would write it: in quotes, and those inside it escaped. */
static const char *text_words(const struct words *words, const struct value *value)
{
    char *quoted = arena_take(words->arena, 2 * value->text.length + 3);
    size_t length = 0;
    if (!quoted)
        return NULL;
    quoted[length++] = '"';
    for (size_t i = 0; i < value->text.length; i++) {
        char letter = value->text.start[i];
        if (letter == '"' || letter == '\\')
            quoted[length++] = '\\';
        quoted[length++] = letter;
    }
    quoted[length] = '"';
    return quoted;
}

static const char *value_words(const struct words *words, const struct value *value,
                               struct type type, bool percent, const struct familiar_unit *unit)
{
    char date[32];
    int64_t days;
    if (value->state != VALUE_THERE)
        return value->state == VALUE_MISSING ? "missing" : "no value";
    switch (type.kind) {
    case TYPE_TEXT: return text_words(words, value);
    case TYPE_FLAG: return value_is_yes(*value) ? "yes" : "no";
    case TYPE_DATE:
        if (!num_to_int64(value->number, &days))
            return "";
        literal_write_date(days, date, sizeof date);
        return arena_text(words->arena, date, strlen(date));
    case TYPE_PARTS:
    case TYPE_WRONG: return "";
    case TYPE_NUMBER: break;
    }
    if (percent && dim_is_none(type.dimension))
        return percent_words(words, value->number);
    return amount_words(words, value->number, type, unit);
}

const char *words_of(const struct words *words, const struct value *value, struct type type,
                     bool percent)
{
    return value_words(words, value, type, percent, NULL);
}

bool words_says_itself(const struct expression *expression)
{
    return expression->kind <= EXPRESSION_NO ||
           ((expression->kind == EXPRESSION_PER || expression->kind == EXPRESSION_EACH) &&
            expression->left->kind <= EXPRESSION_NO);
}

bool words_is_replaced(const struct words *words, const struct symbol *symbol)
{
    const struct value *overrides = words->overrides;
    bool rate = symbol->kind == SYMBOL_RATE || symbol->kind == SYMBOL_MATERIAL;
    return rate && overrides && overrides[symbol->order].state == VALUE_THERE;
}

const char *words_of_symbol(const struct words *words, const struct symbol *symbol,
                            const struct value *value)
{
    bool rate = symbol->kind == SYMBOL_RATE || symbol->kind == SYMBOL_MATERIAL;
    if (rate && words_says_itself(symbol->statement->value) && !words_is_replaced(words, symbol))
        return words_written(words, symbol->statement->value);
    return value_words(words, value, symbol->type, symbol->percent, symbol->unit);
}

/* ---- expressions ---- */

/* A text being put together from pieces of the source. */
struct working {
    const struct words *words;
    uint32_t context;
    const char *text; /* so far */
    uint32_t at;      /* how far the source has been taken over */
};

/* Takes over the source up to an offset, white space and comments folded to one space. */
static void take_over(struct working *working, const struct source *source, uint32_t end)
{
    assert(working->at <= end && end <= source->length);
    const char *from = source->text + working->at, *to = source->text + end;
    char *piece = arena_take(working->words->arena, (size_t)(to - from) + 1);
    size_t length = 0;
    bool in_text = false;
    while (piece && from < to) {
        if (*from == '"')
            in_text = !in_text;
        if (*from == '\\' && in_text && from + 1 < to)
            piece[length++] = *from++; /* what it escapes is no quote */
        if (*from == '#' && !in_text) {
            while (from < to && *from != '\n')
                from++;
            continue;
        }
        bool space = !in_text && (*from == ' ' || *from == '\t' || *from == '\n' || *from == '\r');
        if (!space)
            piece[length++] = *from;
        else if (length == 0 || piece[length - 1] != ' ')
            piece[length++] = ' ';
        from++;
    }
    if (piece && working->text)
        working->text = arena_print(working->words->arena, "%s%s", working->text, piece);
    working->at = end;
}

/* Puts the value of each leaf below an expression in the place of its name, from left to right. */
static void put_values(struct working *working, const struct expression *expression)
{
    if (!expression)
        return;
    const struct program *program = working->words->core->program;
    const struct leaf *leaf = leaf_find(program, expression, working->context);
    if (!leaf) {
        put_values(working, expression->left);
        put_values(working, expression->right);
        put_values(working, expression->third);
        for (const struct expression *each = expression->arguments; each; each = each->next)
            put_values(working, each);
        return;
    }
    take_over(working, expression->span.source, expression->span.start);
    const struct value *value = &working->words->values[leaf->step];
    const char *words = leaf->symbol && expression->kind != EXPRESSION_WORTH
                            ? words_of_symbol(working->words, leaf->symbol, value)
                            : words_of(working->words, value, leaf->type, leaf->percent);
    if (working->text && words)
        working->text = arena_print(working->words->arena, "%s%s", working->text, words);
    working->at = expression->span.end;
}

const char *words_worked(const struct words *words, const struct expression *expression,
                         uint32_t context)
{
    struct working working = {words, context, "", expression->span.start};
    put_values(&working, expression);
    take_over(&working, expression->span.source, expression->span.end);
    return working.text;
}

const char *words_between(const struct words *words, struct span from, struct span to)
{
    struct working working = {words, 0, "", from.start};
    take_over(&working, from.source, to.end);
    return working.text;
}

const char *words_written(const struct words *words, const struct expression *expression)
{
    return words_between(words, expression->span, expression->span);
}
