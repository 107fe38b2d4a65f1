/* An account as JSON: the same as for a person, as data. */
#include <inttypes.h>
#include <string.h>

#include "listing/json.h"
#include "report/account_form.h"
#include "report/columns.h"
#include "study/taken.h"

static void put_key(struct bytes *bytes, const char *key)
{
    bytes_text(bytes, bytes->length > 0 && bytes->start[bytes->length - 1] == '{' ? "" : ", ");
    json_text(bytes, key, strlen(key));
    bytes_text(bytes, ": ");
}

static void put_string(struct bytes *bytes, const char *key, const char *text)
{
    put_key(bytes, key);
    if (text)
        json_text(bytes, text, strlen(text));
    else
        bytes_text(bytes, "null");
}

static void put_whole(struct bytes *bytes, const char *key, int64_t whole)
{
    put_key(bytes, key);
    bytes_format(bytes, "%" PRId64, whole);
}

/* ---- values, each in the unit that its amount is written in ---- */

/* Decimals of money that need not be whole coins, beyond those of the currency; and of the rest. */
#define MONEY_MORE 6
#define PLACES 10

/* Whether the money of a line is always whole in the currency's smallest unit. */
static bool is_whole(const groat_line *line)
{
    if (line->part == GROAT_PART_FIGURE && columns_is_whole(line->name))
        return true;
    return line->part == GROAT_PART_BUYER || line->part == GROAT_PART_TAKEN;
}

/* The value in its unit; a percentage as a ratio. */
static struct amount value_in_unit(struct amounts *room, const groat_line *line)
{
    struct amount value = taken(room, line->value);
    const groat_unit *unit = &line->unit;
    bool shown = line->part == GROAT_PART_SHOW; /* which is in its unit already */
    if (unit->kind == GROAT_UNIT_PERCENT)
        return shown ? amount_divide(room, value, amount_whole(100)) : value;
    if (shown || unit->top == 0 || line->value.kind == GROAT_KIND_MONEY)
        return value;
    return amount_multiply(room, value, amount_ratio(unit->bottom, unit->top));
}

static void put_unit(struct bytes *bytes, const struct account_plan *plan, const groat_line *line)
{
    const groat_unit *unit = &line->unit;
    struct bytes text = {0};
    if (line->value.kind == GROAT_KIND_MONEY)
        bytes_text(&text, plan->currency.code);
    else if (unit->kind == GROAT_UNIT_PERCENT)
        bytes_text(&text, "ratio");
    else if (unit->kind == GROAT_UNIT_MONEY_PER)
        bytes_format(&text, "%s %s", plan->currency.code, unit->text);
    else
        bytes_text(&text, unit->text[0] ? unit->text : "number");
    bytes->failed |= text.failed;
    put_key(bytes, "unit");
    json_text(bytes, text.start, text.length);
    bytes_free(&text);
}

static void put_value(struct bytes *bytes, const struct account_plan *plan, const groat_line *line)
{
    struct amounts room;
    bool money = line->value.kind == GROAT_KIND_MONEY;
    unsigned coins = plan->currency.decimals;
    unsigned places = !money ? PLACES : is_whole(line) ? coins : coins + MONEY_MORE;
    put_key(bytes, "value");
    if (!taken_is_amount(line->value.kind) || line->value.presence != GROAT_THERE) {
        json_value(bytes, line->value);
        put_string(bytes, "unit", NULL);
        return;
    }
    amounts_open(&room);
    if (plan->exact)
        places = money ? coins : 0;
    json_figure(bytes, value_in_unit(&room, line), places, plan->exact);
    amounts_close(&room);
    put_unit(bytes, plan, line);
}

static const char *part_word(const groat_line *line)
{
    switch (line->part) {
    case GROAT_PART_COST: return line->own_pay ? "pay" : "cost";
    case GROAT_PART_BUYER: return "buyer pays";
    case GROAT_PART_TAKEN: return "taken";
    case GROAT_PART_FIGURE: return "figure";
    case GROAT_PART_RULE: return "rule";
    case GROAT_PART_SHOW: return "show";
    case GROAT_PART_DETAIL: return "detail";
    case GROAT_PART_NAME: break;
    }
    return "name";
}

static void put_line(struct bytes *bytes, const struct account_plan *plan, const groat_line *line)
{
    bytes_char(bytes, '{');
    put_string(bytes, "part", part_word(line));
    put_string(bytes, "name", line->name);
    put_string(bytes, "written", line->written);
    put_string(bytes, "worked", line->worked);
    put_string(bytes, "amount", line->amount);
    put_value(bytes, plan, line);
    put_string(bytes, "file", line->file);
    put_whole(bytes, "line", (int64_t)line->line);
    if (line->part == GROAT_PART_NAME || line->part == GROAT_PART_DETAIL)
        put_whole(bytes, "depth", (int64_t)line->depth);
    if (line->channel)
        put_string(bytes, "channel", line->channel);
    bytes_char(bytes, '}');
}

static void put_below(struct bytes *bytes, const struct account_plan *plan,
                      const groat_explanation *explanation)
{
    groat_below below = groat_explanation_below(explanation);
    put_string(bytes, "rests_on", groat_footing_name(below.footing));
    put_key(bytes, "next_lower");
    if (!below.exists) {
        bytes_text(bytes, "null");
        return;
    }
    bytes_char(bytes, '{');
    put_string(bytes, "price", below.price);
    put_key(bytes, "against");
    bytes_char(bytes, '[');
    for (size_t i = 0; i < below.misses; i++) {
        bytes_text(bytes, i > 0 ? ", " : "");
        put_line(bytes, plan, groat_explanation_miss(explanation, i));
    }
    bytes_text(bytes, "]}");
}

void account_json(struct bytes *bytes, const struct account_plan *plan,
                  const struct account *account)
{
    const groat_explanation *explanation = account->explanation;
    bytes_char(bytes, '{');
    put_key(bytes, "product");
    json_text(bytes, account->product.start, account->product.length);
    put_string(bytes, "channel", account->channel);
    put_whole(bytes, "quantity", account->quantity);
    put_string(bytes, "outcome", columns_outcome(account->outcome));
    const char *reason = groat_result_reason(account->scratch);
    put_string(bytes, "reason", *reason ? reason : NULL);
    put_key(bytes, "lines");
    bytes_char(bytes, '[');
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++) {
        bytes_text(bytes, i > 0 ? ",\n  " : "\n  ");
        put_line(bytes, plan, groat_explanation_line(explanation, i));
    }
    bytes_char(bytes, ']');
    put_below(bytes, plan, explanation);
    put_key(bytes, "notes");
    bytes_char(bytes, '[');
    for (size_t i = 0; i < groat_result_notes(account->scratch); i++) {
        const char *note = groat_result_note(account->scratch, i);
        bytes_text(bytes, i > 0 ? ", " : "");
        json_text(bytes, note, strlen(note));
    }
    bytes_text(bytes, "]}");
}
