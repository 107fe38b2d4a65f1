/* Why a single value, such as a cell or a rate, failed: its kind is for a host, its words are for a
 * person. The library returns it as a groat_trouble; groat.h explains each kind. */
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

enum help_kind { HELP_NONE, HELP_VALUE, HELP_EXAMPLE, HELP_ADVICE, HELP_CHOICE, HELP_ELSEWHERE };

/* What to write instead. If `text` is NULL or empty, there is no proposal. */
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
    unsigned column; /* from 1; 0 if it is not about a place in the text */
    size_t index;    /* of the field or rate; SIZE_MAX for none */
    size_t given;    /* the rate's index among the given ones; SIZE_MAX for none */
};

/* Sets a trouble that says that nothing is wrong. */
enum trouble_kind trouble_none(struct trouble *trouble);
enum trouble_kind trouble_no_memory(struct trouble *trouble);
/* Sets the kind, the message and the help; returns the kind. Leaves `column`, `index` and `given`
 * unchanged. */
enum trouble_kind trouble_say(struct trouble *trouble, enum trouble_kind kind,
                              struct trouble_help help, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
/* Sets only the help. Its text may not be that of the same trouble. */
void trouble_propose(struct trouble *trouble, struct trouble_help help);

#endif
