/* The search for what mends one error: each change is tried by reading the rules with it. */
#ifndef GROAT_TRIAL_H
#define GROAT_TRIAL_H

#include "mend/mend.h"
#include "mend/pieces.h"

enum {
    PROPOSAL_MOST = 200, /* bytes of a proposal, and of what is tried */
    WORD_MOST = 64,
    CHANGES_MOST = 4000 /* tried for one error; the grammar allows few of them */
};

/* What is left of the work that all errors of a report may take, in bytes that are read. */
struct mend_work {
    size_t done, most;        /* `most` is for the errors up to the present one */
    size_t changes, readings; /* for the present one */
};

/* Gives the next error its share of what is left; `left` errors wait, this one among them. */
void mend_work_share(struct mend_work *work, size_t left);
/* Whether so many bytes may still be read. */
bool mend_work_take(struct mend_work *work, size_t bytes);

/* One error, and the search for what mends it. */
struct mending {
    const struct mend *mend;
    const groat_report *report;
    const groat_diagnostic *error;
    const struct mend_file *file;
    struct pieces pieces;
    size_t mark_start, mark_end; /* in the text of the file */
    struct mend_work *work;
    size_t fall_least;           /* by so much a change must lower the number of errors */
    bool no_memory, warned, all; /* of the last reading: with a warning, without an error */
    /* What was found: */
    bool found, mends_all; /* nothing else is wrong then */
    bool doubtful; /* the rules read then, but with a warning: something better is looked for */
    char proposal[PROPOSAL_MOST];
    /* Where it was found, if it was not at the error: */
    const struct mend_file *elsewhere;
    size_t elsewhere_at;
};

/* The place of a line, from 1; of the line after a place; and of a character after one. */
size_t mend_line(groat_text text, unsigned line);
size_t mend_next_line(groat_text text, size_t line);
size_t mend_characters(groat_text text, size_t at, size_t count);

/* Whether the rules can be read, or less is wrong with them, when a part of the file is
 * replaced. */
bool mend_reads(struct mending *mending, const struct mend_file *file, size_t from, size_t to,
                const char *instead);
/* The same for a part of a statement, which becomes the proposal when it can be read. Nothing is
 * tried once a proposal is found. Returns whether there is one. */
bool mend_try_at(struct mending *mending, const struct mend_file *file, const struct pieces *pieces,
                 size_t from, size_t to, const char *instead);
/* The same for the statement of the error. */
bool mend_try(struct mending *mending, size_t from, size_t to, const char *instead);

#endif
