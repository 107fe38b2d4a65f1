#include "report/effect_list.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "report/columns.h"
#include "report/effect_form.h"

enum {
    PRODUCT,
    CHANNEL,
    QUANTITY,
    OUTCOME_BEFORE,
    OUTCOME,
    CURRENCY,
    BEFORE,
    AFTER,
    CHANGE,
    PERCENT,
    COLUMNS
};

static const struct listing_column columns[COLUMNS] = {
    COLUMNS_OF_PLACE,
    {"outcome_before", NULL, NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    COLUMNS_OF_OUTCOME,
    {"before", "Was", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    {"after", "Now", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    {"change", "Change", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    {"percent", "Percent", NULL, LISTING_SHARE, LISTING_ALWAYS, false, NULL},
};

/* Refused now, and so as far as is known before. */
static bool is_refused_as_before(const struct effect_list *list, const struct effect_row *row)
{
    if (row->move != EFFECT_STILL_REFUSED)
        return false;
    if (!row->known)
        return list->from_list; /* which has no refused products */
    return row->before.outcome == row->after.outcome &&
           strcmp(row->before.reason, row->after.reason) == 0;
}

bool effect_row_is_quiet(const struct effect_list *list, const struct effect_row *row)
{
    if (is_refused_as_before(list, row))
        return true;
    return row->move == EFFECT_UNCHANGED && row->hold == EFFECT_NO_HOLD && !row->news;
}

/* ---- rows ---- */

static struct amount price_of(const struct effect_ticket *ticket, unsigned decimals)
{
    return ticket->outcome == GROAT_PRICED ? amount_of_coins(ticket->price, decimals)
                                           : (struct amount){0};
}

static bool add_row(const struct effect_list *list, struct listing *listing,
                    const struct effect_row *row)
{
    struct listing_cell *cells = listing_cells(listing);
    columns_take_place(cells,
                       &(struct price_place){row->place.product, list->labels[row->place.product],
                                             row->place.channel, row->place.quantity});
    if (row->known) /* a list does not say what it leaves out */
        cells[OUTCOME_BEFORE].text = listing_text(columns_outcome(row->before.outcome));
    columns_take_outcome(cells + OUTCOME, row->after.outcome, list->plan.currency);
    cells[BEFORE].amount = price_of(&row->before, list->effect->decimals);
    cells[AFTER].amount = price_of(&row->after, list->effect->decimals);
    cells[CHANGE].amount = effect_change(list->effect, row);
    cells[PERCENT].amount = effect_percent(row);
    effect_put_notes(listing_notes(listing), list, row);
    return listing_add(listing, row->place.product);
}

/* Appends the sums for JSON. Returns false when memory runs out. */
static bool put_summary(const struct effect_list *list, struct bytes *text)
{
    struct effect_summary summary;
    bool summed = effect_sum_up(list->effect, &summary);
    if (summed)
        effect_put_summary(text, list, &summary);
    effect_summary_close(&summary);
    errno = ENOMEM;
    return summed;
}

static bool write_rows(const struct effect_list *list, FILE *out)
{
    const struct effect *effect = list->effect;
    bool table = list->plan.form == LISTING_TABLE;
    size_t shown = 0;
    struct listing_plan plan = list->plan;
    plan.columns = columns;
    plan.columns_count = COLUMNS;
    struct listing *listing = listing_open(&plan, out);
    bool written = listing != NULL;
    for (size_t i = 0; written && i < effect->rows_count; i++) {
        const struct effect_row *row = &effect->rows[i];
        if (table && effect_row_is_quiet(list, row))
            continue;
        written = add_row(list, listing, row);
        shown++;
    }
    if (!listing)
        return false;
    if (written && list->plan.form == LISTING_JSON)
        written = put_summary(list, listing_summary(listing));
    bool whole = written && (shown > 0 || !table); /* no headings over nothing */
    return listing_close(listing, whole) && written;
}

/* ---- the whole ---- */

/* The sums below a table. */
static bool write_sums(const struct effect_list *list, FILE *out)
{
    struct effect_summary summary;
    struct bytes text = {0};
    bool summed = effect_sum_up(list->effect, &summary);
    if (summed)
        effect_put_sums(&text, list, &summary);
    errno = ENOMEM;
    bool written = summed && bytes_flush(&text, out);
    int why = errno;
    effect_summary_close(&summary);
    bytes_free(&text);
    errno = why;
    return written;
}

bool effect_list_write(const struct effect_list *list, FILE *out)
{
    bool table = list->plan.form == LISTING_TABLE;
    return write_rows(list, out) && (!table || write_sums(list, out));
}
