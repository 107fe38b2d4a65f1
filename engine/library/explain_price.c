/* Why the price is what it is, and why not a coin less; and where one figure comes from. */
#include <string.h>

#include "library/explain.h"

/* ---- the price block ---- */

static groat_line rule_line(struct explaining *explaining, const struct statement *statement)
{
    return (groat_line){
        .part = GROAT_PART_RULE,
        .name = statement_word(statement->kind),
        .amount = "",
        .value = {.presence = GROAT_MISSING},
        .file = statement->span.source->name,
        .line = span_place(statement->span).line,
        .written = statement->value ? words_written(&explaining->words, statement->value) : "none"};
}

/* A line whose value is an amount or a share: what it says, and what that comes to. */
static void explain_bound(struct explaining *explaining, const struct statement *statement,
                          uint32_t step, uint32_t context, bool percent)
{
    if (!statement || !statement->value || step == NO_STEP)
        return;
    groat_line line = rule_line(explaining, statement);
    struct type type = {TYPE_NUMBER, percent ? dim_none() : dim_base(DIM_MONEY)};
    const struct value *value = &explaining->scratch->values[step];
    line.worked = words_worked(&explaining->words, statement->value, context);
    line.amount = words_of(&explaining->words, value, type, percent);
    explain_add(explaining, &explaining->explanation->lines, line);
}

static void explain_round(struct explaining *explaining)
{
    const struct statement *round = explaining->channel->price.round;
    if (!round)
        return;
    static const char *const words[] = {[ROUNDING_PLAIN] = "to",
                                        [ROUNDING_UP] = "up to",
                                        [ROUNDING_DOWN] = "down to",
                                        [ROUNDING_NEAREST] = "nearest to",
                                        [ROUNDING_EVEN] = "even to"};
    groat_line line = rule_line(explaining, round);
    line.written =
        arena_print(&explaining->explanation->arena, "%s %s", words[round->rounding], line.written);
    explain_add(explaining, &explaining->explanation->lines, line);
}

/* Works out the aim at a price, with everything that its words read. */
static bool try_price(struct explaining *explaining, const struct member_code *member,
                      int64_t price)
{
    struct evaluation *e = &explaining->scratch->evaluation;
    struct num money;
    if (num_multiply(e->heap, num_whole(price), e->program->shop->smallest, &money) != NUM_OK)
        return false;
    e->values[member->trial] = value_number(money);
    evaluate_list(e, member->told, member->told_count);
    return true;
}

static void explain_aim(struct explaining *explaining, const struct member_code *member,
                        int64_t price)
{
    const struct statement *aim = explaining->channel->price.aim;
    if (!aim || !try_price(explaining, member, price))
        return;
    groat_line line = rule_line(explaining, aim);
    line.worked = words_worked(&explaining->words, aim->value, member->context);
    struct type flag = {.kind = TYPE_FLAG};
    line.amount =
        words_of(&explaining->words, &explaining->scratch->values[member->aim], flag, false);
    explain_add(explaining, &explaining->explanation->lines, line);
}

/* ---- why not a coin less ---- */

static void explain_misses(struct explaining *explaining, const struct member_code *member)
{
    struct words fine = explaining->words;
    fine.percent_places = 4;
    for (size_t i = 0; i < member->parts_count; i++) {
        const struct aim_part *part = &member->parts[i];
        const struct value *answer = &explaining->scratch->values[part->step];
        if (value_is_yes(*answer))
            continue;
        struct span span = part->expression->span;
        groat_line line = {.part = GROAT_PART_RULE,
                           .name = "aim",
                           .written = words_written(&fine, part->expression),
                           .worked = words_worked(&fine, part->expression, member->context),
                           .amount = "no",
                           .value = {.presence = GROAT_MISSING},
                           .file = span.source->name,
                           .line = span_place(span).line};
        explain_add(explaining, &explaining->explanation->misses, line);
    }
    explaining->explanation->below.misses = explaining->explanation->misses.count;
}

static bool floor_is_above(const struct explaining *explaining, const struct member_code *member,
                           int64_t price)
{
    struct evaluation *e = &explaining->scratch->evaluation;
    struct num money;
    if (member->floor == NO_STEP || e->values[member->floor].state != VALUE_THERE ||
        num_multiply(e->heap, num_whole(price), e->program->shop->smallest, &money) != NUM_OK)
        return false;
    return num_compare(money, e->values[member->floor].number) < 0;
}

static void explain_below(struct explaining *explaining, const struct member_code *member,
                          int64_t price)
{
    groat_scratch *scratch = explaining->scratch;
    const struct search_code *search = &scratch->core->program->searches[scratch->channel->search];
    const struct ladder *ladder = &scratch->evaluation.settled->ladders[search->ladder];
    int64_t lower;
    if (price <= 1 || !ladder_previous(ladder, price - 1, &lower) ||
        !try_price(explaining, member, lower))
        return;
    struct value money = scratch->values[member->trial];
    struct type type = {TYPE_NUMBER, dim_base(DIM_MONEY)};
    groat_below *below = &explaining->explanation->below;
    below->exists = true;
    below->price = words_of(&explaining->words, &money, type, false);
    below->at_floor = floor_is_above(explaining, member, lower);
    if (!below->at_floor)
        explain_misses(explaining, member);
}

void explain_price(struct explaining *explaining)
{
    groat_scratch *scratch = explaining->scratch;
    const struct channel_code *channel = scratch->channel;
    const struct price_lines *lines = &explaining->channel->price;
    const struct member_code *member = price_member(scratch);
    const struct finding *finding = &scratch->evaluation.findings[channel->search];
    bool pinned = channel->pin != NO_STEP && scratch->values[channel->pin].state == VALUE_THERE;
    if (finding->found)
        explain_aim(explaining, member, finding->wanted);
    explain_bound(explaining, lines->set, member->set, channel->price_context, false);
    explain_bound(explaining, lines->floor, member->floor, channel->price_context, false);
    explain_bound(explaining, lines->ceiling, member->ceiling, channel->price_context, false);
    explain_bound(explaining, lines->pin, channel->pin, channel->price_context, false);
    explain_bound(explaining, lines->discount, channel->discount, channel->context, true);
    explain_round(explaining);
    if (lines->aim && finding->found && !finding->held && !pinned)
        explain_below(explaining, member, finding->wanted);
}

/* ---- one name ---- */

enum { DEPTH_MOST = 12 };

static bool is_told(const struct explaining *explaining, const char *name)
{
    const struct lines *lines = &explaining->explanation->lines;
    for (size_t i = 0; i < lines->count; i++)
        if (strcmp(lines->items[i].name, name) == 0)
            return true;
    return false;
}

static void explain_named(struct explaining *explaining, const char *name, unsigned depth);

/* The names in an expression, from left to right. */
static void explain_within(struct explaining *explaining, const struct expression *expression,
                           unsigned depth)
{
    if (!expression)
        return;
    bool name = expression->kind == EXPRESSION_NAME || expression->kind == EXPRESSION_CALL ||
                expression->kind == EXPRESSION_WORTH;
    if (name)
        explain_named(explaining, expression->name.text, depth);
    explain_within(explaining, expression->left, depth);
    explain_within(explaining, expression->right, depth);
    explain_within(explaining, expression->third, depth);
    for (const struct expression *each = expression->arguments; each; each = each->next)
        explain_within(explaining, each, depth);
}

/* What the engine's sums are made of. */
static void explain_sum(struct explaining *explaining, enum figure figure, unsigned depth)
{
    static const enum figure parts[FIGURES][3] = {
        [FIGURE_PRICE] = {FIGURE_LIST},
        [FIGURE_PAID] = {FIGURE_PRICE, FIGURE_EXTRAS, FIGURE_TAX},
        [FIGURE_NET] = {FIGURE_PRICE, FIGURE_EXTRAS, FIGURE_TAX},
        [FIGURE_KEEP] = {FIGURE_NET, FIGURE_FEES},
        [FIGURE_PROFIT] = {FIGURE_KEEP, FIGURE_COST},
        [FIGURE_MARGIN] = {FIGURE_PROFIT, FIGURE_NET},
        [FIGURE_TAKE_HOME] = {FIGURE_PROFIT, FIGURE_PAY}};
    const struct symbol_set *set = figure == FIGURE_COST || figure == FIGURE_PAY
                                       ? &explaining->channel->costs
                                   : figure == FIGURE_FEES   ? &explaining->channel->fees
                                   : figure == FIGURE_EXTRAS ? &explaining->channel->extras
                                                             : NULL;
    for (size_t i = 0; set && i < set->count; i++)
        if (figure != FIGURE_PAY || set->items[i]->kind == SYMBOL_PAY)
            explain_named(explaining, set->items[i]->name, depth);
    bool taxed = explaining->channel->tax != NULL;
    for (int i = 0; i < 3 && parts[figure][i] != FIGURE_QUANTITY; i++)
        if (parts[figure][i] != FIGURE_TAX || taxed)
            explain_named(explaining, figure_name(parts[figure][i]), depth);
}

static void explain_named(struct explaining *explaining, const char *name, unsigned depth)
{
    enum figure figure = figure_find(name);
    if (depth > DEPTH_MOST || is_told(explaining, name))
        return;
    if (figure >= FIGURE_COST && figure < FIGURES) {
        explain_figure(explaining, GROAT_PART_NAME, figure, depth);
        explain_sum(explaining, figure, depth + 1);
        return;
    }
    const struct symbol *symbol =
        shop_find(&explaining->scratch->core->shop,
                  (unsigned)(explaining->channel - explaining->scratch->core->shop.channels), name);
    if (!symbol)
        return;
    explain_symbol(explaining, GROAT_PART_NAME, symbol, depth);
    if (symbol->kind != SYMBOL_FIELD)
        explain_within(explaining, symbol->statement->value, depth + 1);
}

void explain_name(struct explaining *explaining, const char *name)
{
    explain_named(explaining, name, 0);
}
