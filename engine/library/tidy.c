/* Setting out rules anew. */
#include <string.h>

#include "library/library.h"
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

/* Without a text when there is an error. False when memory ran out on the way. */
static bool tidy_guarded(struct core *core, const char *name, groat_text rules,
                         struct diagnostics *diagnostics, struct tidy_text *text)
{
    jmp_buf escape;
    core->arena.escape = &escape;
    if (setjmp(escape) != 0) {
        core->arena.escape = NULL;
        return false;
    }
    struct load load = {.arena = &core->arena,
                        .diagnostics = diagnostics,
                        .source_most = core->limits.source,
                        .depth_most = core->limits.depth};
    const struct source *source = load_alone(&load, name, rules.start, rules.length);
    if (diagnostics->errors == 0)
        *text = tidy_source(&core->arena, source);
    diagnostics_sort(diagnostics);
    core->arena.escape = NULL;
    return true;
}

groat_tidied *groat_tidy(const char *name, groat_text rules, const groat_reading *reading,
                         groat_report **report)
{
    *report = NULL;
    struct core *core = core_new(reading);
    if (!core)
        return NULL;
    struct diagnostics diagnostics = {.arena = &core->arena};
    struct tidy_text text = {0};
    groat_tidied *tidied = NULL;
    if (tidy_guarded(core, name, rules, &diagnostics, &text))
        *report = report_new(&core->allocator, &diagnostics);
    else if (core->memory.limited)
        *report = report_limit(core, name);
    if (*report && text.text) {
        tidied = tidied_new(&core->allocator, text);
        if (!tidied) {
            groat_report_free(*report);
            *report = NULL;
        }
    }
    core_release(core);
    return tidied;
}

groat_text groat_tidied_text(const groat_tidied *tidied)
{
    return (groat_text){tidied->text, tidied->length};
}

void groat_tidied_free(groat_tidied *tidied)
{
    if (!tidied)
        return;
    groat_allocator allocator = tidied->allocator;
    allocator.resize(allocator.context, tidied, sizeof *tidied + tidied->length + 1, 0);
}
