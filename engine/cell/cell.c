#include "cell/cell.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "parse.h"
#include "cell/habits.h"
#include "cell/proposal.h"
#include "cell/writing.h"
#include "number/small.h"
#include "text/utf8.h"
#include "types/literal.h"
#include "types/range.h"

/* A cell without the spaces around it. */
struct sheet_cell {
    const char *text;
    size_t length;
};

/* ---- what is wrong ---- */

static struct trouble_help example_help(const char *text)
{
    return (struct trouble_help){HELP_EXAMPLE, text};
}

static struct trouble_help advice(const char *text)
{
    return (struct trouble_help){HELP_ADVICE, text};
}

/* The first thing that reading reported, with an example where it has nothing to propose. Whether
 * what it proposes is a value is seen by reading it. */
static enum trouble_kind passed_on(struct trouble *trouble, struct diagnostics *diagnostics,
                                   struct trouble_help example)
{
    assert(diagnostics->errors > 0);
    diagnostics_sort(diagnostics);
    const struct diagnostic *first = diagnostics->items;
    trouble->column = span_place(first->span).column;
    return trouble_say(trouble, first->kind, first->help ? advice(first->help) : example, "%s",
                       first->message);
}

static const char *words_for(const struct program *program, struct type type, char *buffer,
                             size_t size)
{
    switch (type.kind) {
    case TYPE_NUMBER:
        dim_describe(type.dimension, program->shop->dimension_names,
                     program->shop->dimensions_declared, buffer, size);
        return buffer;
    case TYPE_FLAG: return "yes or no";
    case TYPE_TEXT: return "a text";
    case TYPE_DATE: return "a date";
    case TYPE_PARTS: return "a list of parts";
    case TYPE_WRONG: break;
    }
    return "nothing";
}

static const struct example {
    uint8_t base;
    int8_t power;
    const char *one, *range;
} examples[] = {{DIM_MONEY, 1, "3.20", "4 to 6 likely 4.50"},
                {DIM_TIME, 1, "1 h 20 min", "20 min to 30 min likely 22 min"},
                {DIM_LENGTH, 1, "12 mm", "10 mm to 12 mm"},
                {DIM_LENGTH, 2, "2 sqft", "2 sqft to 3 sqft"},
                {DIM_LENGTH, 3, "1.8 bf", "1.5 bf to 2 bf"},
                {DIM_MASS, 1, "250 g", "200 g to 250 g"},
                {DIM_ENERGY, 1, "2 kWh", "1 kWh to 2 kWh"},
                {DIM_MONEY, 0, "12.50", "4 to 6 likely 4.50"}};

static const struct example *example_for(struct dimension dimension)
{
    for (size_t i = 0; i < sizeof examples / sizeof *examples; i++)
        if (dim_equal(dimension, dim_base_power(examples[i].base, examples[i].power)))
            return &examples[i];
    return NULL;
}

/* A value of the wanted kind, to be followed. */
static struct trouble_help example_of(struct type type)
{
    const struct example *example = NULL;
    switch (type.kind) {
    case TYPE_FLAG: return advice("yes or no");
    case TYPE_DATE: return example_help("2027-01-31");
    case TYPE_PARTS: return example_help("screws 8 + linseed_oil 15 ml");
    case TYPE_NUMBER: example = example_for(type.dimension); break;
    default: break;
    }
    return example ? example_help(example->one) : NO_HELP;
}

static struct trouble_help example_wanted(const struct cell_wanted *wanted)
{
    return wanted->count ? example_help("12") : example_of(wanted->type);
}

static struct trouble_help range_example_of(const struct cell_wanted *wanted)
{
    const struct example *example = example_for(wanted->type.dimension);
    if (wanted->percent || wanted->count)
        return example_help(wanted->percent ? "5% to 8%" : "2 to 4");
    return example_help(example ? example->range : wanted->bare ? "2 to 3" : NULL);
}

/* ---- kinds of cells ---- */

/* `0,250` of a mass: 250 thousandths or 250 whole ones, nobody can tell. */
static enum trouble_kind in_doubt(const struct cell_reader *reader,
                                  const struct cell_wanted *wanted, const char *text,
                                  const char *doubt, struct trouble *trouble)
{
    trouble->column = 1;
    for (const char *at = text; at < doubt; at++)
        trouble->column += !text_continues(*at);
    if (wanted->rate)
        return trouble_say(
            trouble, TROUBLE_DOUBTFUL_MARK, advice("no separator between thousands"),
            "a rate is written as in the rules file, with a point before the decimals");
    return trouble_say(
        trouble, TROUBLE_DOUBTFUL_MARK,
        advice(reader->decimal_comma
                   ? "a comma before the decimals, and no separator between thousands"
                   : "a point before the decimals, and no separator between thousands"),
        "this %s may divide thousands or begin decimals", *doubt == ',' ? "comma" : "point");
}

static bool same_word(const char *text, size_t length, const char *word)
{
    if (strlen(word) != length)
        return false;
    for (size_t i = 0; i < length; i++)
        if ((text[i] | 0x20) != (word[i] | 0x20))
            return false;
    return true;
}

static enum trouble_kind read_flag(const char *text, size_t length, struct value *out,
                                   struct trouble *trouble)
{
    static const char *const words[] = {"no", "yes", "false", "true", "0", "1"};
    for (unsigned i = 0; i < sizeof words / sizeof *words; i++) {
        if (same_word(text, length, words[i])) {
            *out = value_flag(i % 2 == 1);
            return TROUBLE_NONE;
        }
    }
    return trouble_say(trouble, TROUBLE_FORM, advice("yes or no"), "this is neither yes nor no");
}

static enum trouble_kind read_text(struct cell_reader *reader, const char *text, size_t length,
                                   struct value *out)
{
    *out = (struct value){.state = VALUE_THERE,
                          .text = {arena_text(reader->arena, text, length), length}};
    return TROUBLE_NONE;
}

bool cell_number_fits(const struct program *program, const struct cell_wanted *wanted,
                      struct num number, struct trouble *trouble)
{
    char words[128];
    assert(wanted->type.kind == TYPE_NUMBER || wanted->type.kind == TYPE_FLAG);
    bool negative = num_sign(number) < 0;
    if (wanted->count && (!num_is_whole(number) || negative))
        trouble_say(trouble, negative ? TROUBLE_NEGATIVE : TROUBLE_NOT_WHOLE, NO_HELP,
                    "a count must be a whole number, not below zero");
    else if (wanted->measure && negative)
        trouble_say(trouble, TROUBLE_NEGATIVE, NO_HELP, "%s is %s, which cannot be below zero",
                    wanted->name, words_for(program, wanted->type, words, sizeof words));
    else
        return true;
    return false;
}

/* The checks of a number that is read, and a bare one's unit. */
static enum trouble_kind accept_number(struct cell_reader *reader, const struct cell_wanted *wanted,
                                       struct num number, bool bare, struct value *out,
                                       struct trouble *trouble)
{
    char words[128];
    assert(wanted->type.kind == TYPE_NUMBER && num_sign(wanted->factor) > 0);
    if (bare && wanted->percent)
        return trouble_say(trouble, TROUBLE_NO_UNIT, NO_HELP, "a percentage needs a %% sign");
    if (bare && !wanted->bare)
        return trouble_say(trouble, TROUBLE_NO_UNIT, example_wanted(wanted),
                           "this number needs a unit; %s is %s", wanted->name,
                           words_for(reader->program, wanted->type, words, sizeof words));
    if (!cell_number_fits(reader->program, wanted, number, trouble))
        return trouble->kind;
    if (bare && num_multiply(reader->heap, number, wanted->factor, &number) != NUM_OK)
        return trouble_say(trouble, TROUBLE_TOO_LARGE, NO_HELP,
                           "this number has more digits than the engine can handle");
    *out = value_number(number);
    return TROUBLE_NONE;
}

static struct literal_scope scope_of(struct cell_reader *reader, struct diagnostics *diagnostics)
{
    return (struct literal_scope){reader->program->shop, diagnostics, reader->heap, reader->arena};
}

static struct parse parse_of(struct cell_reader *reader, struct diagnostics *diagnostics,
                             const char *text, size_t length)
{
    return (struct parse){reader->arena, source_new(reader->arena, "cell", text, length),
                          diagnostics, reader->program->limits.depth, reader->parse_room};
}

/* Whether one of the words of a range stands in the text. */
static bool mentions_range(const char *text, size_t length)
{
    static const char *const words[] = {"to", "likely"};
    for (size_t at = 0; at < length;) {
        size_t end = at;
        while (end < length && text[end] != ' ' && text[end] != '\t')
            end++;
        for (size_t i = 0; i < sizeof words / sizeof *words; i++)
            if (strlen(words[i]) == end - at && memcmp(words[i], text + at, end - at) == 0)
                return true;
        at = end + 1;
    }
    return false;
}

static enum trouble_kind of_another_kind(struct cell_reader *reader,
                                         const struct cell_wanted *wanted, struct type type,
                                         struct trouble *trouble)
{
    char words[128], given[128];
    return trouble_say(trouble, TROUBLE_OTHER_KIND, example_wanted(wanted), "this is %s; %s is %s",
                       words_for(reader->program, type, given, sizeof given), wanted->name,
                       words_for(reader->program, wanted->type, words, sizeof words));
}

/* A middle that counts nothing whole; the lowest is as good an example of a likely one as any. */
static enum trouble_kind middle_is_parted(struct cell_reader *reader,
                                          const struct expression *expression,
                                          struct trouble *trouble)
{
    const char *help = arena_print(reader->arena, "%.60s likely %.20s",
                                   expression->span.source->text, expression->left->name.text);
    return trouble_say(trouble, TROUBLE_NOT_WHOLE, advice(help),
                       "the midpoint of this range is not a whole number");
}

static enum trouble_kind read_range(struct cell_reader *reader, const struct cell_wanted *wanted,
                                    const struct expression *expression, struct value *out,
                                    struct trouble *trouble)
{
    struct diagnostics diagnostics = {.arena = reader->arena};
    struct value_range *values = &reader->range;
    struct range range;
    char words[128];
    if (wanted->type.kind != TYPE_NUMBER)
        return trouble_say(trouble, TROUBLE_RANGE, example_wanted(wanted),
                           "%s is %s, which cannot be a range", wanted->name,
                           words_for(reader->program, wanted->type, words, sizeof words));
    if (range_read(scope_of(reader, &diagnostics), expression, &range) != LITERAL_READ)
        return diagnostics.errors > 0 ? passed_on(trouble, &diagnostics, range_example_of(wanted))
                                      : trouble_say(trouble, TROUBLE_FORM, range_example_of(wanted),
                                                    "this is not a range");
    if (!range.bare && !dim_equal(range.type.dimension, wanted->type.dimension))
        return of_another_kind(reader, wanted, range.type, trouble);
    bool ends = accept_number(reader, wanted, range.low, range.bare, &values->low, trouble) ==
                    TROUBLE_NONE &&
                accept_number(reader, wanted, range.high, range.bare, &values->high, trouble) ==
                    TROUBLE_NONE;
    if (!ends && trouble->help_kind == HELP_NONE)
        trouble_propose(trouble, range_example_of(wanted));
    if (!ends)
        return trouble->kind;
    if (wanted->count && range.middle && !num_is_whole(range.likely))
        return middle_is_parted(reader, expression, trouble);
    if (accept_number(reader, wanted, range.likely, range.bare, out, trouble) != TROUBLE_NONE)
        return trouble->kind;
    values->likely = *out;
    values->there = !range_is_one(&range);
    return TROUBLE_NONE;
}

static enum trouble_kind not_a_value(struct cell_reader *reader, const struct cell_wanted *wanted,
                                     const struct expression *expression, const char *text,
                                     size_t length, struct trouble *trouble)
{
    char words[128];
    bool number = wanted->type.kind == TYPE_NUMBER;
    bool range = number && !expression && mentions_range(text, length);
    const char *instead = number && expression ? range_instead(reader->arena, expression) : NULL;
    struct trouble_help help = range ? range_example_of(wanted) : example_wanted(wanted);
    struct trouble_help maybe = {HELP_VALUE, instead}; /* kept where it can be read */
    return trouble_say(trouble, TROUBLE_FORM, instead ? maybe : help, "this is not a %s; %s is %s",
                       range ? "range" : "value", wanted->name,
                       words_for(reader->program, wanted->type, words, sizeof words));
}

static enum trouble_kind read_literal(struct cell_reader *reader, const struct cell_wanted *wanted,
                                      const char *text, size_t length, struct value *out,
                                      struct trouble *trouble)
{
    struct diagnostics diagnostics = {.arena = reader->arena};
    struct parse parse = parse_of(reader, &diagnostics, text, length);
    const struct expression *expression = parse_value(&parse);
    struct literal literal;
    enum literal_outcome outcome = LITERAL_WRONG;
    if (expression && diagnostics.errors == 0 && expression->kind == EXPRESSION_RANGE)
        return read_range(reader, wanted, expression, out, trouble);
    if (expression && diagnostics.errors == 0)
        outcome = literal_read(scope_of(reader, &diagnostics), expression, &literal);
    /* What does not fit the grammar is said in the words of rules, which a cell is not. */
    if (expression && diagnostics.errors > 0 && outcome != LITERAL_NONE)
        return passed_on(trouble, &diagnostics, example_wanted(wanted));
    if (diagnostics.errors > 0)
        trouble->column = span_place(diagnostics.items[0].span).column;
    if (outcome != LITERAL_READ)
        return not_a_value(reader, wanted, expression, text, length, trouble);
    bool same = literal.type.kind == wanted->type.kind &&
                (literal.bare || literal.type.kind != TYPE_NUMBER ||
                 dim_equal(literal.type.dimension, wanted->type.dimension));
    if (!same)
        return of_another_kind(reader, wanted, literal.type, trouble);
    if (literal.type.kind == TYPE_NUMBER)
        return accept_number(reader, wanted, literal.number, literal.bare, out, trouble);
    *out = value_number(literal.number);
    if (literal.type.kind == TYPE_TEXT)
        return read_text(reader, literal.text, strlen(literal.text), out);
    return TROUBLE_NONE;
}

/* ---- parts ---- */

/* A part of the material that the text names, or else of one that this shop buys: by the piece, if
 * there is one. */
static struct trouble_help example_of_parts(struct cell_reader *reader, const char *text,
                                            size_t length)
{
    const struct program *program = reader->program;
    const struct symbol *found = NULL;
    for (size_t i = 0; i < program->rates_count; i++) {
        const struct symbol *symbol = program->rates[i].symbol;
        bool named = strlen(symbol->name) == length && memcmp(symbol->name, text, length) == 0;
        if (symbol->kind != SYMBOL_MATERIAL)
            continue;
        if (named || !found || (dim_is_none(program->rates[i].per) && found->unit))
            found = symbol;
        if (named)
            break;
    }
    if (!found)
        return advice("first define the material in the rules: materials { screws $9 per 200 }");
    if (found->unit && found->unit->per)
        return example_help(arena_print(reader->arena, "%s 2 %s", found->name, found->unit->per));
    return example_help(arena_print(reader->arena, "%s 8", found->name));
}

static enum trouble_kind read_part(struct cell_reader *reader, const struct tree_part *tree,
                                   struct part *part, struct trouble *trouble)
{
    struct diagnostics diagnostics = {.arena = reader->arena};
    const struct rate_code *material = cell_material_like(reader->program, tree->name.text);
    const char *like = material ? material->symbol->name : NULL;
    if (!like || strcmp(like, tree->name.text) != 0)
        return trouble_say(trouble, TROUBLE_UNKNOWN_NAME,
                           like ? advice(like) : example_of_parts(reader, "", 0),
                           "there is no material %s", tree->name.text);
    part->material = material->symbol->order;
    struct literal literal;
    if (literal_read(scope_of(reader, &diagnostics), tree->amount, &literal) != LITERAL_READ)
        return passed_on(trouble, &diagnostics, NO_HELP);
    part->amount = literal.number;
    struct dimension mass = dim_base(DIM_MASS), volume = dim_base_power(DIM_LENGTH, 3);
    bool weighed = material->density != NO_STEP;
    if (dim_equal(literal.type.dimension, material->per))
        return TROUBLE_NONE;
    part->as_mass =
        weighed && dim_equal(literal.type.dimension, mass) && dim_equal(material->per, volume);
    part->as_volume =
        weighed && dim_equal(literal.type.dimension, volume) && dim_equal(material->per, mass);
    if (part->as_mass || part->as_volume)
        return TROUBLE_NONE;
    bool other =
        dim_equal(literal.type.dimension, mass) || dim_equal(literal.type.dimension, volume);
    if (other && (dim_equal(material->per, volume) || dim_equal(material->per, mass)))
        return trouble_say(trouble, TROUBLE_OTHER_KIND, NO_HELP,
                           "%s is bought by %s, but this is %s; add its weight to the rules, "
                           "`weighs … kg per l` after the price",
                           tree->name.text, dim_equal(material->per, mass) ? "mass" : "volume",
                           dim_equal(material->per, mass) ? "volume" : "mass");
    char given[128], bought[128];
    struct type per = {TYPE_NUMBER, material->per};
    return trouble_say(
        trouble, TROUBLE_OTHER_KIND, NO_HELP, "%s is bought by %s, but this is %s", tree->name.text,
        dim_is_none(material->per) ? "the piece"
                                   : words_for(reader->program, per, bought, sizeof bought),
        words_for(reader->program, literal.type, given, sizeof given));
}

static enum trouble_kind read_parts(struct cell_reader *reader, const char *text, size_t length,
                                    struct value *out, struct trouble *trouble)
{
    struct diagnostics diagnostics = {.arena = reader->arena};
    struct parse parse = parse_of(reader, &diagnostics, text, length);
    const struct tree_part *first = parse_parts(&parse);
    if (diagnostics.errors > 0 || !first) {
        bool range = mentions_range(text, length);
        if (diagnostics.errors > 0)
            trouble->column = span_place(diagnostics.items[0].span).column;
        return trouble_say(
            trouble, range ? TROUBLE_RANGE : TROUBLE_FORM, example_of_parts(reader, text, length),
            "%s", range ? "the amount of a part cannot be a range" : "this is not a list of parts");
    }
    size_t count = 0, i = 0;
    for (const struct tree_part *each = first; each; each = each->next)
        count++;
    struct parts *parts = arena_take(reader->arena, sizeof *parts + count * sizeof *parts->items);
    parts->count = count;
    enum trouble_kind outcome = TROUBLE_NONE;
    for (const struct tree_part *each = first; each && outcome == TROUBLE_NONE; each = each->next)
        outcome = read_part(reader, each, &parts->items[i++], trouble);
    *out = (struct value){.state = VALUE_THERE, .parts = parts};
    return outcome;
}

/* ---- all of it ---- */

/* `[-]digits[.digits]`, by far the most cells: no need for a parser. */
static bool read_plain(struct cell_reader *reader, const char *text, size_t length, struct num *out)
{
    bool negative = length > 0 && text[0] == '-';
    size_t skip = negative ? 1 : 0;
    if (num_read_decimal(reader->heap, text + skip, length - skip, out) != NUM_OK)
        return false;
    return !negative || num_negate(reader->heap, *out, out) == NUM_OK;
}

static enum trouble_kind read_kind(struct cell_reader *reader, const struct cell_wanted *wanted,
                                   const char *text, size_t length, struct value *out,
                                   struct trouble *trouble)
{
    if (text_bad_byte(text, length) < length)
        return trouble_say(trouble, TROUBLE_NOT_TEXT, advice("save the sheet as UTF-8"),
                           "this cell is not valid UTF-8");
    if (memchr(text, '\0', length))
        return trouble_say(trouble, TROUBLE_NOT_TEXT, NO_HELP, "this cell contains a zero byte");
    if (wanted->type.kind == TYPE_TEXT)
        return read_text(reader, text, length, out);
    if (wanted->type.kind == TYPE_FLAG)
        return read_flag(text, length, out, trouble);
    if (wanted->type.kind == TYPE_DATE)
        return read_literal(reader, wanted, text, length, out, trouble);
    bool money = wanted->type.kind == TYPE_NUMBER && wanted->type.dimension.power[DIM_MONEY] == 1;
    struct writing writing = cell_writing(reader->decimal_comma, money);
    size_t plain_length;
    const char *doubt;
    char *plain =
        cell_plainly_written(reader->arena, &writing, text, length, &plain_length, &doubt);
    struct num number;
    if (doubt)
        return in_doubt(reader, wanted, text, doubt, trouble);
    if (wanted->type.kind == TYPE_PARTS)
        return read_parts(reader, plain, plain_length, out, trouble);
    if (!read_plain(reader, plain, plain_length, &number))
        return read_literal(reader, wanted, plain, plain_length, out, trouble);
    return accept_number(reader, wanted, number, true, out, trouble);
}

/* ---- what to try ---- */

bool cell_reads(struct cell_reader *reader, const struct cell_wanted *wanted, const char *text)
{
    struct value value;
    struct trouble trouble = {0};
    bool read = read_kind(reader, wanted, text, strlen(text), &value, &trouble) == TROUBLE_NONE;
    reader->range.there = false;
    return read;
}

/* What is proposed already, as the sheet writes numbers: a value where it can be read. */
static void keep_proposal(struct cell_reader *reader, const struct cell_wanted *wanted,
                          struct trouble *trouble)
{
    struct writing writing = cell_writing(reader->decimal_comma, false);
    const char *written = cell_as_written(reader->arena, &writing, trouble->help);
    if (trouble->help_kind == HELP_ADVICE && cell_reads(reader, wanted, written))
        trouble_propose(trouble, (struct trouble_help){HELP_VALUE, written});
    else if (trouble->help_kind == HELP_VALUE)
        trouble_propose(trouble, cell_reads(reader, wanted, written)
                                     ? (struct trouble_help){HELP_VALUE, written}
                                     : example_wanted(wanted));
    else if (trouble->help_kind == HELP_EXAMPLE) /* of a cell, which a rate is not */
        trouble_propose(trouble, wanted->rate ? NO_HELP : example_help(written));
}

/* The cell's own number in a form that can be read; or else, where the rules show it, theirs. */
static void propose(struct cell_reader *reader, const struct cell_wanted *wanted,
                    struct sheet_cell cell, struct trouble *trouble)
{
    bool example = trouble->help_kind != HELP_ADVICE;
    const char *near = trouble->kind == TROUBLE_UNKNOWN_UNIT ? trouble->help : "";
    const char *found = NULL, *written = example ? wanted->written : NULL;
    if (wanted->may_be_empty && habit_is(HABIT_NOTHING, cell.text, cell.length)) {
        trouble_propose(trouble, advice("leave the cell empty"));
        return;
    }
    if (trouble->kind != TROUBLE_NOT_TEXT)
        found = cell_proposal(reader, wanted, cell.text, cell.length, near);
    /* A unit that is known is no proposal where the amount cannot be in it. */
    if (*near && !found && wanted->type.kind == TYPE_NUMBER)
        trouble_propose(trouble, example_wanted(wanted));
    if (found)
        trouble_propose(trouble, (struct trouble_help){HELP_VALUE, found});
    else if (written && cell_reads(reader, wanted, written))
        trouble_propose(trouble, example_help(written));
    else
        keep_proposal(reader, wanted, trouble);
}

/* Reading, with the one way out for when memory runs out. */
static enum trouble_kind read_guarded(struct cell_reader *reader, const struct cell_wanted *wanted,
                                      struct sheet_cell cell, struct value *out,
                                      struct trouble *trouble)
{
    jmp_buf escape;
    reader->arena->escape = &escape;
    if (setjmp(escape) != 0) {
        reader->arena->escape = NULL;
        return TROUBLE_NO_MEMORY;
    }
    enum trouble_kind read = read_kind(reader, wanted, cell.text, cell.length, out, trouble);
    if (read != TROUBLE_NONE)
        propose(reader, wanted, cell, trouble);
    reader->arena->escape = NULL;
    return read;
}

static struct sheet_cell trimmed(const char *text, size_t length)
{
    while (length > 0 && (*text == ' ' || *text == '\t')) {
        text++;
        length--;
    }
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\t'))
        length--;
    return (struct sheet_cell){text, length};
}

enum trouble_kind cell_read(struct cell_reader *reader, const struct cell_wanted *wanted,
                            const char *text, size_t length, struct value *out,
                            struct trouble *trouble)
{
    trouble_none(trouble);
    reader->range.there = false;
    struct sheet_cell cell = trimmed(text, length);
    if (cell.length == 0) {
        *out = value_missing();
        return TROUBLE_NONE;
    }
    if (cell.length > reader->program->limits.source)
        return trouble_say(trouble, TROUBLE_TOO_LARGE, NO_HELP,
                           "this cell is longer than the engine can read");
    reader->heap->starved = false;
    enum trouble_kind kind = read_guarded(reader, wanted, cell, out, trouble);
    assert(kind != TROUBLE_NONE || out->state == VALUE_THERE);
    return reader->heap->starved || kind == TROUBLE_NO_MEMORY ? trouble_no_memory(trouble) : kind;
}

bool cell_read_plain(const struct cell_reader *reader, const struct field_code *field,
                     const char *text, size_t length, struct value *out)
{
    struct num number;
    bool taken = field->symbol->type.kind == TYPE_NUMBER && field->bare && !field->percent &&
                 !reader->decimal_comma && length <= reader->program->limits.source;
    if (!taken || !num_read_plain(text, length, &number) ||
        (field->count && !num_is_whole(number)) ||
        !num_small_multiply(&number, &field->factor, &number))
        return false;
    *out = value_number(number);
    return true;
}
