#include "report/price_list.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "listing/bytes.h"
#include "report/buyer_adds.h"
#include "report/notes.h"
#include "report/show_columns.h"
#include "report/words.h"
#include "study/taken.h"

struct price_list {
    struct listing *list;
    bool estimates;
    struct show_columns columns; /* the last are the estimates */
    struct notes notes;
    struct buyer_adds adds;
    struct bytes may_be; /* of the row at hand, for a table */
    struct listing_plan plan;
    char estimate_note[640];
};

/* A table has a column for what the buyer adds to the price, so that its rows add up, and estimates
 * beside what they are of. */
enum {
    PRODUCT,
    CHANNEL,
    QUANTITY,
    LIST,
    PRICE,
    MAY_BE,
    ADDS,
    FEES,
    TAX,
    KEEP,
    COST,
    EXPECTED,
    PROFIT,
    MARGIN,
    TAKE_HOME,
    FIXED
};

static const struct listing_column fixed[FIXED] = {
    [PRODUCT] = {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    [CHANNEL] = {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    [QUANTITY] = {"quantity", "Pieces", NULL, LISTING_WHOLE, LISTING_UNLESS_ONE, false},
    [LIST] = {"list", "List price", NULL, LISTING_MONEY, LISTING_UNLESS_NEXT, false},
    [PRICE] = {"price", "Price", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    [MAY_BE] = {NULL, "Price may be", NULL, LISTING_TEXT, LISTING_UNLESS_ZERO, false},
    [ADDS] = {NULL, "Buyer adds", NULL, LISTING_MONEY, LISTING_UNLESS_ZERO, false},
    [FEES] = {"fees", "Fees", NULL, LISTING_MONEY, LISTING_UNLESS_ZERO, false},
    [TAX] = {"tax", "Tax", NULL, LISTING_MONEY, LISTING_UNLESS_ZERO, false},
    [KEEP] = {"keep", "You keep", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    [COST] = {"cost", "Cost", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    [EXPECTED] = {NULL, "Expected cost", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    [PROFIT] = {"profit", "Profit", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    [MARGIN] = {"margin", "Margin", NULL, LISTING_SHARE, LISTING_ALWAYS, false},
    [TAKE_HOME] = {"take_home", "Take-home", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
};

static const struct {
    size_t column;
    groat_figure figure;
} figures[] = {
    {LIST, GROAT_LIST},     {PRICE, GROAT_PRICE},   {FEES, GROAT_FEES},
    {TAX, GROAT_TAX},       {KEEP, GROAT_KEEP},     {COST, GROAT_COST},
    {PROFIT, GROAT_PROFIT}, {MARGIN, GROAT_MARGIN}, {TAKE_HOME, GROAT_TAKE_HOME},
};

static const struct listing_column estimates[] = {
    {"price_lowest", NULL, NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"price_highest", NULL, NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"cost_mean", NULL, NULL, LISTING_MONEY, LISTING_ALWAYS, false},
};
enum { ESTIMATES = sizeof estimates / sizeof *estimates };

/* ---- opening and closing ---- */

/* Fits what a table has to estimates, or to none. */
static void fit_columns(struct price_list *list)
{
    struct listing_column *columns = list->columns.columns;
    if (!list->estimates) {
        columns[MAY_BE].heading = columns[EXPECTED].heading = NULL;
        return;
    }
    static const size_t if_room[] = {LIST, ADDS, FEES, TAX, TAKE_HOME};
    for (size_t i = 0; i < sizeof if_room / sizeof *if_room; i++)
        columns[if_room[i]].omission |= LISTING_IF_ROOM;
}

struct price_list *price_list_open(const groat_method *method, const struct listing_plan *plan,
                                   bool with_estimates, FILE *out)
{
    struct price_list *list = calloc(1, sizeof *list);
    if (!list)
        return NULL;
    buyer_adds_open(&list->adds);
    list->estimates = with_estimates;
    errno = ENOMEM;
    if (show_columns_open(&list->columns, method, fixed, FIXED, estimates,
                          with_estimates ? ESTIMATES : 0)) {
        fit_columns(list);
        list->plan = *plan;
        list->plan.columns = list->columns.columns;
        list->plan.columns_count = list->columns.count;
        list->plan.currency = groat_method_currency(method);
        list->plan.nothing = NOTHING_PRICED;
        list->list = listing_open(&list->plan, out);
        if (list->list)
            return list;
    }
    price_list_close(list, false);
    return NULL;
}

bool price_list_close(struct price_list *list, bool whole)
{
    bool written = !list->list || listing_close(list->list, whole);
    int why = errno;
    show_columns_close(&list->columns);
    notes_free(&list->notes);
    buyer_adds_close(&list->adds);
    bytes_free(&list->may_be);
    free(list);
    errno = why;
    return written;
}

/* ---- estimates ---- */

/* What there is to say of an estimate beside its amounts; NULL for nothing. */
static const char *note_of(struct price_list *list, const struct estimate_result *estimate)
{
    char *note = list->estimate_note;
    if (estimate->outcome == ESTIMATE_TOO_MANY)
        snprintf(note, sizeof list->estimate_note,
                 "no estimates: %zu ranges affect this price, but at most %d can be combined",
                 estimate->ranges_count, ESTIMATE_RANGES_MOST);
    else if (estimate->unpriced > 0)
        snprintf(note, sizeof list->estimate_note,
                 "%zu of %zu combinations of the ranges have no price: %s", estimate->unpriced,
                 estimate->corners, estimate->reason);
    else
        return NULL;
    return note;
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
    words_money(text, lowest, &list->plan);
    if (!same) {
        bytes_text(text, " to ");
        words_money(text, highest, &list->plan);
    }
}

static bool add_estimate(struct price_list *list, const struct estimate_result *estimate,
                         const groat_scratch *scratch)
{
    struct listing_cell *cells = list->columns.cells;
    struct listing_cell *last = show_columns_last(&list->columns);
    last[0].amount = &estimate->lowest;
    last[1].amount = &estimate->highest;
    last[2].amount = cells[EXPECTED].amount = &estimate->mean;
    if (list->plan.form == LISTING_TABLE) {
        struct amounts room;
        amounts_open(&room);
        struct amount price = taken_figure(&room, scratch, GROAT_PRICE);
        put_may_be(list, estimate, &price);
        amounts_close(&room);
        cells[MAY_BE].text = (groat_text){list->may_be.start, list->may_be.length};
    }
    const char *note = note_of(list, estimate);
    return !list->may_be.failed && (!note || notes_add(&list->notes, note));
}

/* ---- rows ---- */

bool price_list_add(struct price_list *list, const struct price_place *place,
                    const groat_scratch *scratch, const struct estimate_result *estimate)
{
    struct listing_cell *cells = list->columns.cells;
    if (!notes_gather(&list->notes, scratch))
        return false;
    cells[PRODUCT].text = place->product;
    cells[CHANNEL].text = listing_text(place->channel);
    cells[QUANTITY].whole = place->quantity;
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        cells[figures[i].column].value = groat_result_figure(scratch, figures[i].figure);
    show_columns_take(&list->columns, scratch);
    if (list->plan.form == LISTING_TABLE)
        cells[ADDS].amount = buyer_adds_take(&list->adds, scratch);
    if (list->estimates && !add_estimate(list, estimate, scratch))
        return false;
    struct listing_row row = {cells, list->notes.texts, list->notes.count, place->row};
    return listing_add(list->list, &row);
}
