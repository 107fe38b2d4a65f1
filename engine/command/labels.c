#include "command/labels.h"

#include <stdlib.h>

#include "memory/index.h"

enum { PART_BITS = 6, ROOM_LEAST = 64 };

void labels_free(struct labels *labels)
{
    for (size_t i = 0; i < sizeof labels->parts / sizeof *labels->parts; i++)
        free(labels->parts[i].slots);
}

/* The slot that holds the hash, or the free one where it belongs. */
static uint64_t *find_slot(uint64_t *slots, size_t room, uint64_t hash)
{
    size_t at = (hash >> PART_BITS) & (room - 1);
    while (slots[at] != 0 && slots[at] != hash)
        at = (at + 1) & (room - 1);
    return &slots[at];
}

static bool grow(struct label_part *part)
{
    size_t room = part->room ? 2 * part->room : ROOM_LEAST;
    uint64_t *slots = calloc(room, sizeof *slots);
    if (!slots)
        return false;
    for (size_t i = 0; i < part->room; i++)
        if (part->slots[i] != 0)
            *find_slot(slots, room, part->slots[i]) = part->slots[i];
    free(part->slots);
    part->slots = slots;
    part->room = room;
    return true;
}

enum label_kind labels_take(struct labels *labels, groat_text name)
{
    uint64_t hash = index_hash_text(INDEX_HASH, name.start, name.length);
    hash = index_hash(hash, name.length);
    hash = hash ? hash : 1;
    struct label_part *part = &labels->parts[hash & ((1 << PART_BITS) - 1)];
    if (part->used >= part->room - part->room / 8 && !grow(part))
        return LABEL_NO_MEMORY;
    uint64_t *slot = find_slot(part->slots, part->room, hash);
    if (*slot == hash)
        return LABEL_KNOWN;
    *slot = hash;
    part->used++;
    return LABEL_NEW;
}
