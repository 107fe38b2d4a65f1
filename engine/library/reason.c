/* Why there is no value, in a maker's words. */
#include <stdio.h>
#include <string.h>

#include "library/library.h"
#include "text/money.h"
#include "text/near.h"
#include "text/utf8.h"
#include "types/literal.h"
#include "unit/unit.h"

static const char *sign_of(const struct shop *shop)
{
    const struct statement *currency = shop->currency;
    return currency->symbol.text ? currency->symbol.text : currency->name.text;
}

size_t money_write_places(const struct shop *shop, struct num amount, unsigned places, char *buffer,
                          size_t size)
{
    char digits[512];
    num_write_places(amount, places, '.', digits, sizeof digits);
    return text_money(buffer, size, sign_of(shop), digits);
}

size_t money_write(const struct shop *shop, struct num amount, char *buffer, size_t size)
{
    return money_write_places(shop, amount, (unsigned)shop->decimals, buffer, size);
}

/* The first row whose first cell says what the key is, for a key to be written as its cells are;
 * the number of rows where all say `any`. */
static size_t telling_row(const struct table_code *table)
{
    size_t row = 0;
    while (row < table->rows && table->cells[row * table->keys].kind == CELL_ANY)
        row++;
    return row;
}

static void write_amount(const groat_scratch *scratch, struct num amount,
                         const struct expression *like, char *buffer, size_t size)
{
    const struct unit *unit = NULL;
    if (like->kind == EXPRESSION_QUANTITY && like->unit->power == 1)
        unit = unit_find(like->unit->name.text, strlen(like->unit->name.text));
    if (unit && num_divide(scratch->evaluation.heap, amount, unit_factor(unit), &amount) != NUM_OK)
        unit = NULL;
    size_t length = num_write_short(amount, 6, '.', buffer, size);
    if (unit && length < size)
        snprintf(buffer + length, size - length, " %s", unit->name);
}

/* The first key; an empty text where it cannot be told: while a price is sought it is another at
 * each trial, and lies in memory that the next one uses. */
static void write_key(const groat_scratch *scratch, const struct lookup_code *lookup, char *buffer,
                      size_t size)
{
    const struct table_code *table = lookup->table;
    struct value key = scratch->values[lookup->keys[0]];
    size_t row = telling_row(table);
    buffer[0] = '\0';
    if (row == table->rows || key.state != VALUE_THERE ||
        scratch->core->program->steps[lookup->keys[0]].on_trial)
        return;
    const struct cell_code *code = &table->cells[row * table->keys];
    const struct expression *bound = table->statements[row]->cells->bound;
    int64_t days = 0;
    if (code->kind == CELL_TEXTS || code->is_text)
        snprintf(buffer, size, "\"%.*s\"", (int)text_cut(key.text.start, key.text.length, 100),
                 key.text.start);
    else if (literal_writes_money(&scratch->core->shop, bound))
        money_write(&scratch->core->shop, key.number, buffer, size);
    else if (bound->kind == EXPRESSION_DATE && num_to_int64(key.number, &days))
        literal_write_date(days, buffer, size);
    else
        write_amount(scratch, key.number, bound, buffer, size);
}

/* The text of a row's cell that is most like the key, ` but one for "oak"`; or nothing. */
static void write_near_row(const groat_scratch *scratch, const struct lookup_code *lookup,
                           char *buffer, size_t size)
{
    const struct table_code *table = lookup->table;
    struct value key = scratch->values[lookup->keys[0]];
    struct near near = near_to(key.text.start, key.text.length);
    for (size_t row = 0; row < table->rows; row++) {
        const struct tree_cell *cell = table->statements[row]->cells;
        const struct expression *text = cell ? cell->bound : NULL;
        for (; text && text->kind == EXPRESSION_TEXT; text = text->next)
            near_offer(&near, text->name.text);
    }
    if (near.best)
        snprintf(buffer, size, " but one for \"%.100s\"", near.best);
}

static void write_no_row(const groat_scratch *scratch, struct value error, char *buffer,
                         size_t size)
{
    const struct program *program = scratch->core->program;
    const struct step *step = &program->steps[error.origin];
    const struct lookup_code *lookup = &program->lookups[step->a];
    char key[128], near[128] = "";
    write_key(scratch, lookup, key, sizeof key);
    if (key[0] == '"' && lookup->table->keys == 1)
        write_near_row(scratch, lookup, near, sizeof near);
    snprintf(buffer, size, "the table %.80s has no row for %s%s%s", lookup->table->name,
             key[0] ? key : "this key", lookup->table->keys > 1 ? " and its other keys" : "", near);
}

/* What is kept of a higher price, and that the aim asks for more. */
static void write_slope(const groat_scratch *scratch, const struct finding *finding,
                        const char *meets, char *buffer, size_t size)
{
    const struct shop *shop = &scratch->core->shop;
    struct num_heap *heap = scratch->evaluation.heap;
    char one[64], kept[128], asked[128];
    struct num taken;
    text_money(one, sizeof one, sign_of(shop), "1");
    money_write(shop, finding->slope, kept, sizeof kept);
    if (num_sign(finding->slope) <= 0) {
        if (num_subtract(heap, num_whole(1), finding->slope, &taken) == NUM_OK)
            money_write(shop, taken, kept, sizeof kept);
        snprintf(buffer, size, "no price %s: of each %s more, fees and tax take %s", meets, one,
                 kept);
        return;
    }
    if (finding->has_asked)
        money_write(shop, finding->asked, asked, sizeof asked);
    if (!finding->has_asked || strcmp(asked, kept) == 0)
        snprintf(asked, sizeof asked, "more than that");
    snprintf(buffer, size,
             "no price %s: of each %s more, you keep %s after fees and tax, but the aim needs %s",
             meets, one, kept, asked);
}

/* Why no price meets an aim. */
static void write_no_price(const groat_scratch *scratch, struct value error, char *buffer,
                           size_t size)
{
    const struct program *program = scratch->core->program;
    uint32_t search = program->steps[error.origin].a;
    const struct finding *finding = &scratch->evaluation.findings[search];
    const char *meets = program->searches[search].meets;
    if (finding->ladder_ends) {
        const char *ladder = program->ladders[program->searches[search].ladder].name;
        snprintf(buffer, size, "no price %s before the rounding %s ends", meets,
                 ladder ? ladder : "");
    } else if (finding->fixed) {
        snprintf(buffer, size, "no price %s: it does not depend on the price", meets);
    } else if (finding->fixed_part) {
        snprintf(buffer, size,
                 "no price %s: part of it does not depend on the price, and does not hold", meets);
    } else if (finding->has_slope && finding->capped) {
        snprintf(buffer, size, "no price %s: part of the condition holds only at lower prices",
                 meets);
    } else if (finding->has_slope) {
        write_slope(scratch, finding, meets, buffer, size);
    } else {
        snprintf(buffer, size, "no price %s", meets);
    }
}

/* The greatest floor and the least ceiling of those that share the price; false where the one is
 * not above the other, or would not read so. */
static bool write_floor_above(const groat_scratch *scratch, struct value error, char *buffer,
                              size_t size)
{
    const struct program *program = scratch->core->program;
    const struct search_code *search = &program->searches[program->steps[error.origin].a];
    const struct value *floor = NULL, *ceiling = NULL;
    char low[64], high[64];
    for (size_t i = 0; i < search->count; i++) {
        const struct member_code *member = &search->members[i];
        const struct value *one = member->floor == NO_STEP ? NULL : &scratch->values[member->floor];
        const struct value *other =
            member->ceiling == NO_STEP ? NULL : &scratch->values[member->ceiling];
        if (search->count > 1 && member->sold != NO_STEP &&
            !value_is_yes(scratch->values[member->sold]))
            continue;
        if (one && one->state == VALUE_THERE &&
            (!floor || num_compare(one->number, floor->number) > 0))
            floor = one;
        if (other && other->state == VALUE_THERE &&
            (!ceiling || num_compare(other->number, ceiling->number) < 0))
            ceiling = other;
    }
    if (!floor || !ceiling || num_compare(floor->number, ceiling->number) <= 0)
        return false;
    money_write(&scratch->core->shop, floor->number, low, sizeof low);
    money_write(&scratch->core->shop, ceiling->number, high, sizeof high);
    snprintf(buffer, size, "the floor (%s) is above the ceiling (%s)", low, high);
    return strcmp(low, high) != 0;
}

/* The kind of each fault, and what the message says after its subject if that is all it says. */
static const struct {
    groat_reason kind;
    const char *words;
} faults[] = {
    [FAULT_DIVIDED_BY_ZERO] = {GROAT_REASON_NO_VALUE, "divides by zero"},
    [FAULT_TOO_LARGE] = {GROAT_REASON_LIMIT,
                         "gives a number with more digits than the engine can handle"},
    [FAULT_NO_MEMORY] = {GROAT_REASON_NO_MEMORY, NULL},
    [FAULT_NO_MARGIN] = {GROAT_REASON_NO_VALUE, NULL},
    [FAULT_NO_ROW] = {GROAT_REASON_NO_ROW, NULL},
    [FAULT_NEGATIVE_KEY] = {GROAT_REASON_NO_VALUE, "slices an amount below zero"},
    [FAULT_SHARE] = {GROAT_REASON_NO_VALUE, "needs a share below 100%"},
    [FAULT_DISCOUNT] = {GROAT_REASON_NO_VALUE, "must be at least 0% and less than 100%"},
    [FAULT_REQUIRED] = {GROAT_REASON_REQUIRED, NULL},
    [FAULT_NO_DATE] = {GROAT_REASON_NO_DATE, NULL},
    [FAULT_GRID] = {GROAT_REASON_NO_VALUE, "rounds to an amount that is not above zero"},
    [FAULT_NOT_ABOVE_ZERO] = {GROAT_REASON_NOT_A_PRICE, "gives a price that is not above zero"},
    [FAULT_NOTHING_ALLOWED] = {GROAT_REASON_NO_PRICE,
                               "has no allowed value between the floor and the ceiling"},
    [FAULT_LADDER_ENDS] = {GROAT_REASON_NO_PRICE,
                           "cannot be rounded: there is no allowed price in that direction"},
    [FAULT_NO_PRICE] = {GROAT_REASON_NO_PRICE, NULL},
    [FAULT_TOO_MANY_TRIALS] = {GROAT_REASON_LIMIT, "would take more trials than the limit allows"},
    [FAULT_TOO_MANY_BENDS] = {GROAT_REASON_LIMIT,
                              "would take more bends of the fees than the limit allows"},
    [FAULT_TOO_MANY_STEPS] = {GROAT_REASON_LIMIT, "takes more steps than the limit allows"},
    [FAULT_PRICE_TOO_LARGE] = {GROAT_REASON_NOT_A_PRICE,
                               "is larger than the largest price that the engine can handle"},
};

groat_reason reason_kind(struct value error)
{
    bool known = error.fault < sizeof faults / sizeof *faults;
    return known && faults[error.fault].kind ? faults[error.fault].kind : GROAT_REASON_NO_VALUE;
}

static const char *plain_words(enum fault fault)
{
    bool known = fault < sizeof faults / sizeof *faults;
    return known && faults[fault].words ? faults[fault].words : "has no value";
}

/* The rate or the field that a step is; NULL where it is neither. */
static const char *name_of_step(const struct program *program, uint32_t index)
{
    const struct step *step = &program->steps[index];
    if (step->operation == OP_FIELD)
        return program->fields[step->a].symbol->name;
    for (size_t i = 0; i < program->rates_count; i++)
        if (program->rates[i].step == index)
            return program->rates[i].symbol->name;
    return NULL;
}

/* What the message begins with: the definition in which it happened. */
static const char *subject(const struct program *program, struct value error)
{
    const struct step *step = &program->steps[error.origin];
    if (error.fault == FAULT_DISCOUNT)
        return "the discount";
    if (step->operation == OP_PRICE)
        return "the price";
    return program->origins[step->origin].what;
}

void reason_write(const groat_scratch *scratch, struct value error, char *buffer, size_t size)
{
    const struct program *program = scratch->core->program;
    const struct step *step = &program->steps[error.origin];
    struct span span = program->origins[step->origin].span;
    bool divides = error.fault == FAULT_DIVIDED_BY_ZERO && step->operation == OP_DIVIDE;
    const char *divisor = divides ? name_of_step(program, step->b) : NULL;
    char text[400];
    switch ((enum fault)error.fault) {
    case FAULT_NO_MEMORY: snprintf(text, sizeof text, "there is no memory left"); break;
    case FAULT_NO_ROW: write_no_row(scratch, error, text, sizeof text); break;
    case FAULT_NO_PRICE: write_no_price(scratch, error, text, sizeof text); break;
    case FAULT_NO_DATE:
        snprintf(text, sizeof text, "the rules use as_of, but no date was given");
        break;
    case FAULT_REQUIRED:
        snprintf(text, sizeof text, "%s is required, but its cell is empty",
                 program->fields[step->a].symbol->name);
        break;
    default:
        if (error.fault == FAULT_NOTHING_ALLOWED &&
            write_floor_above(scratch, error, text, sizeof text))
            break;
        snprintf(text, sizeof text, "%s %s", subject(program, error),
                 plain_words((enum fault)error.fault));
        if (divisor)
            snprintf(text, sizeof text, "%s divides by zero: %s is 0", subject(program, error),
                     divisor);
        break;
    }
    bool placed = span.source && error.fault != FAULT_NO_DATE && error.fault != FAULT_REQUIRED &&
                  error.fault != FAULT_NO_MEMORY;
    if (placed)
        text_write(buffer, size, "%s (%s:%u)", text, span.source->name, span_place(span).line);
    else
        text_write(buffer, size, "%s", text);
}
