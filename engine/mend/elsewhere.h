/* Slips that stand where a name is defined, and not where the error is. */
#ifndef GROAT_ELSEWHERE_H
#define GROAT_ELSEWHERE_H

#include "mend/trial.h"

/* Tries what the amounts may lack in the definitions that the error's statement depends on. */
void mend_try_definitions(struct mending *mending);
/* Tries the unknown name in the definition whose name the engine proposes. */
void mend_try_renaming(struct mending *mending, const char *defined);

#endif
