/* Shares of 100% or more, written in place or in a rate that is named: a `%` may be missing. */
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
/* That a rate is below 100%, for the word that needs it to be. */
void share_check(struct check *check, const struct expression *rate, const char *word);
/* The same for a discount: its value, each side of its `if`, and each row of its table. */
void share_check_discount(struct check *check, const struct expression *discount);

#endif
