/* What a command line asks for, and the verbs that can be asked. Private to this room, as all its
 * headers are.
 *
 * A new verb `x` is a row in VERBS, x.c with its function `verb_x`, and its manual,
 * manual/x.txt. */
#ifndef GROAT_COMMAND_VERB_H
#define GROAT_COMMAND_VERB_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "groat.h"
#include "listing/listing.h"
#include "sheet/sheet.h"

/* The exit status of the command. */
enum status {
    STATUS_FINE = 0,   /* all priced */
    STATUS_PARTLY = 1, /* a row was refused or failed, an `expect` failed, a file is not tidy */
    STATUS_WRONG = 2   /* the command line, the rules or a file are wrong, or writing failed */
};

/* Options, as bits of what a verb takes. */
#define OPTION_CHANNEL (UINT64_C(1) << 0)
#define OPTION_QUANTITY (UINT64_C(1) << 1)
#define OPTION_SET (UINT64_C(1) << 2)
#define OPTION_AS_OF (UINT64_C(1) << 3)
#define OPTION_FORMAT (UINT64_C(1) << 4)
#define OPTION_OUTPUT (UINT64_C(1) << 5)
#define OPTION_DECIMAL (UINT64_C(1) << 6)
#define OPTION_FROM (UINT64_C(1) << 7)
#define OPTION_ALWAYS (UINT64_C(1) << 8) /* stands with every verb, and without one */
#define OPTION_DATA (UINT64_C(1) << 9)   /* how data is written */
#define OPTION_PRODUCT (UINT64_C(1) << 10)
#define OPTION_NAME (UINT64_C(1) << 11)
#define OPTION_CHECK (UINT64_C(1) << 12)
#define OPTION_WRITE (UINT64_C(1) << 13)
#define OPTION_AGAINST (UINT64_C(1) << 14)
#define OPTION_SINCE (UINT64_C(1) << 15)
#define OPTION_HOLD (UINT64_C(1) << 16)
#define OPTION_EACH (UINT64_C(1) << 17)
#define OPTION_ESTIMATES (UINT64_C(1) << 18)
#define OPTION_OVER (UINT64_C(1) << 19)
#define OPTION_STEPS (UINT64_C(1) << 20)
#define OPTION_CHART (UINT64_C(1) << 21)
#define OPTION_BY (UINT64_C(1) << 22)
#define OPTION_BY_PERCENT (UINT64_C(1) << 23) /* the same word as --by, with another meaning */
#define OPTION_GOAL (UINT64_C(1) << 24)
#define OPTION_PACE (UINT64_C(1) << 25)
#define OPTION_AT (UINT64_C(1) << 26)
#define OPTION_COMPILED (UINT64_C(1) << 27)
#define OPTION_ALL (UINT64_C(1) << 28)
#define OPTION_CURRENCY (UINT64_C(1) << 29)
#define READS_UNROUNDED (UINT64_C(1) << 30) /* not an option: the rules are read unrounded */
#define OPTION_JOBS (UINT64_C(1) << 31)

/* The words that a verb takes beside its options. */
enum words_taken {
    TAKES_SEVERAL,            /* rules files, at least one */
    TAKES_RULES_AND_PRODUCTS, /* one of them, and a product sheet */
    TAKES_METHOD_AND_FOLDER   /* a ready-made method and where to write it; or nothing */
};

/* The most quantities that are priced in one run. */
#define QUANTITIES_MOST 1000

/* A command line that has been read. Its texts are the process's own arguments. */
struct request {
    const struct verb *verb;      /* NULL: none was named */
    const char *rules, *products; /* NULL where the verb takes none */
    const char *const *all_rules; /* of a verb that takes several: `rules` is the first */
    const char *method, *folder;  /* of a verb that takes them, if given; or NULL */
    const char *currency;         /* or NULL */
    size_t rules_count;
    const char **channels; /* as named; empty: every one */
    size_t channels_count;
    int64_t *quantities; /* at least one */
    size_t quantities_count;
    bool quantities_given;
    groat_rate_value *sets;
    size_t sets_count;
    const char *as_of;          /* or NULL */
    const char *output;         /* or NULL: standard output */
    const char *product, *name; /* what to explain; or NULL */
    groat_rate_value over;      /* a rate from `value` toward `toward`; its name is NULL if not
                                 * given */
    size_t steps;               /* 0: not given */
    size_t jobs;                /* how many threads; 0: not given */
    bool each;
    const char *chart;           /* a file for a picture; or NULL */
    const char *goal, *pace;     /* the one goal; the sales a week, as written; or NULL */
    const char *by;              /* the figure to rank by, or the change; or NULL */
    const char *at;              /* a price, or a column of prices; or NULL */
    const char *against, *since; /* other rules, an earlier list; or NULL */
    const char *hold;            /* a percentage as written; or NULL */
    int64_t hold_top, hold_bottom;
    enum listing_form format;
    bool format_given;
    const char **columns; /* as named; empty: every one */
    size_t columns_count;
    bool exact, raw, buyers;
    enum sheet_form from; /* when `from_given` */
    bool from_given, decimal_comma, help, version, quiet;
    bool check, write;   /* of tidying */
    bool compiled;       /* of checking */
    bool estimates;      /* beside the prices */
    bool all;            /* also where a product is not sold */
    const char **places; /* the words that are not options: verb, rules, products */
    size_t places_count;
};

/* The help of a verb: the parts of its text in manual/. */
struct manual {
    const char *summary;  /* a line in the list of verbs */
    const char *text;     /* between the usage and the options */
    const char *examples; /* lines that can be run, after the options */
};

struct verb {
    const char *name;
    enum words_taken takes;
    uint64_t options; /* bits */
    const struct manual *manual;
    enum status (*run)(const struct request *request);
};

extern const struct verb verbs[];
extern const size_t verbs_count;

/* The options of every verb that reads a product sheet and prints a list. */
#define LIST_OPTIONS                                                                               \
    (OPTION_CHANNEL | OPTION_QUANTITY | OPTION_SET | OPTION_AS_OF | OPTION_FORMAT |                \
     OPTION_OUTPUT | OPTION_DECIMAL | OPTION_FROM | OPTION_DATA)

/* X(its name, the words that it takes, its options) */
/* clang-format off */
#define VERBS(X)                                                                                   \
    X(start, TAKES_METHOD_AND_FOLDER, OPTION_CURRENCY)                                             \
    X(check, TAKES_SEVERAL, OPTION_COMPILED)                                                       \
    X(price, TAKES_RULES_AND_PRODUCTS, LIST_OPTIONS | OPTION_ESTIMATES | OPTION_ALL | OPTION_JOBS) \
    X(explain, TAKES_RULES_AND_PRODUCTS,                                                           \
      (LIST_OPTIONS & ~(OPTION_FORMAT | OPTION_DATA)) | OPTION_PRODUCT | OPTION_NAME)              \
    X(effect, TAKES_RULES_AND_PRODUCTS,                                                            \
      LIST_OPTIONS | OPTION_AGAINST | OPTION_SINCE | OPTION_HOLD)                                  \
    X(goals, TAKES_RULES_AND_PRODUCTS,                                                             \
      OPTION_CHANNEL | OPTION_SET | OPTION_AS_OF | OPTION_FORMAT | OPTION_OUTPUT |                 \
      OPTION_DECIMAL | OPTION_FROM | OPTION_DATA | OPTION_GOAL | OPTION_PACE)                      \
    X(rank, TAKES_RULES_AND_PRODUCTS, LIST_OPTIONS | OPTION_BY)                                    \
    X(earn, TAKES_RULES_AND_PRODUCTS, LIST_OPTIONS | OPTION_AT)                                    \
    X(tidy, TAKES_SEVERAL, OPTION_CHECK | OPTION_WRITE | OPTION_OUTPUT)                            \
    X(sweep, TAKES_RULES_AND_PRODUCTS,                                                             \
      LIST_OPTIONS | OPTION_PRODUCT | OPTION_OVER | OPTION_STEPS | OPTION_CHART)                   \
    X(drivers, TAKES_RULES_AND_PRODUCTS,                                                           \
      LIST_OPTIONS | OPTION_PRODUCT | OPTION_BY_PERCENT | OPTION_EACH | OPTION_CHART |             \
      READS_UNROUNDED)
/* clang-format on */

#define VERB_DECLARATIONS(name, takes, options)                                                    \
    enum status verb_##name(const struct request *request);                                        \
    extern const struct manual manual_##name;
VERBS(VERB_DECLARATIONS)
#undef VERB_DECLARATIONS

#endif
