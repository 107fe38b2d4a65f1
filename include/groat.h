/* Groat: an embeddable engine for pricing rules.
 *
 * This header is the whole public interface, and its manual. A host does four things:
 *
 *     groat_report *report;
 *     groat_method *method = groat_method_read(&rules, NULL, &report);     once
 *     groat_scratch *scratch = groat_scratch_new(method);                  once a thread
 *     groat_record *record = groat_record_new(method);                     once, then reused
 *     groat_record_set(record, field, cell, NULL, &trouble);               for each cell
 *     groat_price(scratch, method, record, &order);                        for each channel
 *     groat_value price = groat_result_figure(scratch, GROAT_PRICE);
 *
 * Ownership. Every `…_new`, `…_read`, `…_with_rates` and `…_leaned` gives an object that the caller
 * frees with the matching `…_free`, which takes NULL. Texts and structs that are handed out belong to
 * the object they came from and live as long as it does, unless another time is named.
 *
 * Threads. A method never changes once it is read; any number of threads may use it at once without
 * a lock. A scratch and a record belong to one thread at a time. There is no global state.
 *
 * Failure. Nothing here aborts, exits, prints, reads a file or looks at the clock. When memory runs
 * out, the functions that make something return NULL, and the others return GROAT_NO_MEMORY.
 *
 * Wrong arguments. A wrong argument is answered and never used: NULL where something is needed, an
 * index past the last one (SIZE_MAX of a name that was not found among them), a number that an enum
 * does not have, a count without its list, or a scratch and a record that were made for other rules
 * than the method. Rules that are read again are other rules, even where not a letter has changed;
 * methods made by `…_with_rates` and `…_leaned` belong to the rules of the method they come from. The
 * answer is GROAT_FAILED with groat_result_reason where a function returns an outcome, and
 * GROAT_BAD_VALUE with `*trouble` where it returns a status. A function that makes something returns
 * NULL. Otherwise a value is missing, a count 0, an index SIZE_MAX, a flag false, a written text
 * empty, a pointer NULL, and a struct blank, with empty texts for those that are never NULL. Nobody
 * can check whether an object was freed, or whether a list and a buffer are as long as the host says.
 *
 * Amounts are exact fractions. They leave the library as texts: exactly, as numerator and
 * denominator; rounded to decimals; or written for a person. Texts are UTF-8.
 *
 * Writers of texts follow snprintf: they fill at most `size` bytes, closed by a zero byte, and
 * return the length of the whole text. `buffer` may be NULL: then they only measure.
 */
#ifndef GROAT_H
#define GROAT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined(__GNUC__)
#define GROAT_API __attribute__((visibility("default")))
#else
#define GROAT_API
#endif

#define GROAT_VERSION "0.1.0"
GROAT_API const char *groat_version(void); /* of the library that is linked */

/* ---- memory and limits ---- */

/* Where the library gets its memory. Behaves like realloc with the old size told; `new_size` 0 frees
 * and returns NULL. Blocks are aligned for pointers and for int64_t; more is not needed. Called from
 * whatever thread calls the library. */
typedef struct groat_allocator {
    void *(*resize)(void *context, void *block, size_t old_size, size_t new_size);
    void *context;
} groat_allocator;

/* What hostile rules or records may cost at most. Every one met is a clear error. */
typedef struct groat_limits {
    size_t source_bytes; /* of one rules file */
    size_t nesting;      /* levels of an expression, through the definitions it leans on; each may
                            take 2 KB of the stack, and the default fits one of 512 KB */
    size_t definitions;  /* of a method */
    size_t table_rows;   /* of one table */
    size_t number_bits;  /* of a numerator or a denominator; at most 8192 */
    size_t bends;        /* pieces looked at while one price is sought */
    size_t trials;       /* prices tried while one price is sought */
    size_t steps;        /* of one record on one channel, and of a method when it is read; work on
                            long numbers, tables and texts counts as many: with the default a
                            price takes less than half a second */
    size_t memory_bytes; /* held by one method, record or scratch */
} groat_limits;
GROAT_API groat_limits groat_limits_default(void);

/* ---- why something failed ---- */

typedef enum groat_status {
    GROAT_OK,
    GROAT_BAD_VALUE, /* `*trouble`, which may be NULL, says why */
    GROAT_NO_MEMORY  /* and here, too */
} groat_status;

/* What kind of trouble it is, for a host that does something about it; `message` says it in words. */
typedef enum groat_trouble_kind {
    GROAT_TROUBLE_NONE,           /* nothing is wrong */
    GROAT_TROUBLE_NO_MEMORY,      /* the value may be right */
    GROAT_TROUBLE_NOT_TEXT,       /* the bytes are not UTF-8, or hold a zero byte */
    GROAT_TROUBLE_FORM,           /* the text is no value of the language */
    GROAT_TROUBLE_EMPTY,          /* a value is needed, and the text is empty */
    GROAT_TROUBLE_NO_UNIT,        /* a bare number where a unit or a % sign is needed */
    GROAT_TROUBLE_UNKNOWN_UNIT,   /* a word that is not a unit, or another currency */
    GROAT_TROUBLE_AMBIGUOUS_UNIT, /* a word that can mean several units, such as `gal` */
    GROAT_TROUBLE_OTHER_KIND,     /* a value, but of another kind or dimension than is wanted */
    GROAT_TROUBLE_DOUBTFUL_MARK, /* a comma or a point that may divide thousands or begin decimals */
    GROAT_TROUBLE_NEGATIVE,      /* below zero, or for a price not above it */
    GROAT_TROUBLE_NOT_WHOLE,     /* a count, or a price in smallest units, that is not whole */
    GROAT_TROUBLE_TOO_LARGE,     /* beyond a limit, or beyond any price */
    GROAT_TROUBLE_RANGE,         /* a range out of order, or one where a single value is needed */
    GROAT_TROUBLE_UNKNOWN_NAME,  /* there is no rate or material of that name */
    GROAT_TROUBLE_RULES,         /* with this value a table or a rounding is out of order */
    GROAT_TROUBLE_CALL           /* the call itself cannot be: an index out of range, for example */
} groat_trouble_kind;

/* What `help` is. */
typedef enum groat_help {
    GROAT_HELP_NONE,    /* there is nothing to propose, and `help` is empty */
    GROAT_HELP_VALUE,   /* the value that was given, written so that it can be read */
    GROAT_HELP_EXAMPLE, /* another value, written as one of its kind can be */
    GROAT_HELP_ADVICE   /* what to do, in words */
} groat_help;

/* Why a single thing failed: a cell, a rate, an amount of money. Every function that takes one, or
 * NULL, fills it in always: with GROAT_TROUBLE_NONE and empty texts where nothing failed. */
typedef struct groat_trouble {
    groat_trouble_kind kind;
    groat_help help_kind;
    size_t index; /* of the field or the rate that it is about; SIZE_MAX when it is about none */
    size_t given; /* the place of the rate among those that were handed in; SIZE_MAX otherwise */
    char message[256]; /* in a person's words */
    char help[160];    /* what to write or do instead */
    unsigned column;   /* within the text that was read, from 1; 0 when it is not about a place */
} groat_trouble;

/* `help` as a person reads it after `Try:`, an example as `for example 12 mm`. Empty when there is
 * nothing to propose. */
GROAT_API size_t groat_trouble_help(const groat_trouble *trouble, char *buffer, size_t size);

/* ---- reading rules ---- */

/* A text: `start` need not be closed by a zero byte. */
typedef struct groat_text {
    const char *start;
    size_t length;
} groat_text;

/* Hands out the rules files that `use` names; the library opens no file itself. `name` is as the
 * rules say it, `from` the full name of the file that says so. On success fills in the full name, by
 * which a file is known when it is used again, and its text, and returns true; both must live until
 * groat_method_read returns. */
typedef bool groat_loader(void *context, const char *name, const char *from, const char **full_name,
                          groat_text *text);

/* How rules are read. Zero or NULL members mean what groat_method_read says. */
typedef struct groat_reading {
    const groat_allocator *allocator; /* NULL, or without a function: the C library's */
    const groat_limits *limits;       /* NULL: groat_limits_default() */
    groat_loader *loader;             /* NULL: every `use` is an error */
    void *loader_context;
    /* Prices stand on no ladder, and the currency's smallest unit is a millionth of itself wherever
     * one is counted or rounded to: how prices move, without the steps in which they do. What the
     * rules themselves round to an amount is rounded. An `expect` will often not hold then. */
    bool unrounded;
} groat_reading;

typedef struct groat_method groat_method;
typedef struct groat_report groat_report;

/* Reads and checks rules, and compiles them when they have no error. `name` stands in messages; NULL
 * for "rules". `*report`, which the caller frees, holds everything there is to say; NULL only when the
 * host's memory ran out. Returns NULL when there is an error. `reading` and `report` may be NULL. */
GROAT_API groat_method *groat_method_read(const char *name, groat_text rules,
                                          const groat_reading *reading, groat_report **report);
GROAT_API void groat_method_free(groat_method *method);

/* A rate given from outside. A value is a literal of the rate's dimension, as a person writes it
 * (`$30 per h`, `15%`), a bare number only where the rate is a plain number that the rules do not
 * write as a percentage; or a change, a sign and a percentage (`+10%`, `-2.5%`): so much more or less
 * than the rate is in the method at hand. With `toward` the rate is a point on the way from one to
 * the other: value + (toward - value) * top / bottom, exactly. */
typedef struct groat_rate_value {
    const char *rate; /* its name */
    const char *value;
    const char *toward; /* NULL: `value` itself */
    int64_t top, bottom;
} groat_rate_value;

/* The same method with some rates replaced: cheap, only what depends on them is worked out again.
 * The two methods are freed on their own, in any order. On failure returns NULL and says why in
 * `*trouble`, which may be NULL: of what kind, so that want of memory is told from a bad value, and
 * which rate it is about. */
GROAT_API groat_method *groat_method_with_rates(const groat_method *method,
                                                const groat_rate_value *values, size_t count,
                                                groat_trouble *trouble);

/* ---- what there is to say about rules ---- */

typedef enum groat_severity { GROAT_ERROR, GROAT_WARNING } groat_severity;

typedef struct groat_diagnostic {
    groat_severity severity;
    const char *file;
    unsigned line, column; /* from 1; the column in characters */
    unsigned span;         /* characters marked on that line, at least 1 */
    const char *source;    /* the line itself; of a very long one the beginning */
    const char *message;   /* what is wrong */
    const char *help;      /* what to try, or NULL */
} groat_diagnostic;

/* In the order of the files. */
GROAT_API size_t groat_report_count(const groat_report *report);
GROAT_API size_t groat_report_errors(const groat_report *report);
GROAT_API const groat_diagnostic *groat_report_at(const groat_report *report, size_t index);
GROAT_API void groat_report_free(groat_report *report);
/* `file:line:column: error: …`, the line with the span marked, and `Try: …`; ends with a newline. */
GROAT_API size_t groat_diagnostic_write(const groat_diagnostic *diagnostic, char *buffer,
                                        size_t size);

/* Runs the `expect`s. Each one that fails is an error in the report, which the caller frees; NULL
 * when memory ran out. `*count` becomes how many there are; `count` may be NULL. */
GROAT_API groat_report *groat_method_check(const groat_method *method, size_t *count);

/* ---- tidying rules ---- */

typedef struct groat_tidied groat_tidied;

/* The same rules in the one layout that the manual of the language describes: the same words and
 * comments on the same lines, so the same meaning. Only whether the text can be read is looked at:
 * it may use names that stand elsewhere, and no loader is called. `name` stands in messages.
 * `*report`, which the caller frees, holds what is wrong; NULL only when the host's memory ran out.
 * Returns NULL when there is an error. `name`, `reading` and `report` may be NULL. */
GROAT_API groat_tidied *groat_tidy(const char *name, groat_text rules, const groat_reading *reading,
                                   groat_report **report);
/* UTF-8, without a byte-order mark; a zero byte stands after it. The tidied object's own. */
GROAT_API groat_text groat_tidied_text(const groat_tidied *tidied);
GROAT_API void groat_tidied_free(groat_tidied *tidied);

/* ---- values ---- */

typedef enum groat_kind {
    GROAT_KIND_NUMBER, /* a plain number */
    GROAT_KIND_MONEY,
    GROAT_KIND_QUANTITY, /* anything else with a dimension */
    GROAT_KIND_TEXT,
    GROAT_KIND_FLAG,
    GROAT_KIND_DATE,
    GROAT_KIND_PARTS
} groat_kind;

typedef enum groat_presence {
    GROAT_MISSING, /* nothing to show */
    GROAT_THERE,
    GROAT_NO_VALUE /* could not be worked out */
} groat_presence;

/* A value. One of a result is to be used before the scratch prices again. */
typedef struct groat_value {
    groat_presence presence;
    groat_kind kind;
    const void *inside; /* the library's own */
    const void *unit;
} groat_value;

/* What was given as a range, `$4 to $6 likely $4.50`. It counts as its likely value, which is the
 * middle where none is given. A range whose ends are equal is a value like any other. */
typedef struct groat_range {
    groat_value low, likely, high;
} groat_range;

/* Where a range is leaned to. */
typedef enum groat_end { GROAT_LOW, GROAT_LIKELY, GROAT_HIGH } groat_end;

/* The numerator and the denominator in lowest terms, in the value's unit: money in the currency, time
 * in seconds, or the unit of its `show`. A flag is 0 or 1, a date its days since 0000-03-01. False, with
 * nothing filled in, where there is no number, and where one of the two does not fit. */
GROAT_API bool groat_value_fraction(groat_value value, int64_t *top, int64_t *bottom);
/* Money in smallest units of the currency, as groat_price_at takes it; with `unrounded` rules in
 * millionths of these. False, with nothing filled in, where the value is not money, is missing, is
 * not a whole number of them, or does not fit. A list price and a price are always whole. */
GROAT_API bool groat_value_coins(groat_value value, int64_t *coins);
/* The same two as texts, for numbers of any length. Empty for texts and where there is no value. */
GROAT_API size_t groat_value_top(groat_value value, char *buffer, size_t size);
GROAT_API size_t groat_value_bottom(groat_value value, char *buffer, size_t size);
/* With exactly `places` decimals, ties away from zero. Empty where there is no number. */
GROAT_API size_t groat_value_places(groat_value value, unsigned places, char *buffer, size_t size);
/* With at most `places` decimals, closing zeros dropped. */
GROAT_API size_t groat_value_short(groat_value value, unsigned places, char *buffer, size_t size);
/* As a sheet shows it: a text as it stands, `yes` or `no`, a date, an amount in decimals. */
GROAT_API size_t groat_value_write(groat_value value, unsigned places, char *buffer, size_t size);

/* ---- what a method needs and offers ---- */

typedef struct groat_currency {
    const char *code;   /* ISO 4217 */
    const char *symbol; /* as the rules give it; the code where they give none */
    unsigned decimals;  /* of its smallest unit */
} groat_currency;

typedef struct groat_field {
    const char *name;
    const char *column; /* the heading it is read under */
    const char *type;   /* as written: "time", "money", "sheet" */
    groat_kind kind;
    bool required; /* neither optional nor with a default */
    bool optional;
    const char *default_text; /* as written, or NULL */
} groat_field;

typedef struct groat_rate {
    const char *name;
    const char *text; /* its value as written in the rules */
    const char *file; /* where it stands */
    unsigned line;
    bool material;
} groat_rate;

typedef struct groat_column {
    const char *name;
    groat_kind kind;
    const char *unit; /* "USD per h", or NULL */
} groat_column;

typedef struct groat_goal {
    const char *text;
    bool per_time;    /* needs an amount per time, not an amount */
    bool limited;     /* has what a sale takes of */
    bool takes_time;  /* … and that is time */
    const char *file; /* where it stands */
    unsigned line;
} groat_goal;

GROAT_API groat_currency groat_method_currency(const groat_method *method);
GROAT_API size_t groat_method_fields(const groat_method *method);
GROAT_API groat_field groat_method_field(const groat_method *method, size_t index);
/* The field's index by its name or its column's heading, or SIZE_MAX. */
GROAT_API size_t groat_method_find_field(const groat_method *method, const char *name);
GROAT_API size_t groat_method_rates(const groat_method *method);
GROAT_API groat_rate groat_method_rate(const groat_method *method, size_t index);
/* What a rate is in this method, in base units: money in the currency, time in seconds, length in
 * millimetres, mass in grams, energy in watt-hours. It lives as long as the method. */
GROAT_API groat_value groat_method_rate_value(const groat_method *method, size_t index);
/* The same for a person: `$24 per h`, `15%`. A rate that was not replaced is written as the rules
 * write it, where that is a literal. Empty when memory runs out. */
GROAT_API size_t groat_method_rate_amount(const groat_method *method, size_t index, char *buffer,
                                          size_t size);
/* Whether a rate is a range in this method; then fills in `*range`, which may be NULL, as long as the
 * method lives. */
GROAT_API bool groat_method_rate_range(const groat_method *method, size_t index,
                                       groat_range *range);
/* A rate, by its index, and the end that it is leaned to. */
typedef struct groat_lean {
    size_t rate;
    groat_end end;
} groat_lean;
/* The same method with some of its ranges at an end: as if the rate had been given that value.
 * What is no range stays as it is. On failure returns NULL and says why in `*trouble`, which may be
 * NULL. */
GROAT_API groat_method *groat_method_leaned(const groat_method *method, const groat_lean *leans,
                                            size_t count, groat_trouble *trouble);
GROAT_API size_t groat_method_channels(const groat_method *method);
GROAT_API const char *groat_method_channel(const groat_method *method, size_t index);
GROAT_API size_t groat_method_find_channel(const groat_method *method, const char *name);
/* The columns that the `show`s make, over all channels. */
GROAT_API size_t groat_method_shows(const groat_method *method);
GROAT_API groat_column groat_method_show(const groat_method *method, size_t index);
GROAT_API size_t groat_method_goals(const groat_method *method);
GROAT_API groat_goal groat_method_goal(const groat_method *method, size_t index);
/* What a goal with a limit has, for a person: `40 h per month`. Empty where the rules give neither an
 * amount nor a rate, so that it may be another for each record. Follows snprintf. */
GROAT_API size_t groat_method_goal_limit(const groat_method *method, size_t index, char *buffer,
                                         size_t size);
/* Every name whose figure can be explained, the engine's own first; one that several channels define
 * each for themselves comes several times. */
GROAT_API size_t groat_method_names(const groat_method *method);
GROAT_API const char *groat_method_name(const groat_method *method, size_t index);

/* ---- records ---- */

/* How cells are written. */
typedef struct groat_cells {
    bool decimal_comma; /* `1.234,50`; otherwise `1,234.50` */
} groat_cells;

typedef struct groat_record groat_record;

/* A record of the method's fields, all absent. It serves methods made from this one by
 * groat_method_with_rates too, and keeps the method alive. */
GROAT_API groat_record *groat_record_new(const groat_method *method);
GROAT_API void groat_record_free(groat_record *record);
/* Makes every field absent again, and keeps the memory. */
GROAT_API void groat_record_clear(groat_record *record);

/* Sets a field from a cell as a product sheet has it: a literal of the language, or a bare number
 * where the field takes one. An empty cell is an absent value. The text is copied. `cells` and
 * `trouble` may be NULL. On failure the record is as it was. */
GROAT_API groat_status groat_record_set(groat_record *record, size_t field, groat_text cell,
                                        const groat_cells *cells, groat_trouble *trouble);
/* Sets a field to top/bottom of what a bare number means in it (`40` in minutes); flags are 0 or 1.
 * `bottom` is above zero. Not for texts, dates and parts. */
GROAT_API groat_status groat_record_set_fraction(groat_record *record, size_t field, int64_t top,
                                                 int64_t bottom, groat_trouble *trouble);
/* Whether a field of the record is a range: its cell, or its default where the cell is absent. Then
 * fills in `*range`, which may be NULL, until the field is set again or the record cleared. */
GROAT_API bool groat_record_range(const groat_record *record, size_t field, groat_range *range);
/* Gives a field that is a range one of its values, until it is leaned again; what is no range stays
 * as it is. Allocates nothing. */
GROAT_API void groat_record_lean(groat_record *record, size_t field, groat_end end);
/* The first required field that is absent, or SIZE_MAX. */
GROAT_API size_t groat_record_missing(const groat_record *record);

/* ---- pricing ---- */

typedef struct groat_scratch groat_scratch;

/* Working room for one thread; serves this method and those made from it. Pricing allocates nothing
 * once it has grown to the method's needs. */
GROAT_API groat_scratch *groat_scratch_new(const groat_method *method);
GROAT_API void groat_scratch_free(groat_scratch *scratch);

typedef struct groat_order {
    size_t channel;
    int64_t quantity;  /* pieces in this order, 1 or more */
    const char *as_of; /* `2027-01-31`, or NULL when there is none */
} groat_order;

/* Whether a text is a date as `as_of` takes it, so that a host can say so before it prices. */
GROAT_API bool groat_date_valid(const char *text);

typedef enum groat_outcome {
    GROAT_PRICED,
    GROAT_NOT_SOLD, /* `only when` keeps it off this channel */
    GROAT_REFUSED,  /* priced, and refused: groat_result_reason says why */
    GROAT_FAILED    /* no price: groat_result_reason says why */
} groat_outcome;

/* Prices a record on a channel. The result lives in the scratch until the next call, and leans on the
 * method and the record: free or change these after it was looked at. */
GROAT_API groat_outcome groat_price(groat_scratch *scratch, const groat_method *method,
                                    const groat_record *record, const groat_order *order);

/* Reads money as a cell of a sheet has it (`$45`, `1,234.50`): a price, in smallest units of the
 * currency. `cells` may be NULL. */
GROAT_API groat_status groat_money_read(const groat_method *method, groat_text text,
                                        const groat_cells *cells, int64_t *coins,
                                        groat_trouble *trouble);
/* Works everything out at a price that is given, in smallest units, whatever the price block says:
 * `list` and `price` are both this. What the rules refuse there is GROAT_REFUSED, with its figures. */
GROAT_API groat_outcome groat_price_at(groat_scratch *scratch, const groat_method *method,
                                       const groat_record *record, const groat_order *order,
                                       int64_t coins);
/* The same at the least price, to the smallest unit, at which `profit` is not below zero. */
GROAT_API groat_outcome groat_price_without_loss(groat_scratch *scratch, const groat_method *method,
                                                 const groat_record *record,
                                                 const groat_order *order);
/* The same at the least allowed price, not below the floor, at which a goal's `has` suffices:
 * gives * has / takes >= needs. For a goal without `has`, what groat_price does. */
GROAT_API groat_outcome groat_price_for_goal(groat_scratch *scratch, const groat_method *method,
                                             const groat_record *record, const groat_order *order,
                                             size_t goal);

/* Which fields of the record, and which rates, the channel's figures, shows, notes and refusals read:
 * no others can change what it comes to there. Of materials those that its parts name. Fills one
 * flag a field and one a rate; either may be NULL. */
GROAT_API groat_status groat_reads(groat_scratch *scratch, const groat_method *method,
                                   const groat_record *record, size_t channel, bool *fields,
                                   bool *rates);

/* Many records at once, from columns of whole numbers over one denominator a column: for speed.
 * Every column has `count` tops, in what a bare number means in its field. */
typedef struct groat_number_column {
    size_t field;
    const int64_t *tops;
    int64_t bottom;
} groat_number_column;

/* Fills `prices` with the price of each record in smallest units of the currency, and `outcomes`.
 * A price is 0 where there is none. Either may be NULL. Fields without a column are absent; where one
 * of these is required, and a required text always is without one, nothing is priced. With
 * GROAT_BAD_VALUE the rows before the one that is wrong are filled. */
GROAT_API groat_status groat_price_columns(groat_scratch *scratch, const groat_method *method,
                                           const groat_order *order,
                                           const groat_number_column *columns, size_t columns_count,
                                           size_t count, int64_t *prices, groat_outcome *outcomes,
                                           groat_trouble *trouble);

/* ---- results ---- */

typedef enum groat_figure {
    GROAT_LIST,   /* our own price for one before discount */
    GROAT_PRICE,  /* what one piece costs this buyer */
    GROAT_EXTRAS, /* what the buyer pays on top */
    GROAT_TAX,
    GROAT_PAID, /* price + extras + added tax */
    GROAT_NET,  /* price + extras - included tax */
    GROAT_FEES,
    GROAT_KEEP, /* net - fees */
    GROAT_COST,
    GROAT_PAY,       /* the part of the cost that is the maker's own pay */
    GROAT_PROFIT,    /* keep - cost */
    GROAT_MARGIN,    /* profit / net; missing where net is not above zero */
    GROAT_TAKE_HOME, /* profit + pay */
    GROAT_FLOOR,     /* of the channel's price; missing where there is none, or it does not apply */
    GROAT_CEILING
} groat_figure;

GROAT_API groat_value groat_result_figure(const groat_scratch *scratch, groat_figure figure);
/* By the index of groat_method_show; missing where the channel does not show it. */
GROAT_API groat_value groat_result_show(const groat_scratch *scratch, size_t index);
/* Any value by the name it has in the rules, or one of the engine's; missing when there is none of
 * that name on the channel. */
GROAT_API groat_value groat_result_named(groat_scratch *scratch, const char *name);
/* What the price rests on. */
typedef enum groat_footing {
    GROAT_ON_NOTHING, /* there is no price */
    GROAT_ON_AIM,     /* it is the least one that meets the aim and keeps to the floor */
    GROAT_ON_SET,
    GROAT_ON_FLOOR,   /* a set price, raised to the floor */
    GROAT_ON_CEILING, /* the aim or the set price would be higher */
    GROAT_ON_PIN,
    GROAT_ON_GIVEN /* it was given from outside */
} groat_footing;
GROAT_API groat_footing groat_result_footing(const groat_scratch *scratch);

/* Whether the aim holds at the list price of the result. */
typedef enum groat_aim {
    GROAT_AIM_NONE, /* there is no aim, or no price */
    GROAT_AIM_MET,
    GROAT_AIM_MISSED,
    GROAT_AIM_UNKNOWN /* memory ran out */
} groat_aim;
GROAT_API groat_aim groat_result_aim(groat_scratch *scratch);

/* A line of a goal at this result: what it needs, what one sale gives, what one sale takes, and what
 * there is; in base units, as groat_method_rate_value. Missing where the goal has no such line. */
typedef enum groat_goal_line { GROAT_NEEDS, GROAT_GIVES, GROAT_TAKES, GROAT_HAS } groat_goal_line;
GROAT_API groat_value groat_result_goal(groat_scratch *scratch, size_t goal, groat_goal_line line);
/* The label of the record: its field `name`, or an empty text. */
GROAT_API groat_text groat_result_label(const groat_scratch *scratch);
/* Notes on the row: warnings, a price held to its ceiling, and the like. */
GROAT_API size_t groat_result_notes(const groat_scratch *scratch);
GROAT_API const char *groat_result_note(const groat_scratch *scratch, size_t index);
/* Why there is no price, or why it is refused; empty otherwise. */
GROAT_API const char *groat_result_reason(const groat_scratch *scratch);

/* ---- explanations ---- */

/* Where a line of an explanation belongs. */
typedef enum groat_part {
    GROAT_PART_COST,   /* a cost, or with `own_pay` a pay */
    GROAT_PART_BUYER,  /* what the buyer pays on top, and added tax */
    GROAT_PART_TAKEN,  /* fees, and tax inside the price */
    GROAT_PART_FIGURE, /* the engine's own figures: cost, price, keep, profit … */
    GROAT_PART_RULE, /* lines of the price block: aim, set, floor, ceiling, discount, pin, round; of
                        a product that is not sold, `only when` alone */
    GROAT_PART_SHOW,
    GROAT_PART_NAME,  /* a definition asked for by name, and those it is made of */
    GROAT_PART_DETAIL /* of the line above it: a part that a `worth of` counts, with what it costs,
                         or a value that is the likely one of a range */
} groat_part;

typedef struct groat_line {
    groat_part part;
    const char *name;    /* of the definition, or the line's word: "wood", "floor" */
    const char *written; /* its expression as it stands in the rules, on one line; or NULL */
    const char *worked;  /* the same with the numbers in place of the names; or NULL */
    const char *amount;  /* what it comes to, for a person: `$14.04`, `35.1%`; empty when nothing */
    groat_value value;   /* the same exactly; to be used before the scratch prices again */
    const char *file;    /* where it stands, or NULL for a figure of the engine's own */
    unsigned line;
    bool own_pay;
    unsigned depth;      /* of GROAT_PART_NAME: how far below the name that was asked for; of
                            GROAT_PART_DETAIL 1 */
    const char *channel; /* of what stands against a lower price: whose it is */
} groat_line;

/* Why not a coin less. The next lower allowed price is looked at where the price is on the aim. */
typedef struct groat_below {
    groat_footing footing;
    bool exists;       /* there is a lower allowed price, and it was looked at */
    bool at_floor;     /* it lies below a floor */
    const char *price; /* the list price looked at, for a person; NULL where none was */
    size_t misses;     /* what stands against it; see groat_explanation_miss */
} groat_below;

typedef struct groat_explanation groat_explanation;

/* Prices the record as groat_price does, and explains the price found. NULL when memory runs out.
 * The outcome is as of groat_price; where there is no price, the lines are those that could be worked
 * out. The explanation is the caller's to free; its texts are its own. */
GROAT_API groat_explanation *groat_explain(groat_scratch *scratch, const groat_method *method,
                                           const groat_record *record, const groat_order *order,
                                           groat_outcome *outcome);
/* The same for one name of groat_method_name: where its figure comes from, and each that it is made
 * of, deeper ones after it. No lines when there is no such name on the channel. */
GROAT_API groat_explanation *groat_explain_name(groat_scratch *scratch, const groat_method *method,
                                                const groat_record *record,
                                                const groat_order *order, const char *name,
                                                groat_outcome *outcome);
GROAT_API size_t groat_explanation_lines(const groat_explanation *explanation);
GROAT_API const groat_line *groat_explanation_line(const groat_explanation *explanation,
                                                   size_t index);
GROAT_API groat_below groat_explanation_below(const groat_explanation *explanation);
/* What stands against the next lower price: each side of an aim that fails there, named `aim`, as
 * written and with its numbers there; and each floor that is above it, named `floor`. Channels that
 * share a price all have their say. */
GROAT_API const groat_line *groat_explanation_miss(const groat_explanation *explanation,
                                                   size_t index);
GROAT_API void groat_explanation_free(groat_explanation *explanation);

#ifdef __cplusplus
}
#endif

#endif
