#include "report/sweep_table.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "report/columns.h"
#include "report/sweep_words.h"
#include "report/words.h"

/* ---- one line in full ---- */

enum { FROM, TO, PRICE, KEEP, PROFIT, LAST_PROFIT, RUN_COLUMNS };

/* Amounts of the rate stand flush right, as long as the longest. */
static void write_value(const struct sweep_showing *showing, size_t point, size_t width, char *text)
{
    char number[SWEEP_WORD_BYTES];
    sweep_words_number(showing, &showing->sweep->values[point], number);
    snprintf(text, SWEEP_WORD_BYTES, "%*s", (int)width, number);
}

static size_t longest_value(const struct sweep_showing *showing)
{
    size_t longest = 0;
    for (size_t i = 0; i < showing->sweep->points; i++) {
        char number[SWEEP_WORD_BYTES];
        sweep_words_number(showing, &showing->sweep->values[i], number);
        longest = strlen(number) > longest ? strlen(number) : longest;
    }
    return longest;
}

static const char *note_at(const struct sweep_run *run, size_t end)
{
    return run->note[end] ? run->note[end] : "";
}

/* How many runs from this one on have one note that is the same throughout; 0: its own is not. */
static size_t runs_alike(const struct sweep_line *line, size_t index)
{
    const char *note = note_at(&line->runs[index], 0);
    size_t end = index;
    while (end < line->count && line->runs[end].outcome == GROAT_PRICED && *note &&
           strcmp(note_at(&line->runs[end], 0), note) == 0 &&
           strcmp(note_at(&line->runs[end], 1), note) == 0)
        end++;
    return end - index;
}

/* What there is to say of a run; where it is not the same throughout, of both its ends. What is
 * said of several that follow each other is said once. */
static void put_notes(struct bytes *notes, const struct sweep_showing *showing,
                      const struct sweep_line *line, size_t index)
{
    const struct sweep_run *run = &line->runs[index];
    const char *first = note_at(run, 0), *last = note_at(run, 1);
    bool same = strcmp(first, last) == 0;
    size_t alike = runs_alike(line, index);
    if (run->outcome != GROAT_PRICED) {
        sweep_words_reason(notes, run);
        bytes_char(notes, '\0');
        return;
    }
    if (alike > 0 && index > 0 && runs_alike(line, index - 1) > 1)
        return;
    if (alike > 1) {
        char to[SWEEP_WORD_BYTES];
        sweep_words_number(showing, &showing->sweep->values[run[alike - 1].last], to);
        bytes_format(notes, "from here to %s: %s%c", to, first, '\0');
        return;
    }
    if (*first)
        bytes_format(notes, "%s%s%c", same ? "" : "at From: ", first, '\0');
    if (*last && !same)
        bytes_format(notes, "at To: %s%c", last, '\0');
}

static bool add_run(const struct sweep_showing *showing, struct listing *list,
                    const struct sweep_line *line, size_t index, size_t width)
{
    const struct sweep_run *run = &line->runs[index];
    struct listing_cell *cells = listing_cells(list);
    char from[SWEEP_WORD_BYTES], to[SWEEP_WORD_BYTES];
    write_value(showing, run->first, width, from);
    write_value(showing, run->last, width, to);
    cells[FROM].text = listing_text(from);
    cells[TO].text = listing_text(to);
    cells[PRICE].amount = run->price;
    cells[KEEP].amount = run->keep[1];
    cells[PROFIT].amount = run->profit[0];
    cells[LAST_PROFIT].amount = run->profit[1];
    put_notes(listing_notes(list), showing, line, index);
    return listing_add(list, index);
}

static bool list_runs(const struct sweep_showing *showing, const struct sweep_line *line, FILE *out)
{
    char unit[SWEEP_WORD_BYTES];
    sweep_words_unit(showing->sweep, unit);
    /* Where an amount begins with its sign, that is enough beside the title. */
    const char *under = unit[0] && !showing->sweep->unit.before[0] ? unit : NULL;
    const struct listing_column columns[RUN_COLUMNS] = {
        {"from", "From", under, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
        {"to", "To", under, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
        {"price", "Price", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
        {"keep", "You keep", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
        {"profit", "Profit at From", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
        {"last_profit", "Profit at To", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    };
    struct listing *list = columns_open(&showing->plan, columns, RUN_COLUMNS, showing->method, out);
    if (!list)
        return false;
    size_t width = longest_value(showing);
    bool added = true;
    for (size_t i = 0; i < line->count && added; i++)
        added = add_run(showing, list, line, i, width);
    return listing_close(list, added) && added;
}

/* `Nest box on stall, as hourly goes from $20 to $30 per h`, and how many pieces where that is not
 * one. */
static bool write_title(const struct sweep_showing *showing, const struct price_place *place,
                        FILE *out)
{
    struct bytes title = {0};
    words_place(&title, place->product, place->channel, place->quantity);
    bytes_text(&title, ", as ");
    sweep_words_range(&title, showing);
    bytes_text(&title, "\n\n");
    bool written = bytes_flush(&title, out);
    bytes_free(&title);
    return written;
}

bool sweep_show_line(const struct sweep_showing *showing, const struct price_place *place,
                     const struct sweep_line *line, FILE *out)
{
    size_t points = showing->sweep->points;
    double *numbers = calloc(points, sizeof *numbers);
    errno = ENOMEM;
    if (!numbers)
        return false;
    sweep_line_draw(line, points, numbers);
    struct sweep_chart_words words;
    struct chart_series series = {place->channel, numbers, 0};
    struct chart chart = sweep_words_chart(showing, &words);
    struct chart_pen pen = {showing->plan.width, showing->plain, listing_mark(&showing->plan)};
    chart.series = &series;
    chart.series_count = 1;
    bool none = sweep_line_prices(line) == 0; /* and nothing to draw */
    bool written = write_title(showing, place, out) &&
                   (none || (chart_steps(&chart, 0, &pen, out) && fputc('\n', out) != EOF)) &&
                   list_runs(showing, line, out);
    int why = errno;
    free(numbers);
    errno = why;
    return written;
}

/* ---- many lines ---- */

enum { AT_FROM = 3, AT_TO, CHANGES, STRIP, COLUMNS };

#define STRIP_CELLS 30        /* of a wide table */
#define STRIP_CELLS_NARROW 16 /* of one narrower than WIDE */
#define WIDE 90

struct sweep_summary {
    const struct sweep_showing *showing;
    struct listing *list;
    struct listing_column columns[COLUMNS];
    char from[SWEEP_WORD_BYTES], to[SWEEP_WORD_BYTES], range[2 * SWEEP_WORD_BYTES + 8];
    double *numbers;
};

static void name_columns(struct sweep_summary *summary)
{
    const struct sweep *sweep = summary->showing->sweep;
    char from[SWEEP_WORD_BYTES], to[SWEEP_WORD_BYTES];
    sweep_words_ends(summary->showing, from, to);
    snprintf(summary->from, sizeof summary->from, "%.60s%s", from, sweep->unit.after);
    snprintf(summary->to, sizeof summary->to, "%.60s%s", to, sweep->unit.after);
    snprintf(summary->range, sizeof summary->range, "%s to %s", from, summary->to);
    const struct listing_column columns[COLUMNS] = {
        COLUMNS_OF_PLACE,
        {"from", "Price at", summary->from, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
        {"to", "Price at", summary->to, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
        {"changes", "Price changes", NULL, LISTING_WHOLE, LISTING_ALWAYS, false, NULL},
        {"strip", sweep->rate, summary->range, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    };
    memcpy(summary->columns, columns, sizeof columns);
}

struct sweep_summary *sweep_summary_open(const struct sweep_showing *showing, FILE *out)
{
    struct sweep_summary *summary = calloc(1, sizeof *summary);
    if (!summary)
        return NULL;
    summary->showing = showing;
    name_columns(summary);
    summary->numbers = calloc(showing->sweep->points, sizeof *summary->numbers);
    if (summary->numbers)
        summary->list =
            columns_open(&showing->plan, summary->columns, COLUMNS, showing->method, out);
    if (summary->list)
        return summary;
    sweep_summary_close(summary, false);
    return NULL;
}

bool sweep_summary_add(struct sweep_summary *summary, const struct price_place *place,
                       const struct sweep_line *line)
{
    const struct sweep_showing *showing = summary->showing;
    size_t points = showing->sweep->points, prices = sweep_line_prices(line);
    size_t width = showing->plan.width < WIDE ? STRIP_CELLS_NARROW : STRIP_CELLS;
    char strip[STRIP_CELLS * CHART_CELL_BYTES + 1];
    struct listing_cell *cells = listing_cells(summary->list);
    if (!sweep_line_sold(line))
        return true;
    sweep_line_draw(line, points, summary->numbers);
    size_t length = chart_strip(summary->numbers, points, width < points ? width : points,
                                showing->plain, strip, sizeof strip);
    columns_take_place(cells, place);
    cells[AT_FROM].amount = line->runs[0].price;
    cells[AT_TO].amount = line->runs[line->count - 1].price;
    cells[CHANGES].amount = amount_whole(prices > 0 ? (int64_t)prices - 1 : 0);
    cells[STRIP].text = (groat_text){strip, length};
    if (sweep_say_without(listing_notes(summary->list), showing, line))
        bytes_char(listing_notes(summary->list), '\0');
    return listing_add(summary->list, place->row);
}

bool sweep_summary_close(struct sweep_summary *summary, bool whole)
{
    bool written = !summary->list || listing_close(summary->list, whole);
    int why = errno;
    free(summary->numbers);
    free(summary);
    errno = why;
    return written;
}
