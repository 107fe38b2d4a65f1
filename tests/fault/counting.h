/* An allocator that keeps its own books: what is live, whether sizes are told right, how often it is
 * asked; and that fails where a test wants it to. */
#ifndef FAULT_COUNTING_H
#define FAULT_COUNTING_H

#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "groat.h"

struct counting {
    size_t asked;              /* calls that want memory, failed ones too */
    size_t fail_from, fail_to; /* those with a number in [from, to) fail; they count from 1 */
    size_t failed;
    size_t live_blocks, live_bytes;
    size_t most_bytes;
    bool wrong_size; /* an old size was not the one the block was made with */
};

/* Stands before each block. */
struct counted_block {
    size_t size;
    size_t mark;
    max_align_t room[];
};

#define COUNTED_MARK ((size_t)0x67726F6174u)

static void *counting_resize(void *context, void *block, size_t old_size, size_t new_size)
{
    struct counting *counting = context;
    struct counted_block *old =
        block ? (struct counted_block *)(void *)((char *)block - sizeof *old) : NULL;
    size_t size = old ? old->size : 0;
    if (size != old_size || (old && old->mark != COUNTED_MARK))
        counting->wrong_size = true;
    if (new_size > 0) {
        counting->asked++;
        if (counting->asked >= counting->fail_from && counting->asked < counting->fail_to) {
            counting->failed++;
            return NULL;
        }
    }
    struct counted_block *made = NULL;
    if (new_size > 0) {
        made = malloc(sizeof *made + new_size);
        if (!made)
            abort(); /* the machine's own memory is not under test */
        *made = (struct counted_block){new_size, COUNTED_MARK};
        memset(made->room, 0xA5, new_size); /* nobody may lean on zeros */
        if (old)
            memcpy(made->room, block, size < new_size ? size : new_size);
    }
    counting->live_blocks += (made != NULL);
    counting->live_blocks -= (old != NULL);
    counting->live_bytes += new_size;
    counting->live_bytes -= size;
    if (counting->live_bytes > counting->most_bytes)
        counting->most_bytes = counting->live_bytes;
    if (old)
        memset(old, 0x5A, sizeof *old + size);
    free(old);
    return made ? made->room : NULL;
}

static inline groat_allocator counting_allocator(struct counting *counting)
{
    return (groat_allocator){counting_resize, counting};
}

#endif
