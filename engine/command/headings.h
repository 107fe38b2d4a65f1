/* Matches the headings of a sheet with the fields of a method: which field is read from which
 * column, and the messages about those without a match. A mistake in a heading prices every product
 * as if its cells were empty, so the message must be hard to overlook. */
#ifndef GROAT_COMMAND_HEADINGS_H
#define GROAT_COMMAND_HEADINGS_H

#include "command/verb.h"

struct headings {
    const char *file; /* of the sheet, in messages */
    const struct sheet *sheet;
    const groat_method *method;
    size_t fields_count;
    size_t *columns;      /* that each field is read from; SIZE_MAX if the sheet has none */
    size_t *guesses;      /* the unused column that such a field may mean; or SIZE_MAX */
    bool *used;           /* of each column: whether it is a field's, or guessed to be */
    size_t columns_count; /* so far */
};

/* Matches each field with the column of its heading. Does not own the sheet or the method. Returns
 * false when memory runs out; headings_free must be called in either case. */
bool headings_open(struct headings *headings, const char *file, const struct sheet *sheet,
                   const groat_method *method);
/* Matches the columns that the sheet got since. Returns false when memory runs out. */
bool headings_grow(struct headings *headings);
void headings_free(struct headings *headings);

/* The column with exactly this heading; or SIZE_MAX. */
size_t headings_find(const struct sheet *sheet, const char *name);

/* Prints which columns are not used and which fields have no column. The column `also_used` (or
 * SIZE_MAX) counts as used. */
void headings_say_unused(struct headings *headings, size_t also_used);
/* Prints the part about fields again, for after a list. */
void headings_say_again(const struct headings *headings);
/* Returns false, after naming them all, if columns are missing that the rules need. `rules` is
 * their file if it is not the one that the sheet was opened with. */
bool headings_has_required(const struct headings *headings, const char *rules);

#endif
