/* Groat: an embeddable engine for pricing rules.
 *
 * This header is the whole public interface, and its manual. A host makes these calls:
 *
 *     groat_method *method = groat_method_read(name, rules, NULL, &report);   once
 *     groat_scratch *scratch = groat_scratch_new(method);                     once for each thread
 *     groat_record *record = groat_record_new(method);                        once, then reused
 *     groat_record_set(record, field, cell, NULL, &trouble);                  for each cell
 *     groat_price(scratch, method, record, &order);                           for each channel
 *     groat_value price = groat_result_figure(scratch, GROAT_PRICE);
 *
 * Ownership. Every `…_new`, `…_read`, `…_with_rates` and `…_leaned` returns an object that the
 * caller frees with the matching `…_free`, which accepts NULL. Texts and structs that a function
 * returns belong to the object they came from and live as long as it does, unless its comment says
 * otherwise.
 *
 * Threads. A method never changes once it is read; any number of threads may use it at once without
 * a lock. A scratch and a record belong to one thread at a time. There is no global state.
 *
 * Failure. Nothing here aborts, exits, prints, reads a file or looks at the clock. When memory runs
 * out, functions that make an object return NULL, those that return a status return
 * GROAT_NO_MEMORY, those that return an outcome return GROAT_FAILED, with GROAT_REASON_NO_MEMORY as
 * the reason, or GROAT_REASON_LIMIT if the host has memory and the limit was reached, and those
 * that return a value return GROAT_UNKNOWN as its presence. The same call may be made again when
 * there is memory. Functions whose comments do not speak of memory need none.
 *
 * Wrong arguments. A function does not use a wrong argument but reports it. Wrong arguments are:
 * NULL where an object is needed; an index past the last one (such as the SIZE_MAX of a name that
 * was not found); a number that is no value of its enum; a count above zero without its list; and a
 * scratch or a record that was made for other rules than the method. Rules that are read again
 * count as other rules, even if the text is the same; methods made by `…_with_rates` and `…_leaned`
 * have the same rules as the method they were made from. A function that returns an outcome then
 * returns GROAT_FAILED, and groat_result_reason says why; one that returns a status returns
 * GROAT_BAD_VALUE, and `*trouble` says why; one that makes an object returns NULL. Any other
 * function returns a missing value, a count of 0, the index SIZE_MAX, false, an empty text, NULL,
 * or a blank struct, in which texts that are never NULL are empty. The library cannot check whether
 * an object was freed already, or whether a list or a buffer is as long as the host says.
 *
 * Amounts are exact fractions. The library returns them exactly, as numerator and denominator; as
 * texts rounded to decimals; or as texts for a person. Texts are UTF-8.
 *
 * Functions that write a text work like snprintf: they write at most `size` bytes, including a zero
 * byte at the end, and return the length of the whole text without that byte, however much of it
 * was written. If `buffer` is NULL, they write nothing and only return the length.
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
GROAT_API const char *groat_version(void); /* of the linked library */

/* ---- memory and limits ---- */

/* Where the library gets its memory. `resize` works like realloc, but is also given the old size; a
 * `new_size` of 0 frees the block and returns NULL. Blocks must be aligned for pointers and for
 * int64_t; the library needs no more. It is called from whatever thread calls the library. */
typedef struct groat_allocator {
    void *(*resize)(void *context, void *block, size_t old_size, size_t new_size);
    void *context;
} groat_allocator;

/* Limits on what hostile rules or records may cost. Exceeding one is an error that names it. Start
 * from groat_limits_default() and change single members: a limit of 0 is not replaced by a
 * default. */
typedef struct groat_limits {
    size_t source_bytes; /* of one rules file */
    size_t nesting; /* levels of an expression, including the definitions it depends on; each may
                            take 2 KB of stack, and the default fits into 512 KB */
    size_t definitions;  /* of a method */
    size_t table_rows;   /* of one table */
    size_t number_bits;  /* of a numerator or a denominator; at most 8192 */
    size_t bends;        /* linear pieces followed while searching for one price */
    size_t trials;       /* prices tried while searching for one price */
    size_t steps;        /* of one record on one channel, and of a method when it is read; work on
                            long numbers, tables and texts counts as several steps, so that with the
                            default a price takes less than half a second */
    size_t memory_bytes; /* held by one method, record or scratch */
} groat_limits;
GROAT_API groat_limits groat_limits_default(void);

/* ---- why something failed ---- */

typedef enum groat_status {
    GROAT_OK,
    GROAT_BAD_VALUE, /* `*trouble` says why; `trouble` may be NULL */
    GROAT_NO_MEMORY  /* `*trouble` says so, too */
} groat_status;

/* What kind of trouble it is, for a host that reacts to it; `message` says it in words. */
typedef enum groat_trouble_kind {
    GROAT_TROUBLE_NONE,           /* nothing is wrong */
    GROAT_TROUBLE_NO_MEMORY,      /* memory ran out; the value itself may be valid */
    GROAT_TROUBLE_NOT_TEXT,       /* the bytes are not valid UTF-8, or contain a zero byte */
    GROAT_TROUBLE_FORM,           /* the text is not a value of the language */
    GROAT_TROUBLE_EMPTY,          /* a value is needed, and the text is empty */
    GROAT_TROUBLE_NO_UNIT,        /* a bare number where a unit or a % sign is needed */
    GROAT_TROUBLE_UNKNOWN_UNIT,   /* a word that is not a unit, or another currency */
    GROAT_TROUBLE_AMBIGUOUS_UNIT, /* a word that can mean several units, such as `gal` */
    GROAT_TROUBLE_OTHER_KIND,     /* a value of another kind or dimension than is needed */
    GROAT_TROUBLE_DOUBTFUL_MARK,  /* a comma or point that could mark thousands or decimals */
    GROAT_TROUBLE_NEGATIVE,       /* below zero; for a price, not above zero */
    GROAT_TROUBLE_NOT_WHOLE,      /* a count, or a price in smallest units, that is not whole */
    GROAT_TROUBLE_TOO_LARGE,      /* beyond a limit, or beyond any price */
    GROAT_TROUBLE_RANGE,          /* a range out of order, or one where a single value is needed */
    GROAT_TROUBLE_UNKNOWN_NAME,   /* there is no rate or material of that name */
    GROAT_TROUBLE_RULES,          /* with this value, a table or a rounding is no longer valid */
    GROAT_TROUBLE_CALL            /* the call itself is wrong: an index out of range, for example */
} groat_trouble_kind;

/* What `help` is. */
typedef enum groat_help {
    GROAT_HELP_NONE,    /* there is nothing to propose, and `help` is empty */
    GROAT_HELP_VALUE,   /* the given value, written so that it can be read */
    GROAT_HELP_EXAMPLE, /* another value of the same kind, as an example */
    GROAT_HELP_ADVICE,  /* what to do, in words */
    GROAT_HELP_CHOICE, /* more than one way to write it, or `…` where something is missing: only a
                            person can decide */
    GROAT_HELP_ELSEWHERE /* what to write at another place of the rules */
} groat_help;

/* Why one thing failed: a cell, a rate, an amount of money. A function that takes a pointer to a
 * groat_trouble always fills it in, with GROAT_TROUBLE_NONE and empty texts if nothing failed. The
 * pointer may be NULL. */
typedef struct groat_trouble {
    groat_trouble_kind kind;
    groat_help help_kind;
    size_t index; /* of the field or the rate that it is about; SIZE_MAX if it is about neither */
    size_t given; /* the index of the rate among those that were passed in; SIZE_MAX otherwise */
    char message[256]; /* what is wrong, for a person */
    char help[160];    /* what to write or do instead */
    unsigned column;   /* in the text that was read, from 1; 0 if it is not about a place in it */
} groat_trouble;

/* `help` as it is printed after `Try:`; an example becomes `for example 12 mm`. Empty if there is
 * nothing to propose. */
GROAT_API size_t groat_trouble_help(const groat_trouble *trouble, char *buffer, size_t size);

/* ---- reading rules ---- */

/* A text. No zero byte is needed after it. */
typedef struct groat_text {
    const char *start;
    size_t length;
} groat_text;

/* Provides the rules files that `use` names; the library opens no files itself. `name` is the name
 * in the rules, and `from` is the full name of the file that contains the `use`. On success, the
 * loader fills in the file's text and its full name, by which the library recognises a file that is
 * used again, and returns true. Both must live until groat_method_read returns, which copies them.
 * If the loader returns false, the report says at the `use` that the file cannot be read. */
typedef bool groat_loader(void *context, const char *name, const char *from, const char **full_name,
                          groat_text *text);

/* How rules are read. A struct of zeros is valid: the comments say what NULL means. */
typedef struct groat_reading {
    const groat_allocator *allocator; /* NULL, or one without a function: the C library's */
    const groat_limits *limits;       /* NULL: groat_limits_default() */
    groat_loader *loader;             /* NULL: every `use` is an error */
    void *loader_context;
    /* Ladders are ignored, and the currency's smallest unit is divided by a million wherever
     * amounts are counted in it or rounded to it. This shows how prices move without the steps in
     * which they normally do. A `rounded to $0.05` inside an expression of the rules still rounds.
     * An `expect` will often not hold then. */
    bool unrounded;
} groat_reading;

typedef struct groat_method groat_method;
typedef struct groat_report groat_report;

/* Reads and checks rules, and compiles them if they have no error. `name` is the name of the file
 * in messages; NULL means "rules". `name` and `rules` are copied. `*report`, which the caller
 * frees, contains all errors and warnings; it is NULL only if the host's memory ran out. Returns
 * NULL if there is an error. `reading` and `report` may be NULL. */
GROAT_API groat_method *groat_method_read(const char *name, groat_text rules,
                                          const groat_reading *reading, groat_report **report);
GROAT_API void groat_method_free(groat_method *method);

/* A rate given from outside. A value is a literal of the rate's dimension, as a person writes it
 * (`$30 per h`, `15%`); a bare number is accepted only for a plain number that the rules do not
 * write as a percentage. Or it is a change, a sign and a percentage (`+10%`, `-2.5%`), by which the
 * rate rises or falls from what it is. A fall by more than 100% is refused, as it would make the
 * rate negative. With `toward`, the rate is a point between the two values: value + (toward -
 * value) * top / bottom, exactly. `bottom` must then be at least 1; without `toward`, both are
 * ignored. */
typedef struct groat_rate_value {
    const char *rate; /* its name */
    const char *value;
    const char *toward; /* NULL: the rate is `value` itself */
    int64_t top, bottom;
} groat_rate_value;

/* The same method with some rates replaced. The values hold in the order of the list, each on what
 * the ones before it have left: `$30 per h` and then `+10%` is $33 an hour, `+10%` twice is 21%
 * more, and a change of a rate that follows others counts from what their changes have made of it;
 * from then on it no longer follows them. It is cheap: only what depends on the rates is worked out
 * again. The two methods are freed separately, in any order. On failure, returns NULL, and
 * `*trouble` says why and for which rate; its kind is GROAT_TROUBLE_NO_MEMORY if memory ran out.
 * `trouble` may be NULL. */
GROAT_API groat_method *groat_method_with_rates(const groat_method *method,
                                                const groat_rate_value *values, size_t count,
                                                groat_trouble *trouble);

/* ---- errors and warnings about rules ---- */

typedef enum groat_severity { GROAT_ERROR, GROAT_WARNING } groat_severity;

typedef struct groat_diagnostic {
    groat_severity severity;
    const char *file;
    unsigned line, column; /* from 1; the column in characters */
    unsigned span;         /* the number of characters marked on that line, at least 1 */
    const char *source;    /* the line itself; only the beginning of a very long one */
    const char *message;   /* what is wrong */
    groat_help help_kind;
    const char *help; /* what to try, or NULL */
} groat_diagnostic;

/* The number of errors and warnings, and how many of these are errors. They are in the order of the
 * files. */
GROAT_API size_t groat_report_count(const groat_report *report);
GROAT_API size_t groat_report_errors(const groat_report *report);
GROAT_API const groat_diagnostic *groat_report_at(const groat_report *report, size_t index);
GROAT_API void groat_report_free(groat_report *report);
/* `file:line:column: error: …`, the line with the span marked, and `Try: …`; ends with a
 * newline. */
GROAT_API size_t groat_diagnostic_write(const groat_diagnostic *diagnostic, char *buffer,
                                        size_t size);

/* Runs the `expect`s. Each one that fails is an error in the report, which the caller frees; it is
 * NULL if memory ran out. Sets `*count` to the number of `expect`s; `count` may be NULL. */
GROAT_API groat_report *groat_method_check(const groat_method *method, size_t *count);

/* The compiled rules as a text, for finding mistakes in the engine: every step, then tables,
 * ladders, searches and channels. Its form may change with any release. Writes as snprintf does. */
GROAT_API size_t groat_method_steps_write(const groat_method *method, char *buffer, size_t size);

/* ---- tidying rules ---- */

typedef struct groat_tidied groat_tidied;

/* The same rules in the layout that grammar/LANGUAGE.md describes. Words and comments stay on the
 * same lines, so the meaning is the same. The text only has to be readable: it may use names that
 * are defined in other files, and no loader is called. `name` is the name of the file in messages.
 * `*report`, which the caller frees, says what is wrong; it is NULL only if the host's memory ran
 * out. Returns NULL if there is an error. `name`, `reading` and `report` may be NULL. */
GROAT_API groat_tidied *groat_tidy(const char *name, groat_text rules, const groat_reading *reading,
                                   groat_report **report);
/* UTF-8, without a byte-order mark, followed by a zero byte. It belongs to the tidied object. */
GROAT_API groat_text groat_tidied_text(const groat_tidied *tidied);
GROAT_API void groat_tidied_free(groat_tidied *tidied);

/* ---- values ---- */

typedef enum groat_kind {
    GROAT_KIND_NUMBER, /* a plain number */
    GROAT_KIND_MONEY,
    GROAT_KIND_QUANTITY, /* any other amount with a dimension */
    GROAT_KIND_TEXT,
    GROAT_KIND_FLAG,
    GROAT_KIND_DATE,
    GROAT_KIND_PARTS
} groat_kind;

typedef enum groat_presence {
    GROAT_MISSING, /* there is none: an optional field is empty, for example */
    GROAT_THERE,
    GROAT_NO_VALUE, /* it could not be worked out: it divides by zero, for example */
    GROAT_UNKNOWN   /* memory ran out before it was worked out; ask again */
} groat_presence;

/* A value. Use a value of a result before the scratch prices again. */
typedef struct groat_value {
    groat_presence presence;
    groat_kind kind;
    const void *inside; /* the library's own */
    const void *unit;
} groat_value;

/* A value that was given as a range, `$4 to $6 likely $4.50`. It counts as its likely value, or as
 * its midpoint if none is given. A range whose ends are equal is not a range but a single value. */
typedef struct groat_range {
    groat_value low, likely, high;
} groat_range;

/* Which value of a range counts. */
typedef enum groat_end { GROAT_LOW, GROAT_LIKELY, GROAT_HIGH } groat_end;

/* The numerator and the denominator in lowest terms, in the value's unit: money in the currency,
 * time in seconds, or the unit of its `show`. A flag is 0 or 1, a date its number of days since
 * 0000-03-01. Returns false and fills in nothing if there is no number, or if one of the two does
 * not fit. */
GROAT_API bool groat_value_fraction(groat_value value, int64_t *top, int64_t *bottom);
/* Money in smallest units of the currency, as groat_price_at takes it; with `unrounded` rules, in
 * millionths of these. Returns false and fills in nothing if the value is not money, is missing, is
 * not a whole number of them, or does not fit. A list price and a price are always whole. */
GROAT_API bool groat_value_coins(groat_value value, int64_t *coins);
/* The numerator and the denominator as texts, of any length. Empty for texts, and if there is no
 * value. */
GROAT_API size_t groat_value_top(groat_value value, char *buffer, size_t size);
GROAT_API size_t groat_value_bottom(groat_value value, char *buffer, size_t size);
/* With exactly `places` decimals, ties rounded away from zero; 60 decimals if it is more. A flag is
 * written `yes` or `no`. Empty if there is no number. */
GROAT_API size_t groat_value_places(groat_value value, unsigned places, char *buffer, size_t size);
/* The same with at most `places` decimals, without zeros at the end. */
GROAT_API size_t groat_value_short(groat_value value, unsigned places, char *buffer, size_t size);
/* As a sheet contains it: a text as it is, `yes` or `no`, a date, money with the decimals of its
 * currency, and any other number with at most `places`. */
GROAT_API size_t groat_value_write(groat_value value, unsigned places, char *buffer, size_t size);

/* ---- what a method needs and offers ---- */

typedef struct groat_currency {
    const char *code;   /* ISO 4217 */
    const char *symbol; /* as the rules give it; the code if they give none */
    unsigned decimals;  /* of its smallest unit */
} groat_currency;

/* What a unit is of. */
typedef enum groat_unit_kind {
    GROAT_UNIT_NONE,      /* a plain number, or no number at all */
    GROAT_UNIT_MONEY,     /* the currency */
    GROAT_UNIT_MONEY_PER, /* the currency per something */
    GROAT_UNIT_PERCENT,
    GROAT_UNIT_MEASURE /* anything else, such as minutes or sheets */
} groat_unit_kind;

/* A unit that amounts are written in. A person writes an amount in it as `before`, the number, and
 * `after`, with a minus sign before all of these. The number is the amount in base units, divided
 * by top / bottom. The texts are the struct's own; a longer text is cut. */
typedef struct groat_unit {
    groat_unit_kind kind;
    char text[64];       /* `min`, `per h` of money per hour, `USD` of money, `%`, or empty */
    char before[24];     /* `$`, or empty */
    char after[96];      /* ` per h`, ` kr per h`, ` min`, `%`, or empty */
    int64_t top, bottom; /* one of it in base units; 0 and 0 if they do not fit */
} groat_unit;

typedef struct groat_field {
    const char *name;
    const char *column; /* the heading of its column */
    const char *type;   /* as written: "time", "money", "sheet" */
    groat_kind kind;
    bool required; /* it is not optional and has no default */
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
    const char
        *per; /* if it is money per something, `unit` without the currency: "per h"; or NULL */
} groat_column;

typedef struct groat_goal {
    const char *text;
    bool per_time;    /* it needs an amount per time */
    bool limited;     /* it has `takes` and `has` */
    bool takes_time;  /* it is `limited`, and what a sale takes is time */
    const char *file; /* where it stands */
    unsigned line;
} groat_goal;

/* The number of decimals of a currency's smallest unit, 0 to 4; -1 if `code` is not a code of ISO
 * 4217, in capitals, or is NULL. */
GROAT_API int groat_currency_decimals(const char *code);
GROAT_API groat_currency groat_method_currency(const groat_method *method);
GROAT_API size_t groat_method_fields(const groat_method *method);
GROAT_API groat_field groat_method_field(const groat_method *method, size_t index);
/* The field's index by its name or its column's heading, or SIZE_MAX. */
GROAT_API size_t groat_method_find_field(const groat_method *method, const char *name);
GROAT_API size_t groat_method_rates(const groat_method *method);
GROAT_API groat_rate groat_method_rate(const groat_method *method, size_t index);
/* The value of a rate in this method, in base units: money in the currency, time in seconds, length
 * in millimetres, mass in grams, energy in watt-hours. It lives as long as the method. */
GROAT_API groat_value groat_method_rate_value(const groat_method *method, size_t index);
/* The same for a person: `$24 per h`, `15%`. A rate that was not replaced is written as in the
 * rules, if they give it as a literal. Every rate has such a text: it is empty only if memory runs
 * out, or if the number has too many digits in its unit. */
GROAT_API size_t groat_method_rate_amount(const groat_method *method, size_t index, char *buffer,
                                          size_t size);
/* Whether a rate is a range in this method. If so, fills in `*range`, which is valid as long as the
 * method lives; `range` may be NULL. */
GROAT_API bool groat_method_rate_range(const groat_method *method, size_t index,
                                       groat_range *range);
/* A rate that is a range, by its index, and which value of it counts. */
typedef struct groat_lean {
    size_t rate;
    groat_end end;
} groat_lean;
/* The same method with one value of each given range in its place, as if the rate had been set to
 * it. Rates that are not ranges stay as they are. On failure, returns NULL and says why in
 * `*trouble`; `trouble` may be NULL. */
GROAT_API groat_method *groat_method_leaned(const groat_method *method, const groat_lean *leans,
                                            size_t count, groat_trouble *trouble);
/* The units in which the rules write a rate, a field and a show. The value of a
 * show is in its unit already, so it is not divided by the unit's size. */
GROAT_API groat_unit groat_method_rate_unit(const groat_method *method, size_t index);
GROAT_API groat_unit groat_method_field_unit(const groat_method *method, size_t index);
GROAT_API groat_unit groat_method_show_unit(const groat_method *method, size_t index);
/* The unit in which a literal is written, `$20 per h` or `5 min`. Returns GROAT_BAD_VALUE and fills
 * in nothing if it is not one amount in one unit, such as `1 h 20 min` or the change `-10%`, and
 * GROAT_NO_MEMORY if memory ran out. */
GROAT_API groat_status groat_unit_read(const groat_method *method, const char *literal,
                                       groat_unit *unit);
GROAT_API size_t groat_method_channels(const groat_method *method);
GROAT_API const char *groat_method_channel(const groat_method *method, size_t index);
GROAT_API size_t groat_method_find_channel(const groat_method *method, const char *name);
/* The first of the channels that share one price with this one, by `same price on`; the channel
 * itself if none does. */
GROAT_API size_t groat_method_ticket(const groat_method *method, size_t channel);
/* The columns of the `show`s of all channels. */
GROAT_API size_t groat_method_shows(const groat_method *method);
GROAT_API groat_column groat_method_show(const groat_method *method, size_t index);
GROAT_API size_t groat_method_goals(const groat_method *method);
GROAT_API groat_goal groat_method_goal(const groat_method *method, size_t index);
/* What a goal with a limit has, such as 40 h per month. The texts are the struct's own. */
typedef struct groat_limit {
    char amount[128]; /* `40 h`, for a person */
    char per[32];     /* the unit of time in which there is that much, `month`; or empty */
} groat_limit;

/* Fills in `*limit`: empty texts if the rules give neither an amount nor a rate, because what there
 * is may then differ from record to record; if the amount is too long; or if the status is not
 * GROAT_OK. */
GROAT_API groat_status groat_method_goal_limit(const groat_method *method, size_t index,
                                               groat_limit *limit);
/* Every name whose figure can be explained, the engine's own first. A name that several channels
 * define separately comes once for each. */
GROAT_API size_t groat_method_names(const groat_method *method);
GROAT_API const char *groat_method_name(const groat_method *method, size_t index);

/* ---- records ---- */

/* How the cells of a sheet are written. */
typedef struct groat_cells {
    bool decimal_comma; /* `1.234,50`; otherwise `1,234.50` */
} groat_cells;

typedef struct groat_record groat_record;

/* A record of the method's fields, all absent. It can also be used with methods made from this one,
 * and keeps the method alive. */
GROAT_API groat_record *groat_record_new(const groat_method *method);
GROAT_API void groat_record_free(groat_record *record);
/* Makes every field absent again, but keeps the memory for the next use. */
GROAT_API void groat_record_clear(groat_record *record);

/* Sets a field from the cell of a product sheet: a literal of the language, or a bare number if the
 * field accepts one. An empty cell makes the field absent. The text is copied. `cells` and
 * `trouble` may be NULL. On failure the record does not change. */
GROAT_API groat_status groat_record_set(groat_record *record, size_t field, groat_text cell,
                                        const groat_cells *cells, groat_trouble *trouble);
/* Sets a field to the number top/bottom, in the unit of a bare number in that field; a flag is 0 or
 * 1. `bottom` must be above zero. Not for texts, dates and parts. */
GROAT_API groat_status groat_record_set_fraction(groat_record *record, size_t field, int64_t top,
                                                 int64_t bottom, groat_trouble *trouble);
/* Whether a field of the record is a range, in its cell or, if that is absent, in its default. If
 * so, fills in `*range`, which is valid until the field is set again or the record is cleared;
 * `range` may be NULL. */
GROAT_API bool groat_record_range(const groat_record *record, size_t field, groat_range *range);
/* Chooses which value of a range counts in a field, until it is chosen again. A field that is not a
 * range stays as it is. Allocates nothing. */
GROAT_API void groat_record_lean(groat_record *record, size_t field, groat_end end);
/* The first required field that is absent, or SIZE_MAX. */
GROAT_API size_t groat_record_missing(const groat_record *record);

/* ---- pricing ---- */

typedef struct groat_scratch groat_scratch;

/* Working memory for one thread. It can be used with this method and those made from it, and may be
 * freed before or after them. Once it has grown to what the method needs, pricing allocates
 * nothing.
 */
GROAT_API groat_scratch *groat_scratch_new(const groat_method *method);
GROAT_API void groat_scratch_free(groat_scratch *scratch);

typedef struct groat_order {
    size_t channel;
    int64_t quantity;  /* pieces in this order, 1 or more */
    const char *as_of; /* `2027-01-31`, or NULL for no date */
} groat_order;

/* Whether a text is a valid date for `as_of`, so that a host can check it before it prices. */
GROAT_API bool groat_date_valid(const char *text);

typedef enum groat_outcome {
    GROAT_PRICED,
    GROAT_NOT_SOLD, /* `only when` excludes it from this channel */
    GROAT_REFUSED,  /* there is a price, but the rules refuse it: groat_result_reason says why */
    GROAT_FAILED    /* there is no price: groat_result_reason says why */
} groat_outcome;

/* Prices a record on a channel. The result lives in the scratch until the next call and uses the
 * method and the record, so do not free or change these before you have read it. */
GROAT_API groat_outcome groat_price(groat_scratch *scratch, const groat_method *method,
                                    const groat_record *record, const groat_order *order);

/* Reads a price as it is written in a cell (`$45`, `1,234.50`), and returns it in smallest units of
 * the currency. `cells` may be NULL. */
GROAT_API groat_status groat_money_read(const groat_method *method, groat_text text,
                                        const groat_cells *cells, int64_t *coins,
                                        groat_trouble *trouble);
/* Works out all figures at a given price, in smallest units, whatever the price block says; `list`
 * and `price` both have this value. If the rules refuse it, the outcome is GROAT_REFUSED, but the
 * result has all figures. */
GROAT_API groat_outcome groat_price_at(groat_scratch *scratch, const groat_method *method,
                                       const groat_record *record, const groat_order *order,
                                       int64_t coins);
/* The same at the break-even price: the least price, in smallest units, at which `profit` is not
 * below zero. Where a fee jumps, `profit` may be below zero again at a higher price. */
GROAT_API groat_outcome groat_price_without_loss(groat_scratch *scratch, const groat_method *method,
                                                 const groat_record *record,
                                                 const groat_order *order);
/* Where that is: the first such prices above the one of the result, in smallest units. */
typedef struct groat_loss {
    int64_t first, last;
    bool endless; /* no price after the first avoids a loss, as far as was looked; `last` is 0 */
} groat_loss;
/* Whether there are such prices above the list price of a result that has no loss itself. Losses by
 * rounding alone do not count. False also if memory ran out. */
GROAT_API bool groat_result_loss_above(groat_scratch *scratch, groat_loss *loss);
/* As groat_price_at, at the least allowed price, not below the floor, at which a goal's `has` is
 * enough: gives * has / takes >= needs. For a goal without `has`, the same as groat_price. */
GROAT_API groat_outcome groat_price_for_goal(groat_scratch *scratch, const groat_method *method,
                                             const groat_record *record, const groat_order *order,
                                             size_t goal);

/* Which fields of the record and which rates the channel's figures, shows, notes and refusals use;
 * no others can change the result. A material is used if the record's parts name it. Fills in one
 * flag for each field and one for each rate; either list may be NULL. */
GROAT_API groat_status groat_reads(groat_scratch *scratch, const groat_method *method,
                                   const groat_record *record, size_t channel, bool *fields,
                                   bool *rates);

/* The values of one field for many records: `tops[i] / bottom` for record i, in the unit of a bare
 * number in that field. */
typedef struct groat_number_column {
    size_t field;
    const int64_t *tops;
    int64_t bottom;
} groat_number_column;

/* Prices `count` records at once, for speed. Every column and list has `count` elements. Fills in
 * `prices`, in smallest units of the currency, with 0 if there is no price, and `outcomes`. Either
 * may be NULL. Fields without a column are absent; if one of them is required,
 * nothing is priced (a required text can have no column). On GROAT_BAD_VALUE, the rows before the
 * wrong one are filled in. */
GROAT_API groat_status groat_price_columns(groat_scratch *scratch, const groat_method *method,
                                           const groat_order *order,
                                           const groat_number_column *columns, size_t columns_count,
                                           size_t count, int64_t *prices, groat_outcome *outcomes,
                                           groat_trouble *trouble);

/* ---- results ---- */

typedef enum groat_figure {
    GROAT_LIST,   /* our own price for one piece, before discount */
    GROAT_PRICE,  /* what this buyer pays for one piece */
    GROAT_EXTRAS, /* what the buyer pays on top of the price */
    GROAT_TAX,
    GROAT_PAID, /* price + extras + added tax */
    GROAT_NET,  /* price + extras - included tax */
    GROAT_FEES,
    GROAT_KEEP, /* net - fees */
    GROAT_COST,
    GROAT_PAY,       /* the part of the cost that is the maker's own pay */
    GROAT_PROFIT,    /* keep - cost */
    GROAT_MARGIN,    /* profit / net; missing if net is not above zero */
    GROAT_TAKE_HOME, /* profit + pay */
    GROAT_FLOOR,     /* of the channel's price; missing if there is none, or if it does not apply */
    GROAT_CEILING    /* the same for the ceiling */
} groat_figure;

/* The unit that a figure has: money, or a percentage. */
GROAT_API groat_unit groat_figure_unit(const groat_method *method, groat_figure figure);
GROAT_API groat_value groat_result_figure(const groat_scratch *scratch, groat_figure figure);
/* By the index of groat_method_show, in the unit of its column; missing if the channel does not
 * show it. */
GROAT_API groat_value groat_result_show(const groat_scratch *scratch, size_t index);
/* Any value by its name in the rules, or by one of the engine's own names, in base units, as
 * groat_method_rate_value: a show in `USD per h` is in dollars per second here. Missing if the
 * channel has no such name. */
GROAT_API groat_value groat_result_named(groat_scratch *scratch, const char *name);
/* What decides the price. */
typedef enum groat_footing {
    GROAT_ON_NOTHING, /* there is no price */
    GROAT_ON_AIM,     /* it is the least one that meets the aim and is not below the floor */
    GROAT_ON_SET,     /* it is the set price, rounded */
    GROAT_ON_FLOOR,   /* a set price, raised to the floor */
    GROAT_ON_CEILING, /* the aim or the set price would be higher */
    GROAT_ON_PIN,     /* it is pinned */
    GROAT_ON_GIVEN    /* it was given by the host */
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

/* A line of a goal for this result: what it needs, what one sale gives, what one sale takes, and
 * what there is, in the base units of groat_method_rate_value. Missing if the goal has no such
 * line. */
typedef enum groat_goal_line { GROAT_NEEDS, GROAT_GIVES, GROAT_TAKES, GROAT_HAS } groat_goal_line;
GROAT_API groat_value groat_result_goal(groat_scratch *scratch, size_t goal, groat_goal_line line);
/* The name of the record: its field `name`, or an empty text. */
GROAT_API groat_text groat_result_label(const groat_scratch *scratch);
/* Notes on the row: warnings, a price held to its ceiling, and the like. */
GROAT_API size_t groat_result_notes(const groat_scratch *scratch);
GROAT_API const char *groat_result_note(const groat_scratch *scratch, size_t index);
/* Why there is no price, or why the price is refused; empty otherwise. */
GROAT_API const char *groat_result_reason(const groat_scratch *scratch);
/* What kind of reason it is, for a host that does something about it. */
typedef enum groat_reason {
    GROAT_REASON_NONE,        /* there is a price, or the product is not sold there */
    GROAT_REASON_RULES,       /* a `refuse` of the rules, whose text is the reason */
    GROAT_REASON_CALL,        /* the call itself is wrong: other rules, an index out of range */
    GROAT_REASON_ORDER,       /* the order's date or quantity is not valid */
    GROAT_REASON_REQUIRED,    /* a field that must be given is absent */
    GROAT_REASON_NO_DATE,     /* the rules use as_of, and the order has no date */
    GROAT_REASON_NO_PRICE,    /* no price meets the aim, or none is allowed from floor to ceiling */
    GROAT_REASON_NOT_A_PRICE, /* a set, pinned or given price is zero or negative, or a price is
                                 larger than any that the engine can handle */
    GROAT_REASON_NO_VALUE,    /* a value divides by zero, or is out of its range */
    GROAT_REASON_NO_ROW,      /* a table has no row for the key */
    GROAT_REASON_LIMIT,       /* more steps, trials, bends, digits or memory than is allowed */
    GROAT_REASON_NO_MEMORY    /* memory ran out; nothing can be said of the price */
} groat_reason;
GROAT_API groat_reason groat_result_reason_kind(const groat_scratch *scratch);

/* ---- explanations ---- */

/* What a line of an explanation is about. */
typedef enum groat_part {
    GROAT_PART_COST,   /* a cost, or a pay if `own_pay` is true */
    GROAT_PART_BUYER,  /* what the buyer pays on top of the price, and added tax */
    GROAT_PART_TAKEN,  /* fees, and tax inside the price */
    GROAT_PART_FIGURE, /* the engine's own figures: cost, price, keep, profit … */
    GROAT_PART_RULE,   /* lines of the price block: aim, set, floor, ceiling, discount, pin,
                        * round; or, for a product that is not sold, `only when` */
    GROAT_PART_SHOW,
    GROAT_PART_NAME,  /* a definition asked for by name, and those that it uses */
    GROAT_PART_DETAIL /* a detail of the line above it: a part that a `worth of` counts, with its
                         cost, or a value that is the likely value of a range */
} groat_part;

typedef struct groat_line {
    groat_part part;
    const char *name;    /* of the definition, or the line's word: "wood", "floor" */
    const char *written; /* its expression as written in the rules, on one line; or NULL */
    const char *worked;  /* the same expression with numbers in place of names; or NULL */
    const char *amount;  /* its value, for a person: `$14.04`, `35.1%`; empty if it has none */
    groat_value value;   /* the exact value; use it before the scratch prices again */
    groat_unit unit;     /* in which `amount` is written; `value` is in base units, but of a
                            GROAT_PART_SHOW in the unit of its column, as groat_result_show */
    const char *file;    /* the file that defines it, or NULL for one of the engine's own figures */
    unsigned line;
    bool own_pay;
    unsigned depth;      /* how far a GROAT_PART_NAME is below the name that was asked for; of a
                            GROAT_PART_DETAIL, 1 */
    const char *channel; /* for a reason against a lower price, the channel it applies to */
} groat_line;

/* Why the price is not lower. The next lower allowed price is examined if the aim decides the
 * price. */
typedef struct groat_below {
    groat_footing footing;
    bool exists;       /* there is a lower allowed price, and it was examined */
    bool at_floor;     /* it lies below a floor */
    const char *price; /* the list price that was examined, for a person; or NULL */
    size_t misses;     /* the number of reasons against it; see groat_explanation_miss */
} groat_below;

typedef struct groat_explanation groat_explanation;

/* Prices the record as groat_price does, and explains the price found. `*outcome` is what
 * groat_price would return; `outcome` may be NULL. If there is no price, the lines are those that
 * could be worked out. The caller frees the explanation. Its texts and those of its lines belong to
 * it and do not need the method or the scratch. Returns NULL if memory runs out. */
GROAT_API groat_explanation *groat_explain(groat_scratch *scratch, const groat_method *method,
                                           const groat_record *record, const groat_order *order,
                                           groat_outcome *outcome);
/* The same for one name of groat_method_name: a line for its figure, followed by lines for the
 * figures that it uses, and so on. There are no lines if the channel has no such name. */
GROAT_API groat_explanation *groat_explain_name(groat_scratch *scratch, const groat_method *method,
                                                const groat_record *record,
                                                const groat_order *order, const char *name,
                                                groat_outcome *outcome);
GROAT_API size_t groat_explanation_lines(const groat_explanation *explanation);
GROAT_API const groat_line *groat_explanation_line(const groat_explanation *explanation,
                                                   size_t index);
GROAT_API groat_below groat_explanation_below(const groat_explanation *explanation);
/* A reason against the next lower price: a part of an aim that does not hold there, named `aim`, as
 * written and with the numbers at that price; or a floor that is above it, named `floor`. If
 * several channels share the price, the reasons of all of them are given. */
GROAT_API const groat_line *groat_explanation_miss(const groat_explanation *explanation,
                                                   size_t index);
GROAT_API void groat_explanation_free(groat_explanation *explanation);

/* ---- names ---- */

/* A word for each number of an enum, for scripts and logs: `priced`, `not sold`, `refused`,
 * `failed`. They stay as they are from version to version. NULL for a number that the enum does not
 * have. */
GROAT_API const char *groat_status_name(groat_status status);
GROAT_API const char *groat_trouble_kind_name(groat_trouble_kind kind);
GROAT_API const char *groat_help_name(groat_help help);
GROAT_API const char *groat_severity_name(groat_severity severity);
GROAT_API const char *groat_kind_name(groat_kind kind);
GROAT_API const char *groat_unit_kind_name(groat_unit_kind kind);
GROAT_API const char *groat_presence_name(groat_presence presence);
GROAT_API const char *groat_end_name(groat_end end);
GROAT_API const char *groat_outcome_name(groat_outcome outcome);
GROAT_API const char *groat_reason_name(groat_reason reason);
GROAT_API const char *groat_figure_name(groat_figure figure);
GROAT_API const char *groat_footing_name(groat_footing footing);
GROAT_API const char *groat_aim_name(groat_aim aim);
GROAT_API const char *groat_goal_line_name(groat_goal_line line);
GROAT_API const char *groat_part_name(groat_part part);

#ifdef __cplusplus
}
#endif

#endif
