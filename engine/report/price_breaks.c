#include "report/price_breaks.h"

#include <errno.h>
#include <stdlib.h>

#include "report/buyer_adds.h"
#include "report/notes.h"
#include "report/words.h"

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
    struct amount amounts[COLUMNS]; /* of the line that is being put together */
};

struct price_breaks *price_breaks_open(const groat_method *method, const struct listing_plan *plan,
                                       FILE *out)
{
    struct price_breaks *breaks = calloc(1, sizeof *breaks);
    if (!breaks)
        return NULL;
    for (size_t i = 0; i < COLUMNS; i++)
        amount_open(&breaks->amounts[i]);
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

static void multiply(struct amount *amount, const struct amount *each, const mpq_t quantity)
{
    amount_copy(amount, each);
    mpq_mul(amount->number, amount->number, quantity);
}

/* What is off the list price, as a share of it; absent where nothing is. */
static void take_discount(struct amount *discount, const struct amount *price,
                          const groat_scratch *scratch)
{
    struct amount list;
    amount_open(&list);
    amount_take(&list, groat_result_figure(scratch, GROAT_LIST));
    amount_subtract(discount, &list, price);
    amount_divide(discount, discount, &list);
    discount->there = discount->there && mpq_sgn(discount->number) != 0;
    amount_close(&list);
}

static void work_out(struct price_breaks *breaks, int64_t quantity, const groat_scratch *scratch)
{
    struct amount *amounts = breaks->amounts;
    struct amount *pieces = &amounts[QUANTITY];
    amount_of_coins(pieces, quantity, 0);
    amount_take(&amounts[PRICE], groat_result_figure(scratch, GROAT_PRICE));
    amount_take(&amounts[KEEP], groat_result_figure(scratch, GROAT_KEEP));
    amount_take(&amounts[PROFIT], groat_result_figure(scratch, GROAT_PROFIT));
    amount_take(&amounts[MARGIN], groat_result_figure(scratch, GROAT_MARGIN));
    take_discount(&amounts[DISCOUNT], &amounts[PRICE], scratch);
    multiply(&amounts[ORDER], &amounts[PRICE], pieces->number);
    multiply(&amounts[ORDER_KEEP], &amounts[KEEP], pieces->number);
    multiply(&amounts[ORDER_PROFIT], &amounts[PROFIT], pieces->number);
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
    for (size_t i = 0; i < COLUMNS; i++)
        amount_close(&breaks->amounts[i]);
    buyer_adds_close(&breaks->adds);
    notes_free(&breaks->notes);
    free(breaks);
    errno = why;
    return written;
}
