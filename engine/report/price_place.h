/* The price that a row of a list is about. */
#ifndef GROAT_REPORT_PRICE_PLACE_H
#define GROAT_REPORT_PRICE_PLACE_H

#include "groat.h"

struct price_place {
    size_t row;         /* of the product in its sheet */
    groat_text product; /* its label */
    const char *channel;
    int64_t quantity;
};

#endif
