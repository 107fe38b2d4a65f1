/* Texts about the effects of rates. Private to this room. */
#ifndef GROAT_REPORT_DRIVERS_WORDS_H
#define GROAT_REPORT_DRIVERS_WORDS_H

#include "report/drivers_list.h"

#define DRIVERS_WORD_BYTES 192
#define DRIVERS_NOTE_BYTES 640

/* `+0.431%`, padded to the width of any share below 100%; empty if there is none. */
void drivers_words_share(const struct drivers_showing *showing, const struct amount *share,
                         char *text);
/* A sentence that says what the list is about. */
void drivers_words_title(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         char *text);
/* Write a note about a rate, or about one price and rate. Return false if there is nothing to
 * note. */
bool drivers_words_note(const struct drivers_showing *showing, const struct drivers_totals *totals,
                        size_t rate, char *text);
bool drivers_words_move_note(const struct drivers_showing *showing, const struct drivers_move *move,
                             size_t rate, char *text);

#endif
