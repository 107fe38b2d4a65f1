/* Finds the known word that is most like an unknown one, to propose it instead. */
#ifndef GROAT_TEXT_NEAR_H
#define GROAT_TEXT_NEAR_H

#include <stddef.h>

/* A search: offer it every known word, then read `best`. */
struct near {
    const char *wanted;
    size_t length;
    const char *best; /* borrowed; NULL if no word offered so far is near enough */
    size_t distance;
};

struct near near_to(const char *wanted, size_t length);
void near_offer(struct near *near, const char *word);

#endif
