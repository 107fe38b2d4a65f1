/* Rates: their values, and making a method anew with other ones. */
#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "compile/compile.h"
#include "library/call.h"
#include "library/words.h"
#include "parse.h"
#include "text/near.h"

/* ---- what a rate is worth ---- */

groat_value groat_method_rate_value(const groat_method *method, size_t index)
{
    if (index >= groat_method_rates(method))
        return result_none(GROAT_MISSING);
    const struct rate_code *rate = &method->core->program->rates[index];
    return result_value(method->core, &method->settled.values[rate->step], rate->symbol->type);
}

/* What words are made with, for a single text. */
struct wording {
    struct memory memory;
    struct arena arena;
    struct num_heap heap;
    struct words words;
};

static const struct words *wording_open(struct wording *wording, const groat_method *method)
{
    const struct core *core = method->core;
    core_open(core, &wording->memory, &wording->arena, &wording->heap);
    wording->words = (struct words){.core = core,
                                    .overrides = method->overrides,
                                    .heap = &wording->heap,
                                    .arena = &wording->arena,
                                    .percent_places = 4};
    return &wording->words;
}

static void wording_close(struct wording *wording)
{
    num_heap_close(&wording->heap);
    arena_close(&wording->arena);
}

size_t groat_method_rate_amount(const groat_method *method, size_t index, char *buffer, size_t size)
{
    if (index >= groat_method_rates(method))
        return (size_t)snprintf(buffer, call_room(buffer, size), "%s", "");
    const struct rate_code *rate = &method->core->program->rates[index];
    struct wording wording;
    const struct words *words = wording_open(&wording, method);
    const char *text = words_of_symbol(words, rate->symbol, &method->settled.values[rate->step]);
    bool complete = text && !wording.heap.starved;
    size_t length = (size_t)snprintf(buffer, call_room(buffer, size), "%s", complete ? text : "");
    wording_close(&wording);
    return length;
}

/* The literal that says what a goal has; NULL where none does. `*rate` is the rate that it is, if
 * its value is not what the rules say, or is no literal there. */
static const struct expression *limit_written(const struct words *words,
                                              const struct statement *goal,
                                              const struct rate_code **rate)
{
    const struct program *program = words->core->program;
    const struct expression *has = NULL;
    for (const struct statement *line = goal->parts; line; line = line->next)
        if (line->kind == STATEMENT_HAS)
            has = line->value;
    for (size_t i = 0; has && has->kind == EXPRESSION_NAME && i < program->rates_count; i++) {
        const struct symbol *symbol = program->rates[i].symbol;
        if (strcmp(symbol->name, has->name.text) != 0)
            continue;
        *rate = &program->rates[i];
        has = words_is_replaced(words, symbol) ? NULL : symbol->statement->value;
    }
    return has && words_says_itself(has) ? has : NULL;
}

groat_status groat_method_goal_limit(const groat_method *method, size_t index, groat_limit *limit)
{
    if (!limit)
        return GROAT_BAD_VALUE;
    *limit = (groat_limit){.amount = ""};
    if (index >= groat_method_goals(method))
        return GROAT_BAD_VALUE;
    struct wording wording;
    const struct words *words = wording_open(&wording, method);
    const struct rate_code *rate = NULL;
    const struct expression *has =
        limit_written(words, method->core->shop.goals.items[index], &rate);
    /* `40 h per month`, but not `40 h per 2 week` */
    const struct tree_unit *per =
        has && has->kind == EXPRESSION_PER && !has->name.text ? has->unit : NULL;
    const char *amount = "";
    if (has)
        amount = words_written(words, per ? has->left : has);
    else if (rate)
        amount = words_of_symbol(words, rate->symbol, &method->settled.values[rate->step]);
    bool starved = !amount || wording.heap.starved;
    if (!starved && strlen(amount) < sizeof limit->amount) {
        strcpy(limit->amount, amount);
        snprintf(limit->per, sizeof limit->per, "%s", per ? per->name.text : "");
    }
    wording_close(&wording);
    return starved ? GROAT_NO_MEMORY : GROAT_OK;
}

/* ---- ranges ---- */

/* The range that a rate is in this method, or NULL. */
static const struct value_range *range_of(const groat_method *method, size_t rate)
{
    assert(rate < method->core->program->rates_count);
    if (!method->overrides || method->overrides[rate].state != VALUE_THERE)
        return method->core->program->rates[rate].range;
    return method->ranges[rate].there ? &method->ranges[rate] : NULL;
}

bool groat_method_rate_range(const groat_method *method, size_t index, groat_range *range)
{
    if (index >= groat_method_rates(method))
        return false;
    const struct value_range *found = range_of(method, index);
    if (found && range)
        *range = range_shown(method->core, found, method->core->program->rates[index].symbol->type);
    return found != NULL;
}

/* ---- other rates ---- */

static bool find_rate(const struct program *program, const char *name, uint32_t *number,
                      struct trouble *trouble)
{
    struct near near = near_to(name, strlen(name));
    for (size_t i = 0; i < program->rates_count; i++) {
        near_offer(&near, program->rates[i].symbol->name);
        if (strcmp(program->rates[i].symbol->name, name) == 0) {
            *number = (uint32_t)i;
            return true;
        }
    }
    bool field = false;
    for (size_t i = 0; i < program->fields_count; i++)
        field = field || strcmp(program->fields[i].symbol->name, name) == 0;
    const char *help = field ? "change its cells in the sheet" : near.best;
    trouble_say(trouble, TROUBLE_UNKNOWN_NAME, (struct trouble_help){HELP_ADVICE, help},
                "there is no rate %s%s", name, field ? ": it is a column of the sheet" : "");
    return false;
}

/* `reason` speaks of a value; what is said of a rate begins with its name. */
static enum trouble_kind refuse(struct trouble *trouble, enum trouble_kind kind, const char *rate,
                                const char *reason)
{
    return trouble_say(trouble, kind, NO_HELP, "%.60s: %s", rate, reason);
}

/* What the values of one rate are read with. */
struct rate_reading {
    struct cell_reader reader;
    struct cell_wanted wanted;
    const char *rate;
    const groat_method *method;      /* from which the other one is made */
    struct value now;                /* what the changes before have left the rate at */
    const struct value_range *range; /* the range that it is then; or NULL */
    uint32_t number;                 /* of the rate */
    bool changes;                    /* `+10%` is understood */
    bool way;                        /* a point on the way to another value is asked for */
    struct trouble *trouble;
};

/* The share of `+10%` or `-2.5%`; false for anything else. */
static bool is_change(struct num_heap *heap, const char *text, struct num *share)
{
    size_t length = strlen(text);
    if (length < 3 || (text[0] != '+' && text[0] != '-') || text[length - 1] != '%' ||
        num_read_decimal(heap, text + 1, length - 2, share) != NUM_OK ||
        num_divide(heap, *share, num_whole(100), share) != NUM_OK)
        return false;
    return text[0] == '+' || num_negate(heap, *share, share) == NUM_OK;
}

/* `+10%` for `10%` or `+10 %`, and `+2.5%` for `+2,5%`, where that is no value of the rate. */
static bool propose_change(const struct rate_reading *reading, const char *text)
{
    char change[64];
    struct num share;
    bool sign = text[0] == '+' || text[0] == '-';
    size_t digits = strcspn(text, " %"), gap = strspn(text + digits, " ");
    if (!reading->changes || (reading->wanted.percent && !sign) ||
        reading->wanted.type.kind != TYPE_NUMBER || digits > 40 ||
        strcmp(text + digits + gap, "%") != 0)
        return false;
    snprintf(change, sizeof change, "%s%.*s%%", sign ? "" : "+", (int)digits, text);
    char *comma = strchr(change, ',');
    if (comma)
        *comma = '.';
    if (!is_change(reading->reader.heap, change, &share))
        return false;
    trouble_propose(reading->trouble, (struct trouble_help){HELP_VALUE, change});
    return true;
}

/* What the rate is, as an example, where there is nothing of the text itself to propose. */
static void propose_own(const struct rate_reading *reading)
{
    char amount[128];
    if (reading->trouble->help_kind == HELP_NONE &&
        groat_method_rate_amount(reading->method, reading->number, amount, sizeof amount) > 0)
        trouble_propose(reading->trouble, (struct trouble_help){HELP_EXAMPLE, amount});
}

static enum trouble_kind read_literal(struct rate_reading *reading, const char *text,
                                      struct value *out)
{
    struct trouble *trouble = reading->trouble;
    struct trouble cell;
    enum trouble_kind kind =
        cell_read(&reading->reader, &reading->wanted, text, strlen(text), out, &cell);
    if (kind == TROUBLE_NO_MEMORY)
        return kind;
    if (kind == TROUBLE_NONE && out->state == VALUE_MISSING)
        return refuse(trouble, TROUBLE_EMPTY, reading->rate, "a rate needs a value");
    if (kind == TROUBLE_NONE && reading->way && reading->reader.range.there)
        return refuse(trouble, TROUBLE_RANGE, reading->rate,
                      "this must be a single amount, not a range");
    if (kind == TROUBLE_NONE)
        return kind;
    refuse(trouble, cell.kind, reading->rate, cell.message);
    trouble_propose(trouble, (struct trouble_help){cell.help_kind, cell.help});
    trouble->column = cell.column;
    if (!propose_change(reading, text))
        propose_own(reading);
    return kind;
}

static enum trouble_kind too_large(const struct rate_reading *reading)
{
    if (reading->reader.heap->starved)
        return TROUBLE_NO_MEMORY;
    return refuse(reading->trouble, TROUBLE_TOO_LARGE, reading->rate,
                  "the result is a larger number than the engine can handle");
}

/* Changes the value by a share of itself; false where that comes to no number. */
static bool is_changed(const struct rate_reading *reading, struct num share, struct value *value)
{
    struct num_heap *heap = reading->reader.heap;
    struct num more;
    return num_multiply(heap, value->number, share, &more) == NUM_OK &&
           num_add(heap, value->number, more, &value->number) == NUM_OK;
}

/* Nothing that costs something can fall by more than all of it. */
static enum trouble_kind refuse_below_zero(const struct rate_reading *reading)
{
    return trouble_say(
        reading->trouble, TROUBLE_NEGATIVE, (struct trouble_help){HELP_EXAMPLE, "-50%"},
        "%.60s: a fall by more than 100%% would make this rate negative", reading->rate);
}

static enum trouble_kind read_change(struct rate_reading *reading, struct num share,
                                     struct value *out)
{
    struct value_range *range = &reading->reader.range;
    range->there = false;
    if (reading->wanted.type.kind != TYPE_NUMBER)
        return refuse(reading->trouble, TROUBLE_OTHER_KIND, reading->rate,
                      "only a number can be changed by a percentage");
    *out = reading->now;
    if (out->state != VALUE_THERE)
        return refuse(reading->trouble, TROUBLE_RULES, reading->rate,
                      "with the changes before it, this rate has no value to change");
    if (!is_changed(reading, share, out))
        return too_large(reading);
    if (num_sign(reading->now.number) > 0 && num_sign(out->number) < 0)
        return refuse_below_zero(reading);
    if (!reading->range)
        return TROUBLE_NONE;
    *range = *reading->range;
    if (!is_changed(reading, share, &range->low) || !is_changed(reading, share, &range->likely) ||
        !is_changed(reading, share, &range->high))
        return too_large(reading);
    return TROUBLE_NONE;
}

static enum trouble_kind read_value(struct rate_reading *reading, const char *text,
                                    struct value *out)
{
    struct num share;
    if (reading->changes && is_change(reading->reader.heap, text, &share))
        return read_change(reading, share, out);
    return read_literal(reading, text, out);
}

/* Goes top/bottom of the way from `*from` to what `text` says. */
static enum trouble_kind go_toward(struct rate_reading *reading, const groat_rate_value *given,
                                   struct value *from)
{
    struct num_heap *heap = reading->reader.heap;
    struct value to;
    struct num part;
    if (given->bottom < 1)
        return refuse(reading->trouble, TROUBLE_CALL, reading->rate,
                      "the number of steps must be at least 1");
    if (reading->wanted.type.kind != TYPE_NUMBER)
        return refuse(reading->trouble, TROUBLE_OTHER_KIND, reading->rate,
                      "only a number can be moved toward another value");
    enum trouble_kind kind = read_value(reading, given->toward, &to);
    if (kind != TROUBLE_NONE)
        return kind;
    if (num_subtract(heap, to.number, from->number, &to.number) != NUM_OK ||
        num_fraction(heap, given->top, given->bottom, &part) != NUM_OK ||
        num_multiply(heap, to.number, part, &part) != NUM_OK ||
        num_add(heap, from->number, part, &from->number) != NUM_OK)
        return too_large(reading);
    reading->reader.range.there = false; /* a point on the way between likely values */
    return TROUBLE_NONE;
}

/* `before` is the method as the changes before this one have left it. */
static enum trouble_kind read_rate(groat_method *made, const groat_method *method,
                                   const groat_method *before, void *parse_space,
                                   const groat_rate_value *given, bool changes,
                                   struct trouble *trouble)
{
    const struct program *program = made->core->program;
    uint32_t number;
    if (!given->rate)
        return trouble_say(trouble, TROUBLE_CALL, NO_HELP, "a rate was given without its name");
    if (!given->value)
        return refuse(trouble, TROUBLE_EMPTY, given->rate, "a rate needs a value");
    if (!find_rate(program, given->rate, &number, trouble))
        return trouble->kind;
    trouble->index = number;
    const struct rate_code *rate = &program->rates[number];
    struct rate_reading reading = {.reader = {.program = program,
                                              .arena = &made->arena,
                                              .heap = &made->heap,
                                              .parse_room = parse_space},
                                   .wanted = cell_wanted_of_rate(rate),
                                   .rate = given->rate,
                                   .now = before->settled.values[rate->step],
                                   .range = range_of(before, number),
                                   .method = method,
                                   .number = number,
                                   .changes = changes,
                                   .way = given->toward != NULL,
                                   .trouble = trouble};
    struct value value;
    enum trouble_kind kind = read_value(&reading, given->value, &value);
    if (kind == TROUBLE_NONE && given->toward)
        kind = go_toward(&reading, given, &value);
    if (kind != TROUBLE_NONE)
        return kind;
    made->overrides[number] = value;
    made->ranges[number] = reading.reader.range;
    return TROUBLE_NONE;
}

static bool copy_range(groat_method *made, const groat_method *method, size_t rate)
{
    struct value_range *range = &made->ranges[rate];
    *range = method->ranges[rate];
    return !range->there ||
           (num_copy(&made->heap, range->low.number, &range->low.number) == NUM_OK &&
            num_copy(&made->heap, range->likely.number, &range->likely.number) == NUM_OK &&
            num_copy(&made->heap, range->high.number, &range->high.number) == NUM_OK);
}

/* The overrides of the method it is made from, as its own. False without memory. */
static bool copy_overrides(groat_method *made, const groat_method *method)
{
    const struct program *program = made->core->program;
    made->overrides =
        arena_take(&made->arena, (program->rates_count + 1) * sizeof *made->overrides);
    made->ranges = arena_take(&made->arena, (program->rates_count + 1) * sizeof *made->ranges);
    if (!made->overrides || !made->ranges)
        return false;
    for (size_t i = 0; i < program->rates_count; i++) {
        struct value *value = &made->overrides[i];
        *value = method->overrides ? method->overrides[i] : value_missing();
        made->ranges[i].there = false;
        if (value->state != VALUE_THERE)
            continue;
        if (!copy_range(made, method, i))
            return false;
        if (program->rates[i].symbol->type.kind == TYPE_TEXT) {
            value->text.start = arena_text(&made->arena, value->text.start, value->text.length);
            if (!value->text.start)
                return false;
        } else if (num_copy(&made->heap, value->number, &value->number) != NUM_OK) {
            return false;
        }
    }
    return true;
}

/* Works out what rates alone decide, with those in place. */
static enum trouble_kind settle_rates(groat_method *made, struct trouble *trouble)
{
    enum settling_outcome outcome = settle(made->core->program, made->overrides, &made->arena,
                                           &made->heap, NULL, &made->settled);
    trouble_none(trouble);
    if (outcome == SETTLED_WRONG)
        return trouble_say(trouble, TROUBLE_RULES, NO_HELP,
                           "with these rates, a table or a rounding is no longer valid");
    return outcome == SETTLED ? TROUBLE_NONE : TROUBLE_NO_MEMORY;
}

/* Whether a rate is changed from what it is, and not given a new value. */
static bool reads_now(const groat_rate_value *given)
{
    size_t length = given->value ? strlen(given->value) : 0;
    return (length > 0 && given->value[length - 1] == '%') || given->toward;
}

/* Works out what the changes so far leave the rates at. A table or a rounding may be out of order
 * until the last change is made. False without memory. */
static bool settle_so_far(groat_method *made)
{
    return settle(made->core->program, made->overrides, &made->arena, &made->heap, NULL,
                  &made->settled) != SETTLED_NOT;
}

static enum trouble_kind override_rates(groat_method *made, const groat_method *method,
                                        const groat_rate_value *values, size_t count, bool changes,
                                        struct trouble *trouble)
{
    /* Given back at once: of a sweep there are thousands of methods. */
    void *parse_space = memory_resize(&made->memory, NULL, 0, parse_room());
    enum trouble_kind kind =
        parse_space && copy_overrides(made, method) ? TROUBLE_NONE : TROUBLE_NO_MEMORY;
    for (size_t i = 0; i < count && kind == TROUBLE_NONE; i++) {
        bool further = i > 0 && changes && reads_now(&values[i]);
        trouble->given = i;
        kind = further && !settle_so_far(made)
                   ? TROUBLE_NO_MEMORY
                   : read_rate(made, method, further ? made : method, parse_space, &values[i],
                               changes, trouble);
    }
    memory_release(&made->memory, parse_space, parse_room());
    return kind == TROUBLE_NONE ? settle_rates(made, trouble) : kind;
}

/* Frees what was not made, and says why where that is for want of memory. */
static void not_made(groat_method **made, enum trouble_kind kind, struct trouble *trouble)
{
    if (kind == TROUBLE_NO_MEMORY)
        trouble_no_memory(trouble);
    groat_method_free(*made);
    *made = NULL;
}

enum trouble_kind method_with_rates(const groat_method *method, const groat_rate_value *values,
                                    size_t count, bool changes, groat_method **made,
                                    struct trouble *trouble)
{
    trouble_none(trouble);
    *made = method_new(method->core);
    enum trouble_kind kind =
        *made ? override_rates(*made, method, values, count, changes, trouble) : TROUBLE_NO_MEMORY;
    if (kind != TROUBLE_NONE)
        not_made(made, kind, trouble);
    return kind;
}

/* Why no method can be made of another one and a list, or NULL. */
static const char *wrong_list(const groat_method *method, const void *items, size_t count,
                              size_t item_size, const char *no_list)
{
    if (!method)
        return "the call was given no method";
    return call_has_items(items, count, item_size) ? NULL : no_list;
}

groat_method *groat_method_with_rates(const groat_method *method, const groat_rate_value *values,
                                      size_t count, groat_trouble *trouble)
{
    struct trouble inner;
    groat_method *made;
    const char *why = wrong_list(method, values, count, sizeof *values,
                                 "the call was given a number of rates and not the rates");
    if (why) {
        call_refuse(trouble, why);
        return NULL;
    }
    method_with_rates(method, values, count, true, &made, &inner);
    trouble_hand_out(&inner, trouble);
    return made;
}

static enum trouble_kind lean_rates(groat_method *made, const groat_method *method,
                                    const groat_lean *leans, size_t count, struct trouble *trouble)
{
    if (!copy_overrides(made, method))
        return TROUBLE_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        size_t rate = leans[i].rate;
        if (rate >= made->core->program->rates_count)
            return trouble_say(trouble, TROUBLE_CALL, NO_HELP,
                               "the rules have no rate of this number");
        if ((size_t)leans[i].end > GROAT_HIGH)
            return trouble_say(trouble, TROUBLE_CALL, NO_HELP, "a range has no such end");
        const struct value_range *range = range_of(made, rate);
        if (!range)
            continue;
        made->overrides[rate] = range_end(range, leans[i].end);
        made->ranges[rate].there = false;
    }
    return settle_rates(made, trouble);
}

groat_method *groat_method_leaned(const groat_method *method, const groat_lean *leans, size_t count,
                                  groat_trouble *trouble)
{
    struct trouble inner;
    const char *why = wrong_list(method, leans, count, sizeof *leans,
                                 "the call was given a number of leans and not the leans");
    if (why) {
        call_refuse(trouble, why);
        return NULL;
    }
    groat_method *made = method_new(method->core);
    trouble_none(&inner);
    enum trouble_kind kind =
        made ? lean_rates(made, method, leans, count, &inner) : TROUBLE_NO_MEMORY;
    if (kind != TROUBLE_NONE)
        not_made(&made, kind, &inner);
    trouble_hand_out(&inner, trouble);
    return made;
}
