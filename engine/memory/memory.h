/* Memory from the host's callback, counted and limited; and arenas on top of it. */
#ifndef GROAT_MEMORY_H
#define GROAT_MEMORY_H

#include <setjmp.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* The host's memory with a limit on what may be held at once. `resize` behaves like realloc with
 * the old size told: size 0 frees and returns NULL; NULL otherwise means there is none. */
struct memory {
    void *(*resize)(void *context, void *block, size_t old_size, size_t new_size);
    void *context;
    size_t limit; /* bytes held at once */
    size_t held;
    bool limited; /* something was refused for the limit's sake, not by the host */
};

/* The C library's own allocator, without a limit. */
struct memory memory_standard(void);

/* NULL when the host has none or the limit is met; the old block then stands. */
void *memory_resize(struct memory *memory, void *block, size_t old_size, size_t new_size);
void memory_release(struct memory *memory, void *block, size_t size);

/* qsort without memory of its own, which the C library's may take from elsewhere. Not stable. */
void memory_sort(void *items, size_t count, size_t size,
                 int (*compare)(const void *left, const void *right));

/* An arena: what is taken from it lives until the arena is emptied or closed.
 *
 * While rules are read, every stage takes from one arena, and running out has one way out: when
 * `escape` is set, arena_take jumps there with 1 and never returns NULL. Nothing between the jump
 * and its landing owns anything outside the arena. Without `escape`, arena_take returns NULL. */
struct arena_block;
struct arena {
    struct memory *memory;
    struct arena_block *first;
    struct arena_block *current;
    jmp_buf *escape;
};

void arena_open(struct arena *arena, struct memory *memory);
void arena_close(struct arena *arena);
/* Forgets everything taken; keeps the memory. */
void arena_empty(struct arena *arena);
/* Zeroed, aligned for any type. */
void *arena_take(struct arena *arena, size_t size);
/* An array grown to hold `wanted` items; the old content is copied and `*room` updated. */
void *arena_grow(struct arena *arena, void *items, size_t item_size, size_t *room, size_t wanted);
/* A copy with a zero byte after it. */
char *arena_text(struct arena *arena, const char *text, size_t length);
/* A text made as printf makes one. */
char *arena_print(struct arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

#endif
