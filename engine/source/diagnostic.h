/* Errors and warnings about a rules file. All errors found in reading and checking are reported
 * here. */
#ifndef GROAT_DIAGNOSTIC_H
#define GROAT_DIAGNOSTIC_H

#include <stdarg.h>

#include "source/source.h"
#include "source/trouble.h"

enum diagnostic_severity { DIAGNOSTIC_ERROR, DIAGNOSTIC_WARNING };

struct diagnostic {
    enum diagnostic_severity severity;
    enum trouble_kind kind; /* used where a single value is read rather than rules */
    struct span span;
    const char *message; /* to a maker; no capital, no full stop */
    const char *help;    /* the text after `Try: `, or NULL */
    enum help_kind help_kind;
};

/* After this many errors no more are kept, since nobody would read them; one line says so. The same
 * number of warnings is kept as well. */
enum { DIAGNOSTICS_MOST = 200 };

struct diagnostics {
    struct arena *arena;
    struct diagnostic *items;
    size_t count, room;
    size_t errors;  /* all errors found, kept or not */
    size_t kept[2]; /* by severity */
    size_t last;    /* the index of the one said last; SIZE_MAX if it was not kept */
};

/* Whether another error would only be counted, so that its message need not be worked out. */
bool diagnostics_full(const struct diagnostics *list);

/* All of these copy the text. The same message at the same place is kept once. `help` may be
 * NULL. */
void diagnostics_error(struct diagnostics *list, struct span span, const char *help,
                       const char *format, ...) __attribute__((format(printf, 4, 5)));
/* The same, for an error whose kind is not TROUBLE_FORM when a single value is read. */
void diagnostics_error_of(struct diagnostics *list, enum trouble_kind kind, struct span span,
                          const char *help, const char *format, ...)
    __attribute__((format(printf, 5, 6)));
void diagnostics_error_given(struct diagnostics *list, enum trouble_kind kind, struct span span,
                             const char *help, const char *format, va_list given)
    __attribute__((format(printf, 5, 0)));
void diagnostics_warning(struct diagnostics *list, struct span span, const char *help,
                         const char *format, ...) __attribute__((format(printf, 4, 5)));
/* Says what the help of the error or warning said last is, where it is not HELP_VALUE. */
void diagnostics_help_is(struct diagnostics *list, enum help_kind kind);
/* Sorts by file and place, and drops repeated ones. */
void diagnostics_sort(struct diagnostics *list);

#endif
