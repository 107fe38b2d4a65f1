/* Texts about the figures of a sweep. Private to this room. */
#ifndef GROAT_REPORT_SWEEP_WORDS_H
#define GROAT_REPORT_SWEEP_WORDS_H

#include "report/sweep_table.h"

#define SWEEP_WORD_BYTES 192

/* `$22.40`, with the requested decimal mark. */
void sweep_words_number(const struct sweep_showing *showing, const struct amount *value,
                        char *text);
/* The values at both ends without unneeded zeros: `$20` and `$30`. */
void sweep_words_ends(const struct sweep_showing *showing, char *from, char *to);
/* `hourly goes from $20 to $30 per h` */
void sweep_words_range(struct bytes *text, const struct sweep_showing *showing);
/* `$ per h`; empty for a plain number. */
void sweep_words_unit(const struct sweep *sweep, char *text);
/* Why a run has no price. */
void sweep_words_reason(struct bytes *text, const struct sweep_run *run);

/* Makes a chart of the sweep, without series yet. Its texts are in `words`. */
struct sweep_chart_words {
    char title[2 * SWEEP_WORD_BYTES], after[SWEEP_WORD_BYTES], now[SWEEP_WORD_BYTES];
    char money_before[32], money_after[32];
};
struct chart sweep_words_chart(const struct sweep_showing *showing,
                               struct sweep_chart_words *words);

#endif
