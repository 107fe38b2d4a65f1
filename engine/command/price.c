/* groat price: the price list. */
#include "command/pricing.h"
#include "report/price_list.h"

static bool add_to_list(void *context, struct pricing *pricing, size_t row,
                        const groat_order *order)
{
    struct price_place place = {row, products_label(pricing->products, row),
                                groat_method_channel(pricing->method, order->channel),
                                order->quantity};
    return price_list_add(context, &place, pricing->scratch);
}

static void print_list(struct pricing *pricing)
{
    const struct request *request = pricing->request;
    struct listing_plan plan = pricing_listing_plan(request);
    struct price_list *list = price_list_open(pricing->method, &plan, pricing->output.stream);
    if (!list) {
        output_failed(&pricing->output);
        return;
    }
    bool whole = pricing_walk(pricing, add_to_list, list);
    if (!price_list_close(list, whole) && whole)
        output_failed(&pricing->output);
}

enum status verb_price(const struct request *request)
{
    struct pricing pricing;
    if (pricing_open(&pricing, request))
        print_list(&pricing);
    return pricing_close(&pricing);
}
