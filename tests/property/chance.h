/* Random choices of the tests that try many. The seed is printed; another one is given as the first
 * argument, so that what failed can be tried again. */
#ifndef PROPERTY_CHANCE_H
#define PROPERTY_CHANCE_H

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

static uint64_t seed = 20240607;

/* splitmix64 (Steele, Lea and Flood, 2014). */
static inline uint64_t random_word(void)
{
    seed += UINT64_C(0x9e3779b97f4a7c15);
    uint64_t z = seed;
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

static inline uint64_t random_below(uint64_t end)
{
    return random_word() % end;
}

/* A whole number from `low` to `high`, both among them. */
static inline int64_t random_from(int64_t low, int64_t high)
{
    return low + (int64_t)random_below((uint64_t)(high - low) + 1);
}

static inline void choose_seed(int argc, char **argv)
{
    if (argc > 1)
        seed = strtoull(argv[1], NULL, 10);
    printf("seed %llu\n", (unsigned long long)seed);
}

#endif
