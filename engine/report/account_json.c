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

static void put_value(struct bytes *bytes, const struct account_plan *plan, groat_value value)
{
    struct amounts room;
    put_key(bytes, "value");
    amounts_open(&room);
    if (taken_is_amount(value.kind))
        json_amount(bytes, taken(&room, value),
                    value.kind == GROAT_KIND_MONEY ? plan->currency.decimals : 0);
    else
        json_value(bytes, value);
    amounts_close(&room);
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
    put_value(bytes, plan, line->value);
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
