/* What the parts of the effect's list share. Private to this room. */
#ifndef GROAT_REPORT_EFFECT_FORM_H
#define GROAT_REPORT_EFFECT_FORM_H

#include "listing/bytes.h"
#include "report/effect_list.h"

/* Smallest units as money for a person. */
void effect_put_coins(struct bytes *bytes, const struct effect_list *list, int64_t coins);
/* What is to be said about a row, each text closed by a zero byte; returns how many. */
size_t effect_put_notes(struct bytes *bytes, const struct effect_list *list,
                        const struct effect_row *row);
/* Whether a table leaves the row out. */
bool effect_row_is_quiet(const struct effect_list *list, const struct effect_row *row);

/* The sums: lines below a table, or an object. */
void effect_put_sums(struct bytes *bytes, const struct effect_list *list,
                     const struct effect_summary *summary);
void effect_put_summary(struct bytes *bytes, const struct effect_list *list,
                        const struct effect_summary *summary);

#endif
