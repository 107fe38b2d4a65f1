/* The rates that move prices most: over all prices together, or for each product on each
 * channel. */
#ifndef GROAT_REPORT_DRIVERS_LIST_H
#define GROAT_REPORT_DRIVERS_LIST_H

#include "listing/listing.h"
#include "report/price_place.h"
#include "study/drivers.h"

/* What all functions here need. Everything it points to must outlive what is made with it. */
struct drivers_showing {
    const struct drivers *drivers;
    const groat_method *method;
    const char *change;       /* `+1%` */
    struct listing_plan plan; /* everything except the columns */
    bool plain;               /* pictures in ASCII only */
};

/* Returns the product and the channel of a place in the totals; valid until the next call. */
typedef struct price_place drivers_namer(void *context, const struct drivers_place *place);

/* Writes a row for each rate, the one that moves prices most first. Returns false when it could not
 * be written; errno says why. */
bool drivers_list_totals(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         drivers_namer *name, void *context, FILE *out);
/* Draws the same as a picture. */
bool drivers_draw_totals(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         FILE *out);

/* A list with a row for each price and rate. A table leaves out rates without an effect. */
struct listing *drivers_list_open(const struct drivers_showing *showing, FILE *out);
bool drivers_list_add(struct listing *list, const struct drivers_showing *showing,
                      const struct price_place *place, const struct drivers_result *result);
/* Closes the list as listing_close does, and explains the bars below a table. */
bool drivers_list_close(struct listing *list, const struct drivers_showing *showing,
                        const struct drivers_totals *totals, bool whole, FILE *out);

#endif
