#define _POSIX_C_SOURCE 200809L
#include "command/pricing.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "command/apart.h"
#include "command/refused_rate.h"
#include "command/rules.h"
#include "command/say.h"
#include "command/terminal.h"

/* ---- which channels and rates ---- */

static groat_text channel_at(void *method, size_t channel)
{
    return listing_text(groat_method_channel(method, channel));
}

static bool unknown_channel(groat_method *method, const char *name)
{
    struct say_names channels = {groat_method_channels(method), channel_at, method, false};
    say("groat: there is no channel %s", name);
    say_try_names(&channels, name, "The channels are", SIZE_MAX);
    return false;
}

static void add_channel(struct pricing *pricing, size_t channel)
{
    for (size_t i = 0; i < pricing->channels_count; i++)
        if (pricing->channels[i] == channel)
            return;
    pricing->channels[pricing->channels_count++] = channel;
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

/* Whether it is a value of its own, and not a change of what the rate is. */
static bool is_new_value(const char *value)
{
    size_t length = strlen(value);
    return !(strchr("+-", value[0]) && value[length - 1] == '%');
}

/* A value that a later one for the same rate takes the place of was hardly meant. */
static void say_overruled(const struct request *request)
{
    const groat_rate_value *sets = request->sets;
    for (size_t i = 0; i + 1 < request->sets_count; i++)
        for (size_t j = i + 1; j < request->sets_count; j++)
            if (strcmp(sets[i].rate, sets[j].rate) == 0 && is_new_value(sets[j].value)) {
                say("groat: --set %s=%s has no effect, because a later --set gives %s a new value",
                    sets[i].rate, sets[i].value, sets[i].rate);
                break;
            }
}

/* The method with the rates of the command line, and what they were before. */
static groat_method *change_rates(struct pricing *pricing, groat_method *method)
{
    const struct request *request = pricing->request;
    groat_trouble trouble;
    groat_method *changed =
        groat_method_with_rates(method, request->sets, request->sets_count, &trouble);
    if (!changed) {
        refused_rate_say("--set", method, request->sets, &trouble);
        return NULL;
    }
    say_overruled(request);
    if (changes_take(&pricing->changes, method, changed, request->sets, request->sets_count))
        return changed;
    say_no_memory();
    groat_method_free(changed);
    return NULL;
}

/* NULL after saying why not. */
static groat_method *read_method(struct pricing *pricing)
{
    const struct request *request = pricing->request;
    groat_method *method = rules_read(request->rules, request);
    if (!method || request->sets_count == 0)
        return method;
    groat_method *changed = change_rates(pricing, method);
    groat_method_free(method);
    return changed;
}

/* ---- opening and closing ---- */

/* The line of progress may not stand among rows that go to the same terminal as they come. */
static bool progress_is_apart(const struct request *request)
{
    return request->format == LISTING_TABLE || request->output || !isatty(STDOUT_FILENO);
}

static bool open_room(struct pricing *pricing)
{
    pricing->record = groat_record_new(pricing->method);
    pricing->scratch = groat_scratch_new(pricing->method);
    if (pricing->record && pricing->scratch)
        return true;
    say_no_memory();
    return false;
}

static bool open_all(struct pricing *pricing, const struct request *request, bool once)
{
    *pricing = (struct pricing){.request = request};
    if (!apart_from_all(request))
        return false;
    pricing->method = read_method(pricing);
    if (!pricing->method || !choose_channels(pricing))
        return false;
    pricing->products = products_open(request, pricing->method, once);
    return pricing->products && open_room(pricing) &&
           output_open(&pricing->output, request->output);
}

bool pricing_open(struct pricing *pricing, const struct request *request)
{
    return open_all(pricing, request, false);
}

bool pricing_open_once(struct pricing *pricing, const struct request *request)
{
    return open_all(pricing, request, true);
}

bool pricing_open_beside(struct pricing *pricing, const struct request *request,
                         const struct pricing *other)
{
    *pricing = (struct pricing){.request = request};
    pricing->method = read_method(pricing);
    if (!pricing->method || !choose_channels(pricing))
        return false;
    pricing->products = products_again(other->products, pricing->method, request->rules);
    return pricing->products && open_room(pricing);
}

/* A table, or whatever else goes to a terminal: what was said above it has scrolled away. */
static bool is_read_by_eye(const struct request *request)
{
    return request->format == LISTING_TABLE || (!request->output && isatty(STDOUT_FILENO));
}

enum status pricing_close(struct pricing *pricing, bool whole)
{
    enum status status = whole || pricing->output.gone ? pricing->status : STATUS_WRONG;
    if (pricing->output.stream) {
        status = output_finish(&pricing->output, status);
        products_say_rest(pricing->products);
        if (status != STATUS_WRONG && is_read_by_eye(pricing->request))
            products_say_again(pricing->products);
    }
    left_out_close(&pricing->left_out);
    changes_free(&pricing->changes);
    groat_scratch_free(pricing->scratch);
    groat_record_free(pricing->record);
    products_free(pricing->products);
    free(pricing->channels);
    groat_method_free(pricing->method);
    return status;
}

/* The most columns that are proposed for one that is not there. */
#define COLUMN_NAMES_MOST 256

/* ---- walking ---- */

void pricing_leave_out(struct pricing *pricing, size_t row, const groat_order *order,
                       groat_outcome outcome, const char *reason)
{
    struct left_out_order about = {
        row,   products_place(pricing->products, row), order->channel, order->quantity, outcome,
        reason};
    if (!left_out_add(&pricing->left_out, &about))
        say_no_memory();
    pricing->status = STATUS_PARTLY;
}

void pricing_count_without(struct pricing *pricing, groat_outcome outcome)
{
    if (outcome == GROAT_REFUSED)
        pricing->left_out.refused++;
    else
        pricing->left_out.failed++;
    pricing->status = STATUS_PARTLY;
}

/* A line for each channel and reason; the place of what stands alone. */
static void say_kind(struct pricing *pricing, const struct left_out_kind *kind)
{
    const struct request *request = pricing->request;
    const char *channel = groat_method_channel(pricing->method, kind->channel);
    const char *outcome = kind->outcome == GROAT_REFUSED ? "refused" : "no price";
    char pieces[48] = "";
    if (kind->rows > 1) {
        say("%s: %s: %s: %s: %zu products", products_file(pricing->products), channel, outcome,
            kind->reason, kind->rows);
        return;
    }
    if (kind->orders == 1 && (request->quantities_count > 1 || kind->quantity != 1))
        snprintf(pieces, sizeof pieces, ", %lld piece%s", (long long)kind->quantity,
                 kind->quantity == 1 ? "" : "s");
    else if (kind->orders > 1)
        snprintf(pieces, sizeof pieces, ", %zu quantities", kind->orders);
    say("%s, %s%s: %s: %s", kind->place, channel, pieces, outcome, kind->reason);
}

void pricing_say_left_out(struct pricing *pricing)
{
    struct left_out *left_out = &pricing->left_out;
    const char *file = pricing->products ? products_file(pricing->products) : "";
    for (size_t i = 0; i < left_out->count; i++)
        say_kind(pricing, &left_out->kinds[i]);
    if (left_out->others > 0)
        say("%s: for other reasons, %zu more prices are refused or missing", file,
            left_out->others);
    if (left_out->refused > 0 && left_out->failed > 0)
        say_note("%s: %zu refused, %zu failed; the notes of their rows say why", file,
                 left_out->refused, left_out->failed);
    else if (left_out->refused + left_out->failed > 0)
        say_note("%s: %zu %s; the notes of their rows say why", file,
                 left_out->refused + left_out->failed,
                 left_out->refused > 0 ? "refused" : "failed");
    left_out_close(left_out);
}

size_t pricing_orders(const struct pricing *pricing)
{
    return pricing->channels_count * pricing->request->quantities_count;
}

groat_order pricing_order(const struct pricing *pricing, size_t index)
{
    const struct request *request = pricing->request;
    return (groat_order){pricing->channels[index / request->quantities_count],
                         request->quantities[index % request->quantities_count], request->as_of};
}

struct price_place pricing_place(struct pricing *pricing, size_t row, const groat_order *order)
{
    return (struct price_place){row, products_label(pricing->products, row),
                                groat_method_channel(pricing->method, order->channel),
                                order->quantity};
}

static bool each_order(struct pricing *pricing, size_t row, pricing_visitor *visit,
                       pricing_visitor *unread, void *context)
{
    if (!products_fill(pricing->products, row, pricing->record)) {
        pricing->status = STATUS_PARTLY;
        visit = unread;
    }
    for (size_t i = 0; visit && i < pricing_orders(pricing); i++) {
        groat_order order = pricing_order(pricing, i);
        if (!visit(context, pricing, row, &order))
            return false;
    }
    return true;
}

/* The columns of a list as say_names asks for them; the notes come last. */
struct column_names {
    const struct listing_column *columns;
    size_t named[COLUMN_NAMES_MOST];
};

static groat_text column_at(void *context, size_t index)
{
    const struct column_names *names = context;
    const char *name =
        names->named[index] == SIZE_MAX ? "notes" : names->columns[names->named[index]].name;
    return listing_text(name);
}

static void unknown_column(const struct listing_column *columns, size_t count, const char *name)
{
    struct column_names names = {.columns = columns};
    size_t named = 0;
    for (size_t i = 0; i < count && named + 1 < COLUMN_NAMES_MOST; i++)
        if (columns[i].name)
            names.named[named++] = i;
    names.named[named++] = SIZE_MAX;
    say("groat: there is no column %s", name);
    say_try_names(&(struct say_names){named, column_at, &names, false}, name, "The columns are",
                  SIZE_MAX);
}

struct listing_choice pricing_choice(const char *const *names, size_t count)
{
    return (struct listing_choice){names, count, unknown_column};
}

struct listing_plan pricing_listing_plan(struct pricing *pricing)
{
    const struct request *request = pricing->request;
    pricing->choice = pricing_choice(request->columns, request->columns_count);
    return (struct listing_plan){.form = request->format,
                                 .choice = request->columns_count > 0 ? &pricing->choice : NULL,
                                 .exact = request->exact,
                                 .raw = request->raw,
                                 .as_of = request->as_of,
                                 .width = terminal_width(request->output),
                                 .decimal_comma = request->decimal_comma,
                                 .bold = terminal_is_bold(request->output)};
}

bool pricing_put_changes(struct pricing *pricing)
{
    return pricing->request->format != LISTING_TABLE ||
           changes_put(&pricing->changes, pricing->output.stream) ||
           output_failed(&pricing->output);
}

void pricing_begin_progress(const struct pricing *pricing)
{
    progress_begin(progress_is_apart(pricing->request));
}

bool pricing_flush(struct pricing *pricing)
{
    bool rows = pricing->request->format != LISTING_TABLE && pricing->output.stream;
    return !rows || fflush(pricing->output.stream) == 0 || output_failed(&pricing->output);
}

/* Visits the rows in hand. */
static bool each_row(struct pricing *pricing, pricing_visitor *visit, pricing_visitor *unread,
                     void *context)
{
    size_t count = products_count(pricing->products);
    size_t total = products_are_over(pricing->products) ? count : 0;
    for (size_t row = products_first(pricing->products); row < count; row++) {
        if (products_is(pricing->products, row, pricing->request->product) &&
            !each_order(pricing, row, visit, unread, context))
            return output_failed(&pricing->output);
        progress_tell(row + 1, total);
    }
    return true;
}

bool pricing_each(struct pricing *pricing, pricing_visitor *visit, pricing_visitor *unread,
                  void *context)
{
    bool going;
    pricing_begin_progress(pricing);
    do
        going = each_row(pricing, visit, unread, context);
    while (going && (going = pricing_flush(pricing)) && products_next(pricing->products));
    progress_clear();
    pricing_say_left_out(pricing);
    return going && !products_are_broken(pricing->products);
}

/* A visitor of results, and its context. */
struct walk {
    pricing_visitor *visit;
    void *context;
};

static bool walk_order(void *context, struct pricing *pricing, size_t row, const groat_order *order)
{
    struct walk *walk = context;
    groat_outcome outcome = groat_price(pricing->scratch, pricing->method, pricing->record, order);
    if (outcome == GROAT_PRICED)
        return walk->visit(walk->context, pricing, row, order);
    if (groat_result_reason_kind(pricing->scratch) == GROAT_REASON_NO_MEMORY) {
        errno = ENOMEM;
        return false;
    }
    if (outcome != GROAT_NOT_SOLD)
        pricing_leave_out(pricing, row, order, outcome, groat_result_reason(pricing->scratch));
    return true;
}

bool pricing_row(struct pricing *pricing, size_t row, pricing_visitor *visit,
                 pricing_visitor *unread, void *context)
{
    return each_order(pricing, row, visit, unread, context);
}

bool pricing_walk(struct pricing *pricing, pricing_visitor *visit, void *context)
{
    struct walk walk = {visit, context};
    return pricing_each(pricing, walk_order, NULL, &walk);
}
