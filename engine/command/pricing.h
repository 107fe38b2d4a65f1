/* What all verbs that price a product sheet share: the method with the rates and the channels of
 * the command line, the sheet, and a loop over products, channels and quantities. */
#ifndef GROAT_COMMAND_PRICING_H
#define GROAT_COMMAND_PRICING_H

#include "command/changes.h"
#include "command/left_out.h"
#include "command/output.h"
#include "command/products.h"
#include "command/verb.h"
#include "report/price_place.h"

struct pricing {
    const struct request *request;
    groat_method *method;
    size_t *channels; /* indices, in the order in which they are priced */
    size_t channels_count;
    struct products *products;
    groat_record *record;
    groat_scratch *scratch;
    struct output output;
    enum status status; /* so far, of what came out */
    struct left_out left_out;
    struct changes changes;       /* of the rates, by --set */
    struct listing_choice choice; /* of columns, if some are asked for */
};

/* Functions that return bool report why before they return false; there is then no answer.
 *
 *     struct pricing pricing;
 *     bool whole = pricing_open(&pricing, request) && ...;
 *     return pricing_close(&pricing, whole);
 */

/* Reads all files that the request names, and opens its output. */
bool pricing_open(struct pricing *pricing, const struct request *request);
/* The same for a walk over the sheet that is the only one: of the sheet, only some rows are in hand
 * at a time. */
bool pricing_open_once(struct pricing *pricing, const struct request *request);
/* The same for other rules and the sheet that `other` has read: opens no output, and does not
 * report wrong rows. `other` must be closed after it. */
bool pricing_open_beside(struct pricing *pricing, const struct request *request,
                         const struct pricing *other);
/* Completes the output and returns the exit status of the command. `whole` says that the answer is:
 * without it, an old file is not replaced. It must be called also if opening failed. */
enum status pricing_close(struct pricing *pricing, bool whole);

/* Called for each order, with the record filled in from the row. Returns false, with errno set,
 * when something could not be written or memory runs out. */
typedef bool pricing_visitor(void *context, struct pricing *pricing, size_t row,
                             const groat_order *order);

/* Visits every order, not yet priced: product by channel by quantity, in the order of the sheet;
 * with --product, those of that product. A row that cannot be read is reported; `unread`, unless it
 * is NULL, then visits its orders. What was left out on the way is said at the end. */
bool pricing_each(struct pricing *pricing, pricing_visitor *visit, pricing_visitor *unread,
                  void *context);
/* The same, but visits only orders with a price, with the result in the scratch. Orders that are
 * refused or have an error are left out. */
bool pricing_walk(struct pricing *pricing, pricing_visitor *visit, void *context);
/* Visits the orders of one row as pricing_each does, without reporting a failure of the visitor:
 * errno is set. */
bool pricing_row(struct pricing *pricing, size_t row, pricing_visitor *visit,
                 pricing_visitor *unread, void *context);
/* Writes what the list has so far where somebody may wait for it. Returns false after reporting
 * why. */
bool pricing_flush(struct pricing *pricing);
/* Writes above a table what --set makes of each rate; nothing for other forms. Call it before the
 * table, when nothing else can be wrong with what is asked for. */
bool pricing_put_changes(struct pricing *pricing);
/* How to write a list: everything except its columns. */
struct listing_plan pricing_listing_plan(struct pricing *pricing);
/* A choice of columns, which says which name is wrong. */
struct listing_choice pricing_choice(const char *const *names, size_t count);

/* Begins the progress line, if it may be shown; for other walks. */
void pricing_begin_progress(const struct pricing *pricing);

/* The orders of one product, by number: for each channel, each requested quantity. */
size_t pricing_orders(const struct pricing *pricing);
groat_order pricing_order(const struct pricing *pricing, size_t index);
/* How a list names the order; valid as products_label is. */
struct price_place pricing_place(struct pricing *pricing, size_t row, const groat_order *order);

/* Leaves an order out, because of the reason; it is said when the walk ends. */
void pricing_leave_out(struct pricing *pricing, size_t row, const groat_order *order,
                       groat_outcome outcome, const char *reason);
/* Counts an order whose row says why it has no price. */
void pricing_count_without(struct pricing *pricing, groat_outcome outcome);
/* Says what was left out, when a walk ends. */
void pricing_say_left_out(struct pricing *pricing);

#endif
