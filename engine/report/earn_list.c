#include "report/earn_list.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "listing/bytes.h"
#include "report/buyer_adds.h"
#include "report/notes.h"
#include "report/show_columns.h"
#include "report/words.h"

enum {
    PRODUCT,
    CHANNEL,
    QUANTITY,
    AT,
    ADDS,
    FEES,
    TAX,
    KEEP,
    COST,
    PROFIT,
    MARGIN,
    TAKE_HOME,
    FIXED
};

static const struct listing_column fixed[FIXED] = {
    [PRODUCT] = {"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    [CHANNEL] = {"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false},
    [QUANTITY] = {"quantity", "Pieces", NULL, LISTING_WHOLE, LISTING_UNLESS_ONE, false},
    [AT] = {"at", "Asked", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    [ADDS] = {NULL, "Buyer adds", NULL, LISTING_MONEY, LISTING_UNLESS_ZERO, false},
    [FEES] = {"fees", "Fees", NULL, LISTING_MONEY, LISTING_UNLESS_ZERO, false},
    [TAX] = {"tax", "Tax", NULL, LISTING_MONEY, LISTING_UNLESS_ZERO, false},
    [KEEP] = {"keep", "You keep", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    [COST] = {"cost", "Cost", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    [PROFIT] = {"profit", "Profit", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    [MARGIN] = {"margin", "Margin", NULL, LISTING_SHARE, LISTING_ALWAYS, false},
    [TAKE_HOME] = {"take_home", "Take-home", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
};

static const groat_figure figures[FIXED - FEES] = {
    GROAT_FEES, GROAT_TAX, GROAT_KEEP, GROAT_COST, GROAT_PROFIT, GROAT_MARGIN, GROAT_TAKE_HOME};

/* After the shows. A table has the first alone, and says the others in words under the row. */
enum { NO_LOSS, FLOOR, CEILING, POSITION, LAST, LAST_OF_TABLE = FLOOR };
static const struct listing_column last[LAST] = {
    {"no_loss", "Break-even price", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"floor", "Floor", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"ceiling", "Ceiling", NULL, LISTING_MONEY, LISTING_ALWAYS, false},
    {"position", "Position", NULL, LISTING_SHARE, LISTING_ALWAYS, false},
};

struct earn_list {
    struct listing *list;
    struct listing_plan plan;
    struct show_columns columns;
    struct buyer_adds adds;
    struct notes notes;
};

/* ---- opening and closing ---- */

struct earn_list *earn_list_open(const groat_method *method, const struct listing_plan *plan,
                                 FILE *out)
{
    struct earn_list *list = calloc(1, sizeof *list);
    if (!list)
        return NULL;
    buyer_adds_open(&list->adds);
    errno = ENOMEM;
    if (show_columns_open(&list->columns, method, fixed, FIXED, last,
                          plan->form == LISTING_TABLE ? LAST_OF_TABLE : LAST)) {
        list->plan = *plan;
        list->plan.decimal_comma &= plan->form == LISTING_TABLE; /* so also in notes */
        list->plan.columns = list->columns.columns;
        list->plan.columns_count = list->columns.count;
        list->plan.currency = groat_method_currency(method);
        list->plan.nothing = NOTHING_PRICED;
        list->list = listing_open(&list->plan, out);
        if (list->list)
            return list;
    }
    earn_list_close(list, false);
    return NULL;
}

bool earn_list_close(struct earn_list *list, bool whole)
{
    bool written = !list->list || listing_close(list->list, whole);
    int why = errno;
    show_columns_close(&list->columns);
    notes_free(&list->notes);
    buyer_adds_close(&list->adds);
    free(list);
    errno = why;
    return written;
}

/* ---- notes ---- */

/* That what the rules refuse is below the aim as well goes without saying. */
static void put_aim(const struct earn *earn, struct bytes *words)
{
    const char *for_whom = earn->aim_of_one ? " for one piece" : "";
    bool refused = earn->outcome == GROAT_REFUSED;
    if (earn->aim == GROAT_AIM_MET || (earn->aim == GROAT_AIM_MISSED && !refused)) {
        bytes_text(words, earn->aim == GROAT_AIM_MET ? "meets your aim" : "below your aim");
        bytes_text(words, for_whom);
    }
}

/* An amount of the shop's with the words around it. */
static void put_limit(const struct earn_list *list, struct bytes *words, const char *before,
                      const struct amount *limit, const char *after)
{
    bytes_text(words, before);
    words_money(words, limit, &list->plan);
    bytes_text(words, after);
}

/* Where a price that keeps to the shop's own limits lies. */
static void put_inside(const struct earn_list *list, const struct earn *earn, struct bytes *words)
{
    const struct amount *floor = &earn->floor, *ceiling = &earn->ceiling;
    if (ceiling->there && amount_compare(earn->at, *ceiling) == 0) {
        put_limit(list, words, "at the ceiling (", ceiling, ")");
    } else if (floor->there && amount_compare(earn->at, *floor) == 0) {
        put_limit(list, words, "at the floor (", floor, ")");
    } else if (earn->position.there) {
        words_percent(words, &earn->position, 0, &list->plan);
        put_limit(list, words, " of the way from the floor (", floor, ")");
        put_limit(list, words, " to the ceiling (", ceiling, ")");
    } else if (floor->there) {
        put_limit(list, words, "the floor is ", floor, "");
    } else if (ceiling->there) {
        put_limit(list, words, "the ceiling is ", ceiling, "");
    }
}

static void put_position(const struct earn_list *list, const struct earn *earn, struct bytes *words)
{
    const struct amount *floor = &earn->floor, *ceiling = &earn->ceiling;
    bool below = floor->there && amount_compare(earn->at, *floor) < 0;
    bool above = ceiling->there && amount_compare(earn->at, *ceiling) > 0;
    if (words->length > 0 && (floor->there || ceiling->there))
        bytes_text(words, "; ");
    if (below)
        put_limit(list, words, "below the floor (", floor, ")");
    if (below && above)
        bytes_text(words, " and ");
    if (above)
        put_limit(list, words, "above the ceiling (", ceiling, ")");
    if (!below && !above)
        put_inside(list, earn, words);
}

/* ---- rows ---- */

static bool gather_notes(struct earn_list *list, const struct earn *earn, struct bytes *words,
                         const char *refusal, const groat_scratch *scratch)
{
    struct notes *notes = &list->notes;
    notes_clear(notes);
    put_aim(earn, words);
    if (list->plan.form == LISTING_TABLE)
        put_position(list, earn, words);
    bytes_char(words, '\0');
    return !words->failed && (!*refusal || notes_add(notes, refusal)) &&
           (words->length == 1 || notes_add(notes, words->start)) &&
           (!earn->why_loss[0] || notes_add(notes, earn->why_loss)) &&
           notes_add_all(notes, scratch);
}

static void fill_cells(struct earn_list *list, const struct price_place *place,
                       const struct earn *earn, const groat_scratch *scratch)
{
    struct listing_cell *cells = list->columns.cells;
    cells[PRODUCT].text = place->product;
    cells[CHANNEL].text = listing_text(place->channel);
    cells[QUANTITY].whole = place->quantity;
    cells[AT].amount = &earn->at;
    if (list->plan.form == LISTING_TABLE)
        cells[ADDS].amount = buyer_adds_take(&list->adds, scratch);
    for (size_t i = FEES; i < FIXED; i++)
        cells[i].value = groat_result_figure(scratch, figures[i - FEES]);
    show_columns_take(&list->columns, scratch);
    cells = show_columns_last(&list->columns);
    cells[NO_LOSS].amount = &earn->no_loss;
    if (list->plan.form == LISTING_TABLE)
        return;
    cells[FLOOR].amount = &earn->floor;
    cells[CEILING].amount = &earn->ceiling;
    cells[POSITION].amount = &earn->position;
}

bool earn_list_add(struct earn_list *list, const struct price_place *place, const struct earn *earn,
                   const groat_scratch *scratch)
{
    struct bytes words = {0}, refusal = {0};
    if (earn->outcome == GROAT_REFUSED) {
        bytes_text(&refusal, "refused: ");
        bytes_text(&refusal, groat_result_reason(scratch));
    }
    bytes_char(&refusal, '\0');
    errno = ENOMEM;
    bool added = !refusal.failed && gather_notes(list, earn, &words, refusal.start, scratch);
    if (added) {
        fill_cells(list, place, earn, scratch);
        struct listing_row row = {list->columns.cells, list->notes.texts, list->notes.count,
                                  place->row};
        added = listing_add(list->list, &row);
    }
    int why = errno;
    bytes_free(&words);
    bytes_free(&refusal);
    errno = why;
    return added;
}
