/* The benchmark's products: the same for every peer, from a seeded generator of our own. */
#ifndef GROAT_WORKLOAD_H
#define GROAT_WORKLOAD_H

#include <stddef.h>
#include <stdint.h>

/* One product in whole numbers: hundredths of a board foot, cents, whole minutes, pieces. */
struct product {
    int64_t timber, hardware, setup, machine, bench, batch;
};

/* splitmix64 (Steele, Lea and Flood, 2014). */
static inline uint64_t workload_next(uint64_t *state)
{
    uint64_t mixed = *state += 0x9E3779B97F4A7C15u;
    mixed = (mixed ^ mixed >> 30) * 0xBF58476D1CE4E5B9u;
    mixed = (mixed ^ mixed >> 27) * 0x94D049BB133111EBu;
    return mixed ^ mixed >> 31;
}

static inline int64_t workload_between(uint64_t *state, int64_t low, int64_t high)
{
    return low + (int64_t)(workload_next(state) % (uint64_t)(high - low + 1));
}

/* Timber 0.20 to 12.00 bf, hardware $0 to $9, set-up 5 to 180 min, machine 0 to 95 min, bench 3 to
 * 160 min, and one of eleven batch sizes. */
static inline void workload_fill(struct product *products, size_t count, uint64_t seed)
{
    static const int64_t batches[] = {1, 2, 3, 4, 6, 8, 10, 12, 20, 24, 40};
    uint64_t state = seed;
    for (size_t i = 0; i < count; i++) {
        products[i].timber = workload_between(&state, 20, 1200);
        products[i].hardware = workload_between(&state, 0, 900);
        products[i].setup = workload_between(&state, 5, 180);
        products[i].machine = workload_between(&state, 0, 95);
        products[i].bench = workload_between(&state, 3, 160);
        products[i].batch = batches[workload_between(&state, 0, 10)];
    }
}

#endif
