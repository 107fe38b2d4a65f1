/* Records: the values of one product. */
#include <assert.h>
#include <string.h>

#include "library/call.h"
#include "parse.h"

groat_record *groat_record_new(const groat_method *method)
{
    if (!method)
        return NULL;
    struct core *core = method->core;
    groat_record *record = core_make(core, sizeof *record);
    if (!record)
        return NULL;
    record->core = core_hold(core);
    core_open(core, &record->memory, &record->arena, &record->heap);
    arena_open(&record->room, &record->memory);
    size_t count = core->program->fields_count;
    record->fields = arena_take(&record->room, count * sizeof *record->fields);
    record->ranges = arena_take(&record->room, count * sizeof *record->ranges);
    record->reader = (struct cell_reader){.program = core->program,
                                          .arena = &record->arena,
                                          .heap = &record->heap,
                                          .parse_room = arena_take(&record->room, parse_room())};
    if (!record->fields || !record->ranges || !record->reader.parse_room) {
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
    num_heap_close(&record->heap);
    arena_close(&record->arena);
    arena_close(&record->room);
    core_unmake(record->core, record, sizeof *record);
}

void groat_record_clear(groat_record *record)
{
    if (!record)
        return;
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

groat_status groat_record_set(groat_record *record, size_t field, groat_text cell,
                              const groat_cells *cells, groat_trouble *trouble)
{
    const char *why = wrong_field(record, field);
    if (!why && !call_has_text(cell))
        why = "the cell has a length and no text";
    if (why)
        return call_refuse(trouble, why);
    const struct program *program = record->core->program;
    struct trouble inner;
    struct value value;
    record->reader.decimal_comma = cells && cells->decimal_comma;
    if (cell_read_plain(&record->reader, &program->fields[field], cell.start, cell.length,
                        &value)) {
        record->fields[field] = value;
        record->ranges[field].there = false;
        trouble_none(&inner);
        return trouble_hand_out(&inner, trouble);
    }
    struct cell_wanted wanted = cell_wanted_of_field(&program->fields[field]);
    if (cell_read(&record->reader, &wanted, cell.start, cell.length, &value, &inner) ==
        TROUBLE_NONE) {
        record->fields[field] = value;
        record->ranges[field] = record->reader.range;
    } else {
        inner.index = field;
    }
    return trouble_hand_out(&inner, trouble);
}

/* Works out the number that a fraction is in the field. */
static enum trouble_kind read_fraction(groat_record *record, const struct field_code *field,
                                       int64_t top, int64_t bottom, struct num *out,
                                       struct trouble *trouble)
{
    static const char beyond[] = "this is not a fraction that the engine can handle";
    enum type_kind kind = field->symbol->type.kind;
    bool flag = kind == TYPE_FLAG;
    record->heap.starved = false;
    if (!flag && kind != TYPE_NUMBER)
        return trouble_say(trouble, TROUBLE_OTHER_KIND, NO_HELP,
                           "only numbers, amounts and flags can be set as a fraction");
    if (!flag && !field->bare)
        return trouble_say(trouble, TROUBLE_NO_UNIT, NO_HELP,
                           "this field does not accept a bare number");
    if (bottom < 1)
        return trouble_say(trouble, TROUBLE_CALL, NO_HELP, beyond);
    bool made = num_fraction(&record->heap, top, bottom, out) == NUM_OK;
    if (made && flag && !num_equal(*out, num_whole(0)) && !num_equal(*out, num_whole(1)))
        return trouble_say(trouble, TROUBLE_FORM, NO_HELP, "a flag must be 0 or 1");
    if (made && (num_sign(*out) < 0 || (field->count && !num_is_whole(*out)))) {
        struct cell_wanted wanted = cell_wanted_of_field(field);
        if (!cell_number_fits(record->core->program, &wanted, *out, trouble))
            return trouble->kind;
    }
    made = made && num_multiply(&record->heap, *out, field->factor, out) == NUM_OK;
    if (record->heap.starved)
        return trouble_no_memory(trouble);
    return made ? TROUBLE_NONE : trouble_say(trouble, TROUBLE_TOO_LARGE, NO_HELP, beyond);
}

groat_status groat_record_set_fraction(groat_record *record, size_t field, int64_t top,
                                       int64_t bottom, groat_trouble *trouble)
{
    const char *why = wrong_field(record, field);
    if (why)
        return call_refuse(trouble, why);
    const struct field_code *code = &record->core->program->fields[field];
    struct trouble inner;
    struct num number;
    trouble_none(&inner);
    if (read_fraction(record, code, top, bottom, &number, &inner) == TROUBLE_NONE) {
        record->fields[field] = value_number(number);
        record->ranges[field].there = false;
    } else {
        inner.index = field;
    }
    return trouble_hand_out(&inner, trouble);
}

/* The range that the field's cell is, or its default where the cell is absent; or NULL. */
static const struct value_range *range_of(const groat_record *record, size_t field)
{
    assert(field < record->core->program->fields_count);
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
