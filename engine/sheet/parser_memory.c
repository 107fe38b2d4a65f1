#include "sheet/parser_memory.h"

#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

struct parser_block {
    struct parser_block *next, *previous;
    max_align_t room[];
};

static struct parser_block *block_of(void *room)
{
    return (struct parser_block *)(void *)((char *)room - offsetof(struct parser_block, room));
}

static void unlink_block(struct parser_memory *memory, struct parser_block *block)
{
    if (block->previous)
        block->previous->next = block->next;
    else
        memory->first = block->next;
    if (block->next)
        block->next->previous = block->previous;
}

static void link_block(struct parser_memory *memory, struct parser_block *block)
{
    block->previous = NULL;
    block->next = memory->first;
    if (block->next)
        block->next->previous = block;
    memory->first = block;
}

static void *parser_resize(void *context, void *room, size_t size)
{
    struct parser_memory *memory = context;
    struct parser_block *block = room ? block_of(room) : NULL;
    if (block)
        unlink_block(memory, block);
    struct parser_block *grown = NULL;
    if (size <= SIZE_MAX - sizeof *grown)
        grown = realloc(block, sizeof *grown + size);
    if (!grown) {
        if (block)
            link_block(memory, block);
        longjmp(memory->exhausted, 1);
    }
    link_block(memory, grown);
    return grown->room;
}

static void *parser_new(void *context, size_t size)
{
    return parser_resize(context, NULL, size);
}

static void parser_release(void *context, void *room)
{
    if (!room)
        return;
    unlink_block(context, block_of(room));
    free(block_of(room));
}

yajl_alloc_funcs parser_memory_functions(struct parser_memory *memory)
{
    return (yajl_alloc_funcs){parser_new, parser_resize, parser_release, memory};
}

void parser_memory_close(struct parser_memory *memory)
{
    while (memory->first) {
        struct parser_block *next = memory->first->next;
        free(memory->first);
        memory->first = next;
    }
}
