/* Why the price is what it is, and why not a coin less. */
#include <string.h>

#include "explain/explain.h"

/* ---- the price block ---- */

static groat_line rule_line(struct explaining *explaining, const struct statement *statement)
{
    groat_line line =
        explain_line(GROAT_PART_RULE, statement_word(statement->kind), statement->span, 0);
    line.written = statement->value ? words_written(&explaining->words, statement->value) : "none";
    return line;
}

/* A line whose value is an amount or a share: what it says, and what that comes to. */
static groat_line bound_line(struct explaining *explaining, const struct statement *statement,
                             uint32_t step, uint32_t context, bool percent)
{
    groat_line line = rule_line(explaining, statement);
    struct type type = {TYPE_NUMBER, percent ? dim_none() : dim_base(DIM_MONEY)};
    explain_value(explaining, &line, &explaining->scratch->values[step], type, percent);
    line.worked = words_worked(&explaining->words, statement->value, context);
    return line;
}

static void explain_bound(struct explaining *explaining, const struct statement *statement,
                          uint32_t step, uint32_t context, bool percent)
{
    if (!statement || !statement->value || step == NO_STEP)
        return;
    groat_line line = bound_line(explaining, statement, step, context, percent);
    const char *silence = explaining->scratch->values[step].state == VALUE_MISSING
                              ? explain_silence(explaining, statement->value)
                              : NULL;
    if (silence) {
        line.amount = "none";
        line.worked = arena_print(explaining->words.arena, "because %s", silence);
    }
    explain_add(explaining, &explaining->explanation->lines, line);
    if (!silence)
        explain_details(explaining, statement->value);
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
        arena_print(explaining->words.arena, "%s %s", words[round->rounding], line.written);
    explain_add(explaining, &explaining->explanation->lines, line);
}

/* Works out a channel's aim at a list price, with everything that its words read. */
static void try_price(struct explaining *explaining, const struct member_code *member,
                      struct value price)
{
    struct evaluation *e = &explaining->scratch->evaluation;
    e->values[member->trial] = price;
    evaluate_list(e, member->told, member->told_count);
}

/* The aim at the price there is, whether or not it holds there. */
static void explain_aim(struct explaining *explaining, const struct member_code *member)
{
    const groat_scratch *scratch = explaining->scratch;
    const struct statement *aim = explaining->channel->price.aim;
    struct value list = scratch->values[scratch->channel->figures[FIGURE_LIST]];
    if (!aim)
        return;
    groat_line line = rule_line(explaining, aim);
    if (list.state == VALUE_THERE) {
        static const struct type flag = {.kind = TYPE_FLAG};
        try_price(explaining, member, list);
        line.worked = words_worked(&explaining->words, aim->value, member->context);
        line.amount = words_of(&explaining->words, &scratch->values[member->aim], flag, false);
    }
    explain_add(explaining, &explaining->explanation->lines, line);
    explain_details(explaining, aim->value);
}

/* ---- why not a coin less ---- */

static bool compares_numbers(const struct step *step)
{
    return operation_traits[step->operation].line == LINE_BY_COMPARISON;
}

/* Whether two numbers read the same with so many decimals. */
static bool read_alike(struct num a, struct num b, unsigned places)
{
    char one[600], other[600];
    num_write_places(a, places, '.', one, sizeof one);
    num_write_places(b, places, '.', other, sizeof other);
    return strcmp(one, other) == 0;
}

/* How many more decimals it takes until the two sides of a comparison that fails do not read as if
 * it held: not `$4.00 >= $4`. `places` are those of the written numbers. */
static unsigned decimals_to_tell(const struct explaining *explaining, uint32_t step,
                                 unsigned places)
{
    enum { FINER_MOST = 12 };
    const groat_scratch *scratch = explaining->scratch;
    const struct step *compared = &scratch->core->program->steps[step];
    if (!compares_numbers(compared))
        return 0;
    const struct value *a = &scratch->values[compared->a], *b = &scratch->values[compared->b];
    if (a->state != VALUE_THERE || b->state != VALUE_THERE || num_equal(a->number, b->number))
        return 0;
    for (unsigned finer = 0; finer <= FINER_MOST; finer++)
        if (!read_alike(a->number, b->number, places + finer))
            return finer;
    return 0;
}

/* Whether the first name in an expression stands for a plain number. */
static bool begins_plain(const struct explaining *explaining, const struct expression *expression,
                         uint32_t context)
{
    const struct leaf *leaf = leaf_find(explaining->scratch->core->program, expression, context);
    if (leaf)
        return dim_is_none(leaf->type.dimension);
    return expression->left && begins_plain(explaining, expression->left, context);
}

static void add_against(struct explaining *explaining, const struct member_code *member,
                        groat_line line)
{
    struct lines *misses = &explaining->explanation->misses;
    line.channel = explaining->scratch->core->program->channels[member->channel].name;
    explain_add(explaining, misses, line);
    explaining->explanation->below.misses = misses->count;
}

static void explain_misses(struct explaining *explaining, const struct member_code *member)
{
    enum { PERCENT_PLACES = 4, MORE_OF_A_SHARE = 2 };
    for (size_t i = 0; i < member->parts_count; i++) {
        const struct aim_part *part = &member->parts[i];
        if (value_is_yes(explaining->scratch->values[part->step]))
            continue;
        struct words fine = explaining->words;
        bool plain = begins_plain(explaining, part->expression, member->context);
        unsigned places = plain ? PERCENT_PLACES + MORE_OF_A_SHARE
                                : (unsigned)explaining->scratch->core->shop.decimals;
        fine.percent_places = PERCENT_PLACES;
        fine.finer = decimals_to_tell(explaining, part->step, places);
        groat_line line = explain_line(GROAT_PART_RULE, "aim", part->expression->span, 0);
        line.written = words_written(&fine, part->expression);
        line.worked = words_worked(&fine, part->expression, member->context);
        line.amount = "no";
        add_against(explaining, member, line);
    }
}

static void explain_floor(struct explaining *explaining, const struct member_code *member,
                          struct value price)
{
    const groat_scratch *scratch = explaining->scratch;
    const struct statement *floor = scratch->core->shop.channels[member->channel].price.floor;
    if (member->floor == NO_STEP || scratch->values[member->floor].state != VALUE_THERE ||
        num_compare(price.number, scratch->values[member->floor].number) >= 0)
        return;
    uint32_t context = scratch->core->program->channels[member->channel].price_context;
    add_against(explaining, member, bound_line(explaining, floor, member->floor, context, false));
    explaining->explanation->below.at_floor = true;
}

/* The next lower price on the ladder; false where there is none. */
static bool lower_price(const struct explaining *explaining, int64_t price, struct value *lower)
{
    groat_scratch *scratch = explaining->scratch;
    const struct search_code *search = &scratch->core->program->searches[scratch->channel->search];
    const struct ladder *ladder = &scratch->evaluation.settled->ladders[search->ladder];
    struct num money;
    int64_t coins;
    if (price <= 1 || !ladder_previous(ladder, price - 1, &coins) ||
        num_multiply(&scratch->heap, num_whole(coins), scratch->core->shop.smallest, &money) !=
            NUM_OK)
        return false;
    *lower = value_number(money);
    return true;
}

/* Channels that share a price and sell the product all have a say. */
static void explain_below(struct explaining *explaining, int64_t price)
{
    groat_scratch *scratch = explaining->scratch;
    const struct search_code *search = &scratch->core->program->searches[scratch->channel->search];
    struct type money = {TYPE_NUMBER, dim_base(DIM_MONEY)};
    groat_below *below = &explaining->explanation->below;
    struct value lower;
    if (!lower_price(explaining, price, &lower))
        return;
    below->exists = true;
    below->price = words_of(&explaining->words, &lower, money, false);
    for (size_t i = 0; i < search->count; i++) {
        const struct member_code *member = &search->members[i];
        if (search->count > 1 && member->sold != NO_STEP &&
            !value_is_yes(scratch->values[member->sold]))
            continue;
        try_price(explaining, member, lower);
        explain_floor(explaining, member, lower);
        explain_misses(explaining, member);
    }
}

void explain_price(struct explaining *explaining)
{
    groat_scratch *scratch = explaining->scratch;
    const struct channel_code *channel = scratch->channel;
    const struct price_lines *lines = &explaining->channel->price;
    const struct member_code *member = price_member(scratch);
    groat_below *below = &explaining->explanation->below;
    explain_aim(explaining, member);
    explain_bound(explaining, lines->set, member->set, channel->price_context, false);
    explain_bound(explaining, lines->floor, member->floor, channel->price_context, false);
    explain_bound(explaining, lines->ceiling, member->ceiling, channel->price_context, false);
    explain_bound(explaining, lines->pin, channel->pin, channel->price_context, false);
    explain_bound(explaining, lines->discount, channel->discount, channel->context, true);
    explain_round(explaining);
    below->footing = groat_result_footing(scratch);
    if (below->footing == GROAT_ON_AIM)
        explain_below(explaining, scratch->evaluation.findings[channel->search].wanted);
}

void explain_not_sold(struct explaining *explaining)
{
    const struct statement *only = explaining->channel->only_when;
    groat_line line = rule_line(explaining, only);
    line.worked =
        words_worked(&explaining->words, only->value, explaining->scratch->channel->context);
    line.amount = "no";
    explain_add(explaining, &explaining->explanation->lines, line);
}
