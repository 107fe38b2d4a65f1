#include "study/effect.h"

#include <stdlib.h>
#include <string.h>

#include "study/taken.h"

struct effect_was {
    struct effect_place place;
    struct effect_ticket ticket;
    size_t turn;
    bool met; /* an order after the change asked for it */
};

void effect_open(struct effect *effect, unsigned decimals, struct effect_band band)
{
    *effect = (struct effect){.decimals = decimals, .band = band};
    amounts_open(&effect->room);
    arena_open(&effect->arena, &effect->room.memory);
}

void effect_close(struct effect *effect)
{
    arena_close(&effect->arena);
    amounts_close(&effect->room);
    *effect = (struct effect){0};
}

/* ---- what a result says ---- */

/* A figure in smallest units, rounded to one. List and price are whole, whatever the rules. */
static int64_t coins_of(struct effect *effect, const groat_scratch *scratch, groat_figure figure)
{
    struct amounts *room = &effect->room;
    int64_t coins = 0;
    struct amount coin = amount_of_coins(1, effect->decimals);
    struct amount all = amount_divide(room, taken_figure(room, scratch, figure), coin);
    all = amount_round(room, all, NUM_NEAREST);
    return all.there && num_to_int64(all.number, &coins) ? coins : 0;
}

static bool take_ticket(struct effect *effect, struct effect_ticket *ticket, groat_outcome outcome,
                        const groat_scratch *scratch)
{
    *ticket = (struct effect_ticket){.outcome = outcome};
    amounts_forget(&effect->room);
    if (outcome == GROAT_NOT_SOLD)
        return true;
    if (outcome != GROAT_PRICED) {
        ticket->reason = taken_reason(&effect->arena, scratch);
        return ticket->reason != NULL;
    }
    ticket->list = coins_of(effect, scratch, GROAT_LIST);
    ticket->price = coins_of(effect, scratch, GROAT_PRICE);
    ticket->notes = taken_notes(&effect->arena, scratch, "\n");
    return ticket->notes && !amounts_starved(&effect->room);
}

/* ---- tickets of before ---- */

static bool add_was(struct effect *effect, const struct effect_place *place,
                    const struct effect_ticket *ticket)
{
    struct effect_was *was = arena_grow(&effect->arena, effect->was, sizeof *was, &effect->was_room,
                                        effect->was_count + 1);
    if (!was)
        return false;
    effect->was = was;
    was[effect->was_count] = (struct effect_was){*place, *ticket, effect->was_count, false};
    effect->was_count++;
    return true;
}

/* Replaces a text, which may be NULL, by a copy; false when memory runs out. */
static bool keep(struct effect *effect, const char **text)
{
    if (!*text)
        return true;
    *text = arena_text(&effect->arena, *text, strlen(*text));
    return *text != NULL;
}

bool effect_was(struct effect *effect, const struct effect_place *place,
                const struct effect_ticket *ticket)
{
    struct effect_ticket own = *ticket;
    return keep(effect, &own.reason) && keep(effect, &own.notes) && add_was(effect, place, &own);
}

bool effect_was_priced(struct effect *effect, const struct effect_place *place,
                       groat_outcome outcome, const groat_scratch *scratch)
{
    struct effect_ticket ticket;
    return outcome == GROAT_NOT_SOLD ||
           (take_ticket(effect, &ticket, outcome, scratch) && add_was(effect, place, &ticket));
}

static int compare_places(const struct effect_place *a, const struct effect_place *b)
{
    if (a->product != b->product)
        return a->product < b->product ? -1 : 1;
    if (a->quantity != b->quantity)
        return a->quantity < b->quantity ? -1 : 1;
    return strcmp(a->channel, b->channel);
}

static int compare_was(const void *a, const void *b)
{
    const struct effect_was *left = a, *right = b;
    return compare_places(&left->place, &right->place);
}

void effect_ready(struct effect *effect)
{
    if (effect->was_count > 0)
        qsort(effect->was, effect->was_count, sizeof *effect->was, compare_was);
}

static struct effect_was *find_was(const struct effect *effect, const struct effect_place *place)
{
    struct effect_was wanted = {.place = *place};
    if (effect->was_count == 0)
        return NULL;
    return bsearch(&wanted, effect->was, effect->was_count, sizeof wanted, compare_was);
}

/* ---- holding a ticket ---- */

static bool has_price(const struct effect_ticket *ticket)
{
    return ticket->outcome == GROAT_PRICED;
}

struct amount effect_percent(const struct effect_row *row)
{
    if (!has_price(&row->before) || !has_price(&row->after))
        return (struct amount){0};
    return amount_ratio(row->after.price - row->before.price, row->before.price);
}

struct amount effect_list_move(const struct effect_row *row)
{
    if (!has_price(&row->before) || !has_price(&row->after))
        return (struct amount){0};
    int64_t move = row->after.list - row->before.list;
    return amount_ratio(move < 0 ? -move : move, row->before.list);
}

struct amount effect_band_share(const struct effect_band *band)
{
    return amount_ratio(band->top, band->bottom);
}

static bool within_band(const struct effect_band *band, const struct effect_row *row)
{
    return amount_compare(effect_list_move(row), effect_band_share(band)) <= 0;
}

/* Whether the prices may come from one discount off each list price, rounded to the smallest unit:
 * |p/l - q/m| <= 1/2l + 1/2m. */
static bool discount_may_be_same(struct amounts *room, const struct effect_ticket *a,
                                 const struct effect_ticket *b)
{
    struct amount apart =
        amount_subtract(room, amount_ratio(a->price, a->list), amount_ratio(b->price, b->list));
    struct amount both = amount_add(room, amount_ratio(1, a->list), amount_ratio(1, b->list));
    apart = amount_size(room, amount_times(room, apart, 2));
    return amount_compare(apart, both) <= 0;
}

/* Less than zero where the old list price is below a limit, more where it is above; zero where
 * there is none. */
static int beside_limit(struct effect *effect, struct effect_row *row, const groat_scratch *scratch,
                        groat_figure figure)
{
    struct amount limit = taken_figure(&effect->room, scratch, figure);
    struct amount list = amount_of_coins(row->before.list, effect->decimals);
    row->limit = coins_of(effect, scratch, figure);
    return limit.there ? amount_compare(list, limit) : 0;
}

/* The limits as they are in the result of the new price. */
static enum effect_hold look_at_limits(struct effect *effect, struct effect_row *row,
                                       const groat_scratch *scratch)
{
    if (beside_limit(effect, row, scratch, GROAT_FLOOR) < 0)
        return EFFECT_BELOW_FLOOR;
    if (beside_limit(effect, row, scratch, GROAT_CEILING) > 0)
        return EFFECT_ABOVE_CEILING;
    return EFFECT_HELD;
}

/* Everything at the old ticket: the aim at its list price, what is refused at its price, which then
 * is the result. False when memory runs out. */
static bool look_at_old_price(struct effect *effect, struct effect_row *row,
                              const struct effect_question *question)
{
    groat_outcome outcome = groat_price_at(question->scratch, question->method, question->record,
                                           question->order, row->before.list);
    groat_aim aim = groat_result_aim(question->scratch);
    if (aim == GROAT_AIM_UNKNOWN || taken_starved(question->scratch))
        return false;
    if (aim == GROAT_AIM_MISSED) {
        row->hold = EFFECT_AIM_MISSED;
        return true;
    }
    if (row->before.price != row->before.list)
        outcome = groat_price_at(question->scratch, question->method, question->record,
                                 question->order, row->before.price);
    if (outcome == GROAT_PRICED)
        return true;
    row->hold = EFFECT_HOLD_REFUSED;
    row->hold_reason = taken_reason(&effect->arena, question->scratch);
    return row->hold_reason != NULL;
}

/* Sees whether the old ticket may stand, and lets it. The result of the new one is in the
 * scratch. */
static bool hold_ticket(struct effect *effect, struct effect_row *row,
                        const struct effect_question *question)
{
    if (!within_band(&effect->band, row))
        row->hold = EFFECT_BEYOND;
    else if (groat_result_footing(question->scratch) == GROAT_ON_PIN)
        row->hold = EFFECT_PINNED;
    else if (!discount_may_be_same(&effect->room, &row->before, &row->after))
        row->hold = EFFECT_OTHER_DISCOUNT;
    else
        row->hold = look_at_limits(effect, row, question->scratch);
    if (amounts_starved(&effect->room) ||
        (row->hold == EFFECT_HELD && !look_at_old_price(effect, row, question)))
        return false;
    if (row->hold != EFFECT_HELD)
        return true;
    row->list = row->after.list;
    row->as_new = row->after;
    row->after.list = row->before.list;
    row->after.price = row->before.price;
    row->after.notes = taken_notes(&effect->arena, question->scratch, "\n");
    return row->after.notes != NULL;
}

/* ---- rows ---- */

static enum effect_move move_of(const struct effect_row *row)
{
    bool sold_before = row->known && row->before.outcome != GROAT_NOT_SOLD;
    if (row->after.outcome == GROAT_NOT_SOLD)
        return EFFECT_NO_LONGER_SOLD;
    if (!has_price(&row->after)) {
        bool newly = has_price(&row->before) || (row->known && !sold_before);
        return newly ? EFFECT_NEWLY_REFUSED : EFFECT_STILL_REFUSED;
    }
    if (!sold_before)
        return EFFECT_NEWLY_SOLD;
    if (!has_price(&row->before))
        return EFFECT_NO_LONGER_REFUSED;
    if (row->hold == EFFECT_HELD)
        return EFFECT_KEPT;
    if (row->after.price == row->before.price)
        return EFFECT_UNCHANGED;
    return row->after.price > row->before.price ? EFFECT_UP : EFFECT_DOWN;
}

/* A list has `; ` where the study has a line's end. */
static bool notes_are_same(const char *listed, const char *notes)
{
    for (; *notes; notes++, listed++) {
        bool between = *notes == '\n' && listed[0] == ';' && listed[1] == ' ';
        if (!between && *listed != *notes)
            return false;
        listed += between;
    }
    return *listed == '\0';
}

static bool has_news(const struct effect_row *row)
{
    const char *now = row->after.notes;
    return now && *now && row->before.notes && !notes_are_same(row->before.notes, now);
}

static void settle_row(struct effect_row *row)
{
    row->move = move_of(row);
    row->news = has_news(row);
}

static bool add_row(struct effect *effect, struct effect_row *row)
{
    struct effect_row *rows = arena_grow(&effect->arena, effect->rows, sizeof *rows,
                                         &effect->rows_room, effect->rows_count + 1);
    if (!rows)
        return false;
    effect->rows = rows;
    settle_row(row);
    rows[effect->rows_count++] = *row;
    return true;
}

bool effect_now(struct effect *effect, const struct effect_place *place,
                const struct effect_question *question)
{
    struct effect_row row = {.place = *place, .turn = effect->rows_count};
    struct effect_was *was = find_was(effect, place);
    groat_outcome outcome =
        groat_price(question->scratch, question->method, question->record, question->order);
    row.before.outcome = GROAT_NOT_SOLD;
    row.known = effect->complete;
    if (was) {
        row.known = true;
        row.before = was->ticket;
        was->met = true;
    }
    row.ticket = groat_method_ticket(question->method, question->order->channel);
    row.shares = outcome == GROAT_PRICED && groat_result_footing(question->scratch) != GROAT_ON_PIN;
    bool told = take_ticket(effect, &row.after, outcome, question->scratch);
    if (told && effect->band.bottom > 0 && has_price(&row.before) && has_price(&row.after) &&
        row.before.list != row.after.list)
        told = hold_ticket(effect, &row, question);
    if (outcome == GROAT_NOT_SOLD)
        row.loss = EFFECT_KEPT_OFF;
    bool nothing = outcome == GROAT_NOT_SOLD && row.before.outcome == GROAT_NOT_SOLD;
    return told && (nothing || add_row(effect, &row));
}

static int compare_rows(const void *a, const void *b)
{
    const struct effect_row *left = a, *right = b;
    if (left->place.product != right->place.product)
        return left->place.product < right->place.product ? -1 : 1;
    return left->turn < right->turn ? -1 : left->turn > right->turn;
}

/* ---- one ticket for several channels ---- */

/* The row of another channel that has the ticket of a kept row, and does not keep it or keeps
 * another one; NULL if there is none. */
static const struct effect_row *find_apart(const struct effect_row *kept,
                                           const struct effect_row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (rows[i].shares && rows[i].ticket == kept->ticket &&
            rows[i].place.quantity == kept->place.quantity &&
            (rows[i].hold != EFFECT_HELD || rows[i].before.list != kept->before.list))
            return &rows[i];
    return NULL;
}

/* Lets the tickets of one product go that are not kept wherever they hang. A row that is let go no
 * longer counts as held, so the rest of its channels follow whichever comes first. */
static void let_go(struct effect_row *rows, size_t count)
{
    for (bool again = true; again;) {
        again = false;
        for (size_t i = 0; i < count; i++) {
            struct effect_row *row = &rows[i];
            const struct effect_row *apart =
                row->hold == EFFECT_HELD ? find_apart(row, rows, count) : NULL;
            if (!apart)
                continue;
            row->hold = EFFECT_SHARED;
            row->shared_with = apart->shared_with ? apart->shared_with : apart->place.channel;
            row->after = row->as_new;
            settle_row(row);
            again = true;
        }
    }
}

static void let_go_of_shared(struct effect *effect)
{
    size_t from = 0;
    for (size_t i = 1; i <= effect->rows_count; i++) {
        if (i < effect->rows_count &&
            effect->rows[i].place.product == effect->rows[from].place.product)
            continue;
        let_go(&effect->rows[from], i - from);
        from = i;
    }
}

bool effect_finish(struct effect *effect, effect_why *why, void *context)
{
    size_t turn = effect->rows_count;
    for (size_t i = 0; i < effect->was_count; i++) {
        struct effect_was *was = &effect->was[i];
        if (was->met || was->ticket.outcome == GROAT_NOT_SOLD)
            continue;
        struct effect_row row = {.place = was->place,
                                 .before = was->ticket,
                                 .after = {.outcome = GROAT_NOT_SOLD},
                                 .known = true,
                                 .loss = why(context, &was->place),
                                 .turn = turn + was->turn};
        if (row.loss == EFFECT_UNREADABLE)
            row.after = (struct effect_ticket){.outcome = GROAT_FAILED, .reason = EFFECT_UNREAD};
        if (!add_row(effect, &row))
            return false;
        was->met = true;
    }
    if (effect->rows_count > 0)
        qsort(effect->rows, effect->rows_count, sizeof *effect->rows, compare_rows);
    let_go_of_shared(effect);
    return true;
}

bool effect_any_refused(const struct effect *effect)
{
    for (size_t i = 0; i < effect->rows_count; i++)
        if (effect->rows[i].move == EFFECT_NEWLY_REFUSED ||
            effect->rows[i].move == EFFECT_STILL_REFUSED)
            return true;
    return false;
}
