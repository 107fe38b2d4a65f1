/* Lists of what rates do to prices. */
#include "report/drivers_list.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "chart/chart.h"
#include "report/drivers_words.h"
#include "report/words.h"

#define BAR_CELLS 20
#define BAR_CELLS_NARROW 10 /* in a table narrower than WIDE */
#define WIDE 112

static double size_of(const struct amount *share)
{
    return share->there ? fabs(amount_double(*share)) : 0;
}

/* The bar of a share beside the largest one. */
static void write_bar(const struct drivers_showing *showing, const struct amount *share,
                      double largest, char *bar, size_t size)
{
    double part = share->there && largest > 0 ? amount_double(*share) / largest : 0;
    size_t cells = showing->plan.width < WIDE ? BAR_CELLS_NARROW : BAR_CELLS;
    chart_bar(part, cells, showing->plain, bar, size);
}

static struct listing_plan plan_of(const struct drivers_showing *showing,
                                   const struct listing_column *columns, size_t count)
{
    struct listing_plan plan = showing->plan;
    plan.columns = columns;
    plan.columns_count = count;
    plan.currency = groat_method_currency(showing->method);
    return plan;
}

/* ---- all prices together ---- */

/* As data. */
enum { RATE, VALUE, MEAN, LARGEST, LARGEST_PRODUCT, LARGEST_CHANNEL, MOVED, PRICES, COLUMNS };

static const struct listing_column columns[COLUMNS] = {
    {"rate", "Rate", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"value", "Now", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"percent_mean", "Mean", NULL, LISTING_NUMBER, LISTING_ALWAYS, false},
    {"percent_largest", "Largest", NULL, LISTING_NUMBER, LISTING_ALWAYS, false},
    {"product_largest", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"channel_largest", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"moved", "Moved", NULL, LISTING_WHOLE, LISTING_ALWAYS, false},
    {"prices", "Prices", NULL, LISTING_WHOLE, LISTING_ALWAYS, false},
};

/* For a person. */
enum { SEEN_RATE, SEEN_VALUE, SEEN_BAR, SEEN_MEAN, SEEN_LARGEST, SEEN_WHERE, SEEN_MOVED, SEEN };

static const struct listing_column seen[SEEN] = {
    {"rate", "Rate", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"value", "Now", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"bar", "Average", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"mean", "", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"largest", "Largest", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"where", "Found on", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"moved", "Prices changed", NULL, LISTING_WHOLE, LISTING_ALWAYS, false},
};

struct totals_list {
    const struct drivers_showing *showing;
    const struct drivers_totals *totals;
    drivers_namer *name;
    void *context;
    struct listing *list;
    double largest; /* mean, by size */
};

static bool add_data(struct totals_list *list, const struct drivers_total *total, size_t rate,
                     struct listing_row *row, const char *value)
{
    struct listing_cell cells[COLUMNS] = {0};
    cells[RATE].text = listing_text(groat_method_rate(list->showing->method, rate).name);
    cells[VALUE].text = listing_text(value);
    cells[MEAN].amount = &total->mean;
    cells[LARGEST].amount = &total->largest;
    if (total->moved > 0) {
        struct price_place place = list->name(list->context, &total->place);
        cells[LARGEST_PRODUCT].text = place.product;
        cells[LARGEST_CHANNEL].text = listing_text(place.channel);
    }
    cells[MOVED].whole = (int64_t)total->moved;
    cells[PRICES].whole = (int64_t)total->prices;
    row->cells = cells;
    return listing_add(list->list, row);
}

static bool add_seen(struct totals_list *list, const struct drivers_total *total, size_t rate,
                     struct listing_row *row, const char *value)
{
    struct listing_cell cells[SEEN] = {0};
    char bar[BAR_CELLS * CHART_CELL_BYTES + 1], mean[DRIVERS_WORD_BYTES],
        largest[DRIVERS_WORD_BYTES], where[DRIVERS_NOTE_BYTES] = "";
    write_bar(list->showing, &total->mean, list->largest, bar, sizeof bar);
    drivers_words_share(list->showing, &total->mean, mean);
    drivers_words_share(list->showing, &total->largest, largest);
    if (total->moved > 0) {
        struct price_place place = list->name(list->context, &total->place);
        snprintf(where, sizeof where, "%.*s, %s",
                 place.product.length < 200 ? (int)place.product.length : 200, place.product.start,
                 place.channel);
    } else {
        largest[0] = '\0';
    }
    cells[SEEN_RATE].text = listing_text(groat_method_rate(list->showing->method, rate).name);
    cells[SEEN_VALUE].text = listing_text(value);
    cells[SEEN_BAR].text = listing_text(bar);
    cells[SEEN_MEAN].text = listing_text(mean);
    cells[SEEN_LARGEST].text = listing_text(largest);
    cells[SEEN_WHERE].text = listing_text(where);
    cells[SEEN_MOVED].whole = (int64_t)total->moved;
    row->cells = cells;
    return listing_add(list->list, row);
}

static bool add_total(struct totals_list *list, size_t rate)
{
    const struct drivers_showing *showing = list->showing;
    const struct drivers_total *total = &list->totals->rates[rate];
    char value[DRIVERS_WORD_BYTES], note[DRIVERS_NOTE_BYTES];
    const char *notes[] = {note};
    words_rate(showing->method, rate, &showing->plan, value, sizeof value);
    struct listing_row row = {.notes = notes, .group = rate};
    row.notes_count = drivers_words_note(showing, list->totals, rate, note);
    if (showing->plan.form != LISTING_TABLE)
        return add_data(list, total, rate, &row, value);
    return add_seen(list, total, rate, &row, value);
}

/* What a bar below zero is, under the table. */
static bool say_falls(const struct drivers_showing *showing, bool falls, FILE *out)
{
    char bar[CHART_CELL_BYTES + 1];
    chart_bar(-1, 1, showing->plain, bar, sizeof bar);
    return !falls || fprintf(out, "\n%s marks a price that falls.\n", bar) >= 0;
}

bool drivers_list_totals(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         drivers_namer *name, void *context, FILE *out)
{
    bool table = showing->plan.form == LISTING_TABLE, falls = false;
    struct listing_column headed[SEEN];
    char average[DRIVERS_WORD_BYTES];
    memcpy(headed, seen, sizeof headed);
    snprintf(average, sizeof average, "of all %zu", totals->prices);
    headed[SEEN_BAR].unit = average;
    struct listing_plan plan =
        table ? plan_of(showing, headed, SEEN) : plan_of(showing, columns, COLUMNS);
    plan.ranked = true;
    struct totals_list list = {showing, totals, name, context, NULL, 0};
    if (table) {
        char title[DRIVERS_NOTE_BYTES];
        drivers_words_title(showing, totals, title);
        if (fprintf(out, "%s\n\n", title) < 0)
            return false;
    }
    list.list = listing_open(&plan, out);
    if (!list.list)
        return false;
    for (size_t i = 0; i < totals->count; i++) {
        list.largest = fmax(list.largest, size_of(&totals->rates[i].mean));
        falls = falls || amount_sign(totals->rates[i].mean) < 0;
    }
    bool added = true;
    for (size_t i = 0; i < totals->count && added; i++)
        added = add_total(&list, totals->order[i]);
    return listing_close(list.list, added) && added && say_falls(showing, table && falls, out);
}

bool drivers_list_close(struct listing *list, const struct drivers_showing *showing,
                        const struct drivers_totals *totals, bool whole, FILE *out)
{
    size_t fallen = 0;
    for (size_t i = 0; i < totals->count; i++)
        fallen += totals->rates[i].fallen;
    bool said = whole && fallen > 0 && showing->plan.form == LISTING_TABLE;
    return listing_close(list, whole) && say_falls(showing, said, out);
}

bool drivers_draw_totals(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         FILE *out)
{
    struct chart_row *rows = calloc(totals->count + 1, sizeof *rows);
    char(*texts)[DRIVERS_WORD_BYTES] = calloc(totals->count + 1, sizeof *texts);
    char title[DRIVERS_NOTE_BYTES];
    errno = ENOMEM;
    bool written = rows && texts;
    for (size_t i = 0; written && i < totals->count; i++) {
        const struct drivers_total *total = &totals->rates[totals->order[i]];
        drivers_words_share(showing, &total->mean, texts[i]);
        rows[i] = (struct chart_row){groat_method_rate(showing->method, totals->order[i]).name,
                                     texts[i] + strspn(texts[i], " "),
                                     total->mean.there ? amount_double(total->mean) : 0};
    }
    drivers_words_title(showing, totals, title);
    written = written && chart_svg_bars("Which rate moves prices most", title,
                                        "to the left: prices fall", rows, totals->count, out);
    int why = errno;
    free(rows);
    free(texts);
    errno = why;
    return written;
}

/* ---- one price after the other ---- */

enum { OF_PRODUCT, OF_CHANNEL, OF_QUANTITY, OF_RATE, BEFORE, AFTER, CHANGE, PERCENT, EACH };

static const struct listing_column each[EACH] = {
    {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"quantity", "Pieces", NULL, LISTING_WHOLE, LISTING_UNLESS_ONE, false},
    {"rate", "Rate", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"before", "Before", NULL, LISTING_NUMBER, LISTING_ALWAYS, false},
    {"after", "After", NULL, LISTING_NUMBER, LISTING_ALWAYS, false},
    {"change", "Change", NULL, LISTING_NUMBER, LISTING_ALWAYS, false},
    {"percent", "Percent", NULL, LISTING_NUMBER, LISTING_ALWAYS, false},
};

enum {
    IN_PRODUCT,
    IN_CHANNEL,
    IN_QUANTITY,
    IN_RATE,
    IN_BAR,
    IN_PERCENT,
    IN_BEFORE,
    IN_AFTER,
    EACH_SEEN
};

static const struct listing_column each_seen[EACH_SEEN] = {
    {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"quantity", "Pieces", NULL, LISTING_WHOLE, LISTING_UNLESS_ONE, false},
    {"rate", "Rate", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"bar", "Change", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"percent", "", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    {"before", "Unrounded price", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"after", "Then", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
};

struct listing *drivers_list_open(const struct drivers_showing *showing, FILE *out)
{
    bool table = showing->plan.form == LISTING_TABLE;
    struct listing_plan plan =
        table ? plan_of(showing, each_seen, EACH_SEEN) : plan_of(showing, each, EACH);
    return listing_open(&plan, out);
}

static void name_row(struct listing_cell *cells, const struct price_place *place, const char *rate)
{
    cells[OF_PRODUCT].text = place->product;
    cells[OF_CHANNEL].text = listing_text(place->channel);
    cells[OF_QUANTITY].whole = place->quantity;
    cells[OF_RATE].text = listing_text(rate);
}

static bool add_each(struct listing *list, const struct price_place *place, const char *rate,
                     const struct drivers_result *result, const struct drivers_move *move,
                     struct listing_row *row)
{
    struct listing_cell cells[EACH] = {0};
    name_row(cells, place, rate);
    cells[BEFORE].amount = &result->before;
    cells[AFTER].amount = &move->after;
    cells[CHANGE].amount = &move->change;
    cells[PERCENT].amount = &move->share;
    row->cells = cells;
    return listing_add(list, row);
}

static bool add_each_seen(struct listing *list, const struct drivers_showing *showing,
                          const struct price_place *place, const char *rate,
                          const struct drivers_result *result, const struct drivers_move *move,
                          double largest, struct listing_row *row)
{
    struct listing_cell cells[EACH_SEEN] = {0};
    char bar[BAR_CELLS * CHART_CELL_BYTES + 1], percent[DRIVERS_WORD_BYTES];
    write_bar(showing, &move->share, largest, bar, sizeof bar);
    drivers_words_share(showing, &move->share, percent);
    name_row(cells, place, rate);
    cells[IN_BAR].text = listing_text(bar);
    cells[IN_PERCENT].text = listing_text(percent);
    cells[IN_BEFORE].amount = &result->before;
    cells[IN_AFTER].amount = &move->after;
    row->cells = cells;
    return listing_add(list, row);
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
    for (size_t i = 0; i < result->count && added; i++) {
        const struct drivers_move *move = &result->moves[order[i]];
        const char *rate = groat_method_rate(showing->method, order[i]).name;
        char note[DRIVERS_NOTE_BYTES];
        const char *notes[] = {note};
        struct listing_row row = {.notes = notes, .group = place->row};
        row.notes_count = drivers_words_move_note(showing, move, order[i], note);
        bool nothing = row.notes_count == 0 && move->share.there && size_of(&move->share) == 0;
        bool still = drivers_still(showing->drivers, order[i]);
        if (showing->plan.form != LISTING_TABLE)
            added = add_each(list, place, rate, result, move, &row);
        else if (!nothing && !still)
            added = add_each_seen(list, showing, place, rate, result, move, largest, &row);
    }
    int why = errno;
    free(order);
    errno = why;
    return added;
}
