/* Memory for yajl, which does not check whether an allocation failed: if memory runs out, this
 * jumps back to the reader, and closing frees all that yajl held. Private to this room.
 */
#ifndef GROAT_SHEET_PARSER_MEMORY_H
#define GROAT_SHEET_PARSER_MEMORY_H

#include <setjmp.h>
#include <yajl/yajl_common.h>

struct parser_memory {
    jmp_buf exhausted; /* set by the reader before yajl is first called */
    struct parser_block *first;
};

/* `memory` must outlive the parser. */
yajl_alloc_funcs parser_memory_functions(struct parser_memory *memory);
/* Use it instead of yajl_free. */
void parser_memory_close(struct parser_memory *memory);

#endif
