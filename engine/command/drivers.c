/* groat drivers: which rate moves prices most. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/hands.h"
#include "command/picture.h"
#include "command/say.h"
#include "command/terminal.h"
#include "report/drivers_list.h"
#include "text/utf8.h"

#define CHANGE_USUAL "+1%"

struct driving {
    struct pricing *pricing;
    struct drivers_showing showing;
    struct drivers *drivers;
    struct drivers_totals totals;
    struct listing *list;       /* with --each */
    char change[48], shown[48]; /* with a point; as it was asked for */
};

/* ---- one product, in any thread ---- */

struct product {
    struct drivers_result *results; /* one an order */
    size_t count;
    bool failed; /* memory ran out */
};

static void close_product(void *own)
{
    struct product *product = own;
    for (size_t i = 0; product->results && i < product->count; i++)
        drivers_result_close(&product->results[i]);
    free(product->results);
    free(product);
}

static void *open_product(void *context)
{
    const struct driving *driving = context;
    struct product *product = calloc(1, sizeof *product);
    if (!product)
        return NULL;
    product->count = pricing_orders(driving->pricing);
    product->results = calloc(product->count + 1, sizeof *product->results);
    bool opened = product->results;
    for (size_t i = 0; opened && i < product->count; i++)
        opened = drivers_result_open(&product->results[i], driving->drivers);
    if (opened)
        return product;
    close_product(product);
    return NULL;
}

static void work_on_product(void *context, struct hand *hand)
{
    const struct driving *driving = context;
    struct product *product = hand->own;
    product->failed = false;
    for (size_t i = 0; i < product->count && !product->failed; i++) {
        groat_order order = pricing_order(driving->pricing, i);
        product->failed = !drivers_price(driving->drivers, hand->scratch, hand->record, &order,
                                         &product->results[i]);
    }
}

/* ---- what came of it, in the order of the sheet ---- */

static struct price_place name_place(void *context, const struct drivers_place *place)
{
    groat_order order = {.channel = place->channel, .quantity = place->quantity};
    return pricing_place(context, place->row, &order);
}

static bool take_product(void *context, struct hand *hand)
{
    struct driving *driving = context;
    struct pricing *pricing = driving->pricing;
    struct product *product = hand->own;
    errno = ENOMEM;
    if (product->failed)
        return false;
    for (size_t i = 0; i < product->count; i++) {
        const struct drivers_result *result = &product->results[i];
        groat_order order = pricing_order(pricing, i);
        struct drivers_place place = {hand->row, order.channel, order.quantity};
        drivers_totals_add(&driving->totals, result, &place);
        if (result->outcome == GROAT_REFUSED || result->outcome == GROAT_FAILED)
            pricing_leave_out(pricing, hand->row, &order, result->outcome, result->reason);
        struct price_place named = name_place(pricing, &place);
        if (driving->list && result->outcome == GROAT_PRICED &&
            !drivers_list_add(driving->list, &driving->showing, &named, result))
            return false;
    }
    return true;
}

/* ---- what is asked for ---- */

/* A percentage above zero, with or without its sign: `5%` is `+5%`. */
static bool read_change(struct driving *driving)
{
    const struct request *request = driving->pricing->request;
    const char *by = request->by ? request->by : CHANGE_USUAL;
    bool sign = by[0] == '+' || by[0] == '-';
    char *change = driving->change, *mark;
    int length = snprintf(change, sizeof driving->change, "%s%s", sign ? "" : "+", by);
    snprintf(driving->shown, sizeof driving->shown, "%s", change);
    if (request->decimal_comma && (mark = strpbrk(change, ".,"))) {
        *mark = '.'; /* for the library */
        driving->shown[mark - change] = ',';
    }
    char *end;
    double percent = text_is_digit(change[1]) ? strtod(change + 1, &end) : 0;
    bool good = percent > 0 && (size_t)length < sizeof driving->change &&
                strspn(change + 1, "0123456789.") == (size_t)length - 2 && strcmp(end, "%") == 0;
    if (good && (by[0] != '-' || percent < 100))
        return true;
    say("groat: --by needs a percentage, not %s", by);
    say_try_percent("--by", request->decimal_comma ? "" : by, "5%");
    return false;
}

static bool draw(void *context, FILE *out)
{
    struct driving *driving = context;
    return drivers_draw_totals(&driving->showing, &driving->totals, out);
}

static bool study_products(struct driving *driving, struct picture *picture)
{
    static const struct hands_plan plan = {open_product, close_product, work_on_product,
                                           take_product};
    struct pricing *pricing = driving->pricing;
    const struct request *request = pricing->request;
    FILE *out = pricing->output.stream;
    if (!pricing_put_changes(pricing))
        return false;
    if (request->each && !(driving->list = drivers_list_open(&driving->showing, out)))
        return output_failed(&pricing->output);
    bool whole = hands_walk(pricing, &plan, driving), written = whole;
    drivers_totals_end(&driving->totals);
    if (driving->list)
        written =
            drivers_list_close(driving->list, &driving->showing, &driving->totals, whole, out);
    else if (whole)
        written =
            drivers_list_totals(&driving->showing, &driving->totals, name_place, pricing, out);
    if (whole && !written)
        whole = output_failed(&pricing->output);
    return whole && (!request->chart || picture_make(picture, draw, driving));
}

static bool open_study(struct driving *driving)
{
    struct pricing *pricing = driving->pricing;
    groat_trouble trouble = {0};
    driving->drivers = drivers_open(pricing->method, driving->change, &trouble);
    if (!driving->drivers || !drivers_totals_open(&driving->totals, driving->drivers)) {
        say_no_memory();
        return false;
    }
    driving->showing = (struct drivers_showing){driving->drivers, pricing->method, driving->shown,
                                                pricing_listing_plan(pricing), terminal_is_plain()};
    return true;
}

enum status verb_drivers(const struct request *request)
{
    struct pricing pricing;
    struct picture picture = {0};
    struct driving driving = {.pricing = &pricing};
    bool whole = pricing_open(&pricing, request) && read_change(&driving) &&
                 products_have(pricing.products, request->product) && open_study(&driving) &&
                 study_products(&driving, &picture);
    drivers_totals_close(&driving.totals);
    drivers_close(driving.drivers);
    return picture_finish(&picture, request->chart, pricing_close(&pricing, whole));
}
