/* Types by themselves, and the checks that a value is of the one that is wanted. */
#include <assert.h>
#include <stdarg.h>
#include <string.h>

#include "text/near.h"
#include "types/check.h"
#include "types/propose.h"

struct typed typed_wrong(void)
{
    return (struct typed){{TYPE_WRONG, dim_none()}, LEVEL_RECORD};
}

struct typed check_refuse(struct check *check, struct span span, const char *help,
                          const char *format, ...)
{
    va_list given;
    va_start(given, format);
    diagnostics_error_given(check->shop->diagnostics, TROUBLE_FORM, span, help, format, given);
    va_end(given);
    return typed_wrong();
}

struct typed typed_kind(enum type_kind kind, enum level level)
{
    return (struct typed){{kind, dim_none()}, level};
}

struct typed typed_number(struct dimension dimension, enum level level)
{
    return (struct typed){{TYPE_NUMBER, dimension}, level};
}

bool type_equal(struct type a, struct type b)
{
    return a.kind == b.kind && (a.kind != TYPE_NUMBER || dim_equal(a.dimension, b.dimension));
}

const char *type_words(struct check *check, struct type type)
{
    char words[200];
    switch (type.kind) {
    case TYPE_NUMBER:
        dim_describe(type.dimension, check->shop->dimension_names, check->shop->dimensions_declared,
                     words, sizeof words);
        return arena_text(check->shop->arena, words, strlen(words));
    case TYPE_FLAG: return "yes or no";
    case TYPE_TEXT: return "a text";
    case TYPE_DATE: return "a date";
    case TYPE_PARTS: return "a list of parts";
    case TYPE_WRONG: break;
    }
    return "in error";
}

const char *expression_words(struct check *check, const struct expression *expression)
{
    int length = span_length(expression->span);
    const char *text = span_text(expression->span);
    if (length > 40 || memchr(text, '\n', (size_t)length))
        return "this";
    return arena_text(check->shop->arena, text, (size_t)length);
}

/* `timber (2 + 3)`, where an operator may be missing. */
const char *propose_product(struct check *check, const struct expression *call)
{
    struct span rest = call->span;
    rest.start = call->name.span.end;
    int length = span_length(rest);
    const char *text = span_text(rest);
    while (length > 0 && *text == ' ') {
        text++;
        length--;
    }
    if (length > 60 || memchr(text, '\n', (size_t)length))
        return NULL;
    return arena_print(check->shop->arena, "%s * %.*s", call->name.text, length, text);
}

const char *propose_limit(struct check *check, const struct expression *call)
{
    const struct expression *first = call->arguments, *second = first ? first->next : NULL;
    bool most = strcmp(call->name.text, "max") == 0;
    if ((!most && strcmp(call->name.text, "min") != 0) || !second || second->next)
        return NULL;
    const char *limit = most ? "at least" : "at most";
    const char *words = expression_words(check, first), *others = expression_words(check, second);
    if (strcmp(words, "this") == 0 || strcmp(others, "this") == 0)
        return arena_print(check->shop->arena, "a %s b", limit);
    enum expression_kind kind = second->kind; /* a sum on the right needs parentheses */
    bool sum = kind == EXPRESSION_ADD || kind == EXPRESSION_SUBTRACT || kind == EXPRESSION_AS ||
               kind > EXPRESSION_OTHERWISE;
    bool loose = first->kind > EXPRESSION_AT_MOST;
    return arena_print(check->shop->arena, "%s%s%s %s %s%s%s", loose ? "(" : "", words,
                       loose ? ")" : "", limit, sum ? "(" : "", others, sum ? ")" : "");
}

/* ---- what is wanted ---- */

/* A field, or for a field a rate, that would turn the value into what is wanted. */
const char *factor_for(struct check *check, const struct expression *expression,
                       struct dimension has, struct type wanted)
{
    struct dimension missing;
    if (wanted.kind != TYPE_NUMBER || expression->kind != EXPRESSION_NAME || dim_is_none(has) ||
        !dim_divide(wanted.dimension, has, &missing) || dim_is_none(missing))
        return NULL;
    for (size_t i = 0; i < check->shop->fields.count; i++) {
        struct symbol *field = check->shop->fields.items[i];
        if (field->typing == TYPING_DONE && field->type.kind == TYPE_NUMBER &&
            dim_equal(field->type.dimension, missing))
            return arena_print(check->shop->arena, "%s * %s", field->name, expression->name.text);
    }
    for (size_t i = 0; i < check->shop->rates.count; i++) {
        struct symbol *rate = check->shop->rates.items[i];
        if (rate->kind == SYMBOL_RATE && rate->typing == TYPING_DONE &&
            rate->type.kind == TYPE_NUMBER && dim_equal(rate->type.dimension, missing))
            return arena_print(check->shop->arena, "%s * %s", expression->name.text, rate->name);
    }
    return NULL;
}

bool check_same(struct check *check, const struct expression *expression, struct typed typed,
                struct type wanted)
{
    const char *help = NULL;
    if (typed.type.kind == TYPE_NUMBER)
        help = factor_for(check, expression, typed.type.dimension, wanted);
    if (expression->kind == EXPRESSION_NUMBER)
        help = propose_amount(check->shop, expression->name.text, wanted);
    return check_same_or(check, expression, typed, wanted, help);
}

bool check_same_or(struct check *check, const struct expression *expression, struct typed typed,
                   struct type wanted, const char *help)
{
    if (typed.type.kind == TYPE_WRONG || wanted.kind == TYPE_WRONG ||
        type_equal(typed.type, wanted))
        return true;
    check_refuse(check, expression->span, help, "%s is %s; this needs %s",
                 expression_words(check, expression), type_words(check, typed.type),
                 type_words(check, wanted));
    return false;
}

bool check_plain(struct check *check, const struct expression *expression, struct typed typed)
{
    return check_same(check, expression, typed, typed_number(dim_none(), LEVEL_RECORD).type);
}

bool check_money(struct check *check, const struct expression *expression, struct typed typed)
{
    return check_same(check, expression, typed,
                      typed_number(dim_base(DIM_MONEY), LEVEL_RECORD).type);
}

bool check_flag(struct check *check, const struct expression *expression, struct typed typed)
{
    if (typed.type.kind == TYPE_WRONG || typed.type.kind == TYPE_FLAG)
        return true;
    const char *help = NULL;
    if (expression->kind == EXPRESSION_AT_LEAST || expression->kind == EXPRESSION_AT_MOST)
        help =
            arena_print(check->shop->arena, "%s %s %s", expression_words(check, expression->left),
                        expression->kind == EXPRESSION_AT_LEAST ? ">=" : "<=",
                        expression_words(check, expression->right));
    check_refuse(check, expression->span, help,
                 "%s is %s; this needs a condition, which is yes or no",
                 expression_words(check, expression), type_words(check, typed.type));
    return false;
}

void check_level(struct check *check, const struct expression *expression, struct typed typed,
                 enum level most, const char *what, const char *help)
{
    if (typed.type.kind == TYPE_WRONG || typed.level <= most)
        return;
    static const char *const names[] = {
        [LEVEL_RECORD] = "the product",   [LEVEL_COST] = "the cost",
        [LEVEL_LIST] = "the list price",  [LEVEL_PRICE] = "the price",
        [LEVEL_EXTRAS] = "the extras",    [LEVEL_TAX] = "the tax",
        [LEVEL_NET] = "the amount paid",  [LEVEL_FEES] = "the fees",
        [LEVEL_KEEP] = "the amount kept", [LEVEL_ALL] = "the profit"};
    assert(typed.level <= LEVEL_ALL && names[typed.level]);
    check_refuse(check, expression->span, help,
                 "%s may not depend on %s, which the engine finds later", what, names[typed.level]);
    diagnostics_help_is(check->shop->diagnostics, HELP_ADVICE);
}

struct typed report_no_channel(struct check *check, struct word name, bool quoted)
{
    if (!check->whole)
        return typed_wrong(); /* it may be one that could not be read */
    struct near near = near_to(name.text, strlen(name.text));
    for (size_t i = 0; i < check->shop->channels_count; i++)
        near_offer(&near, check->shop->channels[i].name);
    const char *help =
        near.best && quoted ? arena_print(check->shop->arena, "\"%s\"", near.best) : near.best;
    return check_refuse(check, name.span, help, "there is no channel %s", name.text);
}
