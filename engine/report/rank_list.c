#include "report/rank_list.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "report/columns.h"
#include "report/words.h"

enum {
    PRODUCT,
    PLACE,
    CHANNEL,
    QUANTITY,
    OUTCOME,
    CURRENCY,
    FIRST_FIGURE,
    BEFORE_GAP = FIRST_FIGURE + RANK_FIGURES
};
enum { COLUMNS_MOST = BEFORE_GAP + 2 }; /* with what it is ranked by, and the gap */

struct rank_list {
    struct listing *list;
    const groat_method *method;
    groat_currency currency;
    struct listing_column columns[COLUMNS_MOST];
    size_t count;
    bool value_shown; /* in a column of its own */
    char *heading;    /* of that */
    size_t groups;    /* so far: a table says the product once in each */
    bool for_the_eye; /* it is a table */
};

static const struct listing_column fixed[BEFORE_GAP] = {
    {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    {"place", "Place", NULL, LISTING_WHOLE, LISTING_ALWAYS, false, NULL},
    {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL},
    {"quantity", "Pieces", NULL, LISTING_PIECES, LISTING_UNLESS_ONE, false, NULL},
    COLUMNS_OF_OUTCOME,
    {"price", "Price", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    {"keep", "You keep", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    {"profit", "Profit", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    {"margin", "Margin", NULL, LISTING_SHARE, LISTING_ALWAYS, false, NULL},
    {"take_home", "Take-home", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
};

/* The column of a name that none of the fixed ones is about. */
static bool value_column(struct rank_list *list, const char *by, const char *measure)
{
    struct listing_column *column = &list->columns[BEFORE_GAP];
    for (size_t i = 0; i < groat_method_shows(list->method); i++) {
        if (strcmp(groat_method_show(list->method, i).name, by) != 0)
            continue;
        bool made = columns_make_show(column, list->method, i);
        list->heading = (char *)column->heading;
        column->extra = false;
        return made;
    }
    list->heading = columns_words(by);
    *column = (struct listing_column){by,
                                      list->heading,
                                      NULL,
                                      columns_is_whole(by) ? LISTING_COINS : LISTING_NUMBER,
                                      LISTING_ALWAYS,
                                      false,
                                      measure};
    return list->heading != NULL;
}

static bool make_columns(struct rank_list *list, const char *by, groat_kind kind)
{
    const char *measure =
        kind == GROAT_KIND_MONEY ? groat_method_currency(list->method).code : NULL;
    memcpy(list->columns, fixed, sizeof fixed);
    list->value_shown = true;
    enum listing_look look = columns_is_whole(by) ? LISTING_COINS : LISTING_NUMBER;
    for (size_t i = FIRST_FIGURE; i < BEFORE_GAP; i++) {
        if (strcmp(fixed[i].name, by) != 0)
            continue;
        list->value_shown = false;
        look = fixed[i].look == LISTING_SHARE ? LISTING_SHARE : look;
    }
    list->count = BEFORE_GAP + list->value_shown + 1;
    if (list->value_shown && !value_column(list, by, measure))
        return false;
    const char *unit = list->value_shown ? list->columns[BEFORE_GAP].unit : NULL;
    if (list->value_shown)
        look = list->columns[BEFORE_GAP].look;
    list->columns[list->count - 1] =
        (struct listing_column){"gap", "Gap to first", unit, look, LISTING_ALWAYS, false, measure};
    return true;
}

struct rank_list *rank_list_open(const groat_method *method, const struct listing_plan *plan,
                                 const char *by, groat_kind kind, FILE *out)
{
    struct rank_list *list = calloc(1, sizeof *list);
    if (!list)
        return NULL;
    list->method = method;
    list->currency = groat_method_currency(method);
    list->for_the_eye = plan->form == LISTING_TABLE;
    struct listing_plan whole = *plan;
    whole.nothing = NOTHING_PRICED;
    if (make_columns(list, by, kind) &&
        (list->list = columns_open(&whole, list->columns, list->count, method, out)))
        return list;
    rank_list_close(list, false);
    return NULL;
}

static bool add_place(struct rank_list *list, groat_text product, const struct rank_place *place,
                      groat_kind kind)
{
    struct listing_cell *cells = listing_cells(list->list);
    cells[PRODUCT].text = product;
    cells[PLACE].amount = place->place;
    cells[CHANNEL].text = listing_text(groat_method_channel(list->method, place->channel));
    cells[QUANTITY].amount = amount_whole(place->quantity);
    columns_take_outcome(cells + OUTCOME, place->outcome, list->currency);
    for (size_t i = 0; i < RANK_FIGURES; i++)
        cells[FIRST_FIGURE + i].amount = place->figures[i];
    if (list->value_shown) {
        cells[BEFORE_GAP].amount = place->value;
        cells[BEFORE_GAP].value.kind = kind;
    }
    cells[list->count - 1].value.kind = kind;
    if (!list->for_the_eye || !rank_is_ahead(place))
        cells[list->count - 1].amount = place->gap;
    if (list->for_the_eye && place->outcome != GROAT_PRICED)
        bytes_text(listing_notes(list->list),
                   place->outcome == GROAT_REFUSED ? "refused: " : "no price: ");
    for (size_t i = 0; i < place->notes_count; i++)
        listing_note(list->list, place->notes[i]);
    return listing_add(list->list, list->groups);
}

bool rank_list_add(struct rank_list *list, groat_text product, const struct rank *rank)
{
    groat_kind kind = GROAT_KIND_NUMBER;
    rank_kind(rank, &kind);
    for (size_t i = 0; i < rank_count(rank); i++) {
        const struct rank_place *place = rank_at(rank, i);
        if (i == 0 || rank_at(rank, i - 1)->quantity != place->quantity)
            list->groups++;
        if (!add_place(list, product, place, kind))
            return false;
    }
    return true;
}

bool rank_list_close(struct rank_list *list, bool whole)
{
    bool written = !list->list || listing_close(list->list, whole);
    int why = errno;
    free(list->heading);
    free(list);
    errno = why;
    return written;
}

/* ---- below the table ---- */

static size_t widest_channel(const groat_method *method, const size_t *channels, size_t count)
{
    size_t widest = 0;
    for (size_t i = 0; i < count; i++) {
        const char *name = groat_method_channel(method, channels[i]);
        size_t width = listing_width(name, strlen(name));
        widest = width > widest ? width : widest;
    }
    return widest;
}

bool rank_summary_write(const struct rank *rank, const groat_method *method, const char *by,
                        const size_t *channels, size_t channels_count, FILE *out)
{
    size_t widest = widest_channel(method, channels, channels_count);
    size_t all = rank_counts(rank)->rankings, alone = rank_counts(rank)->alone;
    if (all == 0)
        return true;
    bool written = fputs("\nHow often each channel comes first by ", out) >= 0;
    for (; *by && written; by++) /* in words, as the heading has it */
        written = fputc(*by == '_' ? ' ' : *by, out) != EOF;
    written = written && fputs(":\n", out) >= 0;
    for (size_t i = 0; i < channels_count && written; i++) {
        const char *name = groat_method_channel(method, channels[i]);
        int space = (int)(widest - listing_width(name, strlen(name)));
        written = fprintf(out, "  %s%*s  %zu of %zu\n", name, space, "",
                          rank_counts(rank)->firsts[channels[i]], all) >= 0;
    }
    if (written && rank_counts(rank)->ahead > 0)
        written = fputs("A price that is held to its ceiling misses its aim, and comes after those "
                        "that are not, even if it leaves more; its gap is then empty.\n",
                        out) >= 0;
    if (written && alone > 0)
        written = fprintf(out, "%zu of the %zu have only one channel to rank.\n", alone, all) >= 0;
    return written;
}
