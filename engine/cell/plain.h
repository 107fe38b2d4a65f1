/* A cell as the rules would write it: the signs and words of spreadsheets and of people exchanged
 * for those of the language. For proposals only. */
#ifndef GROAT_PLAIN_H
#define GROAT_PLAIN_H

#include "memory/memory.h"
#include "unit/dimension.h"

/* `1 h 15 min` for `1:15` of a time, `24-1/2` for `24 1/2`, `14 in` for `14"`, `6` for `six`,
 * `35` for `(35?)`; the text itself where there is nothing to exchange. */
const char *plain_text(struct arena *arena, const char *text, struct dimension wanted);
/* Only its words: small letters, our units and digits. */
const char *plain_words(struct arena *arena, const char *text);

#endif
