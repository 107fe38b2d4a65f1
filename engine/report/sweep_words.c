#include "report/sweep_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "listing/bytes.h"
#include "report/words.h"
#include "text/money.h"

void sweep_words_number(const struct sweep_showing *showing, const struct amount *value, char *text)
{
    sweep_number(showing->sweep, value, listing_mark(&showing->plan), text, SWEEP_WORD_BYTES);
}

void sweep_words_ends(const struct sweep_showing *showing, char *from, char *to)
{
    const struct sweep *sweep = showing->sweep;
    char mark = listing_mark(&showing->plan);
    sweep_number_alone(sweep, &sweep->values[0], mark, from, SWEEP_WORD_BYTES);
    sweep_number_alone(sweep, &sweep->values[sweep->points - 1], mark, to, SWEEP_WORD_BYTES);
}

void sweep_words_range(struct bytes *text, const struct sweep_showing *showing)
{
    char from[SWEEP_WORD_BYTES], to[SWEEP_WORD_BYTES];
    sweep_words_ends(showing, from, to);
    bytes_format(text, "%s goes from %s to %s%s", showing->sweep->rate, from, to,
                 showing->sweep->unit.after);
}

void sweep_words_unit(const struct sweep *sweep, char *text)
{
    const char *before = sweep->unit.before, *after = sweep->unit.after;
    if (!before[0])
        after += strspn(after, " ");
    snprintf(text, SWEEP_WORD_BYTES, "%s%s", before, after);
}

void sweep_words_reason(struct bytes *text, const struct sweep_run *run)
{
    if (run->outcome == GROAT_NOT_SOLD)
        bytes_text(text, "not sold there");
    else
        bytes_format(text, "%s: %s", run->outcome == GROAT_REFUSED ? "refused" : "no price",
                     run->note[0] ? run->note[0] : "");
}

bool sweep_say_without(struct bytes *text, const struct sweep_showing *showing,
                       const struct sweep_line *line)
{
    const struct sweep *sweep = showing->sweep;
    for (size_t i = 0; i < line->count; i++) {
        const struct sweep_run *run = &line->runs[i];
        if (run->outcome != GROAT_REFUSED && run->outcome != GROAT_FAILED)
            continue;
        char number[SWEEP_WORD_BYTES];
        sweep_number_alone(sweep, &sweep->values[run->first], listing_mark(&showing->plan), number,
                           sizeof number);
        bytes_format(text, "no price at %zu of %zu values, first at %s%s: ", line->without,
                     sweep->points, number, sweep->unit.after);
        sweep_words_reason(text, run);
        return true;
    }
    return false;
}

struct chart sweep_words_chart(const struct sweep_showing *showing, struct sweep_chart_words *words)
{
    const struct sweep *sweep = showing->sweep;
    groat_currency currency = groat_method_currency(showing->method);
    const char *symbol = currency.symbol, *after = sweep->unit.after;
    bool word = text_sign_is_word(symbol, strlen(symbol));
    char unit[SWEEP_WORD_BYTES];
    sweep_words_unit(sweep, unit);
    snprintf(words->title, sizeof words->title, "%.120s%s%s", sweep->rate, unit[0] ? ", " : "",
             unit);
    snprintf(words->after, sizeof words->after, "%s", after[0] == '%' ? "%" : "");
    words_rate(showing->method, sweep->rate_index, &showing->plan, unit, sizeof unit);
    snprintf(words->now, sizeof words->now, "now %.180s", unit);
    snprintf(words->money_before, sizeof words->money_before, "%s", word ? "" : symbol);
    snprintf(words->money_after, sizeof words->money_after, "%s%s", word ? " " : "",
             word ? symbol : "");
    size_t last = sweep->points - 1;
    return (struct chart){.title = "",
                          .across = {words->title, sweep->unit.before, words->after,
                                     sweep->unit.before[0] ? 2 : 0, 0},
                          .up = {"price", words->money_before, words->money_after,
                                 currency.decimals, pow(10, -(double)currency.decimals)},
                          .gap = "no price",
                          .beyond = "none above",
                          .from = amount_double(sweep->values[0]),
                          .to = amount_double(sweep->values[last]),
                          .points = last + 1,
                          .mark_label = sweep->now.there ? words->now : NULL,
                          .mark = amount_double(sweep->now)};
}
