/* Memory from the host's callback, counted and limited; and arenas on top of it. */
#ifndef GROAT_MEMORY_H
#define GROAT_MEMORY_H

#include <setjmp.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* The host's memory with a limit on what may be held at once. `resize` behaves like realloc but is
 * also given the old size. A new size of 0 frees the block and returns NULL; otherwise NULL means
 * that no memory is left. */
struct memory {
    void *(*resize)(void *context, void *block, size_t old_size, size_t new_size);
    void *context;
    size_t limit; /* bytes held at once */
    size_t held;
    bool limited; /* a request was refused because of the limit, not by the host */
};

/* The C library's own allocator, without a limit. */
struct memory memory_standard(void);

/* NULL when the host has no memory left or the limit is reached; the old block is then
 * unchanged. */
void *memory_resize(struct memory *memory, void *block, size_t old_size, size_t new_size);
void memory_release(struct memory *memory, void *block, size_t size);

/* Like qsort, but never allocates, which the C library's qsort may do. Not stable. */
void memory_sort(void *items, size_t count, size_t size,
                 int (*compare)(const void *left, const void *right));

/* An arena: memory taken from it stays valid until the arena is emptied or closed.
 *
 * While rules are read, every stage takes memory from one arena, and running out of memory is
 * handled in one place: when `escape` is set, arena_take jumps there with 1 and never returns NULL.
 * No function that the jump skips owns anything outside the arena. Without `escape`, arena_take
 * returns NULL. */
struct arena_block;
struct arena {
    struct memory *memory;
    struct arena_block *first;
    struct arena_block *current;
    jmp_buf *escape;
};

void arena_open(struct arena *arena, struct memory *memory);
void arena_close(struct arena *arena);
/* Forgets everything that was taken; keeps the memory for reuse. */
void arena_empty(struct arena *arena);
/* Returns zeroed memory, aligned for any type. */
void *arena_take(struct arena *arena, size_t size);
/* Grows an array to hold at least `wanted` items, copies the old content and updates `*room`, which
 * counts items. */
void *arena_grow(struct arena *arena, void *items, size_t item_size, size_t *room, size_t wanted);
/* Adds an item to a `list` that has `list_count` and `list_room` beside it. The arena must have an
 * escape. */
#define ARENA_ADD(arena, list, ...)                                                                \
    ((list) = arena_grow(arena, list, sizeof *(list), &list##_room, list##_count + 1),             \
     (list)[list##_count++] = (__VA_ARGS__))
/* A copy of the text, followed by a zero byte. */
char *arena_text(struct arena *arena, const char *text, size_t length);
/* A text formatted as printf formats it. */
char *arena_print(struct arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

#endif
