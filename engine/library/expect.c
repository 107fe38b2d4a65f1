/* Runs the `expect`s of a method. */
#include <stdio.h>
#include <string.h>

#include "library/library.h"
#include "library/words.h"
#include "parse.h"
#include "types/literal.h"

/* One check of a method at work. What stands outside the arena is kept here, where it is found and
 * freed when memory runs out on the way. */
struct checking {
    const groat_method *method;
    groat_scratch *scratch;
    groat_method *other; /* the method with the rates of the expect at hand; NULL without any */
    size_t steps_left;   /* of all expects together */
    struct diagnostics diagnostics;
    struct arena arena;
    struct memory memory;
    struct num_heap heap;
};

/* What an expect gives: fields, rates, quantity and date. */
struct given {
    struct value *fields;
    groat_rate_value *rates;
    size_t rates_count;
    int64_t quantity;
    struct value as_of;
};

/* Ends the check: an answer for want of memory is none. */
static void give_up(struct checking *checking)
{
    longjmp(*checking->arena.escape, 1);
}

static const char *text_of(struct checking *checking, const struct expression *expression)
{
    return arena_text(&checking->arena, span_text(expression->span),
                      (size_t)span_length(expression->span));
}

/* What an expect gives, as a cell or a rate from outside says it: a text without its quotes. */
static const char *given_text(struct checking *checking, const struct expression *value)
{
    return value->kind == EXPRESSION_TEXT ? value->name.text : text_of(checking, value);
}

static size_t field_of(const struct program *program, const char *name)
{
    const struct symbol *symbol = shop_find(program->shop, NO_CHANNEL, name);
    return symbol && symbol->kind == SYMBOL_FIELD ? symbol->order : SIZE_MAX;
}

/* Whether a value was taken; says why not. */
static bool was_taken(struct checking *checking, enum trouble_kind kind, struct span span,
                      const struct trouble *trouble)
{
    char help[sizeof trouble->help + 16];
    if (kind == TROUBLE_NO_MEMORY)
        give_up(checking);
    if (kind != TROUBLE_NONE)
        diagnostics_error(
            &checking->diagnostics, span,
            trouble_write_help(trouble->help_kind, trouble->help, help, sizeof help) > 0 ? help
                                                                                         : NULL,
            "%s", trouble->message);
    if (kind != TROUBLE_NONE) /* an example has words before it */
        diagnostics_help_is(&checking->diagnostics,
                            trouble->help_kind == HELP_EXAMPLE ? HELP_ADVICE : trouble->help_kind);
    return kind == TROUBLE_NONE;
}

/* A field's value: read as a cell, so that parts may be given as a text. */
static bool give_field(struct checking *checking, struct given *given, size_t field,
                       const struct statement *line)
{
    const struct program *program = checking->method->core->program;
    struct cell_wanted wanted = cell_wanted_of_field(&program->fields[field]);
    struct cell_reader reader = {.program = program,
                                 .arena = &checking->arena,
                                 .heap = &checking->heap,
                                 .parse_room = arena_take(&checking->arena, parse_room())};
    const struct expression *value = line->value;
    const char *text = given_text(checking, value);
    jmp_buf *escape = checking->arena.escape;
    struct trouble trouble;
    enum trouble_kind kind =
        cell_read(&reader, &wanted, text, strlen(text), &given->fields[field], &trouble);
    checking->arena.escape = escape;
    return was_taken(checking, kind, value->span, &trouble);
}

static bool give_quantity(struct checking *checking, struct given *given,
                          const struct statement *line)
{
    struct literal literal;
    struct literal_scope scope = {&checking->method->core->shop, &checking->diagnostics,
                                  &checking->heap, &checking->arena};
    bool whole = literal_read(scope, line->value, &literal) == LITERAL_READ &&
                 num_to_int64(literal.number, &given->quantity) && given->quantity >= 1;
    if (!whole)
        diagnostics_error(&checking->diagnostics, line->value->span, NULL,
                          "a quantity must be a whole number, at least 1");
    return whole;
}

static bool give(struct checking *checking, struct given *given, const struct statement *expect)
{
    const struct program *program = checking->method->core->program;
    bool valid = true;
    for (const struct statement *line = expect->parts; line; line = line->next) {
        if (line->kind != STATEMENT_GIVEN)
            continue;
        const char *name = line->name.text;
        size_t field = field_of(program, name);
        int64_t days = 0;
        if (strcmp(name, "quantity") == 0) {
            valid = give_quantity(checking, given, line) && valid;
        } else if (strcmp(name, "as_of") == 0) {
            literal_date(line->value->name.text, &days);
            given->as_of = value_number(num_whole(days));
        } else if (field != SIZE_MAX) {
            valid = give_field(checking, given, field, line) && valid;
        } else {
            given->rates[given->rates_count++] =
                (groat_rate_value){.rate = name, .value = given_text(checking, line->value)};
        }
    }
    return valid;
}

/* ---- what is to hold ---- */

/* Whether a number has no more than so many decimals. */
static bool fits_decimals(struct num_heap *heap, struct num number, unsigned places)
{
    for (; places > 0; places--)
        if (num_multiply(heap, number, num_whole(10), &number) != NUM_OK)
            return true;
    return num_is_whole(number);
}

/* What a name is, as the rules would write it. Two decimals more where it has them: else a cost
 * that is to be at most $3.33 would fail for being $3.33. */
static const char *words_of_name(struct checking *checking, const char *name)
{
    groat_scratch *scratch = checking->scratch;
    const struct channel_code *channel = scratch->channel;
    const groat_method *method = checking->other ? checking->other : checking->method;
    struct words words = {.core = scratch->core,
                          .values = scratch->values,
                          .overrides = method->overrides,
                          .heap = &scratch->heap,
                          .arena = &checking->arena,
                          .percent_places = 2};
    enum figure figure = figure_find(name);
    const struct value *value =
        figure == FIGURES ? NULL : &scratch->values[channel->figures[figure]];
    const struct symbol *symbol = NULL;
    for (size_t i = 0; i < channel->named_count && !value; i++) {
        if (strcmp(channel->named[i].symbol->name, name) != 0)
            continue;
        symbol = channel->named[i].symbol;
        value = &scratch->values[channel->named[i].step];
    }
    if (!value)
        return "";
    struct type type = symbol ? symbol->type : figure_type(figure);
    bool percent = symbol ? symbol->percent : figure == FIGURE_MARGIN;
    unsigned places = dim_is_money(type.dimension) ? (unsigned)scratch->core->shop.decimals : 4;
    if (type.kind == TYPE_NUMBER && !fits_decimals(&scratch->heap, value->number, places))
        words.finer = 2;
    return symbol ? words_of_symbol(&words, symbol, value) : words_of(&words, value, type, percent);
}

/* The order's date is no figure of a result, but an expect may ask for it. */
static bool is_there(const struct checking *checking, const char *name)
{
    if (strcmp(name, figure_name(FIGURE_AS_OF)) == 0)
        return checking->scratch->evaluation.as_of.state == VALUE_THERE;
    return groat_result_named(checking->scratch, name).presence == GROAT_THERE;
}

/* The figure that a simple `then` compares, for the message: "price is $61.99". */
static const char *found_words(struct checking *checking, const struct statement *then)
{
    const struct expression *value = then->value;
    if (!value->left || value->left->kind != EXPRESSION_NAME)
        return "";
    const char *name = value->left->name.text;
    if (!is_there(checking, name))
        return arena_print(&checking->arena, "; %s is missing", name);
    return arena_print(&checking->arena, "; %s is %s", name, words_of_name(checking, name));
}

static void fail(struct checking *checking, const struct statement *expect,
                 const struct statement *then, const char *channel, const char *why)
{
    struct span span = then->value ? then->value->span : then->span;
    diagnostics_error(&checking->diagnostics, span, NULL, "expect \"%s\" fails on %s%s",
                      expect->text.text, channel, why);
}

/* Whether one of the channel's warnings that has this name holds. */
static bool warned(const groat_scratch *scratch, const char *name)
{
    const struct channel_code *channel = scratch->channel;
    for (size_t i = 0; i < channel->warns_count; i++)
        if (strcmp(channel->warns[i].text, name) == 0 &&
            value_is_yes(scratch->values[channel->warns[i].step]))
            return true;
    return false;
}

static void judge_then(struct checking *checking, const struct statement *expect,
                       const struct statement *then, const char *channel, groat_outcome outcome,
                       uint32_t step)
{
    const groat_scratch *scratch = checking->scratch;
    const char *reason =
        outcome == GROAT_PRICED ? ""
        : outcome == GROAT_NOT_SOLD
            ? "; the product is not sold there"
            : arena_print(&checking->arena, "; %s%s", outcome == GROAT_REFUSED ? "refused: " : "",
                          groat_result_reason(scratch));
    bool priced = outcome == GROAT_PRICED || outcome == GROAT_REFUSED;
    switch (then->kind) {
    case STATEMENT_THEN_REFUSED:
        if (outcome != GROAT_REFUSED)
            fail(checking, expect, then, channel, *reason ? reason : "; the row is not refused");
        break;
    case STATEMENT_THEN_ERROR:
        if (outcome != GROAT_FAILED)
            fail(checking, expect, then, channel, "; the row is not an error");
        break;
    case STATEMENT_THEN_WARNED:
        if (!priced || !warned(scratch, then->text.text))
            fail(checking, expect, then, channel,
                 priced ? "; the row has no such warning" : reason);
        break;
    default:
        if (!priced || !value_is_yes(scratch->values[step]))
            fail(checking, expect, then, channel, priced ? found_words(checking, then) : reason);
        break;
    }
}

/* All expects together may take as many steps as so many records. */
enum { RECORDS_MOST = 20 };

static void spend(struct checking *checking, size_t steps)
{
    checking->steps_left = steps < checking->steps_left ? checking->steps_left - steps : 0;
}

/* Whether the product is sold on the channel at all. */
static bool check_channel(struct checking *checking, const groat_method *method,
                          const struct expect_code *expect, const struct expect_channel *channel,
                          const struct given *given)
{
    groat_scratch *scratch = checking->scratch;
    const char *name = method->core->program->channels[channel->channel].name;
    groat_outcome outcome = price_record(scratch, method, given->fields, channel->channel,
                                         given->quantity, given->as_of);
    if (scratch->no_memory)
        give_up(checking);
    spend(checking, 100); /* for what stands around the steps */
    if (outcome == GROAT_NOT_SOLD && expect->channels_count > 1)
        return false; /* without `on`, every channel that sells it must pass */
    if (outcome == GROAT_PRICED || outcome == GROAT_REFUSED)
        evaluate_list(&scratch->evaluation, channel->steps, channel->steps_count);
    size_t at = 0;
    for (const struct statement *then = expect->statement->parts; then; then = then->next) {
        if (then->kind < STATEMENT_THEN || then->kind > STATEMENT_THEN_ERROR)
            continue;
        uint32_t step = then->kind == STATEMENT_THEN ? channel->thens[at++] : NO_STEP;
        judge_then(checking, expect->statement, then, name, outcome, step);
    }
    if (scratch->heap.starved)
        give_up(checking);
    spend(checking, method->core->limits.steps - scratch->evaluation.steps_left);
    return true;
}

/* The method with the rates that are given, if any are. */
static bool take_rates(struct checking *checking, const struct given *given,
                       const struct statement *expect)
{
    struct trouble trouble;
    if (given->rates_count == 0)
        return true;
    spend(checking, checking->method->core->program->count);
    enum trouble_kind kind = method_with_rates(checking->method, given->rates, given->rates_count,
                                               false, &checking->other, &trouble);
    return was_taken(checking, kind, expect->span, &trouble);
}

static void check_expect(struct checking *checking, const struct expect_code *expect)
{
    const struct program *program = checking->method->core->program;
    size_t lines = 0;
    for (const struct statement *line = expect->statement->parts; line; line = line->next)
        lines++;
    struct given given = {.quantity = 1, .as_of = value_missing()};
    given.fields = arena_take(&checking->arena, (program->fields_count + 1) * sizeof *given.fields);
    given.rates = arena_take(&checking->arena, (lines + 1) * sizeof *given.rates);
    if (!give(checking, &given, expect->statement))
        return;
    if (!take_rates(checking, &given, expect->statement))
        return;
    const groat_method *method = checking->other ? checking->other : checking->method;
    bool sold = false;
    for (size_t i = 0; i < expect->channels_count && checking->steps_left > 0; i++)
        sold = check_channel(checking, method, expect, &expect->channels[i], &given) || sold;
    if (checking->steps_left == 0)
        diagnostics_error(&checking->diagnostics, expect->statement->span, NULL,
                          "the expects take more steps than the limit allows; this one and those "
                          "after it were not checked");
    else if (!sold)
        diagnostics_error(&checking->diagnostics, expect->statement->span, NULL,
                          "expect \"%s\" is for a product that no channel sells",
                          expect->statement->text.text);
    groat_method_free(checking->other);
    checking->other = NULL;
}

/* False when memory ran out on the way. */
static bool check_guarded(struct checking *checking)
{
    const struct program *program = checking->method->core->program;
    jmp_buf escape;
    checking->arena.escape = &escape;
    if (setjmp(escape) != 0)
        return false;
    for (size_t i = 0; i < program->expects_count && checking->steps_left > 0; i++)
        check_expect(checking, &program->expects[i]);
    diagnostics_sort(&checking->diagnostics);
    return !checking->heap.starved;
}

groat_report *groat_method_check(const groat_method *method, size_t *count)
{
    if (count)
        *count = method ? method->core->program->expects_count : 0;
    if (!method)
        return NULL;
    size_t steps = method->core->limits.steps;
    struct checking checking = {.method = method};
    checking.steps_left = steps < SIZE_MAX / RECORDS_MOST ? steps * RECORDS_MOST : SIZE_MAX;
    checking.diagnostics.arena = &checking.arena;
    core_open(method->core, &checking.memory, &checking.arena, &checking.heap);
    checking.scratch = groat_scratch_new(method);
    groat_report *report = NULL;
    if (checking.scratch && check_guarded(&checking))
        report = report_new(&method->core->allocator, &checking.diagnostics);
    groat_method_free(checking.other);
    groat_scratch_free(checking.scratch);
    num_heap_close(&checking.heap);
    arena_close(&checking.arena);
    return report;
}
