/* Reading a method. */
#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "compile/compile.h"
#include "library/call.h"
#include "names/load.h"
#include "types/check.h"

const char *groat_version(void)
{
    return GROAT_VERSION;
}

groat_limits groat_limits_default(void)
{
    return (groat_limits){
        .source_bytes = 4u << 20,
        .nesting = 200,
        .definitions = 10000,
        .table_rows = 10000,
        .number_bits = NUM_BITS_DEFAULT,
        .bends = 10000,
        .trials = 20000,
        .steps = 5000000,
        .memory_bytes = (size_t)256 << 20,
    };
}

/* Steps are numbered in 32 bits, and a piece of work can write a few of them. */
enum { STEPS_MOST = 1 << 28 };

static struct limits inner_limits(const groat_limits *limits)
{
    groat_limits given = limits ? *limits : groat_limits_default();
    /* Places in a text are 32-bit numbers, and lengths are handed to printf as int. */
    size_t source_most = (size_t)1 << 30;
    return (struct limits){.source =
                               given.source_bytes < source_most ? given.source_bytes : source_most,
                           .depth = given.nesting,
                           .definitions = given.definitions,
                           .table_rows = given.table_rows,
                           .number_bits = given.number_bits,
                           .bends = given.bends,
                           .trials = given.trials,
                           .steps = given.steps < STEPS_MOST ? given.steps : STEPS_MOST,
                           .memory = given.memory_bytes};
}

/* ---- what methods share ---- */

struct memory core_memory(const struct core *core)
{
    return (struct memory){.resize = core->allocator.resize,
                           .context = core->allocator.context,
                           .limit = core->limits.memory};
}

struct core *core_hold(struct core *core)
{
    atomic_fetch_add_explicit(&core->holders, 1, memory_order_relaxed);
    return core;
}

void core_release(struct core *core)
{
    size_t holders = atomic_fetch_sub_explicit(&core->holders, 1, memory_order_acq_rel);
    assert(holders > 0);
    if (holders != 1)
        return;
    num_heap_close(&core->heap);
    arena_close(&core->arena);
    core->allocator.resize(core->allocator.context, core, sizeof *core, 0);
}

void *core_make(const struct core *core, size_t size)
{
    struct memory memory = core_memory(core);
    void *object = memory_resize(&memory, NULL, 0, size);
    return object ? memset(object, 0, size) : NULL;
}

void core_unmake(struct core *core, void *object, size_t size)
{
    core->allocator.resize(core->allocator.context, object, size, 0);
    core_release(core);
}

void core_open(const struct core *core, struct memory *memory, struct arena *arena,
               struct num_heap *heap)
{
    *memory = core_memory(core);
    arena_open(arena, memory);
    num_heap_open(heap, memory, core->limits.number_bits);
}

static groat_allocator allocator_of(const groat_reading *reading)
{
    if (reading && reading->allocator && reading->allocator->resize)
        return *reading->allocator;
    struct memory standard = memory_standard();
    return (groat_allocator){standard.resize, standard.context};
}

/* A core with one holder, the caller; NULL if memory runs out. */
static struct core *core_new(const groat_reading *reading)
{
    groat_allocator allocator = allocator_of(reading);
    struct core *core = allocator.resize(allocator.context, NULL, 0, sizeof *core);
    if (!core)
        return NULL;
    memset(core, 0, sizeof *core);
    atomic_init(&core->holders, 1);
    atomic_init(&core->serials, 0);
    core->allocator = allocator;
    core->limits = inner_limits(reading ? reading->limits : NULL);
    core_open(core, &core->memory, &core->arena, &core->heap);
    return core;
}

struct core *core_for(const char **name, groat_text rules, const groat_reading *reading,
                      groat_report **report)
{
    if (report)
        *report = NULL;
    struct core *core = core_new(reading);
    *name = *name ? *name : "rules";
    if (!core || call_has_text(rules))
        return core;
    report_hand_out(report_alone(core, *name, "these rules have a length and no text"), report);
    core_release(core);
    return NULL;
}

/* ---- reading ---- */

/* The host's loader behind the shape the stage of names asks for. */
struct host_loader {
    groat_loader *load;
    void *context;
};

static bool load_from_host(void *context, const char *name, const char *from,
                           const char **full_name, const char **text, size_t *length)
{
    struct host_loader *host = context;
    groat_text found = {0};
    if (!host->load(host->context, name, from, full_name, &found) || !*full_name ||
        (!found.start && found.length > 0))
        return false;
    *text = found.start;
    *length = found.length;
    return true;
}

static void make_shown(struct core *core)
{
    const struct program *program = core->program;
    size_t count = program->columns_count;
    core->shown = arena_take(&core->arena, (count + 2) * sizeof *core->shown);
    struct shown plain = {.decimals = (unsigned)core->shop.decimals,
                          .coins = core->shop.smallest.bottom,
                          .factor = num_whole(1)};
    for (size_t i = 0; i < count; i++) {
        const struct column_code *column = &program->columns[i];
        core->shown[i] = plain;
        core->shown[i].money =
            column->type.kind == TYPE_NUMBER && dim_is_money(column->type.dimension);
        core->shown[i].factor = column->factor;
    }
    core->shown[count] = core->shown[count + 1] = plain;
    core->shown[count].money = true;
}

/* Text to program; every stage takes from the core's arena. */
static void read_stages(struct core *core, const char *name, groat_text rules,
                        const groat_reading *reading, struct diagnostics *diagnostics)
{
    struct host_loader host = {NULL, NULL};
    struct loader loader = {load_from_host, &host};
    if (reading && reading->loader)
        host = (struct host_loader){reading->loader, reading->loader_context};
    struct load load = {.arena = &core->arena,
                        .diagnostics = diagnostics,
                        .loader = host.load ? &loader : NULL,
                        .source_most = core->limits.source,
                        .depth_most = core->limits.depth};
    struct statement *statements = load_all(&load, name, rules.start, rules.length);
    core->shop = (struct shop){.arena = &core->arena,
                               .diagnostics = diagnostics,
                               .heap = &core->heap,
                               .unrounded = reading && reading->unrounded,
                               .definitions_most = core->limits.definitions,
                               .table_rows_most = core->limits.table_rows};
    if (load.count == 0)
        return;
    shop_collect(&core->shop, statements);
    /* What could not be read would show up again as names that are not known. */
    check_shop(&core->shop, (struct span){load.sources[0], 0, 0},
               (struct check_bounds){core->limits.depth, core->limits.steps, false}, !load.lost);
    if (diagnostics->errors > 0)
        return;
    core->program = compile_shop(&core->shop, core->limits);
    make_shown(core);
}

groat_method *method_new(struct core *core)
{
    groat_method *method = core_make(core, sizeof *method);
    if (!method)
        return NULL;
    assert(core->program);
    method->core = core_hold(core);
    core_open(core, &method->memory, &method->arena, &method->heap);
    method->serial = atomic_fetch_add_explicit(&core->serials, 1, memory_order_relaxed) + 1;
    return method;
}

void groat_method_free(groat_method *method)
{
    if (!method)
        return;
    num_heap_close(&method->heap);
    arena_close(&method->arena);
    core_unmake(method->core, method, sizeof *method);
}

/* Reads into the core; false when memory ran out on the way. */
static bool read_guarded(struct core *core, const char *name, groat_text rules,
                         const groat_reading *reading, struct diagnostics *diagnostics)
{
    jmp_buf escape;
    core->arena.escape = &escape;
    if (setjmp(escape) != 0) {
        core->arena.escape = NULL;
        return false;
    }
    read_stages(core, name, rules, reading, diagnostics);
    diagnostics_sort(diagnostics);
    core->arena.escape = NULL;
    return !core->heap.starved;
}

groat_report *report_limit(const struct core *core, const char *name)
{
    char message[100];
    snprintf(message, sizeof message,
             "these rules need more memory than they may use, which is %zu bytes",
             core->limits.memory);
    return report_alone(core, name, message);
}

/* The method of rules that were read without an error; NULL without memory. */
static groat_method *settled_method(struct core *core, bool *limited)
{
    groat_method *method = method_new(core);
    if (!method)
        return NULL;
    enum settling_outcome outcome =
        settle(core->program, NULL, &method->arena, &method->heap, NULL, &method->settled);
    if (outcome == SETTLED)
        return method;
    *limited = method->memory.limited;
    groat_method_free(method);
    return NULL;
}

groat_method *groat_method_read(const char *name, groat_text rules, const groat_reading *reading,
                                groat_report **report)
{
    struct core *core = core_for(&name, rules, reading, report);
    if (!core)
        return NULL;
    groat_report *said = NULL;
    struct diagnostics diagnostics = {.arena = &core->arena};
    groat_method *method = NULL;
    bool read = read_guarded(core, name, rules, reading, &diagnostics);
    bool limited = core->memory.limited, right = read && diagnostics.errors == 0;
    if (read)
        said = report_new(&core->allocator, &diagnostics);
    if (said && right)
        method = settled_method(core, &limited);
    if (!read || (right && !method)) {
        groat_report_free(said);
        said = limited ? report_limit(core, name) : NULL;
    }
    report_hand_out(said, report);
    core_release(core);
    return method;
}
