/* Setting out rules anew. */
#include <string.h>

#include "library/call.h"
#include "names/load.h"
#include "tidy.h"

struct groat_tidied {
    groat_allocator allocator;
    size_t length;
    char text[]; /* and a zero byte */
};

static groat_tidied *tidied_new(const groat_allocator *allocator, struct tidy_text text)
{
    size_t size = sizeof(groat_tidied) + text.length + 1;
    groat_tidied *tidied = allocator->resize(allocator->context, NULL, 0, size);
    if (!tidied)
        return NULL;
    tidied->allocator = *allocator;
    tidied->length = text.length;
    memcpy(tidied->text, text.text, text.length + 1);
    return tidied;
}

/* A text on its way: everything in it is in the core's arena but the report. */
struct tidying {
    struct core *core;
    const char *name;
    groat_text rules;
    groat_report *report; /* NULL: memory ran out */
    struct tidy_text text;
};

static void parse(struct tidying *tidying)
{
    struct core *core = tidying->core;
    struct diagnostics diagnostics = {.arena = &core->arena};
    struct load load = {.arena = &core->arena,
                        .diagnostics = &diagnostics,
                        .source_most = core->limits.source,
                        .depth_most = core->limits.depth};
    load_alone(&load, tidying->name, tidying->rules.start, tidying->rules.length);
    diagnostics_sort(&diagnostics);
    tidying->report = report_new(&core->allocator, &diagnostics);
}

/* What parsing took is given back first: the tree is not needed any more. */
static void set_out(struct tidying *tidying)
{
    struct arena *arena = &tidying->core->arena;
    jmp_buf *escape = arena->escape;
    arena_close(arena);
    arena_open(arena, &tidying->core->memory);
    arena->escape = escape;
    tidying->text = tidy_source(
        arena, source_new(arena, tidying->name, tidying->rules.start, tidying->rules.length));
}

/* False when memory ran out on the way. */
static bool tidy_guarded(struct tidying *tidying)
{
    struct arena *arena = &tidying->core->arena;
    jmp_buf escape;
    arena->escape = &escape;
    if (setjmp(escape) != 0) {
        arena->escape = NULL;
        return false;
    }
    parse(tidying);
    if (tidying->report && tidying->report->errors == 0)
        set_out(tidying);
    arena->escape = NULL;
    return tidying->report != NULL;
}

groat_tidied *groat_tidy(const char *name, groat_text rules, const groat_reading *reading,
                         groat_report **report)
{
    struct core *core = core_for(&name, rules, reading, report);
    if (!core)
        return NULL;
    struct tidying tidying = {.core = core, .name = name, .rules = rules};
    groat_tidied *tidied = NULL;
    bool done = tidy_guarded(&tidying);
    if (done && tidying.text.text) {
        tidied = tidied_new(&core->allocator, tidying.text);
        done = tidied != NULL;
    }
    if (!done) {
        groat_report_free(tidying.report);
        tidying.report = core->memory.limited ? report_limit(core, name) : NULL;
    }
    report_hand_out(tidying.report, report);
    core_release(core);
    return tidied;
}

groat_text groat_tidied_text(const groat_tidied *tidied)
{
    return tidied ? (groat_text){tidied->text, tidied->length} : (groat_text){"", 0};
}

void groat_tidied_free(groat_tidied *tidied)
{
    if (!tidied)
        return;
    groat_allocator allocator = tidied->allocator;
    allocator.resize(allocator.context, tidied, sizeof *tidied + tidied->length + 1, 0);
}
