/* What a given price leaves on a channel, the break-even price there, and where the price lies
 * between the floor and the ceiling. */
#ifndef GROAT_STUDY_EARN_H
#define GROAT_STUDY_EARN_H

#include <stdbool.h>
#include <stdint.h>

#include "groat.h"
#include "number/amount.h"

struct earn {
    groat_outcome outcome; /* of the price that is given */
    struct amount at;      /* that price, in the currency */
    struct amount no_loss; /* the least price whose profit is not below zero; or absent */
    char why_loss[512];    /* then: why there is none; otherwise empty */
    struct amount floor, ceiling;
    /* (at - floor) / (ceiling - floor): 0 at the floor, 1 at the ceiling. Absent unless both are
     * there and the ceiling is the higher. */
    struct amount position;
    groat_aim aim;       /* at that price */
    bool aim_of_one;     /* it is tried for an order of one, although more pieces are asked about:
                        where a discount is taken off, the aim looks at the price of one */
    struct amounts room; /* of the amounts: it stays where it is */
};

void earn_open(struct earn *earn);
void earn_close(struct earn *earn);

/* Works it out for a record at a price in smallest units. The result at the price stays in the
 * scratch. Of what is not sold, or has an error, `outcome` alone means something; what the rules
 * refuse at the price has everything. False when memory runs out. */
bool earn_at(struct earn *earn, groat_scratch *scratch, const groat_method *method,
             const groat_record *record, const groat_order *order, int64_t coins);

#endif
