#include "mend/trial.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "text/utf8.h"

/* Bounds for work that a hostile text could make long. Each reading of the rules takes time in
 * proportion to their length. */
enum {
    READINGS_MOST = 400,  /* of all files, for one error */
    BYTES_MOST = 1 << 21, /* that are read and parsed, for all errors */
    BLOCK_MOST = 1 << 13  /* in the block where the error is */
};

/* ---- places ---- */

size_t mend_line(groat_text text, unsigned line)
{
    size_t at = 0;
    for (unsigned i = 1; i < line && at < text.length; at++)
        i += text.start[at] == '\n';
    return at;
}

size_t mend_next_line(groat_text text, size_t line)
{
    const char *end = memchr(text.start + line, '\n', text.length - line);
    return end ? (size_t)(end - text.start) + 1 : text.length;
}

size_t mend_characters(groat_text text, size_t at, size_t count)
{
    for (; count > 0 && at < text.length && text.start[at] != '\n'; count--) {
        at++;
        while (at < text.length && text_continues(text.start[at]))
            at++;
    }
    return at;
}

/* ---- work ---- */

void mend_work_share(struct mend_work *work, size_t left)
{
    work->most = work->done + (BYTES_MOST - work->done) / left;
    work->changes = work->readings = 0;
}

bool mend_work_take(struct mend_work *work, size_t bytes)
{
    if (bytes > work->most - work->done)
        return false;
    work->done += bytes;
    return true;
}

/* What it takes to read the rules: for each error that is found, the engine looks through the names
 * for one that is like it. */
static size_t reading_takes(const struct mending *mending)
{
    enum { AS_LONG_AS_READING = 8 }; /* so many errors */
    size_t bytes = 1 << 10;
    for (size_t i = 0; i < mending->mend->files_count; i++)
        bytes += mending->mend->files[i].text.length;
    return bytes + bytes * (groat_report_count(mending->report) / AS_LONG_AS_READING);
}

/* ---- trying ---- */

static bool is_at_line(const groat_diagnostic *error, const groat_diagnostic *other)
{
    return error->line == other->line && strcmp(error->file, other->file) == 0;
}

/* Whether fewer errors are found in the changed rules, and none at the error's line. */
static bool is_better(const struct mending *mending, const groat_report *then)
{
    if (groat_report_errors(then) == 0)
        return true;
    if (groat_report_errors(then) + mending->fall_least > groat_report_errors(mending->report))
        return false;
    for (size_t i = 0; i < groat_report_count(then); i++) {
        const groat_diagnostic *each = groat_report_at(then, i);
        if (each->severity == GROAT_ERROR && is_at_line(mending->error, each))
            return false;
    }
    return true;
}

/* Whether a line begins a statement of the shop: it is not indented. */
static bool begins_block(groat_text text, size_t line)
{
    return line < text.length && !strchr(" \t\r\n}#", text.start[line]);
}

/* The file's lines from the beginning of the block at a place to its end. */
static groat_text block_at(groat_text text, size_t place)
{
    size_t start = place, end = place;
    do {
        start -= start > 0;
        while (start > 0 && text.start[start - 1] != '\n')
            start--;
    } while (start > 0 && !begins_block(text, start));
    do {
        const char *line = memchr(text.start + end, '\n', text.length - end);
        end = line ? (size_t)(line - text.start) + 1 : text.length;
    } while (end < text.length && !begins_block(text, end));
    return (groat_text){text.start + start, end - start};
}

/* A text of its own with a part replaced; NULL if there is no memory for it. */
static char *replaced(groat_text text, size_t from, size_t to, const char *instead, size_t *length)
{
    size_t added = strlen(instead);
    char *made = malloc(text.length - (to - from) + added + 1);
    *length = text.length - (to - from) + added;
    if (!made)
        return NULL;
    memcpy(made, text.start, from);
    memcpy(made + from, instead, added);
    memcpy(made + from + added, text.start + to, text.length - to);
    return made;
}

/* Whether the grammar allows the change in its block. This takes little time, and most changes end
 * here. */
static bool parses(struct mending *mending, groat_text file, size_t from, size_t to,
                   const char *instead)
{
    groat_text block = block_at(file, from);
    size_t begin = (size_t)(block.start - file.start), length;
    if (block.length > BLOCK_MOST || to > begin + block.length ||
        !mend_work_take(mending->work, block.length))
        return false;
    char *text = replaced(block, from - begin, to - begin, instead, &length);
    groat_tidied *tidied = text ? groat_tidy(NULL, (groat_text){text, length}, NULL, NULL) : NULL;
    mending->no_memory = !text;
    groat_tidied_free(tidied);
    free(text);
    return tidied != NULL;
}

/* Whether the rules can be read when a part of the file is replaced. */
bool mend_reads(struct mending *mending, const struct mend_file *file, size_t from, size_t to,
                const char *instead)
{
    size_t length;
    struct mend_work *work = mending->work;
    if (mending->no_memory || work->changes++ >= CHANGES_MOST ||
        !parses(mending, file->text, from, to, instead) || work->readings == READINGS_MOST ||
        !mend_work_take(work, reading_takes(mending)))
        return false;
    work->readings++;
    char *text = replaced(file->text, from, to, instead, &length);
    groat_report *report =
        text ? mending->mend->read(mending->mend->context, file, (groat_text){text, length}) : NULL;
    mending->no_memory = !report;
    bool better = report && is_better(mending, report);
    mending->all = better && groat_report_errors(report) == 0;
    mending->warned = better && groat_report_count(report) > groat_report_errors(report);
    groat_report_free(report);
    free(text);
    return better;
}

/* Keeps the changed statement as the proposal. The first of those with a warning is kept for where
 * there is none without. */
static void keep(struct mending *mending, const struct pieces *pieces, size_t from, size_t to,
                 const char *instead)
{
    if (mending->warned && mending->doubtful)
        return;
    size_t start = from < pieces->start ? from : pieces->start;
    size_t end = to > pieces->end ? to : pieces->end;
    int length = snprintf(mending->proposal, sizeof mending->proposal, "%.*s%s%.*s%s",
                          (int)(from - start), pieces->text + start, instead, (int)(end - to),
                          pieces->text + to, pieces->opens ? " {" : "");
    bool fits = length > 0 && (size_t)length < sizeof mending->proposal;
    mending->found = fits && !mending->warned;
    mending->doubtful = fits && mending->warned;
    mending->mends_all = mending->all;
}

bool mend_try_at(struct mending *mending, const struct mend_file *file, const struct pieces *pieces,
                 size_t from, size_t to, const char *instead)
{
    if (!mending->found && mend_reads(mending, file, from, to, instead))
        keep(mending, pieces, from, to, instead);
    return mending->found;
}

bool mend_try(struct mending *mending, size_t from, size_t to, const char *instead)
{
    return mend_try_at(mending, mending->file, &mending->pieces, from, to, instead);
}
