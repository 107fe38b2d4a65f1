/* What a given price leaves on a channel, the break-even price there, and where the price lies
 * between the floor and the ceiling. */
#ifndef GROAT_STUDY_EARN_H
#define GROAT_STUDY_EARN_H

#include <stdbool.h>
#include <stdint.h>

#include "groat.h"
#include "number/amount.h"

struct earn {
    groat_outcome outcome; /* at the given price */
    struct amount at;      /* the given price, in the currency */
    struct amount no_loss; /* the least price with a profit of zero or more; or absent */
    char why_loss[512];    /* if absent: why; otherwise empty */
    /* The prices above it at which money is lost again, because a fee jumps; absent if there are
     * none. Without a last one, it is so from the first on. */
    struct amount loss_first, loss_last;
    struct amount floor, ceiling;
    /* (at - floor) / (ceiling - floor): 0 at the floor, 1 at the ceiling. Absent unless both are
     * there and the ceiling is the higher. */
    struct amount position;
    groat_aim aim;   /* at that price, which may still be below the floor */
    bool aim_of_one; /* the aim is checked for an order of one piece although the order has
                      * more, because with a discount the aim applies to the price of one */
    bool discounted; /* there is a discount on this order, and the aim is for the price before */
    struct amounts room; /* of the amounts, so it must not be moved */
};

void earn_open(struct earn *earn);
void earn_close(struct earn *earn);

/* Calculates it for a record at a price in smallest units. The result at the price stays in the
 * scratch. If the product is not sold, or there is an error, only `outcome` is set. If the rules
 * refuse the price, everything is set. False when memory runs out. */
bool earn_at(struct earn *earn, groat_scratch *scratch, const groat_method *method,
             const groat_record *record, const groat_order *order, int64_t coins);

#endif
