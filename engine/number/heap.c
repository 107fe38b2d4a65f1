/* The heap of large numbers, and how a result is stored in it. */
#include "number/large.h"
#include "number/small.h"

#include <assert.h>
#include <stdalign.h>
#include <string.h>

/* All blocks have the same size, and each holds several of the largest numbers. A number that does
 * not fit the current block therefore fits the next one, and after a rewind, work of the same size
 * needs no new block. */
enum { BLOCK_ROOM = 16 * 1024 - 32 };

struct num_block {
    struct num_block *next;
    size_t used;
    alignas(uint64_t) unsigned char room[BLOCK_ROOM];
};

_Static_assert(sizeof(struct num_big) + 2 * LIMBS_MOST * sizeof(uint64_t) <= BLOCK_ROOM,
               "a block holds the largest number");

/* Small numbers take no room, so a lower limit would save nothing. */
enum { LIMIT_LEAST = 63 };

void num_heap_open(struct num_heap *heap, struct memory *memory, size_t limit_bits)
{
    if (limit_bits > NUM_BITS_MOST)
        limit_bits = NUM_BITS_MOST;
    if (limit_bits < LIMIT_LEAST)
        limit_bits = LIMIT_LEAST;
    assert(memory && memory->resize);
    *heap = (struct num_heap){.memory = memory, .limit_bits = limit_bits};
}

void num_heap_close(struct num_heap *heap)
{
    struct num_block *block = heap->first;
    while (block) {
        struct num_block *next = block->next;
        memory_release(heap->memory, block, sizeof *block);
        block = next;
    }
    heap->first = NULL;
    heap->current = NULL;
}

struct num_mark num_heap_mark(const struct num_heap *heap)
{
    return (struct num_mark){heap->current, heap->current ? heap->current->used : 0};
}

/* Whether the mark was taken from this heap, and nothing before it was forgotten since then. */
__attribute__((unused)) static bool mark_holds(const struct num_heap *heap, struct num_mark mark)
{
    const struct num_block *block = heap->first;
    if (!mark.block)
        return mark.used == 0;
    while (block && block != mark.block && block != heap->current)
        block = block->next;
    return heap->current && block == mark.block && mark.used <= block->used;
}

void num_heap_rewind(struct num_heap *heap, struct num_mark mark)
{
    assert(mark_holds(heap, mark));
    heap->current = mark.block;
    if (mark.block)
        mark.block->used = mark.used;
}

/* Makes the next block of the chain current; adds a block at the end of the chain. */
static struct num_block *next_block(struct num_heap *heap)
{
    struct num_block **link = heap->current ? &heap->current->next : &heap->first;
    if (!*link) {
        struct num_block *made = memory_resize(heap->memory, NULL, 0, sizeof *made);
        if (!made) {
            heap->starved = true;
            return NULL;
        }
        made->next = NULL;
        *link = made;
    }
    heap->current = *link;
    heap->current->used = 0;
    return heap->current;
}

static void *heap_take(struct num_heap *heap, size_t size)
{
    struct num_block *block = heap->current;
    assert(size <= BLOCK_ROOM && size % sizeof(uint64_t) == 0);
    assert(!block || block->used <= BLOCK_ROOM);
    if (!block || BLOCK_ROOM - block->used < size)
        block = next_block(heap);
    if (!block)
        return NULL;
    void *taken = block->room + block->used;
    block->used += size;
    return taken;
}

static enum num_status keep_large(struct num_heap *heap, bool negative, struct limbs top,
                                  struct limbs bottom, struct num *out)
{
    /* The field could have been changed, but the arrays on the stack rely on this limit. */
    size_t limit = heap->limit_bits < NUM_BITS_MOST ? heap->limit_bits : NUM_BITS_MOST;
    if (limbs_bits(top) > limit || limbs_bits(bottom) > limit)
        return NUM_TOO_LARGE;
    struct num_big *big =
        heap_take(heap, sizeof *big + (top.count + bottom.count) * sizeof *big->limbs);
    if (!big)
        return NUM_NO_MEMORY;
    heap->effort++;
    *big = (struct num_big){(uint32_t)top.count, (uint32_t)bottom.count, negative, 0};
    memcpy(big->limbs, top.at, top.count * sizeof *top.at);
    memcpy(big->limbs + top.count, bottom.at, bottom.count * sizeof *bottom.at);
    *out = (struct num){.big = big, .bottom = 0};
    return NUM_OK;
}

__attribute__((unused)) static bool in_lowest_terms(struct limbs top, struct limbs bottom)
{
    uint64_t room[LIMBS_WIDE];
    struct limbs common;
    if (bottom.count == 1 && bottom.at[0] == 1)
        return true;
    if (top.count > LIMBS_MOST || bottom.count > LIMBS_MOST)
        return true; /* past the limit, so it will not be kept */
    common = limbs_gcd(top, bottom, room);
    return common.count == 1 && common.at[0] == 1;
}

enum num_status num_keep(struct num_heap *heap, bool negative, struct limbs top,
                         struct limbs bottom, struct num *out)
{
    assert(limbs_are_sound(top) && limbs_are_sound(bottom) && bottom.count > 0);
    assert(in_lowest_terms(top, bottom));
    if (top.count > 1 || bottom.count > 1 || bottom.at[0] > INT64_MAX ||
        (top.count == 1 && top.at[0] > INT64_MAX))
        return keep_large(heap, negative, top, bottom, out);
    int64_t value = top.count == 0 ? 0 : (int64_t)top.at[0];
    *out = (struct num){.top = negative ? -value : value, .bottom = (int64_t)bottom.at[0]};
    return NUM_OK;
}

enum num_status num_keep_pair(struct num_heap *heap, bool negative, limb_pair top, limb_pair bottom,
                              struct num *out)
{
    assert(bottom > 0);
    if (top <= INT64_MAX && bottom <= INT64_MAX) {
        assert(num_common((uint64_t)top, (uint64_t)bottom) == 1);
        *out =
            (struct num){.top = negative ? -(int64_t)top : (int64_t)top, .bottom = (int64_t)bottom};
        return NUM_OK;
    }
    uint64_t top_room[2] = {(uint64_t)top, (uint64_t)(top >> LIMB_BITS)};
    uint64_t bottom_room[2] = {(uint64_t)bottom, (uint64_t)(bottom >> LIMB_BITS)};
    return keep_large(heap, negative, limbs_trim(top_room, 2), limbs_trim(bottom_room, 2), out);
}

void num_take_apart(struct num number, struct num_parts *parts)
{
    if (number.bottom == 0) {
        const struct num_big *big = number.big;
        assert(big->bottom_count > 0 && big->top_count + big->bottom_count > 1);
        assert(big->top_count <= LIMBS_MOST && big->bottom_count <= LIMBS_MOST);
        parts->top = (struct limbs){big->limbs, big->top_count};
        parts->bottom = (struct limbs){big->limbs + big->top_count, big->bottom_count};
        parts->negative = big->negative != 0;
        return;
    }
    assert(number.bottom > 0 && number.top != INT64_MIN);
    parts->negative = number.top < 0;
    parts->words[0] = (uint64_t)(number.top < 0 ? -number.top : number.top);
    parts->words[1] = (uint64_t)number.bottom;
    parts->top = limbs_trim(&parts->words[0], 1);
    parts->bottom = (struct limbs){&parts->words[1], 1};
}
