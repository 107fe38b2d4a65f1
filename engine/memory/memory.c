#include "memory/memory.h"

#include <assert.h>
#include <stdalign.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void *standard_resize(void *context, void *block, size_t old_size, size_t new_size)
{
    (void)context;
    (void)old_size;
    if (new_size == 0) {
        free(block);
        return NULL;
    }
    return realloc(block, new_size);
}

struct memory memory_standard(void)
{
    return (struct memory){.resize = standard_resize, .limit = SIZE_MAX};
}

void *memory_resize(struct memory *memory, void *block, size_t old_size, size_t new_size)
{
    assert(memory->held <= memory->limit && old_size <= memory->held);
    assert(block || old_size == 0);
    if (new_size > old_size && new_size - old_size > memory->limit - memory->held) {
        memory->limited = true;
        return NULL;
    }
    void *grown = memory->resize(memory->context, block, old_size, new_size);
    if (grown)
        memory->held = memory->held - old_size + new_size;
    return grown;
}

void memory_release(struct memory *memory, void *block, size_t size)
{
    if (!block)
        return;
    assert(size > 0 && size <= memory->held);
    memory->resize(memory->context, block, size, 0);
    memory->held -= size;
}

/* ---- arenas ---- */

/* Each block is twice as large as the one before, so a long file needs only a few. */
enum { BLOCK_FIRST = 4096, BLOCK_LAST = 1 << 20 };

struct arena_block {
    struct arena_block *next;
    size_t size; /* of `room` */
    size_t used;
    unsigned char room[];
};

/* Everything that is taken is aligned for any type, even if the host's block is not. */
enum { ALIGN = alignof(max_align_t) };

/* Under the address sanitizer, all bytes of a block that are not taken are poisoned. The sanitizer
 * then finds a read or write just outside an object, as it does for a block of the heap, and the
 * use of an object after the arena was emptied. */
#ifndef __has_feature
#define __has_feature(feature) 0
#endif
#if defined(__SANITIZE_ADDRESS__) || __has_feature(address_sanitizer)
#include <sanitizer/asan_interface.h>
enum { BEHIND = ALIGN }; /* unused bytes after each object */
#define poison(from, size) ASAN_POISON_MEMORY_REGION(from, size)
#define unpoison(from, size) ASAN_UNPOISON_MEMORY_REGION(from, size)
#else
enum { BEHIND = 0 };
#define poison(from, size) ((void)(from), (void)(size))
#define unpoison(from, size) ((void)(from), (void)(size))
#endif

void arena_open(struct arena *arena, struct memory *memory)
{
    assert(memory && memory->resize);
    *arena = (struct arena){.memory = memory};
}

void arena_close(struct arena *arena)
{
    struct arena_block *block = arena->first;
    while (block) {
        struct arena_block *next = block->next;
        unpoison(block->room, block->size);
        memory_release(arena->memory, block, sizeof *block + block->size);
        block = next;
    }
    arena->first = arena->current = NULL;
}

void arena_empty(struct arena *arena)
{
    for (struct arena_block *block = arena->first; block; block = block->next) {
        block->used = 0;
        poison(block->room, block->size);
    }
    arena->current = arena->first;
}

static struct arena_block *block_with(struct arena *arena, size_t size)
{
    struct arena_block *last = arena->current;
    while (last && last->next) {
        last = last->next;
        if (last->size >= size) {
            arena->current = last;
            return last;
        }
    }
    size_t wanted = last ? last->size * 2 : BLOCK_FIRST;
    if (wanted > BLOCK_LAST)
        wanted = BLOCK_LAST;
    if (wanted < size)
        wanted = size;
    struct arena_block *block = NULL;
    if (wanted <= SIZE_MAX - sizeof *block)
        block = memory_resize(arena->memory, NULL, 0, sizeof *block + wanted);
    if (!block)
        return NULL;
    *block = (struct arena_block){.size = wanted};
    poison(block->room, block->size);
    if (last)
        last->next = block;
    else
        arena->first = block;
    arena->current = block;
    return block;
}

/* The number of bytes between the end of the used part and the next aligned address. */
static size_t gap(const struct arena_block *block)
{
    return -((uintptr_t)block->room + block->used) % ALIGN;
}

static bool holds(const struct arena_block *block, size_t size)
{
    size_t left = block->size - block->used, around = gap(block) + BEHIND;
    return left >= around && left - around >= size;
}

void *arena_take(struct arena *arena, size_t size)
{
    struct arena_block *block = arena->current;
    if (!block || !holds(block, size))
        block = size > SIZE_MAX - ALIGN - BEHIND ? NULL : block_with(arena, size + ALIGN + BEHIND);
    if (!block) {
        if (arena->escape)
            longjmp(*arena->escape, 1);
        return NULL;
    }
    unsigned char *taken = block->room + block->used + gap(block);
    block->used = (size_t)(taken + size + BEHIND - block->room);
    unpoison(taken, size);
    assert((uintptr_t)taken % ALIGN == 0 && block->used <= block->size);
    return memset(taken, 0, size);
}

void *arena_grow(struct arena *arena, void *items, size_t item_size, size_t *room, size_t wanted)
{
    assert(item_size > 0 && (items || *room == 0));
    if (wanted <= *room)
        return items;
    size_t larger = *room ? *room : 8;
    while (larger < wanted)
        larger *= 2;
    assert(larger <= SIZE_MAX / item_size);
    void *grown = arena_take(arena, larger * item_size);
    if (grown && *room)
        memcpy(grown, items, *room * item_size);
    if (grown)
        *room = larger;
    return grown;
}

char *arena_text(struct arena *arena, const char *text, size_t length)
{
    assert(text || length == 0);
    char *copy = arena_take(arena, length + 1);
    if (copy && length)
        memcpy(copy, text, length);
    return copy;
}

char *arena_print(struct arena *arena, const char *format, ...)
{
    va_list given, again;
    va_start(given, format);
    va_copy(again, given);
    int length = vsnprintf(NULL, 0, format, given);
    char *text = length < 0 ? NULL : arena_take(arena, (size_t)length + 1);
    if (text)
        vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    va_end(given);
    return text;
}
