/* The benchmark's method written by hand in C: doubles for the cost, whole cents for what is charged.
 * Money is in dollars where it is a double and in cents where it is whole. */
#ifndef GROAT_BY_HAND_H
#define GROAT_BY_HAND_H

#include "workload.h"

static inline double cost_by_hand(const struct product *p)
{
    double material = (double)p->timber / 100 * 7.80 * 1.15 + (double)p->hardware / 100;
    double setting_up = (double)p->setup / 60 * 26 / (double)p->batch;
    double machine_time = (double)p->machine / 60 * 6.50;
    double hand_time = (double)p->bench / 60 * 26;
    return (material + setting_up + machine_time + hand_time) * 1.12;
}

static inline int64_t keep_by_hand(int64_t price)
{
    int64_t commission = (price * 72 + 500) / 1000;
    int64_t payment = (price * 31 + 18000 + 500) / 1000;
    return price - 24 - commission - payment;
}

/* The least price that ends in .99 below $100, in 4.95 or 9.95 from there on. */
static inline int64_t next_by_hand(int64_t from)
{
    int64_t price = from + (99 - from % 100 + 100) % 100;
    if (price < 10000)
        return price;
    from = from < 10000 ? 10000 : from;
    return from + (495 - from % 500 + 500) % 500;
}

static inline int64_t price_by_hand(const struct product *p)
{
    double cost = cost_by_hand(p) * 100;
    /* Fees take at most 10.3% of the price, $0.42 and a cent of rounding: start just below. */
    int64_t price = next_by_hand((int64_t)((cost + 41) / (1 - 0.45 - 0.103)) - 1);
    while ((double)keep_by_hand(price) - cost < 0.45 * (double)price)
        price = next_by_hand(price + 1);
    return price;
}

#endif
