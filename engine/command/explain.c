/* groat explain: where a price comes from. */
#include <ctype.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "command/pricing.h"
#include "command/say.h"
#include "command/terminal.h"
#include "report/account.h"
#include "text/near.h"

/* ---- what cannot be explained ---- */

static bool product_is_there(struct pricing *pricing)
{
    if (pricing->request->product)
        return products_have(pricing->products, pricing->request->product);
    say("groat: explain needs a product: --product NAME");
    products_propose(pricing->products, "");
    return false;
}

static char plain(char letter)
{
    return letter == ' ' || letter == '-' ? '_' : (char)tolower((unsigned char)letter);
}

/* Whether a heading, `Take-home`, says a name, `take_home`. */
static bool says(const char *heading, const char *name)
{
    while (*heading && *name && plain(*heading) == plain(*name)) {
        heading++;
        name++;
    }
    return !*heading && !*name;
}

/* Says what makes up a heading of a list that no figure stands behind; false for any other. */
static bool say_made_up(const char *wanted)
{
    static const struct {
        const char *heading, *what, *help;
    } made_up[] = {
        {"buyer_adds", "it is paid minus price", "--name paid, or --name price"},
        {"break_even_price", "groat earn works it out", "groat earn RULES PRODUCTS --at PRICE"}};
    for (size_t i = 0; i < sizeof made_up / sizeof *made_up; i++) {
        if (!says(wanted, made_up[i].heading))
            continue;
        say("groat: %s has no name in the rules: %s", wanted, made_up[i].what);
        say_try(made_up[i].help);
        return true;
    }
    return false;
}

/* The name that is asked for: as the rules have it, or else as a heading of a list has it. NULL,
 * and said, where there is none. */
static const char *find_name(const groat_method *method, const char *wanted)
{
    static const char *const headings[][2] = {{"you_keep", "keep"}, {"list_price", "list"}};
    const char *heading = wanted, *found = NULL;
    struct near near = near_to(wanted, strlen(wanted));
    for (size_t i = 0; i < sizeof headings / sizeof *headings; i++)
        if (says(wanted, headings[i][0]))
            heading = headings[i][1];
    for (size_t i = 0; i < groat_method_names(method); i++) {
        const char *name = groat_method_name(method, i);
        if (strcmp(name, wanted) == 0)
            return name;
        if (!found && says(heading, name))
            found = name;
        near_offer(&near, name);
    }
    if (found || say_made_up(wanted))
        return found;
    say("groat: the rules have no name %s", wanted);
    say_try(near.best);
    return NULL;
}

/* ---- explaining ---- */

struct explaining {
    struct account_plan plan;
    const char *name; /* NULL: the price */
};

static bool explain_order(void *context, struct pricing *pricing, size_t row,
                          const groat_order *order)
{
    struct explaining *explaining = context;
    struct account account = {.product = products_label(pricing->products, row),
                              .channel = groat_method_channel(pricing->method, order->channel),
                              .quantity = order->quantity,
                              .name = explaining->name,
                              .scratch = pricing->scratch};
    groat_explanation *explanation =
        groat_explain_name(pricing->scratch, pricing->method, pricing->record, order,
                           explaining->name, &account.outcome);
    errno = ENOMEM;
    if (!explanation)
        return false;
    account.explanation = explanation;
    if (account.outcome == GROAT_REFUSED || account.outcome == GROAT_FAILED)
        pricing->status = STATUS_PARTLY;
    bool written = account_add(&explaining->plan, &account, pricing->output.stream);
    groat_explanation_free(explanation);
    return written;
}

/* Which rows are explained, where the name is that of several. */
static void say_rows(struct pricing *pricing)
{
    const char *name = pricing->request->product;
    if (products_named(pricing->products, name) < 2)
        return;
    for (size_t row = 0; row < products_count(pricing->products); row++)
        if (products_is(pricing->products, row, name))
            say("%s has this name and is explained", products_place(pricing->products, row));
}

static bool explain(struct pricing *pricing)
{
    const struct request *request = pricing->request;
    struct explaining explaining = {.plan = {.json = request->format == LISTING_JSON,
                                             .width = terminal_width(request->output),
                                             .currency = groat_method_currency(pricing->method),
                                             .as_of = request->as_of,
                                             .exact = request->exact}};
    if (!product_is_there(pricing))
        return false;
    if (request->name && !(explaining.name = find_name(pricing->method, request->name)))
        return false;
    say_rows(pricing);
    if (!account_begin(&explaining.plan, pricing->output.stream))
        return output_failed(&pricing->output);
    return pricing_each(pricing, explain_order, NULL, &explaining) &&
           (account_end(&explaining.plan, pricing->output.stream) ||
            output_failed(&pricing->output));
}

enum status verb_explain(const struct request *request)
{
    struct pricing pricing;
    if (request->format != LISTING_TABLE && request->format != LISTING_JSON) {
        say("groat: an explanation can be a table or json, but not %s",
            request->format == LISTING_CSV ? "csv" : "ndjson");
        return STATUS_WRONG;
    }
    return pricing_close(&pricing, pricing_open(&pricing, request) && explain(&pricing));
}
