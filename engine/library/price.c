/* Pricing one record on one channel. */
#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "library/call.h"
#include "solve/cliff.h"
#include "solve/search.h"
#include "text/utf8.h"
#include "types/literal.h"

/* ---- scratch ---- */

/* The most notes a row of any channel can carry: each warning, each show, what the search says, and
 * a cliff. */
static size_t notes_most(const struct program *program)
{
    size_t most = 0;
    for (size_t i = 0; i < program->channels_count; i++) {
        size_t notes = program->channels[i].warns_count + program->channels[i].shows_count;
        most = notes > most ? notes : most;
    }
    return most + 2;
}

groat_scratch *groat_scratch_new(const groat_method *method)
{
    if (!method)
        return NULL;
    struct core *core = method->core;
    const struct program *program = core->program;
    groat_scratch *scratch = core_make(core, sizeof *scratch);
    if (!scratch)
        return NULL;
    scratch->core = core_hold(core);
    core_open(core, &scratch->memory, &scratch->notes, &scratch->heap);
    struct arena *room = &scratch->room;
    arena_open(room, &scratch->memory);
    scratch->notes_most = notes_most(program);
    scratch->values = arena_take(room, program->count * sizeof *scratch->values);
    scratch->shows = arena_take(room, program->columns_count * sizeof *scratch->shows);
    scratch->note_texts = arena_take(room, scratch->notes_most * sizeof *scratch->note_texts);
    scratch->evaluation = (struct evaluation){
        .program = program,
        .values = scratch->values,
        .heap = &scratch->heap,
        .findings = arena_take(room, program->searches_count * sizeof(struct finding)),
        .lines = arena_take(room, search_room(program)),
        .find = search_find};
    if (scratch->values && scratch->shows && scratch->note_texts && scratch->evaluation.findings &&
        scratch->evaluation.lines)
        return scratch;
    groat_scratch_free(scratch);
    return NULL;
}

void groat_scratch_free(groat_scratch *scratch)
{
    if (!scratch)
        return;
    num_heap_close(&scratch->heap);
    arena_close(&scratch->notes);
    arena_close(&scratch->room);
    core_unmake(scratch->core, scratch, sizeof *scratch);
}

/* ---- notes ---- */

static void add_note(groat_scratch *scratch, const char *text)
{
    char *copy = arena_text(&scratch->notes, text, strlen(text));
    if (!copy || scratch->notes_count == scratch->notes_most) {
        scratch->no_memory = scratch->no_memory || !copy;
        return;
    }
    scratch->note_texts[scratch->notes_count++] = copy;
}

static void money_of_coins(const groat_scratch *scratch, int64_t coins, char *buffer, size_t size)
{
    struct num_heap *heap = scratch->evaluation.heap;
    struct num amount;
    if (num_multiply(heap, num_whole(coins), scratch->core->shop.smallest, &amount) == NUM_OK)
        money_write(&scratch->core->shop, amount, buffer, size);
}

/* What the search has to say of the price: held, raised or pinned. */
static void note_search(groat_scratch *scratch)
{
    const struct channel_code *channel = scratch->channel;
    const struct finding *finding = &scratch->evaluation.findings[channel->search];
    bool aims = scratch->core->program->searches[channel->search].members[0].aim != NO_STEP;
    bool pinned = channel->pin != NO_STEP && scratch->values[channel->pin].state == VALUE_THERE;
    if (!pinned && !finding->held && !finding->raised)
        return;
    char wanted[64] = "", text[200];
    if (finding->found)
        money_of_coins(scratch, finding->wanted, wanted, sizeof wanted);
    if (pinned && finding->found)
        snprintf(text, sizeof text, "pinned: %s %s",
                 aims ? "the aim needs" : "the set price would be", wanted);
    else if (pinned)
        snprintf(text, sizeof text, "pinned: no price meets the aim");
    else if (finding->held && finding->found)
        snprintf(text, sizeof text, "held to the ceiling: %s %s",
                 aims ? "the aim needs" : "the set price is", wanted);
    else if (finding->held)
        snprintf(text, sizeof text, "held to the ceiling: no price meets the aim");
    else
        snprintf(text, sizeof text, "raised to the floor: the set price is %s", wanted);
    add_note(scratch, text);
}

const struct member_code *price_member(const groat_scratch *scratch)
{
    return channel_member(scratch->core->program, scratch->channel);
}

/* Whether a price is the one that was tried last while this one was worked out: the channel's steps
 * on trial are then what they are at it. */
static bool was_tried(const groat_scratch *scratch, enum figure figure)
{
    const struct value *price = &scratch->values[scratch->channel->figures[figure]];
    const struct value *trial = &scratch->values[price_member(scratch)->trial];
    return scratch->evaluation.findings[scratch->channel->search].tried &&
           price->state == VALUE_THERE && num_equal(price->number, trial->number);
}

/* A fee that jumps just above the list price. */
static void note_cliff(groat_scratch *scratch)
{
    const struct member_code *member = price_member(scratch);
    struct value list = scratch->values[scratch->channel->figures[FIGURE_LIST]];
    struct cliff cliff;
    struct num coins;
    int64_t price;
    if (!member->jumps ||
        num_divide(&scratch->heap, list.number, scratch->core->shop.smallest, &coins) != NUM_OK ||
        !num_to_int64(coins, &price) ||
        !cliff_above(&scratch->evaluation, member, price, was_tried(scratch, FIGURE_LIST), &cliff))
        return;
    char here[64] = "", first[64] = "", last[64] = "", text[300];
    money_of_coins(scratch, price, here, sizeof here);
    money_of_coins(scratch, cliff.first, first, sizeof first);
    if (cliff.endless) {
        snprintf(text, sizeof text, "from %s on, you would keep less than at %s", first, here);
    } else {
        money_of_coins(scratch, cliff.last, last, sizeof last);
        snprintf(text, sizeof text, "between %s and %s, you would keep less than at %s", first,
                 last, here);
    }
    add_note(scratch, text);
}

/* ---- what a row is ---- */

groat_outcome price_failed(groat_scratch *scratch, struct value error)
{
    reason_write(scratch, error, scratch->reason, sizeof scratch->reason);
    scratch->reason_kind = reason_kind(error);
    return GROAT_FAILED;
}

groat_outcome price_fail(groat_scratch *scratch, groat_reason kind, const char *text)
{
    scratch->reason_kind = kind;
    snprintf(scratch->reason, sizeof scratch->reason, "%s", text);
    return GROAT_FAILED;
}

/* The figures a price cannot do without, each before those that build on it. */
static const enum figure needed[] = {FIGURE_COST,   FIGURE_PAY,  FIGURE_LIST,   FIGURE_PRICE,
                                     FIGURE_EXTRAS, FIGURE_TAX,  FIGURE_PAID,   FIGURE_NET,
                                     FIGURE_FEES,   FIGURE_KEEP, FIGURE_PROFIT, FIGURE_TAKE_HOME};

static const struct value *first_error(const groat_scratch *scratch)
{
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++) {
        const struct value *value = &scratch->values[scratch->channel->figures[needed[i]]];
        if (value->state != VALUE_THERE)
            return value;
    }
    return NULL;
}

/* The value of a show in its own unit. A division by zero leaves it empty, with a note. */
static const struct value *work_out_show(groat_scratch *scratch, const struct show_code *show)
{
    const struct value *value = &scratch->values[show->step];
    struct value *out = &scratch->shows[show->column];
    const struct num factor = scratch->core->shown[show->column].factor;
    *out = *value;
    if (value->state == VALUE_ERROR && value->fault == FAULT_NO_MARGIN)
        return NULL;
    if (value->state == VALUE_ERROR && value->fault == FAULT_DIVIDED_BY_ZERO) {
        char note[200];
        snprintf(note, sizeof note, "%.80s is left empty because it divides by zero",
                 show->symbol->name);
        add_note(scratch, note);
        return NULL;
    }
    if (value->state == VALUE_ERROR)
        return value;
    if (!evaluate_goes_on(&scratch->evaluation)) {
        *out = value_error(FAULT_TOO_MANY_STEPS, show->step);
        return out;
    }
    if (value->state == VALUE_THERE && show->symbol->type.kind == TYPE_NUMBER &&
        num_divide(&scratch->heap, value->number, factor, &out->number) != NUM_OK)
        *out = value_error(FAULT_TOO_LARGE, show->step);
    return NULL;
}

/* A given price is nobody's finding: of that the row says nothing. */
static void note_price(groat_scratch *scratch)
{
    if (scratch->given)
        return;
    note_search(scratch);
    note_cliff(scratch);
}

static groat_outcome judge(groat_scratch *scratch)
{
    const struct channel_code *channel = scratch->channel;
    const struct value *error = first_error(scratch);
    if (error)
        return error->state == VALUE_ERROR
                   ? price_failed(scratch, *error)
                   : price_fail(scratch, GROAT_REASON_NO_PRICE, "there is no price");
    note_price(scratch);
    for (size_t i = 0; i < channel->warns_count; i++) {
        struct value warns = scratch->values[channel->warns[i].step];
        if (warns.state == VALUE_ERROR)
            return price_failed(scratch, warns);
        if (value_is_yes(warns))
            add_note(scratch, channel->warns[i].text);
    }
    for (size_t i = 0; i < channel->shows_count; i++) {
        error = work_out_show(scratch, &channel->shows[i]);
        if (error)
            return price_failed(scratch, *error);
    }
    for (size_t i = 0; i < channel->refuses_count; i++) {
        struct value refuses = scratch->values[channel->refuses[i].step];
        if (refuses.state == VALUE_ERROR)
            return price_failed(scratch, refuses);
        if (value_is_yes(refuses)) {
            text_write(scratch->reason, sizeof scratch->reason, "%s", channel->refuses[i].text);
            scratch->reason_kind = GROAT_REASON_RULES;
            return GROAT_REFUSED;
        }
    }
    return GROAT_PRICED;
}

/* ---- pricing ---- */

/* Forgets the last result, so that none of it shows through where this one comes to nothing. */
static void begin(groat_scratch *scratch)
{
    const struct program *program = scratch->core->program;
    num_heap_rewind(&scratch->heap, (struct num_mark){0});
    arena_empty(&scratch->notes);
    scratch->record = NULL;
    scratch->notes_count = 0;
    scratch->reason[0] = '\0';
    scratch->reason_kind = GROAT_REASON_NONE;
    scratch->worked_out = false;
    scratch->given = false;
    scratch->named_ready = false;
    scratch->no_memory = false;
    scratch->memory.limited = false;
    scratch->heap.starved = false;
    for (size_t i = 0; i < program->columns_count; i++)
        scratch->shows[i] = value_missing();
}

/* Runs steps of the channel; a price that is given takes the place of the one to be found. */
static void run(groat_scratch *scratch, const uint32_t *steps, size_t count)
{
    const struct channel_code *code = scratch->channel;
    if (!scratch->given) {
        evaluate_list(&scratch->evaluation, steps, count);
        return;
    }
    for (size_t i = 0; i < count; i++) {
        bool given = steps[i] == code->search_step || steps[i] == code->figures[FIGURE_LIST] ||
                     steps[i] == code->figures[FIGURE_PRICE];
        if (given)
            scratch->values[steps[i]] = scratch->given_price;
        else
            evaluate_list(&scratch->evaluation, &steps[i], 1);
    }
}

void price_more(groat_scratch *scratch)
{
    scratch->heap.starved = false;
    evaluate_begin(&scratch->evaluation);
}

bool price_named(groat_scratch *scratch)
{
    assert(scratch->worked_out);
    if (scratch->named_ready)
        return true;
    price_more(scratch);
    run(scratch, scratch->channel->named_steps, scratch->channel->named_steps_count);
    scratch->named_ready = !scratch->heap.starved; /* else worked out again when asked again */
    return scratch->named_ready;
}

static groat_outcome work_out(groat_scratch *scratch)
{
    const struct channel_code *code = scratch->channel;
    if (code->sold != NO_STEP) {
        evaluate_list(&scratch->evaluation, code->before, code->before_count);
        struct value sold = scratch->values[code->sold];
        if (sold.state == VALUE_ERROR)
            return price_failed(scratch, sold);
        if (!value_is_yes(sold))
            return GROAT_NOT_SOLD;
    }
    scratch->evaluation.findings[code->search].tried = false;
    run(scratch, code->steps, code->steps_count);
    scratch->worked_out = true;
    return judge(scratch);
}

/* Puts the method's settled values in place, unless they are there from the pricing before. */
static void bind_method(groat_scratch *scratch, const groat_method *method)
{
    const struct program *program = scratch->core->program;
    assert(method->settled.program == program && method->serial > 0);
    if (scratch->serial == method->serial)
        return;
    for (size_t i = 0; i < program->settled_count; i++)
        scratch->values[program->settled[i]] = method->settled.values[program->settled[i]];
    scratch->evaluation.settled = &method->settled;
    scratch->serial = method->serial;
}

static void set_order(groat_scratch *scratch, const groat_method *method,
                      const struct value *fields, int64_t quantity, struct value as_of)
{
    assert(method->core == scratch->core && quantity > 0 && as_of.state != VALUE_ERROR);
    bind_method(scratch, method);
    scratch->evaluation.fields = fields;
    scratch->evaluation.quantity = num_whole(quantity);
    scratch->evaluation.as_of = as_of;
}

groat_outcome price_settled(groat_scratch *scratch, const struct value *given)
{
    assert(scratch->channel && scratch->evaluation.fields && !scratch->worked_out);
    evaluate_begin(&scratch->evaluation);
    scratch->given = given != NULL;
    if (given)
        scratch->given_price = *given;
    groat_outcome outcome = work_out(scratch);
    /* A trial that met no memory looks like one that failed its aim: nothing of it can be
     * trusted. */
    scratch->no_memory = scratch->no_memory || scratch->heap.starved;
    if (!scratch->no_memory)
        return outcome;
    return scratch->memory.limited
               ? price_fail(scratch, GROAT_REASON_LIMIT,
                            "this takes more memory than the limit allows")
               : price_fail(scratch, GROAT_REASON_NO_MEMORY, "there is no memory left");
}

groat_outcome price_record(groat_scratch *scratch, const groat_method *method,
                           const struct value *fields, size_t channel, int64_t quantity,
                           struct value as_of)
{
    assert(channel < scratch->core->program->channels_count);
    begin(scratch);
    scratch->channel = &scratch->core->program->channels[channel];
    set_order(scratch, method, fields, quantity, as_of);
    return price_settled(scratch, NULL);
}

groat_outcome price_refuse_call(groat_scratch *scratch, const char *why)
{
    if (!scratch)
        return GROAT_FAILED;
    begin(scratch);
    return price_fail(scratch, GROAT_REASON_CALL, why);
}

static void fail_required(groat_scratch *scratch, const char *field)
{
    char text[160];
    snprintf(text, sizeof text, "%.80s is required, but its cell is empty", field);
    price_fail(scratch, GROAT_REASON_REQUIRED, text);
}

bool price_ready(groat_scratch *scratch, const groat_method *method, const groat_record *record,
                 const groat_order *order)
{
    const char *why = call_pricing(scratch, method, record, order);
    if (why) {
        price_refuse_call(scratch, why);
        return false;
    }
    const struct program *program = scratch->core->program;
    struct value as_of = value_missing();
    int64_t days;
    begin(scratch);
    scratch->channel = &program->channels[order->channel];
    scratch->record = record;
    size_t missing = groat_record_missing(record);
    why = call_order(order, &days);
    if (why)
        price_fail(scratch, GROAT_REASON_ORDER, why);
    else if (missing != SIZE_MAX)
        fail_required(scratch, program->fields[missing].symbol->name);
    if (scratch->reason_kind != GROAT_REASON_NONE)
        return false;
    if (order->as_of)
        as_of = value_number(num_whole(days));
    set_order(scratch, method, record->fields, order->quantity, as_of);
    return true;
}

groat_outcome groat_price(groat_scratch *scratch, const groat_method *method,
                          const groat_record *record, const groat_order *order)
{
    return price_ready(scratch, method, record, order) ? price_settled(scratch, NULL)
                                                       : GROAT_FAILED;
}
