/* groat rank: where to sell. */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "command/pricing.h"
#include "command/say.h"
#include "report/rank_list.h"
#include "text/near.h"

struct ranking {
    struct pricing *pricing;
    const char *by;
    struct rank *rank;
    struct rank_list *list; /* opened with the first ranking, when it is known what is ranked */
    bool begun;             /* there is a product in the ranking */
    size_t row;             /* then: which, */
    struct bytes label;     /* and its label, as its row may be out of hand when it ends */
    bool wrong;             /* what is asked for cannot be ranked by, which has been said */
};

/* ---- what to rank by ---- */

static bool name_is_there(const struct ranking *ranking)
{
    const groat_method *method = ranking->pricing->method;
    struct near near = near_to(ranking->by, strlen(ranking->by));
    for (size_t i = 0; i < groat_method_names(method); i++) {
        const char *name = groat_method_name(method, i);
        if (strcmp(name, ranking->by) == 0)
            return true;
        near_offer(&near, name);
    }
    say("groat: --by: the rules have no name %s", ranking->by);
    say("Try: --by %s", near.best ? near.best : "profit");
    return false;
}

static void say_no_number(struct ranking *ranking)
{
    static const char *const kinds[] = {[GROAT_KIND_TEXT] = "a text",
                                        [GROAT_KIND_FLAG] = "yes or no",
                                        [GROAT_KIND_DATE] = "a date",
                                        [GROAT_KIND_PARTS] = "a list of parts"};
    groat_kind kind = GROAT_KIND_TEXT;
    rank_kind(ranking->rank, &kind);
    say("groat: --by: %s is %s; only amounts can be ranked", ranking->by, kinds[kind]);
    say_try("--by profit");
    ranking->wrong = true;
}

/* ---- ranking ---- */

static bool open_list(struct ranking *ranking)
{
    struct listing_plan plan = pricing_listing_plan(ranking->pricing);
    if (!pricing_put_changes(ranking->pricing))
        return false;
    groat_kind kind = GROAT_KIND_NUMBER;
    rank_kind(ranking->rank, &kind);
    ranking->list = rank_list_open(ranking->pricing->method, &plan, ranking->by, kind,
                                   ranking->pricing->output.stream);
    return ranking->list != NULL;
}

/* Ends the ranking of a product, if there is one. */
static bool end_product(struct ranking *ranking)
{
    struct pricing *pricing = ranking->pricing;
    if (!ranking->begun || ranking->wrong)
        return true;
    rank_settle(ranking->rank);
    for (size_t i = 0; i < rank_count(ranking->rank); i++)
        if (rank_at(ranking->rank, i)->outcome != GROAT_PRICED)
            pricing->status = STATUS_PARTLY;
    return (ranking->list || open_list(ranking)) &&
           rank_list_add(ranking->list, (groat_text){ranking->label.start, ranking->label.length},
                         ranking->rank);
}

static bool add_order(void *context, struct pricing *pricing, size_t row, const groat_order *order)
{
    struct ranking *ranking = context;
    if (ranking->wrong)
        return true;
    if (!ranking->begun || ranking->row != row) {
        if (!end_product(ranking))
            return false;
        rank_begin(ranking->rank);
        ranking->begun = true;
        ranking->row = row;
        groat_text label = products_label(pricing->products, row);
        ranking->label.length = 0;
        bytes_put(&ranking->label, label.start, label.length);
        errno = ENOMEM;
        if (ranking->label.failed)
            return false;
    }
    switch (rank_add(ranking->rank, pricing->scratch, pricing->record, order)) {
    case RANK_NO_MEMORY: errno = ENOMEM; return false;
    case RANK_NO_NUMBER: say_no_number(ranking); break;
    case RANK_FINE: break;
    }
    return true;
}

/* A name that no row has a figure of: it may be a table, or empty everywhere. */
static void say_no_values(const struct ranking *ranking)
{
    if (rank_counts(ranking->rank)->rankings == 0 && ranking->begun)
        say("groat: --by: no row has a value for %s", ranking->by);
}

static bool write_rest(struct ranking *ranking)
{
    struct pricing *pricing = ranking->pricing;
    if (!end_product(ranking) || (!ranking->list && !open_list(ranking)))
        return false;
    say_no_values(ranking);
    bool closed = rank_list_close(ranking->list, true);
    ranking->list = NULL;
    if (!closed || pricing->request->format != LISTING_TABLE)
        return closed;
    return rank_summary_write(ranking->rank, pricing->method, ranking->by, pricing->channels,
                              pricing->channels_count, pricing->output.stream);
}

static bool rank_products(struct ranking *ranking)
{
    struct pricing *pricing = ranking->pricing;
    ranking->rank = rank_open(pricing->method, ranking->by);
    errno = ENOMEM;
    if (!ranking->rank)
        return output_failed(&pricing->output);
    bool whole = pricing_each(pricing, add_order, NULL, ranking) && !ranking->wrong;
    if (whole && !write_rest(ranking))
        whole = output_failed(&pricing->output);
    if (ranking->list)
        rank_list_close(ranking->list, false);
    rank_close(ranking->rank);
    bytes_free(&ranking->label);
    return whole;
}

enum status verb_rank(const struct request *request)
{
    struct pricing pricing;
    struct ranking ranking = {.pricing = &pricing, .by = request->by ? request->by : "profit"};
    bool whole =
        pricing_open_once(&pricing, request) && name_is_there(&ranking) && rank_products(&ranking);
    return pricing_close(&pricing, whole);
}
