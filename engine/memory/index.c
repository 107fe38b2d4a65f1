#include "memory/index.h"

#include <assert.h>

uint64_t index_hash(uint64_t hash, uint64_t word)
{
    hash = (hash ^ word) * UINT64_C(1099511628211);
    return hash ^ hash >> 29;
}

uint64_t index_hash_text(uint64_t hash, const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        hash = (hash ^ (unsigned char)text[i]) * UINT64_C(1099511628211);
    return hash ^ hash >> 29;
}

static bool grow(struct index *index, struct arena *arena)
{
    struct index old = *index;
    assert((old.room & (old.room - 1)) == 0 && old.used * 2 <= old.room);
    if (index->used * 2 < index->room)
        return true;
    size_t room = old.room ? old.room * 2 : 64;
    struct index_slot *slots = arena_take(arena, room * sizeof *slots);
    if (!slots)
        return false;
    index->room = room;
    index->slots = slots;
    for (size_t i = 0; i < index->room; i++)
        index->slots[i].number = INDEX_NONE;
    for (size_t i = 0; i < old.room; i++) {
        if (old.slots[i].number == INDEX_NONE)
            continue;
        size_t at = (size_t)old.slots[i].hash & (index->room - 1);
        while (index->slots[at].number != INDEX_NONE)
            at = (at + 1) & (index->room - 1);
        index->slots[at] = old.slots[i];
    }
    return true;
}

/* The slot that holds the thing, or the free slot where it would be stored. */
static struct index_slot *slot_of(const struct index *index, uint64_t hash, index_same *same,
                                  const void *context)
{
    size_t at = (size_t)hash & (index->room - 1);
    while (index->slots[at].number != INDEX_NONE &&
           !(index->slots[at].hash == hash && same(context, index->slots[at].number)))
        at = (at + 1) & (index->room - 1);
    return &index->slots[at];
}

uint32_t index_look(const struct index *index, uint64_t hash, index_same *same, const void *context)
{
    return index->room ? slot_of(index, hash, same, context)->number : INDEX_NONE;
}

uint32_t *index_find(struct index *index, struct arena *arena, uint64_t hash, index_same *same,
                     const void *context)
{
    if (!grow(index, arena))
        return NULL;
    struct index_slot *slot = slot_of(index, hash, same, context);
    if (slot->number == INDEX_NONE) {
        slot->hash = hash;
        index->used++;
    }
    return &slot->number;
}
