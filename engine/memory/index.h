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

/* Says whether the thing of this number is the one that is looked for. */
typedef bool index_same(const void *context, uint32_t number);

/* The number of the thing of this hash for which `same` says yes, or INDEX_NONE. */
uint32_t index_look(const struct index *index, uint64_t hash, index_same *same,
                    const void *context);
/* Where that number stands. Where there is none yet it is INDEX_NONE, for the caller to put the new
 * thing's number there at once. NULL where memory runs out and the arena has no escape: then nothing
 * has changed. */
uint32_t *index_find(struct index *index, struct arena *arena, uint64_t hash, index_same *same,
                     const void *context);
/* Mixes one more word into a hash, which begins as INDEX_HASH. */
uint64_t index_hash(uint64_t hash, uint64_t word);
/* Mixes in the letters of a text. */
uint64_t index_hash_text(uint64_t hash, const char *text, size_t length);
#define INDEX_HASH UINT64_C(14695981039346656037)

#endif
