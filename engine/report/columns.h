/* Columns that several lists have, and lists with the shows of the rules. Private to this room. */
#ifndef GROAT_REPORT_COLUMNS_H
#define GROAT_REPORT_COLUMNS_H

#include "listing/listing.h"
#include "report/price_place.h"

/* The first columns of a list of prices. */
#define COLUMNS_OF_PLACE                                                                           \
    {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},                       \
        {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},                   \
    {                                                                                              \
        "quantity", "Pieces", NULL, LISTING_PIECES, LISTING_UNLESS_ONE, false, NULL                \
    }

/* After those, of data: what became of the order, and the currency of every amount. A table shows
 * prices alone, with their signs. */
#define COLUMNS_OF_OUTCOME                                                                         \
    {"outcome", NULL, NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},                            \
    {                                                                                              \
        "currency", NULL, NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL                          \
    }

/* Opens a list with these columns, in the shop's currency. */
struct listing *columns_open(const struct listing_plan *plan, const struct listing_column *columns,
                             size_t count, const groat_method *method, FILE *out);

/* Sets the first cells to the place of a price. */
void columns_take_place(struct listing_cell *cells, const struct price_place *place);
/* Sets two cells to what became of an order, and to the currency. */
void columns_take_outcome(struct listing_cell *cells, groat_outcome outcome,
                          groat_currency currency);
/* What the buyer pays in addition to the price, extras and added tax: price + this - fees - tax is
 * what the maker keeps. */
struct amount columns_buyer_adds(struct amounts *room, const groat_scratch *scratch);
/* Adds the notes of the result to the next row. */
void columns_take_notes(struct listing *list, const groat_scratch *scratch);

/* Whether a figure of the engine's own is money that is always whole in the currency's smallest
 * unit. */
bool columns_is_whole(const char *figure);
/* What became of an order, in a word: `priced`, `not sold`, `refused`, `failed`. */
const char *columns_outcome(groat_outcome outcome);

/* A name of the rules in words: `Earned per hour` for `earned_per_hour`. The caller frees it; NULL
 * when memory runs out. */
char *columns_words(const char *name);
/* Makes the column of one show; the caller frees its heading. Returns false when memory runs
 * out. */
bool columns_make_show(struct listing_column *column, const groat_method *method, size_t show);

/* A list with fixed columns, those of the shows, and the last columns. */
struct shown_list {
    struct listing *listing;
    struct listing_plan plan;
    struct listing_column *columns;
    size_t fixed, shows;
};

/* Opens the list; the given columns are copied. Returns false when memory runs out or nothing can
 * be written; errno says why. It must be closed in either case. */
bool shown_list_open(struct shown_list *list, const groat_method *method, FILE *out,
                     const struct listing_column *fixed, size_t fixed_count,
                     const struct listing_column *last, size_t last_count);
/* As listing_close. */
bool shown_list_close(struct shown_list *list, bool whole);
/* Sets the cells of the shows from the result. Returns the cells after them. */
struct listing_cell *shown_list_take(struct shown_list *list, const groat_scratch *scratch);

#endif
