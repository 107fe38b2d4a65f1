/* groat price: the price list. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "command/nearest.h"
#include "command/output.h"
#include "command/products.h"
#include "command/rules.h"
#include "command/say.h"
#include "command/verb.h"
#include "report/price_list.h"

/* How wide a table is when no terminal says it. */
#define TABLE_WIDTH 100

/* One run. */
struct pricing {
    const struct request *request;
    const groat_method *method;
    size_t *channels; /* indices */
    size_t channels_count;
    struct products *products;
    groat_record *record;
    groat_scratch *scratch;
    struct output output;
    struct price_list *list;
    enum status status;
};

/* ---- which channels and rates ---- */

static bool unknown_channel(const groat_method *method, const char *name)
{
    struct nearest nearest = nearest_to(name);
    for (size_t i = 0; i < groat_method_channels(method); i++)
        nearest_offer(&nearest, groat_method_channel(method, i));
    say("groat: there is no channel %s", name);
    say_try(nearest.best);
    return false;
}

static bool add_channel(struct pricing *pricing, size_t channel)
{
    for (size_t i = 0; i < pricing->channels_count; i++)
        if (pricing->channels[i] == channel)
            return true;
    pricing->channels[pricing->channels_count++] = channel;
    return true;
}

static bool choose_channels(struct pricing *pricing)
{
    const struct request *request = pricing->request;
    size_t count = groat_method_channels(pricing->method);
    pricing->channels = calloc(count + 1, sizeof *pricing->channels);
    if (!pricing->channels) {
        say_no_memory();
        return false;
    }
    for (size_t i = 0; i < request->channels_count; i++) {
        size_t channel = groat_method_find_channel(pricing->method, request->channels[i]);
        if (channel == SIZE_MAX)
            return unknown_channel(pricing->method, request->channels[i]);
        add_channel(pricing, channel);
    }
    for (size_t i = 0; i < count && request->channels_count == 0; i++)
        add_channel(pricing, i);
    return true;
}

/* The method with the rates of the command line; NULL after saying why not. */
static groat_method *read_method(const struct request *request)
{
    groat_method *method = rules_read(request->rules, false);
    if (!method || request->sets_count == 0)
        return method;
    groat_trouble trouble;
    groat_method *changed =
        groat_method_with_rates(method, request->sets, request->sets_count, &trouble);
    groat_method_free(method);
    if (!changed) {
        say("groat: --set: %s", trouble.message);
        say_try(trouble.help);
    }
    return changed;
}

/* ---- rows ---- */

static void say_left_out(struct pricing *pricing, size_t row, const groat_order *order,
                         groat_outcome outcome)
{
    const char *channel = groat_method_channel(pricing->method, order->channel);
    const char *kind = outcome == GROAT_REFUSED ? "refused" : "no price";
    char pieces[48] = "";
    if (order->quantity != 1)
        snprintf(pieces, sizeof pieces, ", %lld pieces", (long long)order->quantity);
    say("%s, at %s%s: %s: %s", products_place(pricing->products, row), channel, pieces, kind,
        groat_result_reason(pricing->scratch));
    pricing->status = STATUS_PARTLY;
}

/* Returns false when the list cannot be written any further. */
static bool price_order(struct pricing *pricing, size_t row, const groat_order *order)
{
    groat_outcome outcome =
        groat_price(pricing->scratch, pricing->method, pricing->record, order);
    if (outcome == GROAT_REFUSED || outcome == GROAT_FAILED)
        say_left_out(pricing, row, order, outcome);
    if (outcome != GROAT_PRICED)
        return true;
    bool written = price_list_row(pricing->list, products_label(pricing->products, row),
                                  groat_method_channel(pricing->method, order->channel),
                                  order->quantity, pricing->scratch);
    if (!written)
        output_failed(&pricing->output);
    return written;
}

static bool price_product(struct pricing *pricing, size_t row)
{
    const struct request *request = pricing->request;
    if (!products_fill(pricing->products, row, pricing->record)) {
        pricing->status = STATUS_PARTLY;
        return true;
    }
    for (size_t i = 0; i < pricing->channels_count; i++) {
        for (size_t j = 0; j < request->quantities_count; j++) {
            groat_order order = {pricing->channels[i], request->quantities[j], request->as_of};
            if (!price_order(pricing, row, &order))
                return false;
        }
    }
    return true;
}

static void price_products(struct pricing *pricing)
{
    bool going = true;
    for (size_t row = 0; row < products_count(pricing->products) && going; row++)
        going = price_product(pricing, row);
    bool closed = price_list_close(pricing->list, going);
    pricing->list = NULL;
    if (going && !closed)
        output_failed(&pricing->output);
}

/* ---- one run ---- */

static bool open_list(struct pricing *pricing)
{
    struct listing_plan plan = {.form = pricing->request->format,
                                .width = TABLE_WIDTH,
                                .decimal_comma = pricing->request->decimal_comma};
    pricing->list = price_list_open(pricing->method, &plan, pricing->output.stream);
    if (pricing->list)
        return true;
    output_failed(&pricing->output);
    return false;
}

static enum status price_method(struct pricing *pricing)
{
    pricing->products = products_open(pricing->request, pricing->method);
    if (!pricing->products)
        return STATUS_WRONG;
    pricing->record = groat_record_new(pricing->method);
    pricing->scratch = groat_scratch_new(pricing->method);
    if (!pricing->record || !pricing->scratch) {
        say_no_memory();
        return STATUS_WRONG;
    }
    if (!output_open(&pricing->output, pricing->request->output))
        return STATUS_WRONG;
    if (open_list(pricing))
        price_products(pricing);
    return output_finish(&pricing->output, pricing->status);
}

static void pricing_free(struct pricing *pricing)
{
    groat_scratch_free(pricing->scratch);
    groat_record_free(pricing->record);
    products_free(pricing->products);
    free(pricing->channels);
}

enum status verb_price(const struct request *request)
{
    groat_method *method = read_method(request);
    if (!method)
        return STATUS_WRONG;
    struct pricing pricing = {.request = request, .method = method, .status = STATUS_FINE};
    enum status status = STATUS_WRONG;
    if (choose_channels(&pricing))
        status = price_method(&pricing);
    pricing_free(&pricing);
    groat_method_free(method);
    return status;
}
