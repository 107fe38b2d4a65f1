/* groat effect: what a change does to every price. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/namesakes.h"
#include "command/pricing.h"
#include "command/say.h"
#include "command/since.h"
#include "report/effect_list.h"
#include "study/effect.h"

/* A product's name and its number: its row in the sheet, or one of a list's beyond those. */
struct label {
    groat_text text;
    size_t number;
};

struct effecting {
    const struct request *request; /* as it was read */
    struct request before_request, after_request;
    struct pricing before, after; /* before: unless it is a list */
    bool from_list;
    struct since since;
    struct effect effect;
    size_t rows;                    /* of the sheet */
    groat_text *labels;             /* by number; those of the sheet are copies */
    struct label *sorted;           /* of the sheet, by their texts */
    bool *read_before, *read_after; /* the rows of the sheet that could be read */
    struct memory memory;
    struct arena arena; /* of all these lists, and of the copies */
};

/* ---- what is asked for ---- */

static bool asks_for_change(const struct request *request)
{
    if (request->against && request->since) {
        say("groat: use either --against or --since, not both");
        say_try("groat effect RULES PRODUCTS --since LIST.csv");
        return false;
    }
    if (request->against || request->since || request->sets_count > 0)
        return true;
    say("groat: effect needs one of --set, --against and --since");
    say_try("for example --set hourly=+10%");
    return false;
}

/* Before and after as two requests. Rates that are set are of the prices after. */
static void split_request(struct effecting *effecting, const struct request *request)
{
    effecting->request = request;
    effecting->from_list = request->since != NULL;
    effecting->before_request = *request;
    effecting->before_request.sets_count = 0;
    effecting->after_request = *request;
    if (request->against) { /* neither file may be written over */
        effecting->after_request.rules = request->against;
        effecting->after_request.against = request->rules;
        /* A channel may be of one side only, so both sides have all theirs, and are asked below. */
        effecting->before_request.channels_count = 0;
        effecting->after_request.channels_count = 0;
    }
}

static bool channel_is_asked_for(const struct effecting *effecting, const char *channel)
{
    const struct request *request = effecting->request;
    for (size_t i = 0; i < request->channels_count; i++)
        if (strcmp(request->channels[i], channel) == 0)
            return true;
    return request->channels_count == 0;
}

/* Of other rules: a channel that is named must be one of theirs or one of the first. */
static bool channels_are_known(const struct effecting *effecting)
{
    const struct request *request = effecting->request;
    for (size_t i = 0; i < request->channels_count; i++) {
        const char *channel = request->channels[i];
        if (groat_method_find_channel(effecting->before.method, channel) != SIZE_MAX ||
            groat_method_find_channel(effecting->after.method, channel) != SIZE_MAX)
            continue;
        say("groat: neither %s nor %s has a channel %s", request->rules, request->against, channel);
        return false;
    }
    return true;
}

/* ---- the names of the sheet ---- */

static int compare_labels(const void *a, const void *b)
{
    const struct label *left = a, *right = b;
    return namesakes_compare(left->text, right->text);
}

/* Room for the labels of the sheet, and of every line of the list. */
static bool make_labels(struct effecting *effecting)
{
    size_t rows = products_count(effecting->after.products);
    size_t labels = rows + effecting->since.count;
    struct arena *arena = &effecting->arena;
    effecting->labels = arena_take(arena, labels * sizeof *effecting->labels);
    effecting->sorted = arena_take(arena, rows * sizeof *effecting->sorted);
    effecting->read_before = arena_take(arena, rows * sizeof *effecting->read_before);
    effecting->read_after = arena_take(arena, rows * sizeof *effecting->read_after);
    bool made =
        effecting->labels && effecting->sorted && effecting->read_before && effecting->read_after;
    for (size_t row = 0; row < rows && made; row++) {
        groat_text label = products_label(effecting->after.products, row);
        label.start = arena_text(arena, label.start, label.length);
        made = label.start != NULL;
        effecting->labels[row] = label;
        effecting->sorted[row] = (struct label){label, row};
    }
    effecting->rows = rows;
    if (!made)
        say_no_memory();
    else if (rows > 0)
        qsort(effecting->sorted, rows, sizeof *effecting->sorted, compare_labels);
    return made;
}

/* The number of a product in the list; one that the sheet does not have gets that of its first line
 * in the list, behind the rows of the sheet. */
static size_t number_of(struct effecting *effecting, size_t line)
{
    struct label wanted = {.text = effecting->since.lines[line].product};
    const struct label *found = NULL;
    if (effecting->rows > 0)
        found = bsearch(&wanted, effecting->sorted, effecting->rows, sizeof wanted, compare_labels);
    if (found)
        return found->number;
    size_t first = line; /* a product's lines follow each other */
    while (first > 0 &&
           namesakes_compare(effecting->since.lines[first - 1].product, wanted.text) == 0)
        first--;
    effecting->labels[effecting->rows + first] = wanted.text;
    return effecting->rows + first;
}

/* ---- before: a list ---- */

/* Those of the list, unless the command line names some. */
static bool take_quantities(struct effecting *effecting)
{
    struct request *request = &effecting->after_request;
    if (request->quantities_given || effecting->since.count == 0)
        return true;
    int64_t *quantities = arena_take(&effecting->arena, QUANTITIES_MOST * sizeof *quantities);
    if (!quantities) {
        say_no_memory();
        return false;
    }
    size_t count = 0;
    for (size_t i = 0; i < effecting->since.count; i++) {
        int64_t quantity = effecting->since.lines[i].quantity;
        size_t at = 0;
        while (at < count && quantities[at] != quantity)
            at++;
        if (at == QUANTITIES_MOST) {
            say("%s: it has more than %d quantities; choose some with --quantity",
                effecting->since.name, QUANTITIES_MOST);
            return false;
        }
        quantities[at] = quantity;
        count += at == count;
    }
    request->quantities = quantities;
    request->quantities_count = count;
    return true;
}

static bool is_asked_for(const struct effecting *effecting, const struct since_line *line)
{
    const struct request *request = &effecting->after_request;
    bool quantity = false;
    for (size_t i = 0; i < request->quantities_count && !quantity; i++)
        quantity = request->quantities[i] == line->quantity;
    return quantity && channel_is_asked_for(effecting, line->channel);
}

static bool take_list(struct effecting *effecting)
{
    for (size_t i = 0; i < effecting->since.count; i++) {
        const struct since_line *line = &effecting->since.lines[i];
        struct effect_ticket ticket = {.outcome = line->outcome,
                                       .list = line->list,
                                       .price = line->price,
                                       .reason = line->notes,
                                       .notes = line->notes};
        if (!is_asked_for(effecting, line))
            continue;
        struct effect_place place = {number_of(effecting, i), line->channel, line->quantity};
        if (effect_was(&effecting->effect, &place, &ticket))
            continue;
        say_no_memory();
        return false;
    }
    return true;
}

/* ---- before: rules ---- */

static struct effect_place place_of(const struct pricing *pricing, size_t row,
                                    const groat_order *order)
{
    return (struct effect_place){row, groat_method_channel(pricing->method, order->channel),
                                 order->quantity};
}

static bool price_before(void *context, struct pricing *pricing, size_t row,
                         const groat_order *order)
{
    struct effecting *effecting = context;
    struct effect_place place = place_of(pricing, row, order);
    effecting->read_before[row] = true;
    if (!channel_is_asked_for(effecting, place.channel))
        return true;
    groat_outcome outcome = groat_price(pricing->scratch, pricing->method, pricing->record, order);
    errno = ENOMEM;
    return effect_was_priced(&effecting->effect, &place, outcome, pricing->scratch);
}

/* A row that could not be read before is one without a price, wherever it may have been sold. */
static bool note_unread(struct effecting *effecting, size_t row)
{
    struct pricing *before = &effecting->before;
    struct effect_ticket ticket = {.outcome = GROAT_FAILED, .reason = EFFECT_UNREAD};
    for (size_t i = 0; i < pricing_orders(before); i++) {
        groat_order order = pricing_order(before, i);
        struct effect_place place = place_of(before, row, &order);
        if (!channel_is_asked_for(effecting, place.channel) ||
            effect_was(&effecting->effect, &place, &ticket))
            continue;
        say_no_memory();
        return false;
    }
    return true;
}

static bool take_rules(struct effecting *effecting)
{
    if (!pricing_each(&effecting->before, price_before, NULL, effecting))
        return false;
    for (size_t row = 0; row < effecting->rows; row++)
        if (!effecting->read_before[row] && !note_unread(effecting, row))
            return false;
    return true;
}

/* ---- after ---- */

static bool price_after(void *context, struct pricing *pricing, size_t row,
                        const groat_order *order)
{
    struct effecting *effecting = context;
    struct effect_place place = place_of(pricing, row, order);
    struct effect_question question = {pricing->scratch, pricing->method, pricing->record, order};
    effecting->read_after[row] = true;
    errno = ENOMEM;
    return !channel_is_asked_for(effecting, place.channel) ||
           effect_now(&effecting->effect, &place, &question);
}

static enum effect_loss why_lost(void *context, const struct effect_place *place)
{
    const struct effecting *effecting = context;
    if (place->product >= effecting->rows)
        return EFFECT_NO_PRODUCT;
    if (groat_method_find_channel(effecting->after.method, place->channel) == SIZE_MAX)
        return EFFECT_NO_CHANNEL;
    return effecting->read_after[place->product] ? EFFECT_NOT_LOST : EFFECT_UNREADABLE;
}

/* ---- the whole ---- */

static bool open_before(struct effecting *effecting)
{
    const struct request *request = &effecting->before_request;
    if (effecting->from_list)
        return since_read(&effecting->since, request->since, effecting->after.method,
                          request->decimal_comma) &&
               take_quantities(effecting);
    if (!pricing_open_beside(&effecting->before, request, &effecting->after))
        return false;
    const char *before = groat_method_currency(effecting->before.method).code;
    const char *after = groat_method_currency(effecting->after.method).code;
    if (strcmp(before, after) == 0)
        return channels_are_known(effecting);
    say("groat: %s prices in %s, and %s in %s", request->rules, before,
        effecting->after_request.rules, after);
    return false;
}

static bool work_out(struct effecting *effecting)
{
    const struct request *request = &effecting->after_request;
    struct effect_band band = {0};
    if (request->hold)
        band = (struct effect_band){request->hold_top, request->hold_bottom};
    groat_currency currency = groat_method_currency(effecting->after.method);
    effect_open(&effecting->effect, currency.decimals, band);
    effecting->effect.complete = !effecting->from_list;
    if (!make_labels(effecting))
        return false;
    if (effecting->from_list ? !take_list(effecting) : !take_rules(effecting))
        return false;
    effect_ready(&effecting->effect);
    if (!pricing_each(&effecting->after, price_after, NULL, effecting))
        return false;
    if (effect_finish(&effecting->effect, why_lost, effecting))
        return true;
    say_no_memory();
    return false;
}

static bool write_effect(struct effecting *effecting)
{
    const struct request *request = &effecting->after_request;
    struct pricing *after = &effecting->after;
    struct effect_list list = {.effect = &effecting->effect,
                               .labels = effecting->labels,
                               .held = request->hold != NULL,
                               .from_list = effecting->from_list,
                               .plan = pricing_listing_plan(after)};
    list.plan.currency = groat_method_currency(after->method);
    if (effect_any_refused(&effecting->effect))
        after->status = STATUS_PARTLY;
    return effect_list_write(&list, after->output.stream) || output_failed(&after->output);
}

static enum status close_all(struct effecting *effecting, bool whole)
{
    effect_close(&effecting->effect);
    arena_close(&effecting->arena);
    since_close(&effecting->since);
    pricing_close(&effecting->before, whole);
    return pricing_close(&effecting->after, whole);
}

enum status verb_effect(const struct request *request)
{
    struct effecting effecting = {.memory = memory_standard()};
    if (!asks_for_change(request))
        return STATUS_WRONG;
    arena_open(&effecting.arena, &effecting.memory);
    split_request(&effecting, request);
    bool whole = pricing_open(&effecting.after, &effecting.after_request) &&
                 open_before(&effecting) && work_out(&effecting) &&
                 pricing_put_changes(&effecting.after) && write_effect(&effecting);
    return close_all(&effecting, whole);
}
