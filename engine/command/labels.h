/* The names of the products that a long sheet had so far, to find those that it has twice. */
#ifndef GROAT_COMMAND_LABELS_H
#define GROAT_COMMAND_LABELS_H

#include "groat.h"

/* Each name is kept as a hash of 64 bits: among a million names, two that differ are taken for the
 * same with a probability of 1 to 37 million. Zeroed, it is empty. */
struct labels {
    struct label_part {
        uint64_t *slots; /* 0: free */
        size_t room, used;
    } parts[64]; /* which grow one at a time, so that most of them are not held twice */
};

void labels_free(struct labels *labels);

enum label_kind { LABEL_NEW, LABEL_KNOWN, LABEL_NO_MEMORY };
enum label_kind labels_take(struct labels *labels, groat_text name);

#endif
