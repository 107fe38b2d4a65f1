/* Errors and warnings about a rules file. Reading and checking report through this alone. */
#ifndef GROAT_DIAGNOSTIC_H
#define GROAT_DIAGNOSTIC_H

#include "source/source.h"
#include "source/trouble.h"

enum diagnostic_severity { DIAGNOSTIC_ERROR, DIAGNOSTIC_WARNING };

struct diagnostic {
    enum diagnostic_severity severity;
    enum trouble_kind kind; /* for whoever reads one value and not rules */
    struct span span;
    const char *message; /* to a maker; no capital, no full stop */
    const char *help;    /* what stands after `Try: `, or NULL */
};

/* After this many errors a file is more wrong than a reader has patience for; one line says so. So
 * many warnings are kept beside them. */
enum { DIAGNOSTICS_MOST = 200 };

struct diagnostics {
    struct arena *arena;
    struct diagnostic *items;
    size_t count, room;
    size_t errors;  /* met, kept or not */
    size_t kept[2]; /* by severity */
};

/* Whether another error would only be counted: what is costly to find out for it need not be. */
bool diagnostics_full(const struct diagnostics *list);

/* All copy the text. The same message at the same place is kept once. `help` may be NULL. */
void diagnostics_error(struct diagnostics *list, struct span span, const char *help,
                       const char *format, ...) __attribute__((format(printf, 4, 5)));
/* An error that is of another kind than TROUBLE_FORM where a single value is read. */
void diagnostics_error_of(struct diagnostics *list, enum trouble_kind kind, struct span span,
                          const char *help, const char *format, ...)
    __attribute__((format(printf, 5, 6)));
void diagnostics_warning(struct diagnostics *list, struct span span, const char *help,
                         const char *format, ...) __attribute__((format(printf, 4, 5)));
/* By file and place, each once. */
void diagnostics_sort(struct diagnostics *list);

#endif
