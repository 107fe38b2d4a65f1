/* Tables and ladders into code: their cells and bounds as steps that rates decide. */
#include <string.h>

#include "compile/compile.h"
#include "evaluate/evaluate.h"

/* Cells and bounds use rates and literals alone, so one context serves for all. */
static uint32_t emit_bound(struct compile *compile, const struct expression *bound)
{
    struct context context = context_of(compile, 0, false, false);
    return emit_expression(compile, &context, bound).step;
}

/* ---- tables ---- */

static const char *const *texts_of(struct compile *compile, const struct expression *first)
{
    size_t count = 0, i = 0;
    for (const struct expression *each = first; each; each = each->next)
        count++;
    const char **texts = arena_take(compile->arena, (count + 1) * sizeof *texts);
    for (const struct expression *each = first; each; each = each->next)
        texts[i++] = each->name.text;
    return texts;
}

static struct cell_code code_of_cell(struct compile *compile, const struct tree_cell *cell)
{
    struct cell_code code = {.kind = (uint8_t)cell->kind, .bound = NO_STEP, .upper = NO_STEP};
    if (cell->kind == CELL_ANY)
        return code;
    if (cell->kind == CELL_TEXTS) {
        code.texts = texts_of(compile, cell->bound);
        return code;
    }
    struct context context = context_of(compile, 0, false, false);
    struct flow bound = emit_expression(compile, &context, cell->bound);
    code.bound = bound.step;
    code.is_text = bound.text;
    if (cell->upper)
        code.upper = emit_bound(compile, cell->upper);
    return code;
}

/* A few cells are looked at in the time of a step, a bit of a long text in that of a cell. A row of
 * a sliced table makes a slice or two, each of which takes a step or two. */
static size_t work_of(const struct table_code *table)
{
    enum { CELLS_A_STEP = 8, BYTES_A_CELL = 64, STEPS_A_ROW = 2 };
    size_t work = table->rows * table->keys;
    if (table->sliced)
        return table->rows * STEPS_A_ROW;
    for (size_t i = 0; i < table->rows * table->keys; i++)
        for (const char *const *text = table->cells[i].texts; text && *text; text++)
            work += 1 + strlen(*text) / BYTES_A_CELL;
    return work / CELLS_A_STEP;
}

static struct table_code *code_of_table(struct compile *compile, const struct symbol *symbol)
{
    struct table_code **known = &compile->tables[symbol->number];
    if (*known)
        return *known;
    const struct statement *statement = symbol->statement;
    struct program *program = compile->program;
    struct table_code *table = arena_take(compile->arena, sizeof *table);
    table->name = symbol->name;
    table->sliced = statement->sliced;
    for (const struct expression *key = statement->keys; key; key = key->next)
        table->keys++;
    for (const struct statement *row = statement->parts; row; row = row->next)
        table->rows++;
    table->cells = arena_take(compile->arena, table->rows * table->keys * sizeof *table->cells);
    table->statements = arena_take(compile->arena, table->rows * sizeof *table->statements);
    struct cell_code *code = table->cells;
    size_t row = 0;
    for (struct statement *each = statement->parts; each; each = each->next) {
        table->statements[row++] = each;
        const struct tree_cell *cell = each->cells;
        for (size_t k = 0; k < table->keys; k++, cell = cell ? cell->next : NULL)
            *code++ =
                cell ? code_of_cell(compile, cell)
                     : (struct cell_code){.kind = CELL_ANY, .bound = NO_STEP, .upper = NO_STEP};
    }
    table->work = work_of(table);
    table->number = (uint32_t)program->tables_count;
    ARENA_ADD(compile->arena, program->tables, table);
    *known = table;
    return table;
}

static bool same_steps(const uint32_t *a, const uint32_t *b, size_t count)
{
    return memcmp(a, b, count * sizeof *a) == 0;
}

struct asked_lookup {
    const struct program *program;
    const struct lookup_code *lookup;
};

static bool same_lookup(const void *context, uint32_t number)
{
    const struct asked_lookup *asked = context;
    const struct lookup_code *a = asked->lookup, *b = &asked->program->lookups[number];
    return a->table == b->table && same_steps(a->keys, b->keys, a->table->keys) &&
           same_steps(a->values, b->values, a->table->rows);
}

static uint64_t hash_of_lookup(const struct lookup_code *lookup)
{
    uint64_t hash = index_hash(INDEX_HASH, lookup->table->number);
    for (size_t i = 0; i < lookup->table->keys; i++)
        hash = index_hash(hash, lookup->keys[i]);
    for (size_t i = 0; i < lookup->table->rows; i++)
        hash = index_hash(hash, lookup->values[i]);
    return hash;
}

/* The lookup of these keys and values, once. */
static uint32_t lookup_number(struct compile *compile, struct lookup_code lookup)
{
    struct program *program = compile->program;
    struct asked_lookup asked = {program, &lookup};
    uint32_t *number =
        index_find(&compile->lookups, compile->arena, hash_of_lookup(&lookup), same_lookup, &asked);
    if (*number != NO_STEP)
        return *number;
    *number = (uint32_t)program->lookups_count;
    ARENA_ADD(compile->arena, program->lookups, lookup);
    return *number;
}

struct flow emit_lookup(struct compile *compile, const struct context *context,
                        struct symbol *symbol, const struct expression *arguments, struct span span)
{
    const struct table_code *table = code_of_table(compile, symbol);
    struct lookup_code lookup = {.table = table};
    lookup.keys = arena_take(compile->arena, table->keys * sizeof *lookup.keys);
    lookup.values = arena_take(compile->arena, table->rows * sizeof *lookup.values);
    struct flow keys = flow_fixed(NO_STEP), values = keys;
    const struct expression *key = arguments ? arguments : symbol->statement->keys;
    for (size_t k = 0; k < table->keys; k++, key = key->next) {
        struct flow flow = emit_expression(compile, context, key);
        lookup.keys[k] = flow.step;
        keys = k ? flow_join(NO_STEP, keys, flow) : flow;
    }
    const struct bound_name *parameters = compile->around.parameters;
    compile->around.parameters = NULL; /* a row's value knows no function's parameters */
    for (size_t row = 0; row < table->rows; row++) {
        struct flow flow = emit_expression(compile, context, table->statements[row]->value);
        lookup.values[row] = flow.step;
        bool text = row ? values.text && flow.text : flow.text;
        values = row ? flow_join(NO_STEP, values, flow) : flow;
        values.text = text;
    }
    compile->around.parameters = parameters;
    struct step step = {.operation = table->sliced ? OP_SLICED : OP_TABLE,
                        .a = lookup_number(compile, lookup)};
    struct flow flow = flow_join(emit_step(compile, step), keys, values);
    flow.text = values.text;
    if (flow.degree == DEGREE_RATIO)
        flow = flow_bad(flow, span, "looks up a quotient that depends on the price");
    bool by_price = keys.degree == DEGREE_LINEAR;
    if (table->sliced && values.degree != DEGREE_FIXED)
        flow = flow_bad(flow, span, "slices an amount with values that depend on the price");
    else if (by_price && !table->sliced && values.degree <= DEGREE_STEPPED)
        flow.degree = DEGREE_STEPPED;
    return flow;
}

/* ---- ladders ---- */

/* The digits before the point repeat: `.99` every 1, `9.95` every 10, `95` every 100. */
static void ending_of(const struct shop *shop, const char *text, int64_t *ending, int64_t *period)
{
    int64_t value = 0, repeat = 1;
    int decimals = 0;
    bool point = false;
    for (const char *at = text; *at; at++) {
        if (*at == '.') {
            point = true;
        } else if (*at != '_' && value < COINS_MOST / 100) {
            value = value * 10 + (*at - '0');
            if (point)
                decimals++;
            else
                repeat *= 10;
        }
    }
    for (; decimals < shop->finest; decimals++)
        value *= 10;
    for (int i = 0; i < shop->finest; i++)
        repeat *= 10;
    *ending = value;
    *period = repeat;
}

static struct band_code code_of_band(struct compile *compile, const struct statement *band)
{
    struct band_code code = {.bound = NO_STEP, .every = NO_STEP, .span = band->span};
    if (band->other)
        code.bound = emit_bound(compile, band->other);
    if (band->value) {
        code.every = emit_bound(compile, band->value);
        return code;
    }
    for (const struct tree_word *word = band->words; word; word = word->next)
        code.count++;
    int64_t *endings = arena_take(compile->arena, code.count * sizeof *endings);
    int64_t *periods = arena_take(compile->arena, code.count * sizeof *periods);
    size_t i = 0;
    for (const struct tree_word *word = band->words; word; word = word->next, i++)
        ending_of(compile->shop, word->word.text, &endings[i], &periods[i]);
    code.endings = endings;
    code.periods = periods;
    return code;
}

static uint32_t add_ladder(struct compile *compile, struct ladder_code ladder)
{
    struct program *program = compile->program;
    ARENA_ADD(compile->arena, program->ladders, ladder);
    return (uint32_t)program->ladders_count - 1;
}

uint32_t emit_named_ladder(struct compile *compile, const struct symbol *symbol)
{
    uint32_t *known = &compile->ladders[symbol->number];
    if (*known != NO_STEP)
        return *known;
    struct ladder_code ladder = {.name = symbol->name, .span = symbol->statement->span};
    for (const struct statement *band = symbol->statement->parts; band; band = band->next)
        ladder.count++;
    ladder.bands = arena_take(compile->arena, ladder.count * sizeof *ladder.bands);
    size_t i = 0;
    for (const struct statement *band = symbol->statement->parts; band; band = band->next)
        ladder.bands[i++] = code_of_band(compile, band);
    *known = add_ladder(compile, ladder);
    return *known;
}

/* `round to charm`, `round to $5`, or without a line every smallest unit. */
uint32_t emit_ladder(struct compile *compile, const struct statement *round)
{
    if (compile->shop->unrounded)
        round = NULL;
    if (round && round->value->kind == EXPRESSION_NAME)
        return emit_named_ladder(compile,
                                 shop_find(compile->shop, NO_CHANNEL, round->value->name.text));
    struct band_code *band = arena_take(compile->arena, sizeof *band);
    *band = (struct band_code){.bound = NO_STEP};
    band->every =
        round ? emit_bound(compile, round->value) : emit_number(compile, compile->shop->smallest);
    if (round)
        band->span = round->span;
    return add_ladder(compile, (struct ladder_code){.span = band->span, .bands = band, .count = 1});
}
