/* Sorting in place with heapsort, which has no slow case. */
#include "memory/memory.h"

#include <assert.h>

struct sorting {
    unsigned char *items;
    size_t size;
    int (*compare)(const void *left, const void *right);
};

static void swap(const struct sorting *sorting, size_t a, size_t b)
{
    unsigned char *left = sorting->items + a * sorting->size;
    unsigned char *right = sorting->items + b * sorting->size;
    for (size_t i = 0; i < sorting->size; i++) {
        unsigned char byte = left[i];
        left[i] = right[i];
        right[i] = byte;
    }
}

static bool is_below(const struct sorting *sorting, size_t a, size_t b)
{
    return sorting->compare(sorting->items + a * sorting->size,
                            sorting->items + b * sorting->size) < 0;
}

/* Moves an item down the heap until neither of its two children is greater. */
static void sink(const struct sorting *sorting, size_t item, size_t count)
{
    for (size_t child = 2 * item + 1; child < count; child = 2 * item + 1) {
        if (child + 1 < count && is_below(sorting, child, child + 1))
            child++;
        if (!is_below(sorting, item, child))
            return;
        swap(sorting, item, child);
        item = child;
    }
}

__attribute__((unused)) static bool is_sorted(const struct sorting *sorting, size_t count)
{
    for (size_t i = 1; i < count; i++)
        if (is_below(sorting, i, i - 1))
            return false;
    return true;
}

void memory_sort(void *items, size_t count, size_t size,
                 int (*compare)(const void *left, const void *right))
{
    struct sorting sorting = {items, size, compare};
    assert(items || count == 0);
    for (size_t item = count / 2; item-- > 0;)
        sink(&sorting, item, count);
    for (size_t last = count; last-- > 1;) {
        swap(&sorting, 0, last);
        sink(&sorting, 0, last);
    }
    assert(is_sorted(&sorting, count));
}
