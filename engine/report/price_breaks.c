#include "report/price_breaks.h"

#include <errno.h>
#include <stdlib.h>

#include "report/columns.h"
#include "report/words.h"
#include "study/taken.h"

enum {
    PRODUCT,
    CHANNEL,
    QUANTITY,
    PRICE,
    DISCOUNT,
    ORDER,
    ADDS,
    KEEP,
    PROFIT,
    MARGIN,
    ORDER_KEEP,
    ORDER_PROFIT,
    COLUMNS
};

static const struct listing_column columns[COLUMNS] = {
    [PRODUCT] = {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [CHANNEL] = {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [QUANTITY] = {"quantity", "Pieces", NULL, LISTING_PIECES, LISTING_ALWAYS, false, NULL},
    [PRICE] = {"price", "Price", "each", LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [DISCOUNT] = {"discount", "Discount", NULL, LISTING_SHARE, LISTING_UNLESS_ZERO, false, NULL},
    [ORDER] = {"order", "Price", "in all", LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [ADDS] = {NULL, "Buyer adds", "each", LISTING_MONEY, LISTING_UNLESS_ZERO, false, NULL},
    [KEEP] = {"keep", "You keep", "each", LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [PROFIT] = {"profit", "Profit", "each", LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [MARGIN] = {"margin", "Margin", NULL, LISTING_SHARE, LISTING_ALWAYS, false, NULL},
    [ORDER_KEEP] = {"order_keep", "You keep", "in all", LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [ORDER_PROFIT] = {"order_profit", "Profit", "in all", LISTING_MONEY, LISTING_ALWAYS, false,
                      NULL},
};

struct price_breaks {
    struct listing *list;
    bool begun; /* and then the row and channel of the line before */
    size_t row;
    const char *channel;
};

struct price_breaks *price_breaks_open(const groat_method *method, const struct listing_plan *given,
                                       FILE *out)
{
    struct price_breaks *breaks = calloc(1, sizeof *breaks);
    struct listing_plan plan = *given;
    if (!breaks)
        return NULL;
    plan.nothing = NOTHING_PRICED;
    breaks->list = columns_open(&plan, columns, COLUMNS, method, out);
    if (breaks->list)
        return breaks;
    free(breaks);
    return NULL;
}

/* ---- a line ---- */

/* What is off the list price, as a share of it; absent where nothing is. */
static struct amount discount_of(struct amounts *room, struct amount price,
                                 const groat_scratch *scratch)
{
    struct amount list = taken_figure(room, scratch, GROAT_LIST);
    struct amount off = amount_subtract(room, list, price);
    return amount_sign(off) == 0 && off.there ? (struct amount){0} : amount_divide(room, off, list);
}

bool price_breaks_add(struct price_breaks *breaks, const struct price_place *place,
                      const groat_scratch *scratch)
{
    struct listing_cell *cells = listing_cells(breaks->list);
    struct amounts *room = listing_room(breaks->list);
    struct amount price = taken_figure(room, scratch, GROAT_PRICE);
    struct amount keep = taken_figure(room, scratch, GROAT_KEEP);
    struct amount profit = taken_figure(room, scratch, GROAT_PROFIT);
    columns_take_place(cells, place);
    if (breaks->begun && breaks->row == place->row && breaks->channel == place->channel)
        cells[CHANNEL].text = (groat_text){0}; /* it is said already */
    cells[PRICE].amount = price;
    cells[KEEP].amount = keep;
    cells[PROFIT].amount = profit;
    cells[MARGIN].amount = taken_figure(room, scratch, GROAT_MARGIN);
    cells[DISCOUNT].amount = discount_of(room, price, scratch);
    cells[ORDER].amount = amount_times(room, price, place->quantity);
    cells[ADDS].amount = columns_buyer_adds(room, scratch);
    cells[ORDER_KEEP].amount = amount_times(room, keep, place->quantity);
    cells[ORDER_PROFIT].amount = amount_times(room, profit, place->quantity);
    columns_take_notes(breaks->list, scratch);
    breaks->begun = true;
    breaks->row = place->row;
    breaks->channel = place->channel;
    return listing_add(breaks->list, place->row);
}

bool price_breaks_close(struct price_breaks *breaks, bool whole)
{
    bool written = listing_close(breaks->list, whole);
    int why = errno;
    free(breaks);
    errno = why;
    return written;
}
