/* What may be asked of a channel beside its price: the least price at which nothing is lost, and
 * the shop's goals. */
#include "compile/compile.h"

/* To the smallest unit, whatever the ladder, floor and ceiling: it is for use in a bargain. */
static uint32_t emit_without_loss(struct compile *compile, const struct context *place)
{
    struct context trial;
    compile->origin = emit_origin(compile, "the price", channel_span(compile, place->channel));
    struct member_code member = member_alone(compile, place, &trial);
    struct flow profit =
        emit_figure(compile, &trial, FIGURE_PROFIT, channel_span(compile, place->channel));
    struct step no_loss = {.operation = OP_UP_TO,
                           .forgiving = true,
                           .a = emit_number(compile, num_whole(0)),
                           .b = profit.step};
    member.aim = emit_step(compile, no_loss);
    return emit_search(compile, &member, NULL, "avoids a loss");
}

/* ---- goals ---- */

static struct expression *join(struct compile *compile, enum expression_kind kind,
                               struct expression *left, struct expression *right)
{
    struct expression *joined = arena_take(compile->arena, sizeof *joined);
    unsigned deeper = left->depth > right->depth ? left->depth : right->depth;
    *joined = (struct expression){
        .kind = kind, .depth = deeper + 1, .span = right->span, .left = left, .right = right};
    return joined;
}

/* `gives * has / takes >= needs`, with nothing divided: where a sale takes nothing there is no
 * question. */
static struct expression *enough(struct compile *compile, struct expression *const *lines)
{
    return join(compile, EXPRESSION_NOT_BELOW,
                join(compile, EXPRESSION_MULTIPLY, lines[GOAL_GIVES], lines[GOAL_HAS]),
                join(compile, EXPRESSION_MULTIPLY, lines[GOAL_NEEDS], lines[GOAL_TAKES]));
}

/* The least allowed price, not below the floor, at which there is enough. */
static uint32_t emit_goal_price(struct compile *compile, const struct context *place,
                                struct expression *const *lines)
{
    const struct price_lines *price = &compile->shop->channels[place->channel].price;
    struct context trial;
    uint32_t floor = emit_limit(compile, place, price->floor);
    struct member_code member = member_alone(compile, place, &trial);
    struct flow flow = emit_expression(compile, &trial, enough(compile, lines));
    require_linear(compile, flow, lines[GOAL_GIVES], "a goal");
    member.floor = floor;
    member.aim = flow.step;
    return emit_search(compile, &member, price->round, "reaches the goal");
}

static void emit_goal(struct compile *compile, uint32_t channel, const struct statement *goal,
                      struct goal_code *code)
{
    struct context context = context_of(compile, channel, false, false);
    struct context place = context_of(compile, channel, compile->for_one[channel], false);
    struct expression *lines[GOAL_LINES] = {0};
    compile->origin = emit_origin(compile, "the goal", goal->span);
    for (const struct statement *line = goal->parts; line; line = line->next)
        lines[line->kind - STATEMENT_NEEDS] = line->value;
    for (int i = 0; i < GOAL_LINES; i++)
        code->lines[i] = lines[i] ? emit_expression(compile, &context, lines[i]).step : NO_STEP;
    code->price_step = NO_STEP;
    if (lines[GOAL_HAS])
        code->price_step = emit_goal_price(compile, &place, lines);
}

void emit_questions(struct compile *compile, uint32_t channel, struct channel_code *code)
{
    struct context context = context_of(compile, channel, false, false);
    const struct statement_set *goals = &compile->shop->goals;
    code->without_loss = emit_without_loss(compile, &context);
    code->goals = arena_take(compile->arena, (goals->count + 1) * sizeof *code->goals);
    for (size_t i = 0; i < goals->count; i++)
        emit_goal(compile, channel, goals->items[i], &code->goals[i]);
}
