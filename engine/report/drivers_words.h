/* The words around what rates do. Private to this room. */
#ifndef GROAT_REPORT_DRIVERS_WORDS_H
#define GROAT_REPORT_DRIVERS_WORDS_H

#include "report/drivers_list.h"

#define DRIVERS_WORD_BYTES 192
#define DRIVERS_NOTE_BYTES 640

/* `+0.431%`, as wide as any of less than 100%; empty where there is none. */
void drivers_words_share(const struct drivers_showing *showing, const struct amount *share,
                         char *text);
/* What the list is about, in a sentence. */
void drivers_words_title(const struct drivers_showing *showing, const struct drivers_totals *totals,
                         char *text);
/* What else there is to say of a rate, and of one move; whether there is anything. */
bool drivers_words_note(const struct drivers_showing *showing, const struct drivers_totals *totals,
                        size_t rate, char *text);
bool drivers_words_move_note(const struct drivers_showing *showing, const struct drivers_move *move,
                             size_t rate, char *text);

#endif
