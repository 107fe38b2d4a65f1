/* Rankings as a list: a row for each place, and below a table how often each channel comes
 * first. */
#ifndef GROAT_REPORT_RANK_LIST_H
#define GROAT_REPORT_RANK_LIST_H

#include "listing/listing.h"
#include "study/rank.h"

struct rank_list;

/* `plan` gives everything except the columns. `by` is the name that the rankings are by, and `kind`
 * what it is. The method and `by` must outlive the list. NULL when memory runs out or nothing can
 * be written; errno says why. */
struct rank_list *rank_list_open(const groat_method *method, const struct listing_plan *plan,
                                 const char *by, groat_kind kind, FILE *out);
/* Adds every place of a settled ranking. Returns false as listing_add does. */
bool rank_list_add(struct rank_list *list, groat_text product, const struct rank *rank);
bool rank_list_close(struct rank_list *list, bool whole); /* as listing_close */

/* Writes the lines below a table. Returns false when they could not be written; errno says why. */
bool rank_summary_write(const struct rank *rank, const groat_method *method, const char *by,
                        const size_t *channels, size_t channels_count, FILE *out);

#endif
