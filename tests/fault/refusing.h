/* The C library's memory, refused by the number of the call. A program that includes this is linked
 * with --wrap for malloc, calloc and realloc. */
#ifndef GROAT_REFUSING_H
#define GROAT_REFUSING_H

#include <stdbool.h>
#include <stddef.h>

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *block, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *block, size_t size);

/* The calls with a number in [from, to) are refused while it is on; they count from 1. */
static struct {
    bool on;
    size_t asked, from, to, refused;
} refusing;

static bool is_refused(void)
{
    if (!refusing.on)
        return false;
    refusing.asked++;
    bool refused = refusing.asked >= refusing.from && refusing.asked < refusing.to;
    refusing.refused += refused;
    return refused;
}

void *__wrap_malloc(size_t size)
{
    return is_refused() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size)
{
    return is_refused() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *block, size_t size)
{
    return is_refused() ? NULL : __real_realloc(block, size);
}

#endif
