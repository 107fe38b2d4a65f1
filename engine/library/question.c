/* What may be asked beside the price: everything at a given one, the price at which nothing is
 * lost, the shop's goals. */
#include "library/call.h"
#include "parse.h"
#include "solve/cliff.h"
#include "solve/search.h"

/* ---- money from outside ---- */

/* Reads into room of its own, which is left with the coins alone. */
static enum trouble_kind read_coins(const struct core *core, struct cell_reader *reader,
                                    groat_text text, int64_t *coins, struct trouble *trouble)
{
    struct cell_wanted wanted = {.name = "price",
                                 .type = {TYPE_NUMBER, dim_base(DIM_MONEY)},
                                 .bare = true,
                                 .factor = num_whole(1)};
    struct value value;
    struct num whole;
    enum trouble_kind kind = cell_read(reader, &wanted, text.start, text.length, &value, trouble);
    if (kind != TROUBLE_NONE)
        return kind;
    if (value.state == VALUE_MISSING)
        return trouble_say(trouble, TROUBLE_EMPTY, NO_HELP, "there is no price here");
    if (reader->range.there)
        return trouble_say(trouble, TROUBLE_RANGE, NO_HELP,
                           "a price must be a single amount, not a range");
    if (num_sign(value.number) <= 0)
        return trouble_say(trouble, TROUBLE_NEGATIVE, NO_HELP, "a price must be above zero");
    if (num_divide(reader->heap, value.number, core->shop.smallest, &whole) != NUM_OK ||
        num_compare(whole, num_whole(COINS_MOST)) > 0)
        return trouble_say(trouble, TROUBLE_TOO_LARGE, NO_HELP,
                           "this is larger than the largest price that the engine can handle");
    if (!num_to_int64(whole, coins))
        return trouble_say(trouble, TROUBLE_NOT_WHOLE, NO_HELP,
                           "a price must be a whole number of the currency's smallest unit");
    return TROUBLE_NONE;
}

groat_status groat_money_read(const groat_method *method, groat_text text, const groat_cells *cells,
                              int64_t *coins, groat_trouble *trouble)
{
    if (!method)
        return call_refuse(trouble, "the call was given no method");
    if (!call_has_text(text))
        return call_refuse(trouble, "the amount has a length and no text");
    if (!coins)
        return call_refuse(trouble, "there is nowhere to put the amount");
    const struct core *core = method->core;
    struct memory memory;
    struct arena arena;
    struct num_heap heap;
    core_open(core, &memory, &arena, &heap);
    struct cell_reader reader = {.program = core->program,
                                 .arena = &arena,
                                 .heap = &heap,
                                 .parse_room = arena_take(&arena, parse_room()),
                                 .decimal_comma = cells && cells->decimal_comma};
    struct trouble inner;
    if (reader.parse_room)
        read_coins(core, &reader, text, coins, &inner);
    else
        trouble_no_memory(&inner);
    num_heap_close(&heap);
    arena_close(&arena);
    return trouble_hand_out(&inner, trouble);
}

/* ---- at another price ---- */

groat_outcome groat_price_at(groat_scratch *scratch, const groat_method *method,
                             const groat_record *record, const groat_order *order, int64_t coins)
{
    struct value price = {.state = VALUE_THERE};
    if (!price_ready(scratch, method, record, order))
        return GROAT_FAILED;
    if (coins < 1 || coins > COINS_MOST)
        return price_failed(scratch,
                            value_error(coins < 1 ? FAULT_NOT_ABOVE_ZERO : FAULT_PRICE_TOO_LARGE,
                                        scratch->channel->search_step));
    if (num_multiply(&scratch->heap, num_whole(coins), scratch->core->shop.smallest,
                     &price.number) != NUM_OK)
        price = value_error(FAULT_TOO_LARGE, scratch->channel->search_step);
    return price_settled(scratch, &price);
}

/* Prices at what one of the channel's questions finds. */
static groat_outcome price_at_found(groat_scratch *scratch, const groat_method *method,
                                    const groat_record *record, const groat_order *order,
                                    uint32_t step)
{
    struct evaluation *e = &scratch->evaluation;
    struct num whole;
    int64_t coins;
    price_named(scratch);
    bool starved = scratch->heap.starved;
    price_more(scratch);
    struct value found = evaluate_step(e, step);
    starved = starved || scratch->no_memory || scratch->heap.starved;
    if (starved)
        found = value_error(FAULT_NO_MEMORY, step);
    scratch->no_memory = starved;
    scratch->worked_out = false;
    scratch->notes_count = 0;
    if (found.state == VALUE_THERE &&
        num_divide(&scratch->heap, found.number, scratch->core->shop.smallest, &whole) == NUM_OK &&
        num_to_int64(whole, &coins))
        return groat_price_at(scratch, method, record, order, coins);
    return price_failed(scratch,
                        found.state == VALUE_ERROR ? found : value_error(FAULT_TOO_LARGE, step));
}

groat_outcome groat_price_without_loss(groat_scratch *scratch, const groat_method *method,
                                       const groat_record *record, const groat_order *order)
{
    groat_outcome outcome = groat_price(scratch, method, record, order);
    if (!scratch || !scratch->worked_out)
        return outcome;
    return price_at_found(scratch, method, record, order, scratch->channel->without_loss);
}

bool groat_result_loss_above(groat_scratch *scratch, groat_loss *loss)
{
    if (!scratch || !scratch->worked_out || !loss)
        return false;
    const struct channel_code *channel = scratch->channel;
    const struct program *program = scratch->core->program;
    uint32_t search = program->steps[channel->without_loss].a;
    const struct member_code *member = &program->searches[search].members[0];
    struct value list = scratch->values[channel->figures[FIGURE_LIST]];
    struct value cost = scratch->values[channel->figures[FIGURE_COST]];
    struct cliff cliff;
    struct num whole;
    int64_t price;
    if (!price_named(scratch))
        return false;
    price_more(scratch);
    if (list.state != VALUE_THERE || cost.state != VALUE_THERE ||
        num_divide(&scratch->heap, list.number, scratch->core->shop.smallest, &whole) != NUM_OK ||
        !num_to_int64(whole, &price) ||
        !cliff_below(&scratch->evaluation, member, price, cost.number, &cliff) ||
        scratch->heap.starved)
        return false;
    *loss = (groat_loss){cliff.first, cliff.endless ? 0 : cliff.last, cliff.endless};
    return true;
}

groat_outcome groat_price_for_goal(groat_scratch *scratch, const groat_method *method,
                                   const groat_record *record, const groat_order *order,
                                   size_t goal)
{
    if (method && goal >= method->core->shop.goals.count)
        return price_refuse_call(scratch, "the rules have no goal of this number");
    groat_outcome outcome = groat_price(scratch, method, record, order);
    if (!scratch || !scratch->worked_out)
        return outcome;
    uint32_t step = scratch->channel->goals[goal].price_step;
    if (step == NO_STEP)
        return outcome;
    return price_at_found(scratch, method, record, order, step);
}

/* ---- what a result says of them ---- */

groat_footing groat_result_footing(const groat_scratch *scratch)
{
    if (!scratch || !scratch->worked_out)
        return GROAT_ON_NOTHING;
    const struct channel_code *channel = scratch->channel;
    if (scratch->values[channel->figures[FIGURE_LIST]].state != VALUE_THERE)
        return GROAT_ON_NOTHING;
    if (scratch->given)
        return GROAT_ON_GIVEN;
    if (channel->pin != NO_STEP && scratch->values[channel->pin].state == VALUE_THERE)
        return GROAT_ON_PIN;
    const struct finding *finding = &scratch->evaluation.findings[channel->search];
    if (finding->held)
        return GROAT_ON_CEILING;
    if (finding->raised)
        return GROAT_ON_FLOOR;
    return price_member(scratch)->aim == NO_STEP ? GROAT_ON_SET : GROAT_ON_AIM;
}

groat_aim groat_result_aim(groat_scratch *scratch)
{
    if (!scratch || !scratch->worked_out)
        return GROAT_AIM_NONE;
    struct evaluation *e = &scratch->evaluation;
    const struct member_code *member = price_member(scratch);
    struct value list = scratch->values[scratch->channel->figures[FIGURE_LIST]];
    if (member->aim == NO_STEP || list.state != VALUE_THERE)
        return GROAT_AIM_NONE;
    price_more(scratch);
    e->values[member->trial] = list;
    evaluate_list(e, member->block, member->block_count);
    if (scratch->heap.starved)
        return GROAT_AIM_UNKNOWN;
    return value_is_yes(e->values[member->aim]) ? GROAT_AIM_MET : GROAT_AIM_MISSED;
}

groat_value groat_result_goal(groat_scratch *scratch, size_t goal, groat_goal_line line)
{
    if (!scratch || !scratch->worked_out || goal >= scratch->core->shop.goals.count ||
        (size_t)line >= GOAL_LINES)
        return result_none(GROAT_MISSING);
    const struct core *core = scratch->core;
    uint32_t step = scratch->channel->goals[goal].lines[line];
    if (step == NO_STEP)
        return result_none(GROAT_MISSING);
    struct type type = core->shop.goal_types[goal][line];
    return price_named(scratch) ? result_value(core, &scratch->values[step], type)
                                : result_none(GROAT_UNKNOWN);
}
