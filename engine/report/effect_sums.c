/* What the effect of a change comes to, below the table and as JSON. */
#include <inttypes.h>
#include <string.h>

#include "listing/json.h"
#include "report/effect_form.h"
#include "report/words.h"

/* How many products a line names. */
#define NAMED_MOST 3

/* Where the amounts begin, behind the longest label. */
#define LABEL_WIDTH 20

/* ---- for a person ---- */

static void put_count(struct bytes *bytes, const char *label, size_t count)
{
    bytes_format(bytes, "%-*s%zu", LABEL_WIDTH, label, count);
}

static void put_place(struct bytes *bytes, const struct effect_list *list,
                      const struct effect_place *place)
{
    words_place(bytes, list->labels[place->product], place->channel, place->quantity);
}

static void put_named(struct bytes *bytes, const struct effect_list *list, const char *label,
                      enum effect_move move, size_t count)
{
    size_t named = 0;
    if (count == 0)
        return;
    put_count(bytes, label, count);
    for (size_t i = 0; i < list->effect->rows_count && named < NAMED_MOST; i++) {
        if (list->effect->rows[i].move != move)
            continue;
        bytes_text(bytes, named++ == 0 ? ": " : "; ");
        put_place(bytes, list, &list->effect->rows[i].place);
    }
    if (count > named)
        bytes_format(bytes, "; and %zu more", count - named);
    bytes_char(bytes, '\n');
}

static void put_unchanged(struct bytes *bytes, const struct effect_list *list, size_t count)
{
    size_t quiet = 0;
    for (size_t i = 0; i < list->effect->rows_count; i++)
        quiet += list->effect->rows[i].move == EFFECT_UNCHANGED &&
                 effect_row_is_quiet(list, &list->effect->rows[i]);
    put_count(bytes, "Unchanged", count);
    if (quiet > 0 && quiet == count)
        bytes_text(bytes, " (not shown)");
    else if (quiet > 0)
        bytes_format(bytes, " (%zu of them not shown)", quiet);
    bytes_char(bytes, '\n');
}

/* Whether nothing is known of what was refused before: the list has prices alone. */
static bool is_unlisted(const struct effect_list *list)
{
    for (size_t i = 0; i < list->effect->rows_count; i++)
        if (list->effect->rows[i].move == EFFECT_STILL_REFUSED && list->effect->rows[i].known)
            return false;
    return list->from_list;
}

static void put_counts(struct bytes *bytes, const struct effect_list *list, const size_t *moves)
{
    put_count(bytes, "Up", moves[EFFECT_UP]);
    bytes_char(bytes, '\n');
    put_count(bytes, "Down", moves[EFFECT_DOWN]);
    bytes_char(bytes, '\n');
    put_unchanged(bytes, list, moves[EFFECT_UNCHANGED]);
    if (list->held) {
        put_count(bytes, "Kept", moves[EFFECT_KEPT]);
        bytes_char(bytes, '\n');
    }
    put_named(bytes, list, "Newly refused", EFFECT_NEWLY_REFUSED, moves[EFFECT_NEWLY_REFUSED]);
    put_named(bytes, list, is_unlisted(list) ? "Refused, unlisted" : "Refused as before",
              EFFECT_STILL_REFUSED, moves[EFFECT_STILL_REFUSED]);
    put_named(bytes, list, "No longer refused", EFFECT_NO_LONGER_REFUSED,
              moves[EFFECT_NO_LONGER_REFUSED]);
    put_named(bytes, list, "Newly sold", EFFECT_NEWLY_SOLD, moves[EFFECT_NEWLY_SOLD]);
    put_named(bytes, list, "No longer sold", EFFECT_NO_LONGER_SOLD, moves[EFFECT_NO_LONGER_SOLD]);
}

static void put_change(struct bytes *bytes, const struct effect_list *list, const char *label,
                       const struct amount *change, const struct amount *percent)
{
    bytes_format(bytes, "%-*s", LABEL_WIDTH, label);
    words_money(bytes, change, &list->plan);
    bytes_text(bytes, ", ");
    words_percent(bytes, percent, 1, &list->plan);
}

static void put_largest(struct bytes *bytes, const struct effect_list *list,
                        const struct effect_row *row)
{
    struct amount change = effect_change(list->effect, row), percent = effect_percent(row);
    put_change(bytes, list, "Largest change", &change, &percent);
    bytes_text(bytes, ": ");
    put_place(bytes, list, &row->place);
    bytes_text(bytes, ", ");
    effect_put_coins(bytes, list, row->before.price);
    bytes_text(bytes, " to ");
    effect_put_coins(bytes, list, row->after.price);
    bytes_char(bytes, '\n');
}

/* Of all rows with both prices. */
static void put_middle(struct bytes *bytes, const struct effect_list *list, const char *label,
                       const struct amount *change, const struct amount *percent)
{
    put_change(bytes, list, label, change, percent);
    bytes_text(bytes, ", including unchanged prices\n");
}

void effect_put_sums(struct bytes *bytes, const struct effect_list *list,
                     const struct effect_summary *summary)
{
    for (size_t i = 0; i < list->effect->rows_count; i++) {
        if (!effect_row_is_quiet(list, &list->effect->rows[i])) {
            bytes_char(bytes, '\n');
            break;
        }
    }
    put_counts(bytes, list, summary->moves);
    if (!summary->largest)
        return;
    put_middle(bytes, list, "Typical change", &summary->median_change, &summary->median_percent);
    put_middle(bytes, list, "Average change", &summary->mean_change, &summary->mean_percent);
    put_largest(bytes, list, summary->largest);
}

/* ---- as JSON ---- */

/* Decimals of what is between two whole coins, beyond those of the currency; and of a share. */
#define MONEY_MORE 6
#define SHARE_PLACES 10

static void put_money(struct bytes *bytes, const struct effect_list *list, const char *name,
                      struct amount amount, unsigned more)
{
    bool exact = list->plan.exact;
    bytes_text(bytes, ", ");
    json_key(bytes, name);
    json_figure(bytes, amount, list->plan.currency.decimals + (exact ? 0 : more), exact);
}

static void put_share(struct bytes *bytes, const struct effect_list *list, const char *name,
                      struct amount amount)
{
    bool exact = list->plan.exact;
    bytes_text(bytes, ", ");
    json_key(bytes, name);
    json_figure(bytes, amount, exact ? 0 : SHARE_PLACES, exact);
}

static void put_row(struct bytes *bytes, const struct effect_list *list,
                    const struct effect_row *row)
{
    unsigned decimals = list->effect->decimals;
    groat_text label = list->labels[row->place.product];
    bytes_text(bytes, "{\"product\": ");
    json_text(bytes, label.start, label.length);
    bytes_text(bytes, ", \"channel\": ");
    json_text(bytes, row->place.channel, strlen(row->place.channel));
    bytes_format(bytes, ", \"quantity\": %" PRId64, row->place.quantity);
    put_money(bytes, list, "before", amount_of_coins(row->before.price, decimals), 0);
    put_money(bytes, list, "after", amount_of_coins(row->after.price, decimals), 0);
    put_money(bytes, list, "change", effect_change(list->effect, row), 0);
    put_share(bytes, list, "percent", effect_percent(row));
    bytes_char(bytes, '}');
}

void effect_put_summary(struct bytes *bytes, const struct effect_list *list,
                        const struct effect_summary *summary)
{
    static const char *const names[EFFECT_MOVES] = {
        [EFFECT_UNCHANGED] = "unchanged",
        [EFFECT_UP] = "up",
        [EFFECT_DOWN] = "down",
        [EFFECT_KEPT] = "kept",
        [EFFECT_NEWLY_REFUSED] = "newly_refused",
        [EFFECT_STILL_REFUSED] = "still_refused",
        [EFFECT_NO_LONGER_REFUSED] = "no_longer_refused",
        [EFFECT_NEWLY_SOLD] = "newly_sold",
        [EFFECT_NO_LONGER_SOLD] = "no_longer_sold",
    };
    bytes_format(bytes, "{\"compared\": %zu", summary->compared);
    for (size_t i = 0; i < EFFECT_MOVES; i++)
        bytes_format(bytes, ", \"%s\": %zu", names[i], summary->moves[i]);
    put_money(bytes, list, "median_change", summary->median_change, MONEY_MORE);
    put_share(bytes, list, "median_percent", summary->median_percent);
    put_money(bytes, list, "mean_change", summary->mean_change, MONEY_MORE);
    put_share(bytes, list, "mean_percent", summary->mean_percent);
    bytes_text(bytes, ", \"largest_change\": ");
    if (summary->largest)
        put_row(bytes, list, summary->largest);
    else
        bytes_text(bytes, "null");
    bytes_char(bytes, '}');
}
