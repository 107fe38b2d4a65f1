#include "report/price_breaks.h"

#include <errno.h>
#include <stdlib.h>

#include "report/buyer_adds.h"
#include "report/notes.h"
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
    [PRODUCT] = {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    [CHANNEL] = {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    [QUANTITY] = {"quantity", "Pieces", NULL, LISTING_WHOLE, LISTING_ALWAYS, false},
    [PRICE] = {"price", "Price", "each", LISTING_MONEY, LISTING_ALWAYS, false},
    [DISCOUNT] = {"discount", "Discount", NULL, LISTING_SHARE, LISTING_UNLESS_ZERO, false},
    [ORDER] = {"order", "Price", "in all", LISTING_MONEY, LISTING_ALWAYS, false},
    [ADDS] = {NULL, "Buyer adds", "each", LISTING_MONEY, LISTING_UNLESS_ZERO, false},
    [KEEP] = {"keep", "You keep", "each", LISTING_MONEY, LISTING_ALWAYS, false},
    [PROFIT] = {"profit", "Profit", "each", LISTING_MONEY, LISTING_ALWAYS, false},
    [MARGIN] = {"margin", "Margin", NULL, LISTING_SHARE, LISTING_ALWAYS, false},
    [ORDER_KEEP] = {"order_keep", "You keep", "in all", LISTING_MONEY, LISTING_ALWAYS, false},
    [ORDER_PROFIT] = {"order_profit", "Profit", "in all", LISTING_MONEY, LISTING_ALWAYS, false},
};

struct price_breaks {
    struct listing *list;
    struct notes notes;
    bool begun; /* and then the row and channel of the line before */
    size_t row;
    const char *channel;
    struct buyer_adds adds;
    struct amounts room;
    struct amount amounts[COLUMNS]; /* of the line that is being put together */
};

struct price_breaks *price_breaks_open(const groat_method *method, const struct listing_plan *plan,
                                       FILE *out)
{
    struct price_breaks *breaks = calloc(1, sizeof *breaks);
    if (!breaks)
        return NULL;
    amounts_open(&breaks->room);
    buyer_adds_open(&breaks->adds);
    struct listing_plan whole = *plan;
    whole.columns = columns;
    whole.columns_count = COLUMNS;
    whole.nothing = NOTHING_PRICED;
    whole.currency = groat_method_currency(method);
    breaks->list = listing_open(&whole, out);
    if (breaks->list)
        return breaks;
    price_breaks_close(breaks, false);
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

static void work_out(struct price_breaks *breaks, int64_t quantity, const groat_scratch *scratch)
{
    struct amount *amounts = breaks->amounts;
    struct amounts *room = &breaks->room;
    amounts_forget(room);
    amounts[QUANTITY] = amount_whole(quantity);
    amounts[PRICE] = taken_figure(room, scratch, GROAT_PRICE);
    amounts[KEEP] = taken_figure(room, scratch, GROAT_KEEP);
    amounts[PROFIT] = taken_figure(room, scratch, GROAT_PROFIT);
    amounts[MARGIN] = taken_figure(room, scratch, GROAT_MARGIN);
    amounts[DISCOUNT] = discount_of(room, amounts[PRICE], scratch);
    amounts[ORDER] = amount_times(room, amounts[PRICE], quantity);
    amounts[ORDER_KEEP] = amount_times(room, amounts[KEEP], quantity);
    amounts[ORDER_PROFIT] = amount_times(room, amounts[PROFIT], quantity);
}

bool price_breaks_add(struct price_breaks *breaks, const struct price_place *place,
                      const groat_scratch *scratch)
{
    if (!notes_gather(&breaks->notes, scratch))
        return false;
    work_out(breaks, place->quantity, scratch);
    struct listing_cell cells[COLUMNS] = {0};
    for (size_t i = QUANTITY; i < COLUMNS; i++)
        cells[i].amount = &breaks->amounts[i];
    cells[ADDS].amount = buyer_adds_take(&breaks->adds, scratch);
    cells[PRODUCT].text = place->product;
    bool said = breaks->begun && breaks->row == place->row && breaks->channel == place->channel;
    if (!said)
        cells[CHANNEL].text = listing_text(place->channel);
    breaks->begun = true;
    breaks->row = place->row;
    breaks->channel = place->channel;
    struct listing_row row = {cells, breaks->notes.texts, breaks->notes.count, place->row};
    return listing_add(breaks->list, &row);
}

bool price_breaks_close(struct price_breaks *breaks, bool whole)
{
    bool written = !breaks->list || listing_close(breaks->list, whole);
    int why = errno;
    amounts_close(&breaks->room);
    buyer_adds_close(&breaks->adds);
    notes_free(&breaks->notes);
    free(breaks);
    errno = why;
    return written;
}
