/* How the price of a channel is found, into a search: its bounds, its ladder, and the block of
 * steps that each trial price needs. */
#include "compile/compile.h"

uint32_t emit_sold(struct compile *compile, const struct context *context)
{
    const struct statement *only = compile->shop->channels[context->channel].only_when;
    if (!only)
        return NO_STEP;
    struct context place = context_of(compile, context->channel, context->one, false);
    return emit_expression(compile, &place, only->value).step;
}

/* May be missing, and then does not apply. */
uint32_t emit_limit(struct compile *compile, const struct context *context,
                    const struct statement *line)
{
    if (!line || !line->value)
        return NO_STEP;
    compile->origin = emit_origin(compile, statement_word(line->kind), line->span);
    return emit_expression(compile, context, line->value).step;
}

uint32_t emit_pin(struct compile *compile, const struct context *context)
{
    const struct price_lines *price = &compile->shop->channels[context->channel].price;
    uint32_t pin = emit_limit(compile, context, price->pin);
    return pin == NO_STEP ? NO_STEP : emit_one(compile, OP_PIN, pin);
}

/* The sides of an aim's `and`s; each is a step already. */
static void list_parts(struct compile *compile, const struct context *context,
                       const struct expression *aim, struct member_code *member, size_t *room)
{
    while (aim->kind == EXPRESSION_GROUP)
        aim = aim->left;
    if (aim->kind == EXPRESSION_AND) {
        list_parts(compile, context, aim->left, member, room);
        list_parts(compile, context, aim->right, member, room);
        return;
    }
    member->parts = arena_grow(compile->arena, member->parts, sizeof *member->parts, room,
                               member->parts_count + 1);
    member->parts[member->parts_count++] =
        (struct aim_part){aim, emit_expression(compile, context, aim).step};
}

/* A price that stands for any, and what is kept at it. */
static struct context emit_trial(struct compile *compile, const struct context *place,
                                 struct member_code *member)
{
    struct context context = context_of(compile, place->channel, place->one, true);
    uint32_t *trial = &compile->trial_steps[context.number];
    if (*trial == NO_STEP)
        *trial = emit_one(compile, OP_TRIAL, compile->trials++);
    member->trial = *trial;
    member->context = context.number;
    member->keep =
        emit_figure(compile, &context, FIGURE_KEEP, channel_span(compile, place->channel)).step;
    return context;
}

static void emit_aim(struct compile *compile, const struct context *context,
                     const struct statement *aim, struct member_code *member)
{
    struct flow flow = emit_expression(compile, context, aim->value);
    require_there(compile, &flow, aim->value, "an aim");
    require_linear(compile, flow, aim->value, "an aim");
    member->aim = flow.step;
    size_t room = 0;
    list_parts(compile, context, aim->value, member, &room);
}

struct member_code member_alone(struct compile *compile, const struct context *place,
                                struct context *trial)
{
    struct member_code member = {.channel = place->channel,
                                 .aim = NO_STEP,
                                 .set = NO_STEP,
                                 .floor = NO_STEP,
                                 .ceiling = NO_STEP,
                                 .sold = NO_STEP};
    *trial = emit_trial(compile, place, &member);
    return member;
}

static struct member_code member_of(struct compile *compile, const struct context *place)
{
    const struct price_lines *price = &compile->shop->channels[place->channel].price;
    uint32_t floor = emit_limit(compile, place, price->floor);
    uint32_t ceiling = emit_limit(compile, place, price->ceiling);
    uint32_t sold = emit_sold(compile, place);
    struct context trial;
    struct member_code member = member_alone(compile, place, &trial);
    member.floor = floor;
    member.ceiling = ceiling;
    member.sold = sold;
    if (price->aim) {
        compile->origin = emit_origin(compile, "aim", price->aim->span);
        emit_aim(compile, &trial, price->aim, &member);
    } else if (price->set) {
        compile->origin = emit_origin(compile, "set", price->set->span);
        struct flow flow = emit_expression(compile, place, price->set->value);
        require_there(compile, &flow, price->set->value, "a set price");
        member.set = flow.step;
    }
    return member;
}

static uint32_t add_search(struct compile *compile, struct search_code search,
                           const struct statement *round)
{
    struct program *program = compile->program;
    search.ladder = emit_ladder(compile, round);
    search.rounding = rounding_of(round ? round->rounding : ROUNDING_PLAIN);
    search.channel = compile->shop->channels[search.members[0].channel].name;
    ARENA_ADD(compile->arena, program->searches, search);
    return (uint32_t)program->searches_count - 1;
}

static uint32_t search_alone(struct compile *compile, const struct member_code *member,
                             const struct statement *round, const char *meets)
{
    struct search_code search = {.count = 1, .meets = meets};
    search.members = arena_take(compile->arena, sizeof *search.members);
    search.members[0] = *member;
    return add_search(compile, search, round);
}

uint32_t emit_search(struct compile *compile, const struct member_code *member,
                     const struct statement *round, const char *meets)
{
    return emit_one(compile, OP_PRICE, search_alone(compile, member, round, meets));
}

static uint32_t search_together(struct compile *compile, const struct statement *group,
                                const struct context *place)
{
    struct search_code search = {.meets = "meets the aim"};
    for (const struct tree_word *each = group->words; each; each = each->next)
        search.count++;
    search.members = arena_take(compile->arena, search.count * sizeof *search.members);
    size_t i = 0;
    for (const struct tree_word *each = group->words; each; each = each->next) {
        uint32_t channel = shop_channel(compile->shop, each->word.text);
        struct context member = context_of(compile, channel, place->one, false);
        search.members[i++] = member_of(compile, &member);
    }
    return add_search(compile, search,
                      compile->shop->channels[search.members[0].channel].price.round);
}

static uint32_t search_of(struct compile *compile, const struct context *context)
{
    uint32_t number = compile->groups[context->channel];
    if (number == NO_STEP) {
        struct member_code member = member_of(compile, context);
        return search_alone(compile, &member, compile->shop->channels[context->channel].price.round,
                            "meets the aim");
    }
    uint32_t *known = &compile->group_searches[number * 2 + context->one];
    if (*known == NO_STEP)
        *known = search_together(compile, compile->shop->same_price.items[number], context);
    return *known;
}

uint32_t emit_price_search(struct compile *compile, const struct context *context)
{
    uint32_t *known = &compile->price_steps[context->number];
    if (*known == NO_STEP) {
        uint32_t origin = compile->origin;
        uint32_t search = search_of(compile, context);
        compile->origin = origin;
        *known = emit_one(compile, OP_PRICE, search);
    }
    return *known;
}
