/* What is said about a row of the effect, in words. */
#include <stdlib.h>
#include <string.h>

#include "report/effect_form.h"
#include "report/words.h"

void effect_put_coins(struct bytes *bytes, const struct effect_list *list, int64_t coins)
{
    struct amount amount = amount_of_coins(coins, list->effect->decimals);
    words_money(bytes, &amount, &list->plan);
}

/* ---- kept or not ---- */

static void put_limit(struct bytes *bytes, const struct effect_list *list, const char *words,
                      int64_t coins)
{
    bytes_text(bytes, words);
    effect_put_coins(bytes, list, coins);
}

static void put_kept(struct bytes *bytes, const struct effect_list *list,
                     const struct effect_row *row)
{
    bool discounted = row->before.list != row->before.price;
    put_limit(bytes, list,
              discounted ? "kept, although the rules now give the list price "
                         : "kept, although the rules now give ",
              row->list);
}

/* Whether a move beyond the band is near it, so that one may wonder: up to a quarter further. */
static bool is_near_band(const struct effect_list *list, const struct amount *move)
{
    struct amounts room;
    amounts_open(&room);
    struct amount near = amount_times(&room, effect_band_share(&list->effect->band), 5);
    bool is_near = amount_compare(amount_times(&room, *move, 4), near) <= 0;
    amounts_close(&room);
    return is_near;
}

/* `not kept: moves 3.03%, more than 3%`; with as many decimals as show that it is more. */
static void put_beyond(struct bytes *bytes, const struct effect_list *list,
                       const struct effect_row *row)
{
    enum { PLACES = 2, PLACES_MOST = 9, BAND_PLACES = 6 };
    struct amount move = effect_list_move(row);
    if (!is_near_band(list, &move))
        return;
    struct amounts room;
    amounts_open(&room);
    struct amount band = amount_times(&room, effect_band_share(&list->effect->band), 100);
    struct amount percent = amount_times(&room, move, 100);
    unsigned places = PLACES;
    while (places < PLACES_MOST &&
           amount_compare(amount_round_places(&room, percent, places), band) <= 0)
        places++;
    bool discounted = row->before.list != row->before.price;
    bytes_text(bytes,
               discounted ? "not kept: the list price changes by " : "not kept: changes by ");
    words_percent(bytes, &move, places, &list->plan);
    bytes_text(bytes, ", more than ");
    bytes_short(bytes, band, BAND_PLACES, listing_mark(&list->plan));
    bytes_format(bytes, "%%%c", '\0');
    amounts_close(&room);
}

static void put_refused_there(struct bytes *bytes, const struct effect_list *list,
                              const struct effect_row *row)
{
    put_limit(bytes, list, "not kept: refused at ", row->before.price);
    bytes_text(bytes, ": ");
    bytes_text(bytes, row->hold_reason);
}

static void put_hold(struct bytes *bytes, const struct effect_list *list,
                     const struct effect_row *row)
{
    switch (row->hold) {
    case EFFECT_NO_HOLD: return;
    case EFFECT_HELD: put_kept(bytes, list, row); break;
    case EFFECT_BEYOND: put_beyond(bytes, list, row); return;
    case EFFECT_PINNED: bytes_text(bytes, "not kept: the new price is pinned"); break;
    case EFFECT_BELOW_FLOOR:
        put_limit(bytes, list, "not kept: below the floor of ", row->limit);
        break;
    case EFFECT_ABOVE_CEILING:
        put_limit(bytes, list, "not kept: above the ceiling of ", row->limit);
        break;
    case EFFECT_AIM_MISSED:
        put_limit(bytes, list, "not kept: the aim does not hold at ", row->before.list);
        break;
    case EFFECT_OTHER_DISCOUNT: bytes_text(bytes, "not kept: the discount is different"); break;
    case EFFECT_HOLD_REFUSED: put_refused_there(bytes, list, row); break;
    case EFFECT_SHARED:
        bytes_format(bytes, "not kept: it has one ticket with %s, where it cannot be kept",
                     row->shared_with);
        break;
    }
    bytes_char(bytes, '\0');
}

/* ---- sold or not ---- */

static void put_reason(struct bytes *bytes, const struct effect_ticket *ticket, const char *refused,
                       const char *failed)
{
    bytes_text(bytes, ticket->outcome == GROAT_REFUSED ? refused : failed);
    bytes_text(bytes, ticket->reason);
}

static void put_loss(struct bytes *bytes, enum effect_loss loss)
{
    static const char *const words[] = {
        [EFFECT_NOT_LOST] = "no longer sold",
        [EFFECT_KEPT_OFF] = "no longer sold here",
        [EFFECT_NO_PRODUCT] = "no longer sold: not in the sheet",
        [EFFECT_NO_CHANNEL] = "no longer sold: there is no such channel now",
    };
    bytes_text(bytes, words[loss]);
}

static void put_move(struct bytes *bytes, const struct effect_list *list,
                     const struct effect_row *row)
{
    switch (row->move) {
    case EFFECT_NEWLY_REFUSED:
        put_reason(bytes, &row->after, "newly refused: ", "no price now: ");
        if (row->before.outcome == GROAT_NOT_SOLD)
            bytes_format(bytes, "%cnot sold before", '\0');
        break;
    case EFFECT_STILL_REFUSED:
        if (row->known)
            put_reason(bytes, &row->after, "refused, as before: ", "no price, as before: ");
        else if (list->from_list)
            put_reason(bytes, &row->after,
                       "not in the list, and refused: ", "not in the list, and no price: ");
        else
            put_reason(bytes, &row->after, "refused: ", "no price: ");
        break;
    case EFFECT_NO_LONGER_REFUSED:
        put_reason(bytes, &row->before, "was refused before: ", "had no price before: ");
        break;
    case EFFECT_NEWLY_SOLD:
        bytes_text(bytes, list->from_list ? "newly sold: not in the list" : "newly sold");
        break;
    case EFFECT_NO_LONGER_SOLD:
        put_loss(bytes, row->loss);
        if (row->before.outcome == GROAT_PRICED)
            break;
        bytes_char(bytes, '\0');
        put_reason(bytes, &row->before, "was refused before: ", "had no price before: ");
        break;
    default: return;
    }
    bytes_char(bytes, '\0');
}

/* ---- all ---- */

/* The lines of a text, each as a text of its own. */
static void put_lines(struct bytes *bytes, const char *lines)
{
    if (!lines || !*lines)
        return;
    for (const char *at = lines; *at; at++)
        bytes_char(bytes, *at == '\n' ? '\0' : *at);
    bytes_char(bytes, '\0');
}

void effect_put_notes(struct bytes *bytes, const struct effect_list *list,
                      const struct effect_row *row)
{
    put_move(bytes, list, row);
    put_hold(bytes, list, row);
    put_lines(bytes, row->after.notes);
}
