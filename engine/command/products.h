/* A product sheet, its columns matched with the fields of a method. */
#ifndef GROAT_COMMAND_PRODUCTS_H
#define GROAT_COMMAND_PRODUCTS_H

#include "command/telling.h"
#include "command/verb.h"

struct products;

/* The longest part of a product's name that is printed in a message, in bytes. */
enum { PRODUCTS_SHOWN_MOST = 80 };

/* Reads the sheet that the request names: whole or, if it is only to be walked `once`, its first
 * rows. Reports on standard error what is wrong with it: errors in the sheet, missing required
 * columns, columns that are left out, a missing column that --at names. NULL if it cannot be
 * used. */
struct products *products_open(const struct request *request, const groat_method *method,
                               bool once);
/* Takes the next rows in hand; false at the end, and after reporting why the sheet is broken. */
bool products_next(struct products *products);
bool products_are_broken(const struct products *products);
/* Whether it is known that no rows come after those in hand. */
bool products_are_over(const struct products *products);

/* The same rows for another thread, with messages that wait until they are said by the first.
 * `first` must be freed after it. NULL when memory runs out. */
struct products *products_share(const struct products *first);
/* Takes over the rows that the first has in hand now. */
void products_follow(struct products *shared, const struct products *first);
/* Says what the shared ones have to say. */
void products_tell(struct products *products, struct products *shared);

/* The same sheet with the fields of another method, from the named rules file. Reports missing
 * required columns, but neither columns that are left out nor wrong rows. `first` must be freed
 * after it. */
struct products *products_again(const struct products *first, const groat_method *method,
                                const char *rules);
void products_free(struct products *products);

/* Repeats the messages about fields without a column, for after a long list. */
void products_say_again(const struct products *products);
/* Says what can only be said at the end: how many more messages there were of each kind, and how
 * many cells have a decimal comma where points are read, or the reverse, of which only the first
 * one was reported. */
void products_say_rest(struct products *products);

/* The rows in hand: from the first up to the count. A sheet that is read whole has all in hand. */
size_t products_first(const struct products *products);
size_t products_count(const struct products *products);
/* The line of the sheet that a row begins on. */
size_t products_line(const struct products *products, size_t row);
/* The product's name; its start is NULL if it has none. */
groat_text products_name(const struct products *products, size_t row);
/* The product's name, or `row 3`; valid until the next call. */
groat_text products_label(struct products *products, size_t row);
/* Whether a row is the product with this name; true for every row if the name is NULL. */
bool products_is(struct products *products, size_t row, const char *name);
/* The number of rows with this name. */
size_t products_named(struct products *products, const char *name);
/* Whether there is such a product; otherwise prints an error and a proposal. */
bool products_have(struct products *products, const char *name);
/* Prints the name that is nearest to `wanted`; or if none is near, the first names of the sheet. */
void products_propose(struct products *products, const char *wanted);
/* Begins a message about a row; false if there were enough of this kind. Then add its lines, and
 * end it. */
bool products_say(struct products *products, const char *kind);
struct telling *products_telling(struct products *products);
void products_end_saying(struct products *products);
/* Fills in the record. Returns false, after reporting each, if cells are wrong or missing. */
bool products_fill(struct products *products, size_t row, groat_record *record);
/* What is wrong with the row that could not be filled in last, as a note of it. */
const char *products_wrong(const struct products *products);
/* The price that --at gives for the row that was filled in last, in smallest units. Returns false
 * if its cell is empty. */
bool products_asked(const struct products *products, int64_t *coins);
/* The name of the sheet in messages. */
const char *products_file(const struct products *products);
/* The place of a row, for the beginning of a message: `sheet.csv:12: Nest box`; valid until the
 * next call. */
const char *products_place(struct products *products, size_t row);

#endif
