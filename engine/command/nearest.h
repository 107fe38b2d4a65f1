/* The nearest of the words there are to one that is not known. */
#ifndef GROAT_COMMAND_NEAREST_H
#define GROAT_COMMAND_NEAREST_H

#include <stddef.h>

/* A search: offer it every word there is, then read `best`. */
struct nearest {
    const char *wanted;
    const char *best; /* NULL while nothing offered is near enough to propose */
    size_t distance;
};

struct nearest nearest_to(const char *wanted);
void nearest_offer(struct nearest *nearest, const char *word);

#endif
