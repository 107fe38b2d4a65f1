#include "report/drivers_words.h"

#include <stdio.h>
#include <string.h>

#define SHARE_PLACES 3 /* of a percentage */
#define SHARE_WIDTH 8  /* `+12.345%` */

void drivers_words_share(const struct drivers_showing *showing, const struct amount *share,
                         char *text)
{
    struct amounts room;
    char digits[96];
    text[0] = '\0';
    if (!share->there)
        return;
    amounts_open(&room);
    amount_places(amount_times(&room, *share, 100), SHARE_PLACES, listing_mark(&showing->plan),
                  digits, sizeof digits - 2);
    amounts_close(&room);
    const char *sign = amount_sign(*share) > 0 ? "+" : "";
    if (amount_sign(*share) == 0)
        strcpy(digits, "0");
    char whole[DRIVERS_WORD_BYTES];
    snprintf(whole, sizeof whole, "%s%s%%", sign, digits);
    snprintf(text, DRIVERS_WORD_BYTES, "%*s", SHARE_WIDTH, whole);
}

void drivers_words_title(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         char *text)
{
    const char *change = showing->change;
    snprintf(text, DRIVERS_NOTE_BYTES,
             "Each rate %.40s %s: the effect on %zu price%s before rounding", change + 1,
             change[0] == '-' ? "lower" : "higher", totals->prices, totals->prices == 1 ? "" : "s");
}

bool drivers_words_note(const struct drivers_showing *showing, const struct drivers_totals *totals,
                        size_t rate, char *text)
{
    const struct drivers_total *total = &totals->rates[rate];
    const char *still = drivers_still(showing->drivers, rate);
    if (still)
        snprintf(text, DRIVERS_NOTE_BYTES, "%s", still);
    else if (total->lost > 0)
        snprintf(text, DRIVERS_NOTE_BYTES, "%zu of %zu prices %s refused or missing at this rate",
                 total->lost, totals->prices, total->lost == 1 ? "is" : "are");
    else if (total->prices > 0 && total->moved == 0)
        snprintf(text, DRIVERS_NOTE_BYTES, "none of these prices depends on it");
    return still || total->lost > 0 || (total->prices > 0 && total->moved == 0);
}

bool drivers_words_move_note(const struct drivers_showing *showing, const struct drivers_move *move,
                             size_t rate, char *text)
{
    const char *still = drivers_still(showing->drivers, rate);
    if (still)
        snprintf(text, DRIVERS_NOTE_BYTES, "%s", still);
    else if (move->outcome == GROAT_NOT_SOLD)
        snprintf(text, DRIVERS_NOTE_BYTES, "no longer sold there with this change");
    else if (move->outcome != GROAT_PRICED)
        snprintf(text, DRIVERS_NOTE_BYTES, "%s then: %.500s",
                 move->outcome == GROAT_REFUSED ? "refused" : "no price",
                 move->reason ? move->reason : "");
    return still || move->outcome != GROAT_PRICED;
}
