/* Lists of what rates do to prices. */
#include "report/drivers_list.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "chart/chart.h"
#include "report/columns.h"
#include "report/words.h"

#define BAR_CELLS 20
#define BAR_CELLS_NARROW 10 /* in a table narrower than WIDE */
#define WIDE 112
#define SHARE_PLACES 3 /* of a percentage */
#define SHARE_WIDTH 8  /* `+12.345%` */
#define WORD_BYTES 192
#define TITLE_BYTES 256

static double size_of(const struct amount *share)
{
    return share->there ? fabs(amount_double(*share)) : 0;
}

/* A share as a table shows it. */
struct seen_share {
    char bar[BAR_CELLS * CHART_CELL_BYTES + 1]; /* beside the largest one */
    char text[WORD_BYTES];
};

/* `+0.431%`, padded to the width of any share below 100%; empty if there is none. */
static void write_share(const struct drivers_showing *showing, const struct amount *share,
                        char text[WORD_BYTES])
{
    struct amounts room;
    char digits[WORD_BYTES / 2] = "0", whole[WORD_BYTES];
    int sign = amount_sign(*share);
    amounts_open(&room);
    if (sign != 0)
        amount_places(amount_times(&room, *share, 100), SHARE_PLACES, listing_mark(&showing->plan),
                      digits, sizeof digits);
    amounts_close(&room);
    snprintf(whole, sizeof whole, "%s%s%%", sign > 0 ? "+" : "", digits);
    snprintf(text, WORD_BYTES, "%*s", SHARE_WIDTH, share->there ? whole : "");
}

static void show_share(const struct drivers_showing *showing, const struct amount *share,
                       double largest, struct seen_share *seen)
{
    double part = share->there && largest > 0 ? amount_double(*share) / largest : 0;
    size_t cells = showing->plan.width < WIDE ? BAR_CELLS_NARROW : BAR_CELLS;
    chart_bar(part, cells, showing->plain, seen->bar, sizeof seen->bar);
    write_share(showing, share, seen->text);
}

/* A sentence that says what the list is about. */
static void write_title(const struct drivers_showing *showing, const struct drivers_totals *totals,
                        char title[TITLE_BYTES])
{
    const char *change = showing->change;
    snprintf(title, TITLE_BYTES, "Each rate %.40s %s: the effect on %zu price%s before rounding",
             change + 1, change[0] == '-' ? "lower" : "higher", totals->prices,
             totals->prices == 1 ? "" : "s");
}

/* What a bar below zero is, under the table. */
static bool say_falls(const struct drivers_showing *showing, FILE *out)
{
    char bar[CHART_CELL_BYTES + 1];
    chart_bar(-1, 1, showing->plain, bar, sizeof bar);
    return fprintf(out, "\n%s marks a price that falls.\n", bar) >= 0;
}

/* ---- all prices together ---- */

enum {
    RATE,
    VALUE,
    SEEN_BAR,
    SEEN_MEAN,
    MEAN,
    SEEN_LARGEST,
    LARGEST,
    FOUND_ON,
    LARGEST_PRODUCT,
    LARGEST_CHANNEL,
    MOVED,
    PRICES,
    COLUMNS
};

static const struct listing_column columns[COLUMNS] = {
    [RATE] = {"rate", "Rate", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [VALUE] = {"value", "Now", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [SEEN_BAR] = {NULL, "Average", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [SEEN_MEAN] = {NULL, "", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [MEAN] = {"percent_mean", NULL, NULL, LISTING_RATIO, LISTING_ALWAYS, false, NULL},
    [SEEN_LARGEST] = {NULL, "Largest", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [LARGEST] = {"percent_largest", NULL, NULL, LISTING_RATIO, LISTING_ALWAYS, false, NULL},
    [FOUND_ON] = {NULL, "Found on", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [LARGEST_PRODUCT] = {"product_largest", NULL, NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [LARGEST_CHANNEL] = {"channel_largest", NULL, NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [MOVED] = {"moved", "Prices changed", NULL, LISTING_WHOLE, LISTING_ALWAYS, false, NULL},
    [PRICES] = {"prices", NULL, NULL, LISTING_WHOLE, LISTING_ALWAYS, false, NULL},
};

static void put_total_note(struct bytes *notes, const struct drivers_showing *showing,
                           const struct drivers_totals *totals, size_t rate)
{
    const struct drivers_total *total = &totals->rates[rate];
    const char *still = drivers_still(showing->drivers, rate);
    if (still)
        bytes_format(notes, "%s%c", still, '\0');
    else if (total->lost > 0)
        bytes_format(notes, "%zu of %zu prices %s refused or missing at this rate%c", total->lost,
                     totals->prices, total->lost == 1 ? "is" : "are", '\0');
    else if (total->prices > 0 && total->moved == 0)
        bytes_format(notes, "none of these prices depends on it%c", '\0');
}

/* `largest` is the largest mean, by size. */
static bool add_total(struct listing *list, const struct drivers_showing *showing,
                      const struct drivers_totals *totals, size_t rate, double largest,
                      const struct price_place *found)
{
    const struct drivers_total *total = &totals->rates[rate];
    struct listing_cell *cells = listing_cells(list);
    char value[WORD_BYTES], share[WORD_BYTES];
    struct seen_share mean;
    struct bytes where = {0};
    words_rate(showing->method, rate, &showing->plan, value, sizeof value);
    show_share(showing, &total->mean, largest, &mean);
    cells[RATE].text = listing_text(groat_method_rate(showing->method, rate).name);
    cells[VALUE].text = listing_text(value);
    cells[SEEN_BAR].text = listing_text(mean.bar);
    cells[SEEN_MEAN].text = listing_text(mean.text);
    cells[MEAN].amount = total->mean;
    cells[LARGEST].amount = total->largest;
    if (found) {
        write_share(showing, &total->largest, share);
        bytes_put(&where, found->product.start, found->product.length);
        bytes_format(&where, ", %s", found->channel);
        cells[SEEN_LARGEST].text = listing_text(share);
        cells[FOUND_ON].text = (groat_text){where.start, where.length};
        cells[LARGEST_PRODUCT].text = found->product;
        cells[LARGEST_CHANNEL].text = listing_text(found->channel);
    }
    cells[MOVED].amount = amount_whole((int64_t)total->moved);
    cells[PRICES].amount = amount_whole((int64_t)total->prices);
    put_total_note(listing_notes(list), showing, totals, rate);
    errno = ENOMEM;
    bool added = !where.failed && listing_add(list, rate);
    bytes_free(&where);
    return added;
}

bool drivers_list_totals(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         drivers_namer *name, void *context, FILE *out)
{
    bool table = showing->plan.form == LISTING_TABLE, falls = false;
    double largest = 0;
    struct listing_column headed[COLUMNS];
    struct listing_plan plan = showing->plan;
    char average[WORD_BYTES], title[TITLE_BYTES];
    memcpy(headed, columns, sizeof headed);
    snprintf(average, sizeof average, "of all %zu", totals->prices);
    headed[SEEN_BAR].unit = average;
    plan.ranked = true;
    write_title(showing, totals, title);
    if (table && fprintf(out, "%s\n\n", title) < 0)
        return false;
    struct listing *list = columns_open(&plan, headed, COLUMNS, showing->method, out);
    if (!list)
        return false;
    for (size_t i = 0; i < totals->count; i++) {
        largest = fmax(largest, size_of(&totals->rates[i].mean));
        falls = falls || amount_sign(totals->rates[i].mean) < 0;
    }
    bool added = true;
    for (size_t i = 0; i < totals->count && added; i++) {
        size_t rate = totals->order[i];
        struct price_place found = {0};
        bool moved = totals->rates[rate].moved > 0;
        if (moved)
            found = name(context, &totals->rates[rate].place);
        added = add_total(list, showing, totals, rate, largest, moved ? &found : NULL);
    }
    return listing_close(list, added) && added && (!table || !falls || say_falls(showing, out));
}

bool drivers_draw_totals(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         FILE *out)
{
    struct chart_row *rows = calloc(totals->count + 1, sizeof *rows);
    char(*texts)[WORD_BYTES] = calloc(totals->count + 1, sizeof *texts);
    char title[TITLE_BYTES];
    errno = ENOMEM;
    bool written = rows && texts;
    for (size_t i = 0; written && i < totals->count; i++) {
        const struct drivers_total *total = &totals->rates[totals->order[i]];
        write_share(showing, &total->mean, texts[i]);
        rows[i] = (struct chart_row){groat_method_rate(showing->method, totals->order[i]).name,
                                     texts[i] + strspn(texts[i], " "),
                                     total->mean.there ? amount_double(total->mean) : 0};
    }
    write_title(showing, totals, title);
    written = written && chart_svg_bars("Which rate moves prices most", title,
                                        "to the left: prices fall", rows, totals->count, out);
    int why = errno;
    free(rows);
    free(texts);
    errno = why;
    return written;
}

/* ---- one price after the other ---- */

enum {
    OF_RATE = 3,
    OF_BAR,
    OF_SHARE,
    BEFORE,
    SEEN_BEFORE,
    AFTER,
    SEEN_AFTER,
    CHANGE,
    PERCENT,
    EACH
};

static const struct listing_column each[EACH] = {
    COLUMNS_OF_PLACE,
    [OF_RATE] = {"rate", "Rate", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [OF_BAR] = {NULL, "Change", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [OF_SHARE] = {NULL, "", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    [BEFORE] = {"before", NULL, NULL, LISTING_MONEY_EXACT, LISTING_ALWAYS, false, NULL},
    [SEEN_BEFORE] = {NULL, "Unrounded price", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [AFTER] = {"after", NULL, NULL, LISTING_MONEY_EXACT, LISTING_ALWAYS, false, NULL},
    [SEEN_AFTER] = {NULL, "Then", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [CHANGE] = {"change", NULL, NULL, LISTING_MONEY_EXACT, LISTING_ALWAYS, false, NULL},
    [PERCENT] = {"percent", NULL, NULL, LISTING_RATIO, LISTING_ALWAYS, false, NULL},
};

struct listing *drivers_list_open(const struct drivers_showing *showing, FILE *out)
{
    return columns_open(&showing->plan, each, EACH, showing->method, out);
}

/* Returns whether there is something to note. */
static bool put_move_note(struct bytes *notes, const struct drivers_move *move, const char *still)
{
    if (still)
        bytes_format(notes, "%s%c", still, '\0');
    else if (move->outcome == GROAT_NOT_SOLD)
        bytes_format(notes, "no longer sold there with this change%c", '\0');
    else if (move->outcome != GROAT_PRICED)
        bytes_format(notes, "%s then: %s%c",
                     move->outcome == GROAT_REFUSED ? "refused" : "no price",
                     move->reason ? move->reason : "", '\0');
    return still || move->outcome != GROAT_PRICED;
}

/* `largest` is the largest share of the price, by size. */
static bool add_move(struct listing *list, const struct drivers_showing *showing,
                     const struct price_place *place, const struct drivers_result *result,
                     size_t rate, double largest)
{
    const struct drivers_move *move = &result->moves[rate];
    const char *still = drivers_still(showing->drivers, rate);
    struct listing_cell *cells = listing_cells(list);
    struct seen_share seen;
    bool noted = put_move_note(listing_notes(list), move, still);
    bool nothing = !noted && move->share.there && size_of(&move->share) == 0;
    if (showing->plan.form == LISTING_TABLE && (nothing || still)) {
        listing_drop(list);
        return true;
    }
    show_share(showing, &move->share, largest, &seen);
    columns_take_place(cells, place);
    cells[OF_RATE].text = listing_text(groat_method_rate(showing->method, rate).name);
    cells[OF_BAR].text = listing_text(seen.bar);
    cells[OF_SHARE].text = listing_text(seen.text);
    cells[BEFORE].amount = cells[SEEN_BEFORE].amount = result->before;
    cells[AFTER].amount = cells[SEEN_AFTER].amount = move->after;
    cells[CHANGE].amount = move->change;
    cells[PERCENT].amount = move->share;
    return listing_add(list, place->row);
}

bool drivers_list_add(struct listing *list, const struct drivers_showing *showing,
                      const struct price_place *place, const struct drivers_result *result)
{
    size_t *order = calloc(result->count + 1, sizeof *order);
    errno = ENOMEM;
    if (!order)
        return false;
    drivers_rank_moves(result, order);
    double largest = result->count > 0 ? size_of(&result->moves[order[0]].share) : 0;
    bool added = true;
    for (size_t i = 0; i < result->count && added; i++)
        added = add_move(list, showing, place, result, order[i], largest);
    int why = errno;
    free(order);
    errno = why;
    return added;
}

bool drivers_list_close(struct listing *list, const struct drivers_showing *showing,
                        const struct drivers_totals *totals, bool whole, FILE *out)
{
    size_t fallen = 0;
    for (size_t i = 0; i < totals->count; i++)
        fallen += totals->rates[i].fallen;
    bool said = whole && fallen > 0 && showing->plan.form == LISTING_TABLE;
    return listing_close(list, whole) && (!said || say_falls(showing, out));
}
