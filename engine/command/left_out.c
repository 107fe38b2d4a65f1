#define _POSIX_C_SOURCE 200809L
#include "command/left_out.h"

#include <stdlib.h>
#include <string.h>

static bool is_of(const struct left_out_kind *kind, const struct left_out_order *order)
{
    return kind->channel == order->channel && kind->outcome == order->outcome &&
           strcmp(kind->reason, order->reason) == 0;
}

/* Begins a kind with its first order. */
static bool add_kind(struct left_out *left_out, const struct left_out_order *order)
{
    if (!left_out->kinds)
        left_out->kinds = calloc(LEFT_OUT_KINDS_MOST, sizeof *left_out->kinds);
    char *reason = left_out->kinds ? strdup(order->reason) : NULL;
    char *place = reason ? strdup(order->place) : NULL;
    if (!place) {
        free(reason);
        return false;
    }
    left_out->kinds[left_out->count++] = (struct left_out_kind){.row = order->row,
                                                                .place = place,
                                                                .channel = order->channel,
                                                                .quantity = order->quantity,
                                                                .outcome = order->outcome,
                                                                .reason = reason,
                                                                .orders = 1,
                                                                .rows = 1,
                                                                .last_row = order->row};
    return true;
}

bool left_out_add(struct left_out *left_out, const struct left_out_order *order)
{
    for (size_t i = 0; i < left_out->count; i++) {
        struct left_out_kind *kind = &left_out->kinds[i];
        if (!is_of(kind, order))
            continue;
        kind->orders++;
        kind->rows += kind->last_row != order->row;
        kind->last_row = order->row;
        return true;
    }
    if (left_out->count < LEFT_OUT_KINDS_MOST)
        return add_kind(left_out, order);
    left_out->others++;
    return true;
}

void left_out_close(struct left_out *left_out)
{
    for (size_t i = 0; i < left_out->count; i++) {
        free(left_out->kinds[i].reason);
        free(left_out->kinds[i].place);
    }
    free(left_out->kinds);
    *left_out = (struct left_out){0};
}
