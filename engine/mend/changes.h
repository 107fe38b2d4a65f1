/* Small changes of a statement that may be what its maker meant. */
#ifndef GROAT_CHANGES_H
#define GROAT_CHANGES_H

#include "mend/trial.h"

/* Tries them, the likelier first, until one can be read. */
void mend_try_changes(struct mending *mending);
/* Each amount of a statement with what it may lack: a unit, the currency or `%`. */
void mend_try_amounts(struct mending *mending, const struct mend_file *file,
                      const struct pieces *pieces);

#endif
