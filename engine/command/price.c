/* groat price: the price list. */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "command/pricing.h"
#include "command/say.h"
#include "report/price_breaks.h"
#include "report/price_list.h"

/* What the walk over the sheet fills. */
struct printing {
    struct price_list *list;
    struct estimate *estimate; /* NULL: none are asked for */
};

/* The ranges are too many to be combined: says which they are. */
static void say_too_many(struct pricing *pricing, size_t row, const groat_order *order,
                         const struct estimate_result *result)
{
    char begin[700];
    snprintf(begin, sizeof begin,
             "%.500s, %.100s: no estimates: %zu ranges affect this price, but at most %d can be "
             "combined",
             products_place(pricing->products, row),
             groat_method_channel(pricing->method, order->channel), result->ranges_count,
             ESTIMATE_RANGES_MOST);
    struct say_list list = {.begin = begin};
    for (size_t i = 0; i < result->ranges_count; i++) {
        const struct estimate_range *range = &result->ranges[i];
        const char *name = range->is_rate
                               ? groat_method_rate(pricing->method, range->index).name
                               : groat_method_field(pricing->method, range->index).column;
        say_list_item(&list, name, strlen(name));
    }
    say_list_end(&list);
    say("Try: a single value instead of a range for %zu of them",
        result->ranges_count - ESTIMATE_RANGES_MOST);
    pricing->status = STATUS_PARTLY;
}

static bool add_to_list(void *context, struct pricing *pricing, size_t row,
                        const groat_order *order)
{
    struct printing *printing = context;
    const struct estimate_result *result = NULL;
    if (printing->estimate)
        result = estimate_row(printing->estimate, pricing->record, order);
    if (result && result->outcome == ESTIMATE_NO_MEMORY) {
        errno = ENOMEM;
        return false;
    }
    if (result && result->outcome == ESTIMATE_TOO_MANY)
        say_too_many(pricing, row, order, result);
    struct price_place place = pricing_place(pricing, row, order);
    return price_list_add(printing->list, &place, pricing->scratch, result);
}

/* An order of data: its row says what became of it. */
static bool add_row(void *context, struct pricing *pricing, size_t row, const groat_order *order)
{
    struct printing *printing = context;
    groat_outcome outcome = groat_price(pricing->scratch, pricing->method, pricing->record, order);
    if (outcome == GROAT_PRICED)
        return add_to_list(context, pricing, row, order);
    if (groat_result_reason_kind(pricing->scratch) == GROAT_REASON_NO_MEMORY) {
        errno = ENOMEM;
        return false;
    }
    if (outcome == GROAT_NOT_SOLD && !pricing->request->all)
        return true;
    if (outcome != GROAT_NOT_SOLD)
        pricing_count_without(pricing, outcome);
    struct price_place place = pricing_place(pricing, row, order);
    return price_list_add_without(printing->list, &place, outcome,
                                  groat_result_reason(pricing->scratch));
}

/* An order of a row that cannot be read. */
static bool add_unread(void *context, struct pricing *pricing, size_t row, const groat_order *order)
{
    struct printing *printing = context;
    struct price_place place = pricing_place(pricing, row, order);
    pricing_count_without(pricing, GROAT_FAILED);
    return price_list_add_without(printing->list, &place, GROAT_FAILED,
                                  products_wrong(pricing->products));
}

static bool walk(struct pricing *pricing, struct printing *printing)
{
    if (pricing->request->format == LISTING_TABLE)
        return pricing_walk(pricing, add_to_list, printing);
    return pricing_each(pricing, add_row, add_unread, printing);
}

static bool add_to_breaks(void *context, struct pricing *pricing, size_t row,
                          const groat_order *order)
{
    struct price_place place = pricing_place(pricing, row, order);
    return price_breaks_add(context, &place, pricing->scratch);
}

static bool print_list(struct pricing *pricing)
{
    bool estimates = pricing->request->estimates;
    struct listing_plan plan = pricing_listing_plan(pricing->request);
    struct printing printing = {.estimate = estimates ? estimate_open(pricing->method) : NULL};
    errno = ENOMEM;
    if (!estimates || printing.estimate)
        printing.list = price_list_open(pricing->method, &plan, estimates, pricing->output.stream);
    bool whole = printing.list && walk(pricing, &printing);
    if (!printing.list || (!price_list_close(printing.list, whole) && whole))
        whole = output_failed(&pricing->output);
    estimate_close(printing.estimate);
    return whole;
}

/* A table of several quantities; of estimates there is none. */
static bool print_breaks(struct pricing *pricing)
{
    struct listing_plan plan = pricing_listing_plan(pricing->request);
    struct price_breaks *breaks = price_breaks_open(pricing->method, &plan, pricing->output.stream);
    bool whole = breaks && pricing_walk(pricing, add_to_breaks, breaks);
    if (!breaks || (!price_breaks_close(breaks, whole) && whole))
        whole = output_failed(&pricing->output);
    return whole;
}

enum status verb_price(const struct request *request)
{
    struct pricing pricing;
    if (request->all && request->format == LISTING_TABLE) {
        say("groat: a table has no row for what is not sold");
        say_try("--all --format csv");
        return STATUS_WRONG;
    }
    bool breaks =
        request->format == LISTING_TABLE && request->quantities_count > 1 && !request->estimates;
    bool whole = pricing_open(&pricing, request) && pricing_put_changes(&pricing) &&
                 (breaks ? print_breaks(&pricing) : print_list(&pricing));
    return pricing_close(&pricing, whole);
}
