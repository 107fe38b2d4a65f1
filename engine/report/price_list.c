#include "report/price_list.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "report/columns.h"
#include "report/words.h"
#include "study/taken.h"

struct price_list {
    struct shown_list shown; /* the last columns are the estimates */
    bool estimates;
    struct bytes may_be; /* of the row at hand, for a table */
};

/* A table has one column for what the buyer adds to the price, where data has extras, tax and all
 * that is paid; it has the tax beside the fees, and estimates beside what they are of. */
enum {
    PRODUCT,
    CHANNEL,
    QUANTITY,
    OUTCOME,
    CURRENCY,
    LIST,
    PRICE,
    MAY_BE,
    EXTRAS,
    TAX,
    PAID,
    NET,
    ADDS,
    FEES,
    SEEN_TAX,
    KEEP,
    COST,
    EXPECTED,
    PROFIT,
    MARGIN,
    TAKE_HOME,
    FIXED
};

static const struct listing_column fixed[FIXED] = {
    COLUMNS_OF_PLACE,
    COLUMNS_OF_OUTCOME,
    [LIST] = {"list", "List price", NULL, LISTING_COINS, LISTING_UNLESS_NEXT, false, NULL},
    [PRICE] = {"price", "Price", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    [MAY_BE] = {NULL, "Price may be", NULL, LISTING_TEXT, LISTING_UNLESS_ZERO, false, NULL},
    [EXTRAS] = {"extras", NULL, NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    [TAX] = {"tax", NULL, NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    [PAID] = {"paid", NULL, NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    [NET] = {"net", NULL, NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    [ADDS] = {"buyer_adds", "Buyer adds", NULL, LISTING_COINS,
              LISTING_UNLESS_ZERO | LISTING_IF_CHOSEN, false, NULL},
    [FEES] = {"fees", "Fees", NULL, LISTING_COINS, LISTING_UNLESS_ZERO, false, NULL},
    [SEEN_TAX] = {NULL, "Tax", NULL, LISTING_COINS, LISTING_UNLESS_ZERO, false, NULL},
    [KEEP] = {"keep", "You keep", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    [COST] = {"cost", "Cost", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [EXPECTED] = {NULL, "Expected cost", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [PROFIT] = {"profit", "Profit", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [MARGIN] = {"margin", "Margin", NULL, LISTING_SHARE, LISTING_ALWAYS, false, NULL},
    [TAKE_HOME] = {"take_home", "Take-home", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
};

static const struct {
    size_t column;
    groat_figure figure;
} figures[] = {
    {LIST, GROAT_LIST},           {PRICE, GROAT_PRICE},
    {EXTRAS, GROAT_EXTRAS},       {TAX, GROAT_TAX},
    {PAID, GROAT_PAID},           {NET, GROAT_NET},
    {FEES, GROAT_FEES},           {SEEN_TAX, GROAT_TAX},
    {KEEP, GROAT_KEEP},           {COST, GROAT_COST},
    {PROFIT, GROAT_PROFIT},       {MARGIN, GROAT_MARGIN},
    {TAKE_HOME, GROAT_TAKE_HOME},
};

static const struct listing_column estimates[] = {
    {"price_lowest", NULL, NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    {"price_highest", NULL, NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    {"cost_mean", NULL, NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
};
enum { ESTIMATES = sizeof estimates / sizeof *estimates };

/* ---- opening and closing ---- */

/* Fits what a table has to estimates, or to none. */
static void fit_columns(struct listing_column *columns, bool with_estimates)
{
    memcpy(columns, fixed, sizeof fixed);
    if (!with_estimates) {
        columns[MAY_BE].heading = columns[EXPECTED].heading = NULL;
        return;
    }
    static const size_t if_room[] = {LIST, ADDS, FEES, SEEN_TAX, TAKE_HOME};
    for (size_t i = 0; i < sizeof if_room / sizeof *if_room; i++)
        columns[if_room[i]].omission |= LISTING_IF_ROOM;
}

struct price_list *price_list_open(const groat_method *method, const struct listing_plan *plan,
                                   bool with_estimates, FILE *out)
{
    struct listing_column columns[FIXED];
    struct price_list *list = calloc(1, sizeof *list);
    if (!list)
        return NULL;
    fit_columns(columns, with_estimates);
    list->shown.plan = *plan;
    list->estimates = with_estimates;
    if (shown_list_open(&list->shown, method, out, columns, FIXED, estimates,
                        with_estimates ? ESTIMATES : 0))
        return list;
    price_list_close(list, false);
    return NULL;
}

struct price_list *price_list_part(const struct price_list *list)
{
    struct price_list *part = calloc(1, sizeof *part);
    if (!part)
        return NULL;
    *part = (struct price_list){.shown = {.plan = list->shown.plan,
                                          .fixed = list->shown.fixed,
                                          .shows = list->shown.shows,
                                          .listing = listing_part(list->shown.listing)},
                                .estimates = list->estimates};
    if (part->shown.listing)
        return part;
    free(part);
    return NULL;
}

bool price_list_join(struct price_list *list, struct price_list *part)
{
    return listing_join(list->shown.listing, part->shown.listing);
}

bool price_list_close(struct price_list *list, bool whole)
{
    bool written = shown_list_close(&list->shown, whole);
    int why = errno;
    bytes_free(&list->may_be);
    free(list);
    errno = why;
    return written;
}

/* ---- estimates ---- */

/* What there is to say of an estimate beside its amounts. */
static void put_note(struct bytes *notes, const struct estimate_result *estimate)
{
    if (estimate->outcome == ESTIMATE_TOO_MANY)
        bytes_format(notes,
                     "no estimates: %zu ranges affect this price, but at most %d can be combined%c",
                     estimate->ranges_count, ESTIMATE_RANGES_MOST, '\0');
    else if (estimate->unpriced > 0)
        bytes_format(notes, "%zu of %zu combinations of the ranges have no price: %s%c",
                     estimate->unpriced, estimate->corners, estimate->reason, '\0');
}

/* `$74.00 to $84.00`; nothing where the price can be nothing else. */
static void put_may_be(struct price_list *list, const struct estimate_result *estimate,
                       const struct amount *price)
{
    struct bytes *text = &list->may_be;
    const struct amount *lowest = &estimate->lowest, *highest = &estimate->highest;
    text->length = 0;
    if (!lowest->there || !highest->there)
        return;
    bool same = amount_compare(*lowest, *highest) == 0;
    if (same && amount_compare(*lowest, *price) == 0)
        return;
    words_money(text, lowest, &list->shown.plan);
    if (!same) {
        bytes_text(text, " to ");
        words_money(text, highest, &list->shown.plan);
    }
}

static void take_estimate(struct price_list *list, const struct estimate_result *estimate,
                          const groat_scratch *scratch, struct listing_cell *last)
{
    struct listing *listing = list->shown.listing;
    struct listing_cell *cells = listing_cells(listing);
    last[0].amount = estimate->lowest;
    last[1].amount = estimate->highest;
    last[2].amount = cells[EXPECTED].amount = estimate->mean;
    if (list->shown.plan.form == LISTING_TABLE) {
        struct amount price = taken_figure(listing_room(listing), scratch, GROAT_PRICE);
        put_may_be(list, estimate, &price);
        cells[MAY_BE].text = (groat_text){list->may_be.start, list->may_be.length};
    }
    put_note(listing_notes(listing), estimate);
}

/* ---- rows ---- */

bool price_list_add(struct price_list *list, const struct price_place *place,
                    const groat_scratch *scratch, const struct estimate_result *estimate)
{
    struct listing *listing = list->shown.listing;
    struct listing_cell *cells = listing_cells(listing);
    columns_take_place(cells, place);
    columns_take_outcome(cells + OUTCOME, GROAT_PRICED, list->shown.plan.currency);
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        cells[figures[i].column].value = groat_result_figure(scratch, figures[i].figure);
    struct listing_cell *last = shown_list_take(&list->shown, scratch);
    if (list->shown.plan.form == LISTING_TABLE || list->shown.plan.choice)
        cells[ADDS].amount = columns_buyer_adds(listing_room(listing), scratch);
    columns_take_notes(listing, scratch);
    if (list->estimates)
        take_estimate(list, estimate, scratch, last);
    errno = ENOMEM;
    return !list->may_be.failed && listing_add(listing, place->row);
}

bool price_list_add_without(struct price_list *list, const struct price_place *place,
                            groat_outcome outcome, const char *reason)
{
    struct listing *listing = list->shown.listing;
    struct listing_cell *cells = listing_cells(listing);
    columns_take_place(cells, place);
    columns_take_outcome(cells + OUTCOME, outcome, list->shown.plan.currency);
    if (*reason)
        listing_note(listing, reason);
    return listing_add(listing, place->row);
}
