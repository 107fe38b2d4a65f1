/* What to write instead of a wrong line of rules. Each proposal is tried before it is made: the
 * rules are read again with it, and only what can then be read is proposed.
 *
 * The engine says what is wrong, and often what would be right. Where what it proposes cannot be
 * written as it stands, small changes of the line are tried: words that people use for those of the
 * language (phrases.h), words that are spelt alike, signs left out or exchanged. */
#ifndef GROAT_MEND_H
#define GROAT_MEND_H

#include "groat.h"

struct mend_file {
    const char *name; /* as in messages */
    groat_text text;
};

/* Reads the rules with another text of one file. The caller frees the report; NULL if memory ran
 * out. */
typedef groat_report *mend_read(void *context, const struct mend_file *changed, groat_text text);

struct mend {
    const struct mend_file *files;
    size_t files_count;
    mend_read *read;
    void *context;
};

/* Errors as they are to be shown: copies of those of the report, of which some have another
 * proposal. Where one change mends everything, only its error remains. */
struct mended_errors {
    groat_diagnostic *items;
    size_t count;
    char **texts; /* what items point to beside the report */
    size_t texts_count;
};

/* False if memory ran out; then nothing is to be freed. Otherwise the caller frees `out`, before
 * the report. */
bool mend_report(const struct mend *mend, const groat_report *report, struct mended_errors *out);
void mended_free(struct mended_errors *mended);

#endif
