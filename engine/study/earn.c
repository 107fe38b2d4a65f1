#include "study/earn.h"

#include <stdio.h>
#include <string.h>

#include "study/taken.h"

void earn_open(struct earn *earn)
{
    *earn = (struct earn){.outcome = GROAT_FAILED};
    amounts_open(&earn->room);
}

void earn_close(struct earn *earn)
{
    amounts_close(&earn->room);
}

/* The result in the scratch is that of the break-even price. */
static void find_loss_above(struct earn *earn, groat_scratch *scratch, const groat_method *method)
{
    unsigned decimals = groat_method_currency(method).decimals;
    groat_loss loss;
    if (!groat_result_loss_above(scratch, &loss))
        return;
    earn->loss_first = amount_of_coins(loss.first, decimals);
    if (!loss.endless)
        earn->loss_last = amount_of_coins(loss.last, decimals);
}

/* False when memory runs out. */
static bool find_no_loss(struct earn *earn, groat_scratch *scratch, const groat_method *method,
                         const groat_record *record, const groat_order *order)
{
    groat_outcome outcome = groat_price_without_loss(scratch, method, record, order);
    bool found = outcome == GROAT_PRICED || outcome == GROAT_REFUSED;
    earn->no_loss = earn->loss_first = earn->loss_last = (struct amount){0};
    earn->why_loss[0] = '\0';
    if (found) {
        earn->no_loss = taken_figure(&earn->room, scratch, GROAT_PRICE);
        find_loss_above(earn, scratch, method);
    } else if (outcome == GROAT_FAILED) {
        snprintf(earn->why_loss, sizeof earn->why_loss, "%s", groat_result_reason(scratch));
    }
    return !taken_starved(scratch);
}

static void find_position(struct earn *earn)
{
    struct amount above = amount_subtract(&earn->room, earn->at, earn->floor);
    struct amount range = amount_subtract(&earn->room, earn->ceiling, earn->floor);
    bool wide = !range.there || amount_sign(range) > 0;
    earn->position = wide ? amount_divide(&earn->room, above, range) : (struct amount){0};
}

/* Whether the channel takes a discount off. False when memory runs out. */
static bool find_discount(bool *found, groat_scratch *scratch, const groat_method *method,
                          const groat_record *record, const groat_order *order)
{
    groat_outcome outcome;
    groat_explanation *explanation = groat_explain(scratch, method, record, order, &outcome);
    *found = false;
    if (!explanation)
        return false;
    for (size_t i = 0; i < groat_explanation_lines(explanation) && !*found; i++) {
        const groat_line *line = groat_explanation_line(explanation, i);
        *found = line->part == GROAT_PART_RULE && strcmp(line->name, "discount") == 0;
    }
    groat_explanation_free(explanation);
    return !taken_starved(scratch);
}

/* Whether the rules' own price for the order has a discount taken off. */
static void find_standing_discount(struct earn *earn, groat_scratch *scratch,
                                   const groat_method *method, const groat_record *record,
                                   const groat_order *order)
{
    groat_outcome outcome = groat_price(scratch, method, record, order);
    bool priced = outcome == GROAT_PRICED || outcome == GROAT_REFUSED;
    earn->discounted =
        priced && amount_compare(taken_figure(&earn->room, scratch, GROAT_LIST),
                                 taken_figure(&earn->room, scratch, GROAT_PRICE)) != 0;
}

bool earn_at(struct earn *earn, groat_scratch *scratch, const groat_method *method,
             const groat_record *record, const groat_order *order, int64_t coins)
{
    amounts_forget(&earn->room);
    earn->aim_of_one = false;
    find_standing_discount(earn, scratch, method, record, order);
    if ((order->quantity > 1 &&
         !find_discount(&earn->aim_of_one, scratch, method, record, order)) ||
        !find_no_loss(earn, scratch, method, record, order))
        return false;
    earn->outcome = groat_price_at(scratch, method, record, order, coins);
    earn->at = amount_of_coins(coins, groat_method_currency(method).decimals);
    earn->floor = taken_figure(&earn->room, scratch, GROAT_FLOOR);
    earn->ceiling = taken_figure(&earn->room, scratch, GROAT_CEILING);
    find_position(earn);
    earn->aim = groat_result_aim(scratch);
    return earn->aim != GROAT_AIM_UNKNOWN && !taken_starved(scratch) &&
           !amounts_starved(&earn->room);
}
