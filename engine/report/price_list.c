#include "report/price_list.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "report/notes.h"
#include "report/show_columns.h"

struct price_list {
    struct listing *list;
    size_t shows, estimates;
    struct listing_column *columns; /* the fixed ones, then the shows, then the estimates */
    struct listing_cell *cells;
    struct notes notes;
    char estimate_note[640];
};

/* The columns before those of figures. */
enum { PRODUCT, CHANNEL, QUANTITY, FIRST_FIGURE };

static const struct listing_column fixed[] = {
    {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"quantity", "Pieces", NULL, LISTING_WHOLE, LISTING_UNLESS_ONE, false},
    {"list", "List price", NULL, LISTING_MONEY, LISTING_UNLESS_NEXT, false},
    {"price", "Price", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"fees", "Fees", NULL, LISTING_MONEY, LISTING_UNLESS_ZERO, false},
    {"tax", "Tax", NULL, LISTING_MONEY, LISTING_UNLESS_ZERO, false},
    {"keep", "You keep", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"cost", "Cost", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"profit", "Profit", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"margin", "Margin", NULL, LISTING_SHARE, LISTING_ALWAYS, false},
    {"take_home", "Take-home", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
};
enum { FIXED = sizeof fixed / sizeof *fixed };

static const groat_figure figures[FIXED - FIRST_FIGURE] = {
    GROAT_LIST, GROAT_PRICE,  GROAT_FEES,   GROAT_TAX,      GROAT_KEEP,
    GROAT_COST, GROAT_PROFIT, GROAT_MARGIN, GROAT_TAKE_HOME};

static const struct listing_column estimates[] = {
    {"price_lowest", "Lowest price", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"price_highest", "Highest price", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"cost_mean", "Mean cost", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
};
enum { ESTIMATES = sizeof estimates / sizeof *estimates };

struct price_list *price_list_open(const groat_method *method, const struct listing_plan *plan,
                                   bool with_estimates, FILE *out)
{
    struct price_list *list = calloc(1, sizeof *list);
    if (!list)
        return NULL;
    list->shows = groat_method_shows(method);
    list->estimates = with_estimates ? ESTIMATES : 0;
    list->columns = calloc(FIXED + list->shows + ESTIMATES, sizeof *list->columns);
    list->cells = calloc(FIXED + list->shows + ESTIMATES, sizeof *list->cells);
    errno = ENOMEM;
    if (list->columns && list->cells && show_columns_fill(list->columns + FIXED, method)) {
        memcpy(list->columns, fixed, sizeof fixed);
        memcpy(list->columns + FIXED + list->shows, estimates, sizeof estimates);
        struct listing_plan whole = *plan;
        whole.columns = list->columns;
        whole.columns_count = FIXED + list->shows + list->estimates;
        whole.currency = groat_method_currency(method);
        list->list = listing_open(&whole, out);
        if (list->list)
            return list;
    }
    price_list_close(list, false);
    return NULL;
}

/* What there is to say of an estimate beside its amounts; NULL for nothing. */
static const char *note_of(struct price_list *list, const struct estimate_result *estimate)
{
    char *note = list->estimate_note;
    if (estimate->outcome == ESTIMATE_TOO_MANY)
        snprintf(note, sizeof list->estimate_note,
                 "no estimates: %zu ranges bear on this price, and at most %d are combined",
                 estimate->ranges_count, ESTIMATE_RANGES_MOST);
    else if (estimate->unpriced > 0)
        snprintf(note, sizeof list->estimate_note,
                 "%zu of %zu combinations of the ranges have no price: %s", estimate->unpriced,
                 estimate->corners, estimate->reason);
    else
        return NULL;
    return note;
}

static bool add_estimate(struct price_list *list, const struct estimate_result *estimate)
{
    const struct amount *const amounts[ESTIMATES] = {&estimate->lowest, &estimate->highest,
                                                     &estimate->mean};
    for (size_t i = 0; i < ESTIMATES; i++)
        list->cells[FIXED + list->shows + i].amount = amounts[i];
    const char *note = note_of(list, estimate);
    return !note || notes_add(&list->notes, note);
}

bool price_list_add(struct price_list *list, const struct price_place *place,
                    const groat_scratch *scratch, const struct estimate_result *estimate)
{
    if (!notes_gather(&list->notes, scratch))
        return false;
    list->cells[PRODUCT].text = place->product;
    list->cells[CHANNEL].text = (groat_text){place->channel, strlen(place->channel)};
    list->cells[QUANTITY].whole = place->quantity;
    for (size_t i = FIRST_FIGURE; i < FIXED; i++)
        list->cells[i].value = groat_result_figure(scratch, figures[i - FIRST_FIGURE]);
    for (size_t i = 0; i < list->shows; i++)
        list->cells[FIXED + i].value = groat_result_show(scratch, i);
    if (list->estimates > 0 && !add_estimate(list, estimate))
        return false;
    struct listing_row row = {list->cells, list->notes.texts, list->notes.count, place->row};
    return listing_add(list->list, &row);
}

bool price_list_close(struct price_list *list, bool whole)
{
    bool written = !list->list || listing_close(list->list, whole);
    int why = errno;
    if (list->columns)
        show_columns_empty(list->columns + FIXED, list->shows);
    free(list->columns);
    free(list->cells);
    notes_free(&list->notes);
    free(list);
    errno = why;
    return written;
}
