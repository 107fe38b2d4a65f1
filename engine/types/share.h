/* Warns of shares of 100% or more, where a `%` may be missing. They may be written in place or in a
 * rate. */
#ifndef GROAT_SHARE_H
#define GROAT_SHARE_H

#include "types/check.h"

/* `tax added 20`, `5 of price`. */
void share_warn_of_whole(struct check *check, const struct expression *share);
/* `marked up 150`. */
void share_warn_of_markup(struct check *check, const struct expression *rate);
/* `margin >= 35`: `name` is compared with `number`. */
void share_warn_of_margin(struct check *check, const struct expression *name,
                          const struct expression *number);
/* Checks that a rate is below 100%, as `word` needs. */
void share_check(struct check *check, const struct expression *rate, const char *word);
/* Checks the same of a discount: of its value, of each side of an `if`, and of each row of a
 * table. */
void share_check_discount(struct check *check, const struct expression *discount);

#endif
