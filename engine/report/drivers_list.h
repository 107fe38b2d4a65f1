/* Which rates move prices most: all of them together, or one product on one channel at a time. */
#ifndef GROAT_REPORT_DRIVERS_LIST_H
#define GROAT_REPORT_DRIVERS_LIST_H

#include "listing/listing.h"
#include "report/price_place.h"
#include "study/drivers_total.h"

/* What is the same for all of it. Everything it points to must outlive what is made with it. */
struct drivers_showing {
    const struct drivers *drivers;
    const groat_method *method;
    const char *change;       /* `+1%` */
    struct listing_plan plan; /* all but the columns */
    bool plain;               /* pictures of ASCII alone */
};

/* Says what a place of a total is called: its product and its channel. What is handed out lasts
 * until the next call. */
typedef struct price_place drivers_namer(void *context, const struct drivers_place *place);

/* A row for each rate, the one that moves prices most first. False when it could not be written;
 * errno says why. */
bool drivers_list_totals(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         drivers_namer *name, void *context, FILE *out);
/* The same as a picture. */
bool drivers_draw_totals(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         FILE *out);

/* A row for each price and rate. A table leaves out rates that do nothing. */
struct listing *drivers_list_open(const struct drivers_showing *showing, FILE *out);
bool drivers_list_add(struct listing *list, const struct drivers_showing *showing,
                      const struct price_place *place, const struct drivers_result *result);
/* Closes the list as listing_close does, and says below a table what its bars are. */
bool drivers_list_close(struct listing *list, const struct drivers_showing *showing,
                        const struct drivers_totals *totals, bool whole, FILE *out);

#endif
