/* What all verbs that price a product sheet share: the method with the rates and the channels of
 * the command line, the sheet, and a loop over products, channels and quantities. */
#ifndef GROAT_COMMAND_PRICING_H
#define GROAT_COMMAND_PRICING_H

#include "command/output.h"
#include "command/products.h"
#include "command/verb.h"

struct pricing {
    const struct request *request;
    groat_method *method;
    size_t *channels; /* indices, in the order in which they are priced */
    size_t channels_count;
    struct products *products;
    groat_record *record;
    groat_scratch *scratch;
    struct output output;
    enum status status; /* as far as it is known */
};

/* Reads all that the request names, and opens its output. Returns false when that failed; it has
 * been said. Either way pricing_close is to be called. */
bool pricing_open(struct pricing *pricing, const struct request *request);
/* The same for other rules over the sheet that `other` has read: no output is opened, and what is
 * wrong with a row is not said. `other` is to be closed after it. */
bool pricing_open_beside(struct pricing *pricing, const struct request *request,
                         const struct pricing *other);
/* Brings the output to its place; the command's exit status. */
enum status pricing_close(struct pricing *pricing);

/* Called with each order: the record is filled in with the row. Returns false, with errno set, when
 * something could not be written or there was no memory. */
typedef bool pricing_visitor(void *context, struct pricing *pricing, size_t row,
                             const groat_order *order);

/* Visits every order, not yet priced: product by channel by quantity, in the order of the sheet. A
 * row that cannot be read is said, and not visited. Returns false when a visitor did: why it failed
 * has been said too. */
bool pricing_each(struct pricing *pricing, pricing_visitor *visit, void *context);
/* The same for the orders that have a price, whose result is in the scratch. What is refused or has
 * an error is said, and not visited. */
bool pricing_walk(struct pricing *pricing, pricing_visitor *visit, void *context);
/* How a list is to be written, all but its columns. */
struct listing_plan pricing_listing_plan(const struct request *request);

/* Begins the line of progress, where it may be shown; for walks of another kind. */
void pricing_begin_progress(const struct pricing *pricing);

/* The orders of one product, by number: for each channel the quantities asked for. */
groat_order pricing_order(const struct pricing *pricing, size_t index);

/* Says that an order is left out, with the reason that is in the scratch. */
void pricing_say_left_out(struct pricing *pricing, size_t row, const groat_order *order,
                          groat_outcome outcome);
/* The same with a reason that was kept. */
void pricing_say_reason(struct pricing *pricing, size_t row, const groat_order *order,
                        groat_outcome outcome, const char *reason);

#endif
