/* groat sweep: a rate from one value to another, and what every product costs on the way. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/hands.h"
#include "command/picture.h"
#include "command/refused_rate.h"
#include "command/say.h"
#include "command/terminal.h"
#include "report/sweep_list.h"
#include "report/sweep_table.h"
#include "study/sweep.h"

#define POINTS_USUAL 101

struct sweeping {
    struct pricing *pricing;
    struct sweep *sweep;
    struct sweep_showing showing;
    struct listing *list;          /* of csv and json */
    struct sweep_summary *summary; /* of a table of many products */
    struct sweep_picture *drawn;   /* with --chart */
    bool one;                      /* a table of one product */
    size_t blocks;                 /* written so far, of one product */
    groat_order *all;              /* of a product */
};

/* ---- one product, in any thread ---- */

/* What comes of a product: rows to be written, and a line for each order. */
struct product {
    struct listing **parts;   /* one an order; of a table they are NULL */
    struct sweep_line *lines; /* one an order */
    size_t count;             /* of orders */
    bool failed;              /* memory ran out */
};

static void close_product(void *own)
{
    struct product *product = own;
    for (size_t i = 0; i < product->count; i++) {
        if (product->parts && product->parts[i])
            listing_close(product->parts[i], false);
        if (product->lines)
            sweep_line_close(&product->lines[i]);
    }
    free(product->parts);
    free(product->lines);
    free(product);
}

static enum sweep_detail detail_wanted(const struct sweeping *sweeping)
{
    if (sweeping->summary || (sweeping->list && sweeping->drawn))
        return SWEEP_PRICES;
    return sweeping->list ? SWEEP_OUTCOMES : SWEEP_FULL;
}

static bool open_orders(const struct sweeping *sweeping, struct product *product)
{
    product->count = pricing_orders(sweeping->pricing);
    product->parts = calloc(product->count + 1, sizeof *product->parts);
    product->lines = calloc(product->count + 1, sizeof *product->lines);
    if (!product->parts || !product->lines)
        return false;
    for (size_t i = 0; i < product->count; i++) {
        sweep_line_open(&product->lines[i], detail_wanted(sweeping));
        if (sweeping->list && !(product->parts[i] = listing_part(sweeping->list)))
            return false;
    }
    return true;
}

static void *open_product(void *context)
{
    struct product *product = calloc(1, sizeof *product);
    if (!product || open_orders(context, product))
        return product;
    close_product(product);
    return NULL;
}

static struct price_place place_of(const struct sweeping *sweeping, const struct hand *hand,
                                   const groat_order *order)
{
    return (struct price_place){hand->row, hand->label,
                                groat_method_channel(sweeping->pricing->method, order->channel),
                                order->quantity};
}

/* A product while the rate moves. */
struct moving {
    const struct sweeping *sweeping;
    struct product *product;
    const struct hand *hand;
};

static bool visit_point(void *context, size_t index, size_t point, groat_outcome outcome,
                        const groat_scratch *scratch)
{
    struct moving *moving = context;
    const struct sweeping *sweeping = moving->sweeping;
    struct product *product = moving->product;
    product->failed = !sweep_line_add(&product->lines[index], point, outcome, scratch);
    if (product->failed || !sweeping->list)
        return !product->failed;
    struct price_place place = place_of(sweeping, moving->hand, &sweeping->all[index]);
    product->failed =
        !sweep_list_add(product->parts[index], sweeping->sweep, &place, point, outcome, scratch);
    return !product->failed;
}

static void work_on_product(void *context, struct hand *hand)
{
    const struct sweeping *sweeping = context;
    struct product *product = hand->own;
    struct moving moving = {sweeping, product, hand};
    product->failed = false;
    for (size_t i = 0; i < product->count; i++)
        sweep_line_clear(&product->lines[i]);
    sweep_walk(sweeping->sweep, hand->scratch, hand->record, sweeping->all, product->count,
               visit_point, &moving);
}

/* ---- what came of it, in the order of the sheet ---- */

/* A table says why there is no price where it stands; of data it is said once here. */
static void say_without(struct sweeping *sweeping, const struct hand *hand,
                        const groat_order *order, const struct sweep_line *line)
{
    struct pricing *pricing = sweeping->pricing;
    char pieces[48] = "";
    struct bytes why = {0};
    if (sweep_say_without(&why, &sweeping->showing, line)) {
        pricing->status = STATUS_PARTLY;
        bytes_char(&why, '\0');
        if (order->quantity != 1)
            snprintf(pieces, sizeof pieces, ", %lld pieces", (long long)order->quantity);
        if (sweeping->list && !why.failed)
            say("%s, %s%s: %s", products_place(pricing->products, hand->row),
                groat_method_channel(pricing->method, order->channel), pieces, why.start);
    }
    bytes_free(&why);
}

static bool show_block(struct sweeping *sweeping, const struct price_place *place,
                       const struct sweep_line *line)
{
    FILE *out = sweeping->pricing->output.stream;
    if (!sweep_line_sold(line))
        return true;
    if (sweeping->blocks++ > 0 && fputc('\n', out) == EOF)
        return false;
    return sweep_show_line(&sweeping->showing, place, line, out);
}

static bool take_order(struct sweeping *sweeping, struct hand *hand, size_t index)
{
    const struct product *product = hand->own;
    const struct sweep_line *line = &product->lines[index];
    const groat_order *order = &sweeping->all[index];
    struct price_place place = place_of(sweeping, hand, order);
    say_without(sweeping, hand, order, line);
    if (sweeping->drawn && !sweep_picture_add(sweeping->drawn, &place, line))
        return false;
    if (sweeping->summary)
        return sweep_summary_add(sweeping->summary, &place, line);
    if (sweeping->list)
        return listing_join(sweeping->list, product->parts[index]);
    return show_block(sweeping, &place, line);
}

static bool take_product(void *context, struct hand *hand)
{
    struct sweeping *sweeping = context;
    struct product *product = hand->own;
    bool taken = !product->failed;
    errno = ENOMEM;
    for (size_t i = 0; i < product->count && taken; i++)
        taken = take_order(sweeping, hand, i);
    return taken;
}

/* ---- what is asked for ---- */

static bool list_orders(struct sweeping *sweeping)
{
    const struct pricing *pricing = sweeping->pricing;
    sweeping->all = calloc(pricing_orders(pricing) + 1, sizeof *sweeping->all);
    if (!sweeping->all)
        say_no_memory();
    for (size_t i = 0; sweeping->all && i < pricing_orders(pricing); i++)
        sweeping->all[i] = pricing_order(pricing, i);
    return sweeping->all != NULL;
}

static bool open_range(struct sweeping *sweeping)
{
    const struct request *request = sweeping->pricing->request;
    struct sweep_range range = {request->over.rate, request->over.value, request->over.toward,
                                request->steps ? request->steps : POINTS_USUAL};
    groat_trouble trouble = {0};
    sweeping->sweep = sweep_open(sweeping->pricing->method, &range, &trouble);
    if (sweeping->sweep)
        return true;
    if (trouble.given != SIZE_MAX) {
        refused_rate_say("--over", sweeping->pricing->method, &request->over, &trouble);
        return false;
    }
    say("groat: --over: %s", trouble.message);
    if (trouble.help_kind == GROAT_HELP_VALUE)
        say("Try: --over %.40s='%s'", range.rate, trouble.help);
    return false;
}

/* A picture that nobody can read is refused before the work begins. */
static bool picture_is_readable(struct sweeping *sweeping)
{
    const struct request *request = sweeping->pricing->request;
    size_t products = products_named(sweeping->pricing->products, request->product);
    if (request->chart && products > CHART_PANELS_MOST) {
        say("groat: a chart has room for %d products, but there are %zu", CHART_PANELS_MOST,
            products);
        say_try("--product NAME");
        return false;
    }
    size_t lines = pricing_orders(sweeping->pricing);
    if (request->chart && lines > CHART_SERIES_MOST) {
        say("groat: a chart has room for %d lines per product, but there are %zu",
            CHART_SERIES_MOST, lines);
        say_try("--channel NAME");
        return false;
    }
    return true;
}

static bool open_lists(struct sweeping *sweeping)
{
    struct pricing *pricing = sweeping->pricing;
    const struct request *request = pricing->request;
    struct sweep_showing *showing = &sweeping->showing;
    *showing = (struct sweep_showing){.sweep = sweeping->sweep,
                                      .plan = pricing_listing_plan(pricing),
                                      .plain = terminal_is_plain(),
                                      .method = pricing->method};
    bool opened = true;
    if (!pricing_put_changes(pricing))
        return false;
    if (request->format != LISTING_TABLE)
        opened = (sweeping->list = sweep_list_open(pricing->method, sweeping->sweep, &showing->plan,
                                                   pricing->output.stream));
    else if (products_named(pricing->products, request->product) == 1)
        sweeping->one = true;
    else
        opened = (sweeping->summary = sweep_summary_open(showing, pricing->output.stream));
    if (opened && request->chart)
        opened = (sweeping->drawn = sweep_picture_open(showing));
    return opened || output_failed(&pricing->output);
}

static bool write_drawn(void *context, FILE *out)
{
    return sweep_picture_write(context, out);
}

static bool sweep_products(struct sweeping *sweeping, struct picture *picture)
{
    static const struct hands_plan plan = {open_product, close_product, work_on_product,
                                           take_product};
    struct pricing *pricing = sweeping->pricing;
    bool whole = open_lists(sweeping) && hands_walk(pricing, &plan, sweeping);
    if (whole && sweeping->one && sweeping->blocks == 0 && pricing->status == STATUS_FINE)
        say("groat: the product is not sold on any of these channels");
    if (sweeping->list && !listing_close(sweeping->list, whole) && whole)
        whole = output_failed(&pricing->output);
    if (sweeping->summary && !sweep_summary_close(sweeping->summary, whole) && whole)
        whole = output_failed(&pricing->output);
    if (whole && sweeping->drawn)
        whole = picture_make(picture, write_drawn, sweeping->drawn);
    sweep_picture_close(sweeping->drawn);
    return whole;
}

enum status verb_sweep(const struct request *request)
{
    struct pricing pricing;
    struct picture picture = {0};
    struct sweeping sweeping = {.pricing = &pricing};
    if (!request->over.rate) {
        say("groat: sweep needs a rate with its first and last value");
        say_try("for example --over hourly='$20 per h..$30 per h'");
        return STATUS_WRONG;
    }
    bool whole = pricing_open(&pricing, request) &&
                 products_have(pricing.products, request->product) && list_orders(&sweeping) &&
                 open_range(&sweeping) && picture_is_readable(&sweeping) &&
                 sweep_products(&sweeping, &picture);
    sweep_close(sweeping.sweep);
    free(sweeping.all);
    return picture_finish(&picture, request->chart, pricing_close(&pricing, whole));
}
