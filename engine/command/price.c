/* groat price: the price list. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "command/runs.h"
#include "command/say.h"
#include "report/price_breaks.h"
#include "report/price_list.h"

/* What the walk over the sheet fills. */
struct printing {
    struct price_list *list;
    struct estimate *estimate; /* NULL: none are asked for */
};

static void put_range(struct bytes *names, const struct pricing *pricing,
                      const struct estimate_range *range)
{
    bytes_text(names, names->length > 0 ? ", " : "");
    bytes_text(names, range->is_rate ? groat_method_rate(pricing->method, range->index).name
                                     : groat_method_field(pricing->method, range->index).column);
}

/* The ranges are too many to be combined: says which they are. */
static void say_too_many(struct pricing *pricing, size_t row, const groat_order *order,
                         const struct estimate_result *result)
{
    struct telling *telling = products_telling(pricing->products);
    struct bytes names = {0};
    const char *channel = groat_method_channel(pricing->method, order->channel);
    for (size_t i = 0; i < result->ranges_count; i++)
        put_range(&names, pricing, &result->ranges[i]);
    bytes_char(&names, '\0');
    if (products_say(pricing->products, "no estimates: too many ranges affect the price") &&
        !names.failed) {
        telling_line(telling,
                     "%.500s, %.100s: no estimates: %zu ranges affect this price, but at most %d "
                     "can be combined: %s",
                     products_place(pricing->products, row), channel, result->ranges_count,
                     ESTIMATE_RANGES_MOST, names.start);
        telling_line(telling, "Try: a single value instead of a range for %zu of them",
                     result->ranges_count - ESTIMATE_RANGES_MOST);
    }
    bytes_free(&names);
    products_end_saying(pricing->products);
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

static bool add_to_breaks(void *context, struct pricing *pricing, size_t row,
                          const groat_order *order)
{
    struct price_place place = pricing_place(pricing, row, order);
    return price_breaks_add(context, &place, pricing->scratch);
}

/* What a customer may see: the channel only where there are several. */
static void choose_for_buyers(struct pricing *pricing, struct listing_plan *plan,
                              const char **names, size_t count)
{
    enum { CHANNEL = 1 };
    if (pricing->channels_count == 1) {
        count--;
        memmove(names + CHANNEL, names + CHANNEL + 1, (count - CHANNEL) * sizeof *names);
    }
    pricing->choice = pricing_choice(names, count);
    plan->choice = &pricing->choice;
}

static bool open_printing(struct printing *printing, const struct pricing *pricing)
{
    bool estimates = pricing->request->estimates && !pricing->request->buyers;
    *printing = (struct printing){.estimate = estimates ? estimate_open(pricing->method) : NULL};
    errno = ENOMEM;
    return !estimates || printing->estimate;
}

static void *open_part(void *context, const struct pricing *pricing)
{
    struct printing *whole = context, *part = malloc(sizeof *part);
    if (!part || !open_printing(part, pricing) || !(part->list = price_list_part(whole->list))) {
        if (part)
            estimate_close(part->estimate);
        free(part);
        return NULL;
    }
    return part;
}

static void close_part(void *own)
{
    struct printing *part = own;
    price_list_close(part->list, false);
    estimate_close(part->estimate);
    free(part);
}

static bool join_part(void *context, void *own)
{
    struct printing *whole = context, *part = own;
    return price_list_join(whole->list, part->list);
}

static bool print_list(struct pricing *pricing)
{
    static const struct runs_plan plan = {add_row, add_unread, open_part, close_part, join_part};
    struct listing_plan listing = pricing_listing_plan(pricing);
    const char *names[] = {"product", "channel", "quantity", "price", "buyer_adds", "paid"};
    bool buyers = pricing->request->buyers;
    if (buyers)
        choose_for_buyers(pricing, &listing, names, sizeof names / sizeof *names);
    struct printing printing;
    if (open_printing(&printing, pricing))
        printing.list =
            price_list_open(pricing->method, &listing, pricing->request->estimates && !buyers,
                            pricing->output.stream);
    bool table = pricing->request->format == LISTING_TABLE || buyers;
    bool whole = printing.list && (table ? pricing_walk(pricing, add_to_list, &printing)
                                         : runs_walk(pricing, &plan, &printing));
    if (!printing.list || (!price_list_close(printing.list, whole) && whole))
        whole = output_failed(&pricing->output);
    estimate_close(printing.estimate);
    return whole;
}

/* A table of several quantities; of estimates there is none. */
static bool print_breaks(struct pricing *pricing)
{
    struct listing_plan plan = pricing_listing_plan(pricing);
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
    if (request->buyers && (request->columns_count > 0 || request->estimates || request->all)) {
        say("groat: --buyers shows what a customer may see, and nothing else can be added to it");
        return STATUS_WRONG;
    }
    bool breaks = request->format == LISTING_TABLE && request->quantities_count > 1 &&
                  !request->estimates && !request->buyers && request->columns_count == 0;
    bool whole = pricing_open_once(&pricing, request) && pricing_put_changes(&pricing) &&
                 (breaks ? print_breaks(&pricing) : print_list(&pricing));
    return pricing_close(&pricing, whole);
}
