#include "report/goal_words.h"

#include <string.h>

#include "report/words.h"

/* ---- amounts in a sentence ---- */

/* With two decimals at most, four below 1, as in a table. */
static void put_number(struct bytes *bytes, const struct goal_words *words,
                       const struct amount *amount)
{
    unsigned places = amount_compare(*amount, amount_whole(1)) < 0 ? 4 : 2;
    bytes_short(bytes, *amount, places, listing_mark(words->plan));
}

/* `40 sales`, `1 sale`, `3 whole sales`. */
static void put_sales(struct bytes *bytes, const struct goal_words *words,
                      const struct amount *sales, const char *kind)
{
    bytes_grouped(bytes, *sales, 0, listing_marks(words->plan));
    bytes_format(bytes, " %s%s", kind, amount_is_whole_number(*sales, 1) ? "sale" : "sales");
}

struct amount goal_needs_of_month(struct amounts *room, const struct goals_row *row)
{
    return amount_times(room, row->needs, row->per_time ? GOALS_SECONDS_OF_MONTH : 1);
}

bool goal_needs_are_one(struct goals_row *const *rows, size_t count)
{
    const struct goals_row *first = NULL;
    for (size_t i = 0; i < count; i++) {
        if (!rows[i]->needs.there)
            continue;
        if (first && amount_compare(first->needs, rows[i]->needs) != 0)
            return false;
        first = rows[i];
    }
    return true;
}

/* ---- the title ---- */

/* An amount per time, in the time that makes it whole: most likely the one it was written in. */
static void put_per_time(struct bytes *bytes, const struct goal_words *words,
                         const struct amount *per_second)
{
    static const struct {
        int64_t seconds;
        const char *word;
    } times[] = {{GOALS_SECONDS_OF_MONTH, " a month"},
                 {GOALS_SECONDS_OF_WEEK, " a week"},
                 {86400, " a day"},
                 {12 * GOALS_SECONDS_OF_MONTH, " a year"}};
    enum { TIMES = sizeof times / sizeof *times };
    struct amounts room;
    struct amount amount = {0};
    amounts_open(&room);
    size_t which = 0;
    for (unsigned decimals; which < TIMES; which++) {
        amount = amount_times(&room, *per_second, times[which].seconds);
        if (amount_decimals(amount, &decimals) && decimals <= words->plan->currency.decimals)
            break;
    }
    if (which == TIMES)
        amount = amount_times(&room, *per_second, times[which = 0].seconds);
    words_money(bytes, &amount, words->plan);
    bytes_text(bytes, times[which].word);
    amounts_close(&room);
}

void goal_title(struct bytes *bytes, const struct goal_words *words, struct goals_row *const *rows,
                size_t count)
{
    const struct goals_row *known = NULL;
    for (size_t i = 0; i < count && !known; i++)
        if (rows[i]->needs.there)
            known = rows[i];
    bytes_text(bytes, words->goal.text);
    if (!known || !goal_needs_are_one(rows, count))
        return;
    bytes_text(bytes, ": ");
    if (words->goal.per_time)
        put_per_time(bytes, words, &known->needs);
    else
        words_money(bytes, &known->needs, words->plan);
    bytes_text(bytes, " needed");
}

/* ---- the best ---- */

static void put_place(struct bytes *bytes, const struct goal_words *words,
                      const struct goals_row *row)
{
    groat_text label = words->list->label(words->list->context, row->product);
    bytes_put(bytes, label.start, label.length);
    bytes_format(bytes, " on %s", groat_method_channel(words->list->goals->method, row->channel));
}

/* What a row brings in a month at the pace, and no more than what there is allows. */
static struct amount at_pace(struct amounts *room, const struct goals *goals,
                             const struct goals_row *row)
{
    struct amount month = amount_multiply(room, row->gives, goals->pace);
    month =
        amount_multiply(room, month, amount_ratio(GOALS_SECONDS_OF_MONTH, GOALS_SECONDS_OF_WEEK));
    return row->brings.there && amount_compare(row->brings, month) < 0 ? row->brings : month;
}

/* Which row brings the most towards a goal per time at the pace; the first of several. */
static const struct goals_row *most_at_pace(struct amounts *room, const struct goals *goals,
                                            struct goals_row *const *rows, size_t count,
                                            struct amount *most)
{
    const struct goals_row *best = NULL;
    for (size_t i = 0; i < count; i++) {
        if (rows[i]->answer > GOALS_TOO_LITTLE)
            continue;
        struct amount month = at_pace(room, goals, rows[i]);
        if (best && amount_compare(month, *most) <= 0)
            continue;
        best = rows[i];
        *most = month;
    }
    return best;
}

static void put_pace(struct bytes *bytes, const struct goal_words *words,
                     struct goals_row *const *rows, size_t count)
{
    struct amounts room;
    struct amount most = {0};
    if (!words->list->goals->pace.there)
        return;
    amounts_open(&room);
    const struct goals_row *row = most_at_pace(&room, words->list->goals, rows, count, &most);
    struct amount needs = goal_needs_of_month(&room, row);
    bytes_format(bytes, "\nAt %s the most comes from ", words->list->pace);
    put_place(bytes, words, row);
    bytes_text(bytes, ": ");
    words_money(bytes, &most, words->plan);
    bytes_format(bytes, " a month, which is %s.",
                 amount_compare(most, needs) >= 0 ? "enough" : "not enough");
    amounts_close(&room);
}

/* Ends the sentence with how many rows are as good as the first. */
static void put_ties(struct bytes *bytes, struct goals_row *const *rows, size_t count)
{
    size_t others = 0;
    while (others + 1 < count && goals_alike(rows[0], rows[others + 1]))
        others++;
    if (others > 0)
        bytes_format(bytes, "; %zu %s as good", others, others == 1 ? "other is" : "others are");
    bytes_char(bytes, '.');
}

/* Of a goal that is not per time: who gets there first. */
static void put_first(struct bytes *bytes, const struct goal_words *words,
                      struct goals_row *const *rows, size_t count)
{
    bytes_text(bytes, "First: ");
    put_place(bytes, words, rows[0]);
    bytes_text(bytes, ", after ");
    put_sales(bytes, words, &rows[0]->sales, "");
    if (rows[0]->weeks.there) {
        bytes_text(bytes, ", ");
        put_number(bytes, words, &rows[0]->weeks);
        bytes_format(bytes, " %s at %s",
                     amount_is_whole_number(rows[0]->weeks, 1) ? "week" : "weeks",
                     words->list->pace);
    }
    put_ties(bytes, rows, count);
}

/* `your 40 h a month`, as the rules say what there is; or `what there is`, where they do not. A
 * unit of a single letter is a symbol, and read as one: `your 10 min per h`. */
static void put_limit(struct bytes *bytes, const struct goal_words *words)
{
    groat_limit limit;
    groat_status status = groat_method_goal_limit(words->list->goals->method, words->index, &limit);
    bytes->failed |= status == GROAT_NO_MEMORY;
    if (!limit.amount[0]) {
        bytes_text(bytes, "what there is");
        return;
    }
    bytes_text(bytes, "your ");
    bytes_plain(bytes, limit.amount, strlen(limit.amount));
    if (limit.per[0])
        bytes_format(bytes, " %s %s", limit.per[1] ? "a" : "per", limit.per);
}

/* Of a goal per time: fewest sales, or most of what there is. */
static void put_steadiest(struct bytes *bytes, const struct goal_words *words,
                          struct goals_row *const *rows, size_t count)
{
    const struct goals_row *row = rows[0];
    if (row->limited) {
        bytes_text(bytes, "Most for ");
        put_limit(bytes, words);
        bytes_text(bytes, ": ");
    } else {
        bytes_text(bytes, "Fewest sales: ");
    }
    put_place(bytes, words, row);
    bytes_text(bytes, ", ");
    if (!row->limited)
        put_sales(bytes, words, &row->sales, "");
    else if (row->brings.there)
        words_money(bytes, &row->brings, words->plan);
    else
        bytes_text(bytes, "which uses none of it");
    bytes_text(bytes, row->limited && !row->brings.there ? "" : " a month");
    put_ties(bytes, rows, count);
    put_pace(bytes, words, rows, count); /* the first row at least is answered */
}

static void put_nearest(struct bytes *bytes, const struct goal_words *words,
                        const struct goals_row *row)
{
    bytes_text(bytes, "No product reaches it with ");
    put_limit(bytes, words);
    bytes_text(bytes, ". Nearest: ");
    put_place(bytes, words, row);
    bytes_text(bytes, ", at most ");
    words_money(bytes, &row->brings, words->plan);
    bytes_text(bytes, row->per_time ? " a month." : ".");
}

void goal_best(struct bytes *bytes, const struct goal_words *words, struct goals_row *const *rows,
               size_t count)
{
    if (count == 0) {
        bytes_text(bytes, "No product has a price that could contribute to it.");
        return;
    }
    switch (rows[0]->answer) {
    case GOALS_SUFFICES:
        if (words->goal.per_time)
            put_steadiest(bytes, words, rows, count);
        else
            put_first(bytes, words, rows, count);
        break;
    case GOALS_TOO_LITTLE: put_nearest(bytes, words, rows[0]); break;
    case GOALS_NEVER:
        bytes_text(bytes, "No product reaches it: no sale contributes anything.");
        break;
    case GOALS_UNANSWERED:
        bytes_text(bytes, "This goal could not be answered for any product.");
        break;
    }
}

/* ---- notes ---- */

static void next_note(struct bytes *bytes)
{
    if (bytes->length > 0)
        bytes_text(bytes, "; ");
}

static void note_lacking(struct bytes *bytes, const struct goals_row *row)
{
    if (row->status != NUM_OK)
        bytes_text(bytes, "not answered: a number has too many digits");
    else
        bytes_format(bytes, "not answered: %s %s", groat_goal_line_name(row->lacking),
                     row->failed ? "cannot be worked out" : "is missing");
}

static void put_whole_below(struct bytes *bytes, const struct goal_words *words,
                            const struct amount *amount)
{
    struct amounts room;
    amounts_open(&room);
    struct amount whole = amount_round(&room, *amount, NUM_DOWN);
    put_sales(bytes, words, &whole, "whole ");
    amounts_close(&room);
}

/* Whole sales may not fit although what there is suffices on the whole. */
static void note_rounding(struct bytes *bytes, const struct goal_words *words,
                          const struct goals_row *row)
{
    if (!row->sales_allowed.there)
        return;
    bool none = amount_compare(row->sales_allowed, amount_whole(1)) < 0;
    bool suffices = row->answer == GOALS_SUFFICES;
    bool fit = amount_compare(row->sales, row->sales_allowed) <= 0;
    if (suffices ? fit : !none)
        return;
    next_note(bytes);
    if (none) {
        bytes_text(bytes, "not one fits");
    } else {
        bytes_text(bytes, "only ");
        put_whole_below(bytes, words, &row->sales_allowed);
        bytes_text(bytes,
                   amount_compare(row->sales_allowed, amount_whole(2)) < 0 ? " fits" : " fit");
    }
    if (row->per_time)
        bytes_text(bytes, suffices ? " into a month, but over several months it is enough"
                                   : " into a month");
    else if (suffices && !none)
        bytes_text(bytes, ", one too few");
}

/* A promise stands, whatever another price would do. */
static void note_pin(struct bytes *bytes, const struct goal_words *words,
                     const struct goals_row *row)
{
    if (!row->pinned || !row->price_needed.there ||
        amount_compare(row->price_needed, row->price) == 0)
        return;
    next_note(bytes);
    bytes_text(bytes, "the price is pinned at ");
    words_money(bytes, &row->price, words->plan);
}

static void note_way(struct bytes *bytes, const struct goal_words *words,
                     const struct goals_row *row)
{
    if (row->way == GOALS_NOT_ASKED || row->way == GOALS_PRICE)
        return;
    next_note(bytes);
    if (row->way == GOALS_NO_PRICE) {
        bytes_text(bytes, row->reason);
        return;
    }
    words_money(bytes, &row->price_needed, words->plan);
    if (row->way == GOALS_ABOVE_CEILING) {
        bytes_text(bytes, " is above the ceiling of ");
        words_money(bytes, &row->ceiling, words->plan);
    } else {
        bytes_format(bytes, " is refused: %s", row->reason);
    }
}

void goal_note(struct bytes *bytes, const struct goal_words *words, const struct goals_row *row)
{
    bool nothing_needed = row->needs.there && amount_sign(row->needs) <= 0;
    switch (row->answer) {
    case GOALS_UNANSWERED: note_lacking(bytes, row); return;
    case GOALS_NEVER:
        bytes_text(bytes, amount_sign(row->gives) == 0
                              ? "never: a sale contributes nothing"
                              : "never: a sale contributes a negative amount");
        break;
    case GOALS_SUFFICES:
        if (nothing_needed)
            bytes_text(bytes, "nothing is needed");
        else if (row->limited && !row->brings.there)
            bytes_text(bytes, "no limit: a sale uses none of what there is");
        else
            note_rounding(bytes, words, row);
        break;
    case GOALS_TOO_LITTLE: note_rounding(bytes, words, row); break;
    }
    note_way(bytes, words, row);
    note_pin(bytes, words, row);
}
