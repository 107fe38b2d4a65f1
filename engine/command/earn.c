/* groat earn: what a price that is named leaves. */
#include <errno.h>
#include <stdio.h>

#include "command/pricing.h"
#include "command/say.h"
#include "report/earn_list.h"

struct earning {
    struct earn earn;
    struct earn_list *list;
    bool said; /* that a row has no price ... */
    size_t row;
};

/* A row without a price is named once, on whichever channels it would be sold. */
static void say_no_price(struct earning *earning, struct pricing *pricing, size_t row)
{
    if (earning->said && earning->row == row)
        return;
    earning->said = true;
    earning->row = row;
    pricing->status = STATUS_PARTLY;
    char kind[300];
    snprintf(kind, sizeof kind, "left out because %.250s is empty", pricing->request->at);
    if (products_say(pricing->products, kind))
        telling_line(products_telling(pricing->products), "%s: left out because %s is empty",
                     products_place(pricing->products, row), pricing->request->at);
    products_end_saying(pricing->products);
}

static bool earn_order(void *context, struct pricing *pricing, size_t row, const groat_order *order)
{
    struct earning *earning = context;
    struct earn *earn = &earning->earn;
    int64_t coins;
    if (!products_asked(pricing->products, &coins)) {
        say_no_price(earning, pricing, row);
        return true;
    }
    if (!earn_at(earn, pricing->scratch, pricing->method, pricing->record, order, coins)) {
        errno = ENOMEM;
        return false;
    }
    if (earn->outcome == GROAT_NOT_SOLD)
        return true;
    struct price_place place = pricing_place(pricing, row, order);
    const char *reason = groat_result_reason(pricing->scratch);
    if (earn->outcome == GROAT_FAILED && pricing->request->format == LISTING_TABLE) {
        pricing_leave_out(pricing, row, order, GROAT_FAILED, reason);
        return true;
    }
    if (earn->outcome == GROAT_FAILED) {
        pricing_count_without(pricing, GROAT_FAILED);
        return earn_list_add_without(earning->list, &place, GROAT_FAILED, reason);
    }
    if (earn->outcome == GROAT_REFUSED)
        pricing->status = STATUS_PARTLY;
    return earn_list_add(earning->list, &place, earn, pricing->scratch);
}

/* An order of a row that cannot be read. */
static bool add_unread(void *context, struct pricing *pricing, size_t row, const groat_order *order)
{
    struct earning *earning = context;
    struct price_place place = pricing_place(pricing, row, order);
    pricing_count_without(pricing, GROAT_FAILED);
    return earn_list_add_without(earning->list, &place, GROAT_FAILED,
                                 products_wrong(pricing->products));
}

static bool print_list(struct pricing *pricing)
{
    struct listing_plan plan = pricing_listing_plan(pricing);
    struct earning earning = {.list =
                                  earn_list_open(pricing->method, &plan, pricing->output.stream)};
    if (!earning.list)
        return output_failed(&pricing->output);
    earn_open(&earning.earn);
    bool whole =
        pricing_each(pricing, earn_order, plan.form == LISTING_TABLE ? NULL : add_unread, &earning);
    if (!earn_list_close(earning.list, whole) && whole)
        whole = output_failed(&pricing->output);
    earn_close(&earning.earn);
    return whole;
}

enum status verb_earn(const struct request *request)
{
    struct pricing pricing;
    if (!request->at) {
        say("groat: earn needs a price, or a column of the sheet that has one for each product");
        say_try("for example --at '$45'");
        return STATUS_WRONG;
    }
    return pricing_close(&pricing, pricing_open_once(&pricing, request) &&
                                       pricing_put_changes(&pricing) && print_list(&pricing));
}
