/* Records: the values of one product. */
#include <string.h>

#include "library/call.h"
#include "parse.h"

groat_record *groat_record_new(const groat_method *method)
{
    if (!method)
        return NULL;
    struct core *core = method->core;
    struct memory memory = core_memory(core);
    groat_record *record = memory_resize(&memory, NULL, 0, sizeof *record);
    if (!record)
        return NULL;
    memset(record, 0, sizeof *record);
    record->core = core_hold(core);
    record->memory = memory;
    record->serial = atomic_fetch_add_explicit(&core->serials, 1, memory_order_relaxed) + 1;
    arena_open(&record->arena, &record->memory);
    num_heap_open(&record->heap, &record->memory, core->limits.number_bits);
    size_t fields = (core->program->fields_count + 1) * sizeof *record->fields;
    record->fields = memory_resize(&record->memory, NULL, 0, fields);
    size_t ranges = (core->program->fields_count + 1) * sizeof *record->ranges;
    record->ranges = memory_resize(&record->memory, NULL, 0, ranges);
    void *room = memory_resize(&record->memory, NULL, 0, parse_room());
    record->reader = (struct cell_reader){.program = core->program,
                                          .arena = &record->arena,
                                          .heap = &record->heap,
                                          .parse_room = room};
    if (!record->fields || !record->ranges || !room) {
        groat_record_free(record);
        return NULL;
    }
    groat_record_clear(record);
    return record;
}

void groat_record_free(groat_record *record)
{
    if (!record)
        return;
    struct core *core = record->core;
    memory_release(&record->memory, record->fields,
                   (core->program->fields_count + 1) * sizeof *record->fields);
    memory_release(&record->memory, record->ranges,
                   (core->program->fields_count + 1) * sizeof *record->ranges);
    memory_release(&record->memory, record->reader.parse_room, parse_room());
    num_heap_close(&record->heap);
    arena_close(&record->arena);
    core->allocator.resize(core->allocator.context, record, sizeof *record, 0);
    core_release(core);
}

void groat_record_clear(groat_record *record)
{
    if (!record)
        return;
    record->changes++;
    for (size_t i = 0; i < record->core->program->fields_count; i++) {
        record->fields[i] = value_missing();
        record->ranges[i].there = false;
    }
    arena_empty(&record->arena);
    num_heap_rewind(&record->heap, (struct num_mark){0});
}

/* Why a field of a record cannot be set, or NULL. */
static const char *wrong_field(const groat_record *record, size_t field)
{
    if (!record)
        return "the call was given no record";
    return field < record->core->program->fields_count ? NULL
                                                       : "the rules have no field of this number";
}

static groat_status cell_refused(const struct cell_trouble *inner, groat_trouble *trouble)
{
    if (trouble) {
        *trouble = (groat_trouble){.column = inner->column};
        memcpy(trouble->message, inner->message, sizeof inner->message);
        memcpy(trouble->help, inner->help, sizeof inner->help);
    }
    return GROAT_BAD_VALUE;
}

groat_status groat_record_set(groat_record *record, size_t field, groat_text cell,
                              const groat_cells *cells, groat_trouble *trouble)
{
    const char *why = wrong_field(record, field);
    if (!why && !call_has_text(cell))
        why = "the cell has a length and no text";
    if (why)
        return call_refuse(trouble, why);
    const struct program *program = record->core->program;
    struct cell_wanted wanted = cell_wanted_of_field(&program->fields[field]);
    struct cell_trouble inner;
    struct value value;
    record->reader.decimal_comma = cells && cells->decimal_comma;
    enum cell_outcome outcome =
        cell_read(&record->reader, &wanted, cell.start, cell.length, &value, &inner);
    if (outcome == CELL_READ) {
        record->changes++;
        record->fields[field] = value;
        record->ranges[field] = record->reader.range;
    }
    if (outcome == CELL_WRONG)
        return cell_refused(&inner, trouble);
    return outcome == CELL_READ ? GROAT_OK : GROAT_NO_MEMORY;
}

/* Why a field is never a fraction, or NULL. */
static const char *wrong_kind(const struct field_code *code)
{
    enum type_kind kind = code->symbol->type.kind;
    if (kind != TYPE_NUMBER && kind != TYPE_FLAG)
        return "only numbers, amounts and flags are set as a fraction";
    return kind == TYPE_NUMBER && !code->bare ? "a bare number has no meaning in this field" : NULL;
}

groat_status groat_record_set_fraction(groat_record *record, size_t field, int64_t top,
                                       int64_t bottom, groat_trouble *trouble)
{
    const char *why = wrong_field(record, field);
    if (why)
        return call_refuse(trouble, why);
    const struct field_code *code = &record->core->program->fields[field];
    struct num number;
    why = wrong_kind(code);
    record->heap.starved = false;
    if (!why && (bottom < 1 || num_fraction(&record->heap, top, bottom, &number) != NUM_OK))
        why = "this is not a fraction that the engine works with";
    else if (!why && code->symbol->type.kind == TYPE_FLAG && !num_equal(number, num_whole(0)) &&
             !num_equal(number, num_whole(1)))
        why = "a flag is 0 or 1";
    struct cell_trouble inner;
    struct cell_wanted wanted = cell_wanted_of_field(code);
    if (!why && !cell_number_fits(record->core->program, &wanted, number, &inner))
        return cell_refused(&inner, trouble);
    if (!why && num_multiply(&record->heap, number, code->factor, &number) != NUM_OK)
        why = "this is not a fraction that the engine works with";
    if (record->heap.starved)
        return GROAT_NO_MEMORY;
    if (why)
        return call_refuse(trouble, why);
    record->changes++;
    record->fields[field] = value_number(number);
    record->ranges[field].there = false;
    return GROAT_OK;
}

/* The range that the field's cell is, or its default where the cell is absent; or NULL. */
static const struct value_range *range_of(const groat_record *record, size_t field)
{
    if (record->ranges[field].there)
        return &record->ranges[field];
    bool absent = record->fields[field].state == VALUE_MISSING;
    return absent ? record->core->program->fields[field].range : NULL;
}

bool groat_record_range(const groat_record *record, size_t field, groat_range *range)
{
    if (wrong_field(record, field))
        return false;
    const struct value_range *found = range_of(record, field);
    const struct core *core = record->core;
    if (found && range)
        *range = range_shown(core, found, core->program->fields[field].symbol->type);
    return found != NULL;
}

void groat_record_lean(groat_record *record, size_t field, groat_end end)
{
    if (wrong_field(record, field) || (size_t)end > GROAT_HIGH)
        return;
    const struct value_range *range = range_of(record, field);
    if (!range)
        return;
    record->ranges[field] = *range; /* a default's stays a range though the field is there now */
    record->fields[field] = range_end(range, end);
    record->changes++;
}

size_t groat_record_missing(const groat_record *record)
{
    if (!record)
        return SIZE_MAX;
    const struct program *program = record->core->program;
    for (size_t i = 0; i < program->fields_count; i++)
        if (program->fields[i].required && record->fields[i].state == VALUE_MISSING)
            return i;
    return SIZE_MAX;
}
