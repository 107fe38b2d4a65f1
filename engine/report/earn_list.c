#include "report/earn_list.h"

#include <errno.h>
#include <stdlib.h>

#include "report/columns.h"
#include "report/words.h"

enum {
    PRODUCT,
    CHANNEL,
    QUANTITY,
    OUTCOME,
    CURRENCY,
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
    COLUMNS_OF_PLACE,
    COLUMNS_OF_OUTCOME,
    [AT] = {"at", "Asked", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    [ADDS] = {NULL, "Buyer adds", NULL, LISTING_COINS, LISTING_UNLESS_ZERO, false, NULL},
    [FEES] = {"fees", "Fees", NULL, LISTING_COINS, LISTING_UNLESS_ZERO, false, NULL},
    [TAX] = {"tax", "Tax", NULL, LISTING_COINS, LISTING_UNLESS_ZERO, false, NULL},
    [KEEP] = {"keep", "You keep", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    [COST] = {"cost", "Cost", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [PROFIT] = {"profit", "Profit", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    [MARGIN] = {"margin", "Margin", NULL, LISTING_SHARE, LISTING_ALWAYS, false, NULL},
    [TAKE_HOME] = {"take_home", "Take-home", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
};

static const groat_figure figures[FIXED - FEES] = {
    GROAT_FEES, GROAT_TAX, GROAT_KEEP, GROAT_COST, GROAT_PROFIT, GROAT_MARGIN, GROAT_TAKE_HOME};

/* After the shows. A table has the first alone, and says the others in words under the row. */
enum { NO_LOSS, FLOOR, CEILING, POSITION, LAST, LAST_OF_TABLE = FLOOR };
static const struct listing_column last[LAST] = {
    {"no_loss", "Break-even price", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL},
    {"floor", "Floor", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    {"ceiling", "Ceiling", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
    {"position", "Position", NULL, LISTING_SHARE, LISTING_ALWAYS, false, NULL},
};

struct earn_list {
    struct shown_list shown;
};

struct earn_list *earn_list_open(const groat_method *method, const struct listing_plan *plan,
                                 FILE *out)
{
    struct earn_list *list = calloc(1, sizeof *list);
    bool table = plan->form == LISTING_TABLE;
    if (!list)
        return NULL;
    list->shown.plan = *plan;
    if (shown_list_open(&list->shown, method, out, fixed, FIXED, last,
                        table ? LAST_OF_TABLE : LAST))
        return list;
    earn_list_close(list, false);
    return NULL;
}

bool earn_list_close(struct earn_list *list, bool whole)
{
    bool written = shown_list_close(&list->shown, whole);
    int why = errno;
    free(list);
    errno = why;
    return written;
}

/* ---- notes ---- */

/* An amount of the shop's with the words around it. */
static void put_limit(const struct earn_list *list, struct bytes *words, const char *before,
                      const struct amount *limit, const char *after)
{
    bytes_text(words, before);
    words_money(words, limit, &list->shown.plan);
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
        words_percent(words, &earn->position, 0, &list->shown.plan);
        put_limit(list, words, " of the way from the floor (", floor, ")");
        put_limit(list, words, " to the ceiling (", ceiling, ")");
    } else if (floor->there) {
        put_limit(list, words, "the floor is ", floor, "");
    } else {
        put_limit(list, words, "the ceiling is ", ceiling, "");
    }
}

static void put_position(const struct earn_list *list, const struct earn *earn, struct bytes *words)
{
    const struct amount *floor = &earn->floor, *ceiling = &earn->ceiling;
    bool below = floor->there && amount_compare(earn->at, *floor) < 0;
    bool above = ceiling->there && amount_compare(earn->at, *ceiling) > 0;
    if (below)
        put_limit(list, words, "below the floor (", floor, ")");
    if (below && above)
        bytes_text(words, " and ");
    if (above)
        put_limit(list, words, "above the ceiling (", ceiling, ")");
    if (!below && !above)
        put_inside(list, earn, words);
}

/* `money is lost again from $20.01 to $21.05` */
static void put_loss_above(const struct earn_list *list, const struct earn *earn,
                           struct bytes *words)
{
    if (!earn->loss_first.there)
        return;
    put_limit(list, words, "above the break-even price, money is lost again from ",
              &earn->loss_first, earn->loss_last.there ? "" : " on");
    if (earn->loss_last.there)
        put_limit(list, words, " to ", &earn->loss_last, "");
    bytes_char(words, '\0');
}

/* What the aim says of the price. What the rules aim at is never below their floor. */
static void put_aim(const struct earn_list *list, const struct earn *earn, struct bytes *words)
{
    bool missed = earn->aim == GROAT_AIM_MISSED;
    bool below_floor = earn->floor.there && amount_compare(earn->at, earn->floor) < 0;
    bytes_text(words, missed        ? "below your aim"
                      : below_floor ? "would meet your aim"
                                    : "meets your aim");
    if (earn->discounted)
        bytes_text(words, " for the price of one piece before discount");
    else if (earn->aim_of_one)
        bytes_text(words, " for one piece");
    if (!missed && below_floor && list->shown.plan.form != LISTING_TABLE)
        bytes_text(words, " but is below the floor");
}

static void put_notes(struct earn_list *list, const struct earn *earn, const groat_scratch *scratch)
{
    struct bytes *notes = listing_notes(list->shown.listing);
    bool refused = earn->outcome == GROAT_REFUSED;
    bool met = earn->aim == GROAT_AIM_MET;
    /* That what the rules refuse is below the aim as well goes without saying. */
    bool aim = met || (earn->aim == GROAT_AIM_MISSED && !refused);
    bool position =
        list->shown.plan.form == LISTING_TABLE && (earn->floor.there || earn->ceiling.there);
    if (refused)
        bytes_format(notes, "%s%s%c", list->shown.plan.form == LISTING_TABLE ? "refused: " : "",
                     groat_result_reason(scratch), '\0');
    if (aim)
        put_aim(list, earn, notes);
    if (aim && position)
        bytes_text(notes, "; ");
    if (position)
        put_position(list, earn, notes);
    if (aim || position)
        bytes_char(notes, '\0');
    put_loss_above(list, earn, notes);
    if (earn->why_loss[0])
        listing_note(list->shown.listing, earn->why_loss);
    columns_take_notes(list->shown.listing, scratch);
}

/* ---- rows ---- */

bool earn_list_add(struct earn_list *list, const struct price_place *place, const struct earn *earn,
                   const groat_scratch *scratch)
{
    struct listing *listing = list->shown.listing;
    struct listing_cell *cells = listing_cells(listing);
    bool table = list->shown.plan.form == LISTING_TABLE;
    columns_take_place(cells, place);
    columns_take_outcome(cells + OUTCOME, earn->outcome, list->shown.plan.currency);
    cells[AT].amount = earn->at;
    if (table)
        cells[ADDS].amount = columns_buyer_adds(listing_room(listing), scratch);
    for (size_t i = FEES; i < FIXED; i++)
        cells[i].value = groat_result_figure(scratch, figures[i - FEES]);
    cells = shown_list_take(&list->shown, scratch);
    cells[NO_LOSS].amount = earn->no_loss;
    if (!table) {
        cells[FLOOR].amount = earn->floor;
        cells[CEILING].amount = earn->ceiling;
        cells[POSITION].amount = earn->position;
    }
    put_notes(list, earn, scratch);
    return listing_add(listing, place->row);
}

bool earn_list_add_without(struct earn_list *list, const struct price_place *place,
                           groat_outcome outcome, const char *reason)
{
    struct listing *listing = list->shown.listing;
    struct listing_cell *cells = listing_cells(listing);
    columns_take_place(cells, place);
    columns_take_outcome(cells + OUTCOME, outcome, list->shown.plan.currency);
    listing_note(listing, reason);
    return listing_add(listing, place->row);
}
