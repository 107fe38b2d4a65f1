/* Why a single value, such as a cell or a rate, failed: the kind for a host, the words for a
 * person. The library hands it out as a groat_trouble, whose header says what each kind is. */
#ifndef GROAT_TROUBLE_H
#define GROAT_TROUBLE_H

#include <stddef.h>

enum trouble_kind {
    TROUBLE_NONE,
    TROUBLE_NO_MEMORY,
    TROUBLE_NOT_TEXT,
    TROUBLE_FORM,
    TROUBLE_EMPTY,
    TROUBLE_NO_UNIT,
    TROUBLE_UNKNOWN_UNIT,
    TROUBLE_AMBIGUOUS_UNIT,
    TROUBLE_OTHER_KIND,
    TROUBLE_DOUBTFUL_MARK,
    TROUBLE_NEGATIVE,
    TROUBLE_NOT_WHOLE,
    TROUBLE_TOO_LARGE,
    TROUBLE_RANGE,
    TROUBLE_UNKNOWN_NAME,
    TROUBLE_RULES,
    TROUBLE_CALL,
    TROUBLE_KINDS
};

enum help_kind { HELP_NONE, HELP_VALUE, HELP_EXAMPLE, HELP_ADVICE };

/* What to write instead. `text` may be NULL or empty, and then there is nothing to propose. */
struct trouble_help {
    enum help_kind kind;
    const char *text;
};

#define NO_HELP ((struct trouble_help){HELP_NONE, NULL})

struct trouble {
    enum trouble_kind kind;
    enum help_kind help_kind;
    char message[256];
    char help[160];
    unsigned column; /* from 1; 0 where it is not about a place */
    size_t index;    /* of the field or rate; SIZE_MAX for none */
    size_t given;    /* the rate's place among those handed in; SIZE_MAX for none */
};

/* Nothing is wrong, and it is about nothing. */
enum trouble_kind trouble_none(struct trouble *trouble);
enum trouble_kind trouble_no_memory(struct trouble *trouble);
/* Returns the kind. What it is about, `column`, `index` and `given`, stays as it is. */
enum trouble_kind trouble_say(struct trouble *trouble, enum trouble_kind kind,
                              struct trouble_help help, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
/* Only what to write instead. The text may not be the trouble's own. */
void trouble_propose(struct trouble *trouble, struct trouble_help help);

#endif
