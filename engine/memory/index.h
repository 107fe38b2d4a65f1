/* A hash table that finds the numbers of things in a separate list. */
#ifndef GROAT_INDEX_H
#define GROAT_INDEX_H

#include "memory/memory.h"

#define INDEX_NONE UINT32_MAX

struct index_slot {
    uint64_t hash;
    uint32_t number; /* INDEX_NONE: free */
};

struct index {
    struct index_slot *slots;
    size_t room, used;
};

/* Says whether the thing with this number is the one being looked for. */
typedef bool index_same(const void *context, uint32_t number);

/* The number of the thing with this hash for which `same` returns true, or INDEX_NONE. */
uint32_t index_look(const struct index *index, uint64_t hash, index_same *same,
                    const void *context);
/* A pointer to that number. If the thing is not in the index yet, the number is INDEX_NONE, and the
 * caller must store the new thing's number there at once. Returns NULL when memory runs out and the
 * arena has no escape; the index is then unchanged. */
uint32_t *index_find(struct index *index, struct arena *arena, uint64_t hash, index_same *same,
                     const void *context);
/* Mixes one more word into a hash. Every hash begins as INDEX_HASH. */
uint64_t index_hash(uint64_t hash, uint64_t word);
/* Mixes the bytes of a text into a hash. */
uint64_t index_hash_text(uint64_t hash, const char *text, size_t length);
#define INDEX_HASH UINT64_C(14695981039346656037)

#endif
