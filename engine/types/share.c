#include "types/share.h"

#include <string.h>

/* The expression that gives a share its number: itself, or that of the rate it names. */
static const struct expression *written_at(const struct check *check,
                                           const struct expression *share)
{
    while (share->kind == EXPRESSION_GROUP)
        share = share->left;
    if (share->kind != EXPRESSION_NAME)
        return share;
    for (const struct parameter *each = check->parameters; each; each = each->next)
        if (strcmp(each->name, share->name.text) == 0)
            return share;
    const struct symbol *symbol = shop_find(check->shop, NO_CHANNEL, share->name.text);
    return symbol && symbol->kind == SYMBOL_RATE ? symbol->statement->value : share;
}

/* The plain number that it is written as. */
static bool plain_literal(struct check *check, const struct expression *written, struct num *out)
{
    struct literal literal;
    bool plain = written->kind == EXPRESSION_NUMBER || written->kind == EXPRESSION_PERCENT;
    if (!plain || literal_read(check->scope, written, &literal) != LITERAL_READ)
        return false;
    *out = literal.number;
    return true;
}

/* `35` where `35%` may be meant. */
static const char *as_percent(struct check *check, const struct expression *written)
{
    return written->kind == EXPRESSION_NUMBER
               ? arena_print(check->shop->arena, "%s%%", written->name.text)
               : NULL;
}

void share_warn_of_markup(struct check *check, const struct expression *rate)
{
    const struct expression *written = written_at(check, rate);
    struct num number;
    if (plain_literal(check, written, &number) && num_compare(number, num_whole(10)) >= 0)
        diagnostics_warning(check->shop->diagnostics, written->span, as_percent(check, written),
                            "this markup is ten times the amount that it is added to, or more");
}

void share_warn_of_margin(struct check *check, const struct expression *name,
                          const struct expression *number)
{
    const struct expression *written = written_at(check, number);
    struct num value;
    if (name->kind == EXPRESSION_NAME && strcmp(name->name.text, "margin") == 0 &&
        plain_literal(check, written, &value) && num_compare(value, num_whole(1)) > 0)
        diagnostics_warning(check->shop->diagnostics, written->span, as_percent(check, written),
                            "a margin is a share of the price and can never be above 100%%");
}

void share_warn_of_whole(struct check *check, const struct expression *share)
{
    const struct expression *written = written_at(check, share);
    struct num number;
    if (written->kind == EXPRESSION_NUMBER && plain_literal(check, written, &number) &&
        num_compare(number, num_whole(1)) >= 0)
        diagnostics_warning(check->shop->diagnostics, written->span, as_percent(check, written),
                            "this share is 100%% or more; is a %% sign missing?");
}

void share_check(struct check *check, const struct expression *rate, const char *word)
{
    const struct expression *written = written_at(check, rate);
    struct num number;
    if (!plain_literal(check, written, &number) || num_compare(number, num_whole(1)) < 0)
        return;
    const char *help = num_compare(number, num_whole(100)) < 0 ? as_percent(check, written) : NULL;
    if (rate->kind != EXPRESSION_NAME || written == rate)
        check_refuse(check, rate->span, help, "%s needs a share below 100%%", word);
    else
        check_refuse(check, written->span, help, "%s %s needs a share below 100%%", word,
                     rate->name.text);
}

void share_check_discount(struct check *check, const struct expression *discount)
{
    const struct symbol *symbol = NULL;
    while (discount->kind == EXPRESSION_GROUP)
        discount = discount->left;
    if (discount->kind == EXPRESSION_IF) {
        share_check_discount(check, discount->right);
        share_check_discount(check, discount->third);
        return;
    }
    if (discount->kind == EXPRESSION_NAME || discount->kind == EXPRESSION_CALL)
        symbol = shop_find(check->shop, check->channel, discount->name.text);
    if (!symbol || symbol->kind != SYMBOL_TABLE || symbol->statement->sliced) {
        share_check(check, discount, "discount");
        return;
    }
    for (const struct statement *row = symbol->statement->parts; row; row = row->next)
        share_check(check, row->value, "discount");
}
