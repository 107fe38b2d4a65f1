/* A product sheet, its columns matched with the fields of a method. */
#ifndef GROAT_COMMAND_PRODUCTS_H
#define GROAT_COMMAND_PRODUCTS_H

#include "command/verb.h"

struct products;

/* The most that is repeated of a product's name, in bytes. */
enum { PRODUCTS_SHOWN_MOST = 80 };

/* Reads the sheet that the request names. Says on standard error what is wrong with it: what cannot
 * be read, required columns that are missing, columns that are left out, a column that --at names
 * and that is not there. NULL when it is of no use. */
struct products *products_open(const struct request *request, const groat_method *method);
/* The same sheet under the fields of another method, that of the rules file named. Says which
 * required columns are missing; not which ones are left out, and nothing about rows. `first` is to
 * be freed after it. */
struct products *products_again(const struct products *first, const groat_method *method,
                                const char *rules);
void products_free(struct products *products);

/* Says once more what was said of fields without a column, for after a list that pushed it away. */
void products_say_again(const struct products *products);
/* Says how many cells have a decimal comma where points are read, or the other way round, when they
 * are several: of those that were filled in only the first has been said. */
void products_say_doubts(const struct products *products);

size_t products_count(const struct products *products);
/* The line of the sheet that a row begins on. */
size_t products_line(const struct products *products, size_t row);
/* The product's name; without a start where it has none. */
groat_text products_name(const struct products *products, size_t row);
/* The product's name, or `row 3`: until the next call. */
groat_text products_label(struct products *products, size_t row);
/* Fills in the record. Returns false when a cell is wrong or lacks; every one has been said. */
bool products_fill(struct products *products, size_t row, groat_record *record);
/* The price that --at asks about, of the row that was filled in last, in smallest units. False where
 * its cell is empty. */
bool products_asked(const struct products *products, int64_t *coins);
/* The name of the sheet in messages. */
const char *products_file(const struct products *products);
/* Where a row stands, to begin a message with: `sheet.csv:12: Nest box`. Until the next call. */
const char *products_place(struct products *products, size_t row);

#endif
