/* The orders that a list leaves out: folded by channel and reason, so that a long sheet is told of
 * in a few lines. */
#ifndef GROAT_COMMAND_LEFT_OUT_H
#define GROAT_COMMAND_LEFT_OUT_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"

struct left_out_order {
    size_t row;
    const char *place; /* of the row, for a message */
    size_t channel;
    int64_t quantity;
    groat_outcome outcome; /* GROAT_REFUSED or GROAT_FAILED */
    const char *reason;
};

/* Orders of one channel that are left out for one reason. */
struct left_out_kind {
    size_t row, channel; /* the first row */
    char *place;         /* its place */
    int64_t quantity;    /* of its first order */
    groat_outcome outcome;
    char *reason;
    size_t orders, rows; /* how many */
    size_t last_row;
};

/* The most kinds that are told apart. */
enum { LEFT_OUT_KINDS_MOST = 100 };

/* A struct of zeros has left out nothing. */
struct left_out {
    struct left_out_kind *kinds;
    size_t count;
    size_t others;          /* orders beyond those kinds */
    size_t refused, failed; /* orders whose own rows say why, which are only counted */
};

/* Adds an order; those of one channel come in the order of the sheet. Returns false when memory
 * runs out. */
bool left_out_add(struct left_out *left_out, const struct left_out_order *order);
/* Frees it, and begins anew. */
void left_out_close(struct left_out *left_out);

#endif
