#include "types/literal.h"

#include <stdio.h>
#include <string.h>

#include "text/money.h"
#include "text/near.h"
#include "types/propose.h"
#include "unit/currency.h"
#include "unit/unit.h"

enum literal_outcome literal_report(struct literal_scope scope, struct span span,
                                    enum num_status status)
{
    switch (status) {
    case NUM_OK: return LITERAL_READ;
    case NUM_DIVIDED_BY_ZERO:
        diagnostics_error(scope.diagnostics, span, NULL, "this divides by zero");
        break;
    case NUM_NO_MEMORY:
        diagnostics_error(scope.diagnostics, span, NULL, "there is no memory left for this number");
        break;
    case NUM_TOO_LARGE:
    case NUM_BAD_TEXT:
        diagnostics_error_of(scope.diagnostics, TROUBLE_TOO_LARGE, span, NULL,
                             "this number has more digits than the engine can handle");
        break;
    }
    return LITERAL_WRONG;
}

/* ---- dates ---- */

/* Days since 0000-03-01 in the proleptic Gregorian calendar: years begin in March, so that the leap
 * day is the last of its year. 400 years have 146097 days. */
static int64_t days_of(int64_t year, int64_t month, int64_t day)
{
    int64_t shifted = month > 2 ? month - 3 : month + 9;
    int64_t y = month > 2 ? year : year - 1;
    int64_t era = (y >= 0 ? y : y - 399) / 400;
    int64_t of_era = y - era * 400;
    int64_t of_year = (153 * shifted + 2) / 5 + day - 1;
    return era * 146097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year;
}

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

/* `2027-01-31`, with all its digits and nothing else. */
static bool is_written_in_full(const char *text)
{
    static const char form[] = "dddd-dd-dd";
    for (size_t i = 0; i < sizeof form - 1; i++)
        if (form[i] == 'd' ? text[i] < '0' || text[i] > '9' : text[i] != '-')
            return false;
    return text[sizeof form - 1] == '\0';
}

static int digits_of(const char *text, int count)
{
    int value = 0;
    for (int i = 0; i < count; i++)
        value = value * 10 + (text[i] - '0');
    return value;
}

bool literal_date(const char *text, int64_t *days)
{
    static const int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (!is_written_in_full(text))
        return false;
    int year = digits_of(text, 4), month = digits_of(text + 5, 2), day = digits_of(text + 8, 2);
    if (month < 1 || month > 12 || day < 1)
        return false;
    if (day > lengths[month - 1] + (month == 2 && is_leap(year)))
        return false;
    *days = days_of(year, month, day);
    return true;
}

size_t literal_write_date(int64_t days, char *buffer, size_t size)
{
    int64_t era = (days >= 0 ? days : days - 146096) / 146097;
    int64_t of_era = days - era * 146097;
    int64_t y = (of_era - of_era / 1460 + of_era / 36524 - of_era / 146096) / 365;
    int64_t of_year = of_era - (365 * y + y / 4 - y / 100);
    int64_t shifted = (5 * of_year + 2) / 153;
    int64_t month = shifted < 10 ? shifted + 3 : shifted - 9;
    int64_t year = era * 400 + y + (month <= 2);
    return (size_t)snprintf(buffer, size, "%04d-%02d-%02d", (int)year, (int)month,
                            (int)(of_year - (153 * shifted + 2) / 5 + 1));
}

/* ---- units ---- */

bool literal_is_money(const struct shop *shop, const char *symbol)
{
    const struct statement *currency = shop->currency;
    return currency && (strcmp(symbol, currency->name.text) == 0 ||
                        (currency->symbol.text && strcmp(symbol, currency->symbol.text) == 0));
}

static const struct shop_unit *own_unit(const struct shop *shop, const char *name)
{
    const struct shop_unit *unit = shop_unit(shop, name);
    return unit && unit->ready ? unit : NULL;
}

bool literal_is_unit(const struct shop *shop, const char *name)
{
    return own_unit(shop, name) || unit_find(name, strlen(name)) || literal_is_money(shop, name);
}

bool literal_writes_money(const struct shop *shop, const struct expression *expression)
{
    if (expression->kind == EXPRESSION_MONEY)
        return true;
    if (expression->kind != EXPRESSION_QUANTITY || expression->left)
        return false;
    /* A sign that is a word stands behind its number as a unit does. */
    const struct tree_unit *unit = expression->unit;
    const char *name = unit->name.text;
    return !unit->per && unit->power == 1 && literal_is_money(shop, name) &&
           !own_unit(shop, name) && !unit_find(name, strlen(name));
}

static void report_unknown_unit(struct literal_scope scope, struct word name)
{
    const char *ask = unit_ambiguous(name.text, strlen(name.text));
    if (shop_unit(scope.shop, name.text))
        return; /* it is in error itself, and reported there */
    if (ask) {
        diagnostics_error_of(scope.diagnostics, TROUBLE_AMBIGUOUS_UNIT, name.span, ask,
                             "%s can mean more than one unit", name.text);
        diagnostics_help_is(scope.diagnostics, HELP_CHOICE);
        return;
    }
    if (strlen(name.text) == 3 && currency_decimals(name.text, 3) >= 0 && scope.shop->currency) {
        diagnostics_error_of(
            scope.diagnostics, TROUBLE_UNKNOWN_UNIT, name.span, NULL,
            "%s is another currency; this shop counts in %s, as `currency` in its rules says",
            name.text, scope.shop->currency->name.text);
        return;
    }
    const char *ours = propose_unit_for(name.text);
    const struct symbol *symbol = shop_find(scope.shop, NO_CHANNEL, name.text);
    if (symbol && !ours) {
        diagnostics_error_of(scope.diagnostics, TROUBLE_UNKNOWN_UNIT, name.span, NULL,
                             "%s is a %s, not a unit", name.text, symbol_word(symbol->kind));
        return;
    }
    struct near near = near_to(name.text, strlen(name.text));
    size_t count;
    const struct unit *units = unit_table(&count);
    for (size_t i = 0; i < count; i++)
        near_offer(&near, units[i].name);
    for (size_t i = 0; i < scope.shop->units_count; i++)
        near_offer(&near, scope.shop->units[i].name);
    near_offer(&near, "order"); /* `per order` */
    diagnostics_error_of(scope.diagnostics, TROUBLE_UNKNOWN_UNIT, name.span,
                         ours ? ours : near.best, "%s is not a unit", name.text);
}

static bool single_unit(struct literal_scope scope, struct word name, struct dimension *dimension,
                        struct num *factor)
{
    const struct shop_unit *own = own_unit(scope.shop, name.text);
    const struct unit *known = unit_find(name.text, strlen(name.text));
    if (own) {
        *dimension = own->dimension;
        *factor = own->factor;
    } else if (known) {
        *dimension = unit_dimension(known);
        *factor = unit_factor(known);
    } else if (literal_is_money(scope.shop, name.text)) {
        *dimension = dim_base(DIM_MONEY);
        *factor = num_whole(1);
    } else {
        report_unknown_unit(scope, name);
        return false;
    }
    return true;
}

/* The dimension and the size of a unit while it is put together. */
struct size {
    struct dimension dimension;
    struct num factor;
};

/* Multiplies a unit by another one, or divides it by it. False where that goes too far, which is
 * reported. */
static bool combine(struct literal_scope scope, struct span span, struct size *unit,
                    const struct size *by, bool divides)
{
    enum num_status status =
        (divides ? num_divide : num_multiply)(scope.heap, unit->factor, by->factor, &unit->factor);
    if (literal_report(scope, span, status) == LITERAL_WRONG)
        return false;
    bool fits =
        (divides ? dim_divide : dim_multiply)(unit->dimension, by->dimension, &unit->dimension);
    if (!fits)
        diagnostics_error_of(scope.diagnostics, TROUBLE_TOO_LARGE, span, NULL,
                             "this raises a unit to a power above %d", DIM_POWER_MOST);
    return fits;
}

static bool raised_unit(struct literal_scope scope, const struct tree_unit *unit, struct size *out)
{
    struct size one;
    if (unit->power == 0 || !single_unit(scope, unit->name, &one.dimension, &one.factor))
        return false;
    *out = one;
    for (int i = 1; i < unit->power; i++)
        if (!combine(scope, unit->name.span, out, &one, false))
            return false;
    return true;
}

bool literal_unit(struct literal_scope scope, const struct tree_unit *unit,
                  struct dimension *dimension, struct num *factor)
{
    struct size whole, below;
    if (!raised_unit(scope, unit, &whole))
        return false;
    for (const struct tree_unit *per = unit->per; per; per = per->per)
        if (!raised_unit(scope, per, &below) ||
            !combine(scope, per->name.span, &whole, &below, true))
            return false;
    *dimension = whole.dimension;
    *factor = whole.factor;
    return true;
}

/* ---- units to read amounts in ---- */

const char *literal_unit_text(struct literal_scope scope, const struct tree_unit *unit)
{
    struct span span = unit->name.span;
    for (const struct tree_unit *per = unit->per; per; per = per->per)
        span = span_join(span, per->name.span);
    return arena_text(scope.arena, span_text(span), (size_t)span_length(span));
}

struct familiar_unit *literal_familiar_named(struct literal_scope scope, struct dimension dimension,
                                             struct num factor, const char *text, const char *per)
{
    struct familiar_unit *unit = arena_take(scope.arena, sizeof *unit);
    *unit = (struct familiar_unit){dimension, factor, text, per};
    return unit;
}

struct familiar_unit *literal_familiar_per(struct literal_scope scope, struct dimension dimension,
                                           struct num factor, const char *per)
{
    return literal_familiar_named(scope, dimension, factor, arena_print(scope.arena, "per %s", per),
                                  per);
}

const struct familiar_unit *literal_familiar(struct literal_scope scope,
                                             const struct tree_unit *unit)
{
    struct dimension dimension;
    struct num factor;
    if (!unit || !literal_is_unit(scope.shop, unit->name.text) ||
        !literal_unit(scope, unit, &dimension, &factor) || dim_is_none(dimension) ||
        dim_is_money(dimension))
        return NULL;
    if (unit->per && unit->power == 1 && literal_is_money(scope.shop, unit->name.text) &&
        !own_unit(scope.shop, unit->name.text))
        return literal_familiar_per(scope, dimension, factor, literal_unit_text(scope, unit->per));
    return literal_familiar_named(scope, dimension, factor, literal_unit_text(scope, unit), NULL);
}

/* `$26 per h`: money per time is read per h. */
static const struct familiar_unit *per_in(struct literal_scope scope,
                                          const struct expression *expression)
{
    struct dimension below, dimension = dim_base(DIM_MONEY);
    struct num factor;
    if (expression->kind != EXPRESSION_PER || !expression->unit ||
        !literal_writes_money(scope.shop, expression->left) ||
        !literal_unit(scope, expression->unit, &below, &factor) || dim_is_none(below) ||
        !dim_divide(dimension, below, &dimension) ||
        num_divide(scope.heap, num_whole(1), factor, &factor) != NUM_OK)
        return NULL;
    return literal_familiar_per(scope, dimension, factor,
                                literal_unit_text(scope, expression->unit));
}

const struct familiar_unit *literal_written_in(struct literal_scope scope,
                                               const struct expression *expression)
{
    bool measured =
        expression->kind == EXPRESSION_QUANTITY || expression->kind == EXPRESSION_FRACTION;
    if (measured)
        return expression->left ? NULL : literal_familiar(scope, expression->unit);
    return per_in(scope, expression);
}

/* ---- numbers ---- */

/* One unit of the last decimal that is written. */
static enum num_status last_decimal(struct num_heap *heap, const char *digits, struct num *step)
{
    const char *point = strchr(digits, '.');
    enum num_status status = NUM_OK;
    *step = num_whole(1);
    for (const char *at = point ? point + 1 : ""; *at && status == NUM_OK; at++)
        if (*at != '_')
            status = num_divide(heap, *step, num_whole(10), step);
    return status;
}

static enum num_status decimal(struct num_heap *heap, const char *text, struct num *out)
{
    char plain[256];
    size_t length = strlen(text);
    if (length < sizeof plain && strchr(text, ',')) { /* reported; read as if without */
        size_t kept = 0;
        for (size_t i = 0; i < length; i++)
            if (text[i] != ',')
                plain[kept++] = text[i];
        return num_read_decimal(heap, plain, kept, out);
    }
    return num_read_decimal(heap, text, length, out);
}

static enum literal_outcome scale(struct literal_scope scope, const struct expression *expression,
                                  const struct tree_unit *unit, struct literal *out)
{
    struct num factor;
    if (!literal_unit(scope, unit, &out->type.dimension, &factor))
        return LITERAL_WRONG;
    enum num_status status = num_multiply(scope.heap, out->number, factor, &out->number);
    if (status == NUM_OK)
        status = num_multiply(scope.heap, out->step, factor, &out->step);
    return literal_report(scope, expression->span, status);
}

static enum literal_outcome read_digits(struct literal_scope scope,
                                        const struct expression *expression, struct literal *out)
{
    enum num_status status = decimal(scope.heap, expression->name.text, &out->number);
    if (status == NUM_OK)
        status = last_decimal(scope.heap, expression->name.text, &out->step);
    if (status == NUM_OK && expression->kind == EXPRESSION_PERCENT) {
        out->percent = true;
        status = num_divide(scope.heap, out->number, num_whole(100), &out->number);
        if (status == NUM_OK)
            status = num_divide(scope.heap, out->step, num_whole(100), &out->step);
    }
    return literal_report(scope, expression->span, status);
}

/* `£3` where the currency's line gives no sign: said once, there. */
static bool report_no_sign(struct literal_scope scope, const char *symbol)
{
    const struct statement *currency = scope.shop->currency;
    if (text_sign_is_word(symbol, strlen(symbol)) || currency->symbol.text ||
        scope.diagnostics != scope.shop->diagnostics)
        return false;
    diagnostics_error(scope.diagnostics, currency->span,
                      arena_print(scope.shop->arena, "currency %s %s", currency->name.text, symbol),
                      "these rules use %s, but their currency is given without a sign", symbol);
    return true;
}

static enum literal_outcome read_money(struct literal_scope scope,
                                       const struct expression *expression, struct literal *out)
{
    const char *symbol = expression->unit->name.text;
    if (!scope.shop->currency)
        return LITERAL_WRONG; /* that there is none is reported once */
    if (!literal_is_money(scope.shop, symbol)) {
        if (report_no_sign(scope, symbol))
            return LITERAL_WRONG;
        bool word =
            literal_is_unit(scope.shop, symbol) || text_sign_is_word(symbol, strlen(symbol));
        const char *code = scope.shop->currency->name.text;
        if (word && strlen(symbol) != 3)
            diagnostics_error(scope.diagnostics, expression->span, NULL,
                              "an operator such as + or * is missing between %s and %s", symbol,
                              expression->name.text);
        else
            diagnostics_error_of(scope.diagnostics, TROUBLE_UNKNOWN_UNIT,
                                 expression->unit->name.span, NULL,
                                 "%s is not the money of this shop, which counts in %s, as "
                                 "`currency` in its rules says",
                                 symbol, code);
        return LITERAL_WRONG;
    }
    out->type.dimension = dim_base(DIM_MONEY);
    return read_digits(scope, expression, out);
}

/* `1 h 20 min`: one amount in units that measure the same, each smaller than the one before. */
static enum literal_outcome read_quantity(struct literal_scope scope,
                                          const struct expression *expression, struct literal *out)
{
    enum literal_outcome outcome = read_digits(scope, expression, out);
    if (outcome == LITERAL_READ)
        outcome = scale(scope, expression, expression->unit, out);
    if (outcome != LITERAL_READ || !expression->left)
        return outcome;
    struct literal before = {.type = {.kind = TYPE_NUMBER}};
    outcome = read_quantity(scope, expression->left, &before);
    if (outcome != LITERAL_READ)
        return outcome;
    if (!dim_equal(before.type.dimension, out->type.dimension)) {
        diagnostics_error_of(scope.diagnostics, TROUBLE_OTHER_KIND, expression->span, NULL,
                             "the parts of one amount must all have the same dimension");
        return LITERAL_WRONG;
    }
    enum num_status status = num_add(scope.heap, before.number, out->number, &out->number);
    return literal_report(scope, expression->span, status);
}

/* `3/4` and `1-1/2`. */
static enum literal_outcome read_fraction(struct literal_scope scope,
                                          const struct expression *expression, struct literal *out)
{
    const char *text = expression->name.text;
    const char *dash = strchr(text, '-'), *slash = strchr(text, '/');
    const char *top = dash ? dash + 1 : text;
    struct num whole = num_whole(0), above, below;
    enum num_status status = NUM_OK;
    if (dash)
        status = num_read_decimal(scope.heap, text, (size_t)(dash - text), &whole);
    if (status == NUM_OK)
        status = num_read_decimal(scope.heap, top, (size_t)(slash - top), &above);
    if (status == NUM_OK)
        status = num_read_decimal(scope.heap, slash + 1, strlen(slash + 1), &below);
    if (status == NUM_OK)
        status = num_divide(scope.heap, above, below, &above);
    if (status == NUM_OK)
        status = num_add(scope.heap, whole, above, &out->number);
    out->step = num_whole(1);
    if (literal_report(scope, expression->span, status) == LITERAL_WRONG)
        return LITERAL_WRONG;
    return scale(scope, expression, expression->unit, out);
}

/* ---- what stands around a literal ---- */

/* The amount that stands before a word such as `each`, or after a minus sign. */
static enum literal_outcome read_amount(struct literal_scope scope,
                                        const struct expression *expression, struct literal *out)
{
    enum literal_outcome outcome = literal_read(scope, expression->left, out);
    if (outcome == LITERAL_READ && out->type.kind != TYPE_NUMBER)
        return LITERAL_NONE;
    out->bare = out->bare && expression->kind == EXPRESSION_NEGATE;
    return outcome;
}

static enum literal_outcome read_negated(struct literal_scope scope,
                                         const struct expression *expression, struct literal *out)
{
    enum literal_outcome outcome = read_amount(scope, expression, out);
    if (outcome == LITERAL_READ && num_negate(scope.heap, out->number, &out->number) != NUM_OK)
        return LITERAL_WRONG;
    return outcome;
}

static enum literal_outcome read_per(struct literal_scope scope,
                                     const struct expression *expression, struct literal *out)
{
    enum literal_outcome outcome = read_amount(scope, expression, out);
    if (outcome != LITERAL_READ)
        return outcome;
    struct num below = num_whole(1), factor = num_whole(1);
    struct dimension dimension = dim_none();
    enum num_status status = NUM_OK;
    if (expression->name.text)
        status = decimal(scope.heap, expression->name.text, &below);
    if (expression->unit && !literal_unit(scope, expression->unit, &dimension, &factor))
        return LITERAL_WRONG;
    if (status == NUM_OK)
        status = num_multiply(scope.heap, below, factor, &below);
    if (status == NUM_OK)
        status = num_divide(scope.heap, out->number, below, &out->number);
    if (status == NUM_OK)
        status = num_divide(scope.heap, out->step, below, &out->step);
    if (status == NUM_OK && !dim_divide(out->type.dimension, dimension, &out->type.dimension))
        status = NUM_TOO_LARGE;
    return literal_report(scope, expression->span, status);
}

static enum literal_outcome read_date(struct literal_scope scope,
                                      const struct expression *expression, struct literal *out)
{
    int64_t days;
    if (strlen(expression->name.text) != strlen("2027-01-31"))
        return LITERAL_WRONG; /* not written in full, which the lexer reported */
    if (!literal_date(expression->name.text, &days)) {
        diagnostics_error(scope.diagnostics, expression->span, NULL,
                          "there is no such day in the calendar");
        return LITERAL_WRONG;
    }
    out->type.kind = TYPE_DATE;
    out->number = num_whole(days);
    return LITERAL_READ;
}

enum literal_outcome literal_read(struct literal_scope scope, const struct expression *expression,
                                  struct literal *out)
{
    *out = (struct literal){
        .type = {.kind = TYPE_NUMBER}, .number = num_whole(0), .step = num_whole(1)};
    switch (expression->kind) {
    case EXPRESSION_NUMBER: out->bare = true; return read_digits(scope, expression, out);
    case EXPRESSION_PERCENT: return read_digits(scope, expression, out);
    case EXPRESSION_MONEY: return read_money(scope, expression, out);
    case EXPRESSION_QUANTITY: return read_quantity(scope, expression, out);
    case EXPRESSION_FRACTION: return read_fraction(scope, expression, out);
    case EXPRESSION_DATE: return read_date(scope, expression, out);
    case EXPRESSION_PER: return read_per(scope, expression, out);
    case EXPRESSION_EACH: return read_amount(scope, expression, out);
    case EXPRESSION_NEGATE: return read_negated(scope, expression, out);
    case EXPRESSION_TEXT:
        out->type.kind = TYPE_TEXT;
        out->text = expression->name.text;
        return LITERAL_READ;
    case EXPRESSION_YES:
    case EXPRESSION_NO:
        out->type.kind = TYPE_FLAG;
        out->number = num_whole(expression->kind == EXPRESSION_YES);
        return LITERAL_READ;
    case EXPRESSION_BROKEN: return LITERAL_WRONG;
    default: return LITERAL_NONE;
    }
}
