/* Enters the statements of a shop under their names. */
#include "names/collect.h"

#include <string.h>

#include "names/load.h"

static const char *place_text(struct shop *shop, struct span span)
{
    if (diagnostics_full(shop->diagnostics))
        return ""; /* finding the place reads through the text, and nobody would see it */
    struct place place = span_place(span);
    return arena_print(shop->arena, "%s:%u", span.source->name, place.line);
}

static void report_double(struct shop *shop, struct word name, const char *word, struct span first)
{
    diagnostics_error(shop->diagnostics, name.span, NULL,
                      "%s is defined twice: first as a %s at %s", name.text, word,
                      place_text(shop, first));
}

static void put_statement(struct shop *shop, struct statement_set *set, struct statement *statement)
{
    set->items =
        arena_grow(shop->arena, set->items, sizeof *set->items, &set->room, set->count + 1);
    set->items[set->count++] = statement;
}

/* Reports once that definitions were left out. Errors that follow from this are not reported. */
static void report_limit(struct shop *shop, struct span span, const char *format, size_t most)
    __attribute__((format(printf, 3, 0)));

static void report_limit(struct shop *shop, struct span span, const char *format, size_t most)
{
    if (!shop->overfull)
        diagnostics_error(shop->diagnostics, span, NULL, format, most);
    shop->overfull = true;
}

/* Also counts lines without a name, because each is evaluated, most of them on every channel. */
static bool too_many(struct shop *shop, const struct statement *statement)
{
    if (shop->definitions < shop->definitions_most) {
        shop->definitions++;
        return false;
    }
    report_limit(shop, statement->span, "there are more than %zu definitions",
                 shop->definitions_most);
    return true;
}

static void add_statement(struct shop *shop, struct statement_set *set, struct statement *statement)
{
    if (!too_many(shop, statement))
        put_statement(shop, set, statement);
}

static void add_symbol(struct shop *shop, struct symbol_set *set, struct symbol *symbol)
{
    set->items =
        arena_grow(shop->arena, set->items, sizeof *set->items, &set->room, set->count + 1);
    set->items[set->count++] = symbol;
}

/* ---- symbols ---- */

/* The engine's own names cannot be defined. For a field, the message shows how to keep its
 * column. */
static bool is_reserved(struct shop *shop, const struct statement *statement)
{
    const char *name = statement->name.text;
    if (figure_find(name) == FIGURES)
        return false;
    const char *help = arena_print(shop->arena, "our_%s", name);
    if (statement->kind == STATEMENT_FIELD)
        help = arena_print(shop->arena, "our_%s %s from \"%s\"", name, statement->unit->name.text,
                           name);
    diagnostics_error(shop->diagnostics, statement->name.span, help,
                      "%s is one of the engine's own names and cannot be defined", name);
    return true;
}

/* A channel's let, cost or pay with the name of one of the shop's replaces that one on the
 * channel. */
static bool may_replace(const struct symbol *shops, enum symbol_kind kind)
{
    return shops->kind == kind && (kind == SYMBOL_LET || kind == SYMBOL_COST || kind == SYMBOL_PAY);
}

static struct symbol *define(struct shop *shop, unsigned channel, enum symbol_kind kind,
                             struct statement *statement)
{
    if (is_reserved(shop, statement) || too_many(shop, statement))
        return NULL;
    struct word name = statement->name;
    struct symbol *old = shop_symbol(shop, channel, name.text);
    if (old && kind == SYMBOL_RATE && old->kind == SYMBOL_RATE &&
        load_uses(name.span.source, old->statement->name.span.source)) {
        old->statement = statement; /* a file may set a rate of a file that it uses */
        return NULL;
    }
    struct symbol *shops = channel == NO_CHANNEL ? NULL : shop_find(shop, NO_CHANNEL, name.text);
    if (!old && shops && !may_replace(shops, kind))
        old = shops;
    if (old) {
        report_double(shop, name, symbol_word(old->kind), old->statement->name.span);
        return NULL;
    }
    struct symbol *symbol = arena_take(shop->arena, sizeof *symbol);
    *symbol = (struct symbol){.kind = kind,
                              .name = name.text,
                              .statement = statement,
                              .channel = (uint16_t)channel,
                              .number = (uint32_t)shop->symbols.count,
                              .replaces = shops};
    add_symbol(shop, &shop->symbols, symbol);
    shop_index_symbol(shop, symbol);
    return symbol;
}

static void define_in(struct shop *shop, unsigned channel, enum symbol_kind kind,
                      struct statement *statement, struct symbol_set *set)
{
    struct symbol *symbol = define(shop, channel, kind, statement);
    if (!symbol)
        return;
    symbol->order = (uint32_t)set->count;
    for (size_t i = 0; symbol->replaces && i < set->count; i++) {
        if (set->items[i] == symbol->replaces) {
            set->items[i] = symbol;
            return;
        }
    }
    add_symbol(shop, set, symbol);
}

/* ---- lines of the shop or of a channel ---- */

/* The field of the price lines that holds a statement. `aim` and `set` replace each other. */
static struct statement **price_slot(struct price_lines *lines, enum statement_kind kind)
{
    switch (kind) {
    case STATEMENT_AIM: return &lines->aim;
    case STATEMENT_SET: return &lines->set;
    case STATEMENT_FLOOR: return &lines->floor;
    case STATEMENT_CEILING: return &lines->ceiling;
    case STATEMENT_DISCOUNT: return &lines->discount;
    case STATEMENT_PIN: return &lines->pin;
    default: return &lines->round;
    }
}

static void enter_price_line(struct shop *shop, struct channel *channel, struct statement *line)
{
    struct price_lines *lines = &channel->price;
    struct statement **slot = price_slot(lines, line->kind);
    struct statement *old = *slot;
    bool aims = line->kind == STATEMENT_AIM || line->kind == STATEMENT_SET;
    if (aims && !old)
        old = lines->aim ? lines->aim : lines->set;
    /* A channel has the shop's line until it has its own. */
    struct price_lines *shops = &shop->whole.price;
    bool inherited = channel != &shop->whole && old &&
                     (old == *price_slot(shops, line->kind) ||
                      (aims && (old == shops->aim || old == shops->set)));
    if (old && !inherited && !load_uses(line->span.source, old->span.source)) {
        const char *word = statement_word(line->kind);
        if (old->kind == line->kind)
            diagnostics_error(shop->diagnostics, line->span, NULL, "%s is given twice: first at %s",
                              word, place_text(shop, old->span));
        else
            diagnostics_error(shop->diagnostics, line->span, NULL,
                              "a price has either an aim or a set, not both: the %s is at %s",
                              statement_word(old->kind), place_text(shop, old->span));
        return;
    }
    if (aims)
        lines->aim = lines->set = NULL;
    *slot = line;
}

static void enter_tax(struct shop *shop, struct channel *channel, struct statement *line)
{
    if (channel->tax) {
        diagnostics_error(shop->diagnostics, line->span, NULL,
                          "a channel may have only one tax: the first is at %s",
                          place_text(shop, channel->tax->span));
        return;
    }
    channel->tax = line;
}

static void enter_only_when(struct shop *shop, struct channel *channel, struct statement *line)
{
    if (channel->only_when) {
        diagnostics_error(shop->diagnostics, line->span, "join the two conditions with and",
                          "only when is given twice: first at %s",
                          place_text(shop, channel->only_when->span));
        diagnostics_help_is(shop->diagnostics, HELP_ADVICE);
    } else {
        channel->only_when = line;
    }
}

/* A `show` with only a name shows a definition and defines nothing. */
static void enter_show(struct shop *shop, unsigned number, struct channel *channel,
                       struct statement *line)
{
    if (line->value) {
        define_in(shop, number, SYMBOL_SHOW, line, &channel->shows);
        return;
    }
    if (too_many(shop, line))
        return;
    struct symbol *symbol = arena_take(shop->arena, sizeof *symbol);
    *symbol = (struct symbol){.kind = SYMBOL_SHOW,
                              .name = line->name.text,
                              .statement = line,
                              .channel = (uint16_t)number,
                              .number = (uint32_t)shop->symbols.count};
    add_symbol(shop, &shop->symbols, symbol);
    add_symbol(shop, &channel->shows, symbol);
}

static bool has_too_many_parameters(struct shop *shop, const struct statement *function)
{
    size_t count = 0;
    for (const struct tree_word *each = function->words; each; each = each->next)
        count++;
    if (count > PARAMETERS_MOST)
        report_limit(shop, function->span, "a function may have at most %zu parameters",
                     PARAMETERS_MOST);
    return count > PARAMETERS_MOST;
}

static void enter_line(struct shop *shop, unsigned number, struct channel *channel,
                       struct statement *line)
{
    struct symbol_set lets = {0};
    switch (line->kind) {
    case STATEMENT_LET:
        if (line->function && has_too_many_parameters(shop, line))
            break;
        define_in(shop, number, line->function ? SYMBOL_FUNCTION : SYMBOL_LET, line, &lets);
        break;
    case STATEMENT_COST: define_in(shop, number, SYMBOL_COST, line, &channel->costs); break;
    case STATEMENT_PAY: define_in(shop, number, SYMBOL_PAY, line, &channel->costs); break;
    case STATEMENT_FEE: define_in(shop, number, SYMBOL_FEE, line, &channel->fees); break;
    case STATEMENT_BUYER_PAYS: define_in(shop, number, SYMBOL_EXTRA, line, &channel->extras); break;
    case STATEMENT_SHOW: enter_show(shop, number, channel, line); break;
    case STATEMENT_TAX_ADDED:
    case STATEMENT_TAX_INCLUDED: enter_tax(shop, channel, line); break;
    case STATEMENT_WARN: add_statement(shop, &channel->warns, line); break;
    case STATEMENT_REFUSE: add_statement(shop, &channel->refuses, line); break;
    case STATEMENT_ONLY_WHEN: enter_only_when(shop, channel, line); break;
    case STATEMENT_PRICE:
        for (struct statement *each = line->parts; each; each = each->next)
            enter_price_line(shop, channel, each);
        break;
    default: break;
    }
}

/* ---- statements of the shop ---- */

static void enter_currency(struct shop *shop, struct statement *statement)
{
    if (shop->currency) {
        if (!load_uses(statement->span.source, shop->currency->span.source) ||
            strcmp(statement->name.text, shop->currency->name.text) != 0)
            diagnostics_error(shop->diagnostics, statement->span, NULL,
                              "a shop may have only one currency: it is given at %s",
                              place_text(shop, shop->currency->span));
        return;
    }
    shop->currency = statement;
}

static void enter_unit(struct shop *shop, struct statement *statement)
{
    struct shop_unit *old = shop_unit(shop, statement->name.text);
    if (old) {
        report_double(shop, statement->name, "unit", old->statement->name.span);
        return;
    }
    if (too_many(shop, statement))
        return;
    if (shop->units_count == UNITS_MOST) {
        report_limit(shop, statement->span, "a shop may define at most %zu units", UNITS_MOST);
        return;
    }
    shop->units = arena_grow(shop->arena, shop->units, sizeof *shop->units, &shop->units_room,
                             shop->units_count + 1);
    shop->units[shop->units_count] =
        (struct shop_unit){.name = statement->name.text, .statement = statement};
    shop_index_unit(shop, (uint32_t)shop->units_count++);
}

static void enter_shop_statement(struct shop *shop, struct statement *statement)
{
    struct symbol_set others = {0};
    switch (statement->kind) {
    case STATEMENT_CURRENCY: enter_currency(shop, statement); break;
    case STATEMENT_UNIT: enter_unit(shop, statement); break;
    case STATEMENT_MATERIALS:
        for (struct statement *each = statement->parts; each; each = each->next)
            define_in(shop, NO_CHANNEL, SYMBOL_MATERIAL, each, &shop->rates);
        break;
    case STATEMENT_PRODUCT:
        for (struct statement *each = statement->parts; each; each = each->next)
            define_in(shop, NO_CHANNEL, SYMBOL_FIELD, each, &shop->fields);
        break;
    case STATEMENT_RATE: define_in(shop, NO_CHANNEL, SYMBOL_RATE, statement, &shop->rates); break;
    case STATEMENT_ROUNDING:
        define_in(shop, NO_CHANNEL, SYMBOL_ROUNDING, statement, &others);
        break;
    case STATEMENT_TABLE: define_in(shop, NO_CHANNEL, SYMBOL_TABLE, statement, &others); break;
    case STATEMENT_SAME_PRICE: add_statement(shop, &shop->same_price, statement); break;
    case STATEMENT_GOAL: add_statement(shop, &shop->goals, statement); break;
    case STATEMENT_EXPECT: add_statement(shop, &shop->expects, statement); break;
    case STATEMENT_CHANNEL: break; /* later, when the shop's own lines are known */
    default: enter_line(shop, NO_CHANNEL, &shop->whole, statement); break;
    }
}

/* ---- channels ---- */

static void copy_symbols(struct shop *shop, struct symbol_set *set)
{
    struct symbol_set copy = {0};
    for (size_t i = 0; i < set->count; i++)
        add_symbol(shop, &copy, set->items[i]);
    *set = copy;
}

static void copy_statements(struct shop *shop, struct statement_set *set)
{
    struct statement_set copy = {0};
    for (size_t i = 0; i < set->count; i++)
        put_statement(shop, &copy, set->items[i]);
    *set = copy;
}

/* A channel begins with the lines of the shop. */
static struct channel channel_of(struct shop *shop, const char *name, struct statement *statement)
{
    struct channel channel = shop->whole;
    channel.name = name;
    channel.statement = statement;
    copy_symbols(shop, &channel.costs);
    copy_symbols(shop, &channel.fees);
    copy_symbols(shop, &channel.extras);
    copy_symbols(shop, &channel.shows);
    copy_statements(shop, &channel.warns);
    copy_statements(shop, &channel.refuses);
    return channel;
}

static void enter_channels(struct shop *shop, struct statement *statements)
{
    size_t room = 0;
    for (struct statement *each = statements; each; each = each->next) {
        if (each->kind != STATEMENT_CHANNEL)
            continue;
        if (shop->channels_count == CHANNELS_MOST) {
            report_limit(shop, each->span, "a shop may have at most %zu channels", CHANNELS_MOST);
            break;
        }
        unsigned first = shop_channel(shop, each->name.text);
        if (first != NO_CHANNEL) {
            report_double(shop, each->name, "channel", shop->channels[first].statement->name.span);
            continue;
        }
        shop->channels = arena_grow(shop->arena, shop->channels, sizeof *shop->channels, &room,
                                    shop->channels_count + 1);
        shop->channels[shop->channels_count++] = channel_of(shop, each->name.text, each);
    }
    for (size_t i = 0; i < shop->channels_count; i++)
        for (struct statement *line = shop->channels[i].statement->parts; line; line = line->next)
            enter_line(shop, (unsigned)i, &shop->channels[i], line);
    if (shop->channels_count == 0) {
        shop->channels = arena_take(shop->arena, sizeof *shop->channels);
        shop->channels[shop->channels_count++] = channel_of(shop, "direct", NULL);
    }
}

void shop_collect(struct shop *shop, struct statement *statements)
{
    for (struct statement *each = statements; each; each = each->next)
        enter_shop_statement(shop, each);
    enter_channels(shop, statements);
}
