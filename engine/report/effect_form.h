/* What the forms of the effect's list share. Private to this room. */
#ifndef GROAT_REPORT_EFFECT_FORM_H
#define GROAT_REPORT_EFFECT_FORM_H

#include "listing/bytes.h"
#include "report/effect_list.h"

/* Writes smallest units as money for a person. */
void effect_put_coins(struct bytes *bytes, const struct effect_list *list, int64_t coins);
/* Writes the notes about a row, each ending with a zero byte. */
void effect_put_notes(struct bytes *bytes, const struct effect_list *list,
                      const struct effect_row *row);
/* Whether a table leaves the row out. */
bool effect_row_is_quiet(const struct effect_list *list, const struct effect_row *row);

/* Writes the sums: as lines below a table, or as an object. */
void effect_put_sums(struct bytes *bytes, const struct effect_list *list,
                     const struct effect_summary *summary);
void effect_put_summary(struct bytes *bytes, const struct effect_list *list,
                        const struct effect_summary *summary);

#endif
