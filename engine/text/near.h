/* The nearest word to one that is not known, to propose in its place. */
#ifndef GROAT_TEXT_NEAR_H
#define GROAT_TEXT_NEAR_H

#include <stddef.h>

/* A search: offer it every word there is, then read `best`. */
struct near {
    const char *wanted;
    size_t length;
    const char *best; /* NULL while nothing offered is near enough */
    size_t distance;
};

struct near near_to(const char *wanted, size_t length);
void near_offer(struct near *near, const char *word);

#endif
