#include "study/earn.h"

#include <stdio.h>
#include <string.h>

void earn_open(struct earn *earn)
{
    *earn = (struct earn){.outcome = GROAT_FAILED};
    amount_open(&earn->at);
    amount_open(&earn->no_loss);
    amount_open(&earn->floor);
    amount_open(&earn->ceiling);
    amount_open(&earn->position);
}

void earn_close(struct earn *earn)
{
    amount_close(&earn->at);
    amount_close(&earn->no_loss);
    amount_close(&earn->floor);
    amount_close(&earn->ceiling);
    amount_close(&earn->position);
}

static void find_no_loss(struct earn *earn, groat_scratch *scratch, const groat_method *method,
                         const groat_record *record, const groat_order *order)
{
    groat_outcome outcome = groat_price_without_loss(scratch, method, record, order);
    bool found = outcome == GROAT_PRICED || outcome == GROAT_REFUSED;
    earn->no_loss.there = false;
    earn->why_loss[0] = '\0';
    if (found)
        amount_take(&earn->no_loss, groat_result_figure(scratch, GROAT_PRICE));
    else if (outcome == GROAT_FAILED)
        snprintf(earn->why_loss, sizeof earn->why_loss, "%s", groat_result_reason(scratch));
}

static void find_position(struct earn *earn)
{
    struct amount above, range;
    amount_open(&above);
    amount_open(&range);
    amount_subtract(&above, &earn->at, &earn->floor);
    amount_subtract(&range, &earn->ceiling, &earn->floor);
    range.there = range.there && mpq_sgn(range.number) > 0;
    amount_divide(&earn->position, &above, &range);
    amount_close(&above);
    amount_close(&range);
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
    return true;
}

void earn_at(struct earn *earn, groat_scratch *scratch, const groat_method *method,
             const groat_record *record, const groat_order *order, int64_t coins)
{
    bool known = true;
    earn->aim_of_one = false;
    if (order->quantity > 1)
        known = find_discount(&earn->aim_of_one, scratch, method, record, order);
    find_no_loss(earn, scratch, method, record, order);
    earn->outcome = groat_price_at(scratch, method, record, order, coins);
    amount_of_coins(&earn->at, coins, groat_method_currency(method).decimals);
    amount_take(&earn->floor, groat_result_figure(scratch, GROAT_FLOOR));
    amount_take(&earn->ceiling, groat_result_figure(scratch, GROAT_CEILING));
    find_position(earn);
    earn->aim = known ? groat_result_aim(scratch) : GROAT_AIM_UNKNOWN;
}
