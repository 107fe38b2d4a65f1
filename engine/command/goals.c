/* groat goals: how many sales until a goal is reached, and what to sell for it. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/pricing.h"
#include "command/say.h"
#include "report/goal_list.h"

/* ---- the pace ---- */

/* Digits of a pace before and after the point, so that it is a number anyone can mean. */
#define PACE_DIGITS 9

/* Reads the number that a text begins with, exactly. Returns what is behind it, or NULL. */
static const char *read_number(const char *text, bool decimal_comma, struct amount *number)
{
    size_t before = strspn(text, "0123456789");
    bool point = text[before] == '.' || (decimal_comma && text[before] == ',');
    size_t places = point ? strspn(text + before + 1, "0123456789") : 0;
    if (before + places == 0 || before > PACE_DIGITS || places > PACE_DIGITS || (point && !places))
        return NULL;
    char digits[2 * PACE_DIGITS + 1];
    snprintf(digits, sizeof digits, "%.*s%.*s", (int)before, text, (int)places,
             point ? text + before + 1 : "");
    *number = amount_of_coins(strtoll(digits, NULL, 10), (unsigned)places);
    return amount_sign(*number) > 0 ? text + before + places + point : NULL;
}

/* `3`, `2.5 a week`, `12 per month`: as sales a week, and as it stands in a heading. */
static bool read_pace(const struct request *request, struct amounts *room, struct amount *pace,
                      char *heading, size_t size)
{
    const char *text = request->pace;
    static const char *const each[] = {"", " per week", " a week", " per month", " a month"};
    static const size_t first_of_month = 3, count = sizeof each / sizeof *each;
    const char *after = read_number(text, request->decimal_comma, pace);
    size_t which = 0;
    while (after && which < count && strcmp(after, each[which]) != 0)
        which++;
    if (!after || which == count) {
        say("groat: --pace needs the number of sales per week, above zero, not %s", text);
        say_try("--pace 2.5, --pace '10 per month'");
        return false;
    }
    bool month = which >= first_of_month;
    if (month)
        *pace = amount_multiply(room, *pace,
                                amount_ratio(GOALS_SECONDS_OF_WEEK, GOALS_SECONDS_OF_MONTH));
    snprintf(heading, size, "%.*s a %s", (int)(after - text), text, month ? "month" : "week");
    return true;
}

/* ---- which goals ---- */

static bool no_goals(const struct pricing *pricing)
{
    char help[96];
    snprintf(help, sizeof help, "goal \"a bandsaw\" { needs 900 %s; gives profit }",
             groat_method_currency(pricing->method).code);
    say("groat: %s has no goal", pricing->request->rules);
    say_try(help);
    return false;
}

static groat_text goal_at(void *method, size_t goal)
{
    return listing_text(groat_method_goal(method, goal).text);
}

static bool choose_goal(const struct pricing *pricing, struct goals *goals)
{
    const char *wanted = pricing->request->goal;
    size_t count = groat_method_goals(pricing->method);
    if (count == 0)
        return no_goals(pricing);
    if (!wanted)
        return true;
    goals->only = wanted;
    for (size_t i = 0; i < count; i++)
        if (goals_wants(goals, i))
            return true;
    struct say_names names = {count, goal_at, pricing->method, false};
    say("groat: there is no goal %s", wanted);
    say_try_names(&names, wanted, "groat: the goals are", SIZE_MAX);
    return false;
}

/* ---- answering ---- */

static bool answer_order(void *context, struct pricing *pricing, size_t row,
                         const groat_order *order)
{
    struct goals *goals = context;
    groat_outcome outcome;
    if (!goals_add(goals, pricing->scratch, pricing->record, order, row, &outcome)) {
        errno = ENOMEM;
        return false;
    }
    if (outcome == GROAT_REFUSED || outcome == GROAT_FAILED)
        pricing_leave_out(pricing, row, order, outcome, groat_result_reason(pricing->scratch));
    return true;
}

static groat_text label_of(void *context, size_t product)
{
    struct pricing *pricing = context;
    return products_label(pricing->products, product);
}

static bool answer_goals(struct pricing *pricing, const struct amount *pace, const char *heading)
{
    struct listing_plan plan = pricing_listing_plan(pricing);
    struct goals goals;
    goals_open(&goals, pricing->method, *pace);
    struct goal_list list = {&goals, pace->there ? heading : NULL, label_of, pricing};
    bool whole = choose_goal(pricing, &goals) && pricing_each(pricing, answer_order, NULL, &goals);
    goals_sort(&goals);
    whole = whole && pricing_put_changes(pricing);
    if (whole && !goal_list_write(&list, &plan, pricing->output.stream))
        whole = output_failed(&pricing->output);
    goals_close(&goals);
    return whole;
}

enum status verb_goals(const struct request *request)
{
    struct pricing pricing;
    struct amounts room;
    struct amount pace = {0};
    char heading[64];
    enum status status = STATUS_WRONG;
    amounts_open(&room);
    if (!request->pace || read_pace(request, &room, &pace, heading, sizeof heading))
        status = pricing_close(&pricing, pricing_open(&pricing, request) &&
                                             answer_goals(&pricing, &pace, heading));
    amounts_close(&room);
    return status;
}
