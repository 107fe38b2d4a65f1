#include "mend/mend.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "mend/changes.h"
#include "mend/elsewhere.h"
#include "text/utf8.h"

/* Bounds for work that a hostile text could make long. */
enum {
    ERRORS_MOST = 6,    /* that are mended; the others follow from them as a rule */
    FILE_MOST = 1 << 16 /* bytes; few write a longer file by hand */
};

/* ---- the engine's own proposal ---- */

/* Whether a proposal reads where it may be written: for what is marked, for the statement, for its
 * value, or from the mark on. */
static bool stands(struct mending *mending, const char *help)
{
    const struct pieces *pieces = &mending->pieces;
    const struct mend_file *file = mending->file;
    size_t value = pieces->start;
    for (size_t i = 0; i < pieces->count && value == pieces->start; i++)
        if (piece_is(pieces, i, "=") || piece_is(pieces, i, ":"))
            value = pieces->items[i].end;
    return mend_reads(mending, file, mending->mark_start, mending->mark_end, help) ||
           mend_reads(mending, file, pieces->start, pieces->end, help) ||
           (value > pieces->start && mend_reads(mending, file, value, pieces->end, help)) ||
           (mending->mark_start < pieces->end &&
            mend_reads(mending, file, mending->mark_start, pieces->end, help));
}

/* ---- one error ---- */

static const struct mend_file *file_named(const struct mend *mend, const char *name)
{
    for (size_t i = 0; i < mend->files_count; i++)
        if (strcmp(mend->files[i].name, name) == 0)
            return &mend->files[i];
    return NULL;
}

/* Whether the engine's proposal is for another place, or leaves to a person what only a person can
 * decide. */
static bool is_settled(const groat_diagnostic *error)
{
    return error->help_kind == GROAT_HELP_ELSEWHERE || error->help_kind == GROAT_HELP_CHOICE;
}

/* What mends an error; its own proposal remains if that stands. */
static struct mending mend_error(const struct mend *mend, const groat_report *report,
                                 const groat_diagnostic *error, struct mend_work *work)
{
    struct mending mending = {.mend = mend,
                              .report = report,
                              .error = error,
                              .file = file_named(mend, error->file),
                              .work = work,
                              .fall_least = 1};
    if (!mending.file || mending.file->text.length > FILE_MOST || is_settled(error))
        return mending;
    groat_text text = mending.file->text;
    size_t line = mend_line(text, error->line);
    mending.mark_start = mend_characters(text, line, error->column - 1);
    mending.mark_end = mend_characters(text, mending.mark_start, error->span);
    mending.pieces = pieces_at(text.start, text.length, line, mending.mark_start);
    if (mending.pieces.count == 0)
        return mending;
    bool advice = error->help_kind == GROAT_HELP_ADVICE;
    if (error->help && !advice)
        mend_try_renaming(&mending, error->help);
    if (mending.found)
        return mending;
    if (error->help && !advice && stands(&mending, error->help) && !mending.warned) {
        mending.mends_all = mending.all;
        return mending;
    }
    mend_try_changes(&mending);
    if (!mending.found && !mending.doubtful && !advice)
        mend_try_definitions(&mending);
    mending.found = (mending.found || mending.doubtful) && (!advice || mending.mends_all);
    mending.mends_all = mending.found && mending.mends_all;
    return mending;
}

/* ---- the report ---- */

static const char *keep_text(struct mended_errors *out, const char *text)
{
    size_t length = strlen(text) + 1;
    char *copy = malloc(length);
    if (!copy)
        return NULL;
    memcpy(copy, text, length);
    return out->texts[out->texts_count++] = copy;
}

/* An error that is shown where its cause stands. */
static bool move_elsewhere(const struct mending *mending, struct mended_errors *out,
                           groat_diagnostic *item)
{
    groat_text text = mending->elsewhere->text;
    size_t at = mending->elsewhere_at, line = at;
    char words[400];
    text_write(words, sizeof words, "this does not fit line %u, which depends on it: %s",
               item->line, item->message);
    item->line = 1;
    for (size_t i = 0; i < at; i++)
        item->line += text.start[i] == '\n';
    while (line > 0 && text.start[line - 1] != '\n')
        line--;
    const char *end = memchr(text.start + at, '\n', text.length - at);
    size_t stop = end ? (size_t)(end - text.start) : text.length;
    struct pieces pieces = pieces_at(text.start, text.length, line, at);
    char source[1000];
    snprintf(source, sizeof source, "%.*s", (int)(stop - line), text.start + line);
    item->file = mending->elsewhere->name;
    item->column = (unsigned)(at - line + 1);
    item->span = (unsigned)text_characters(text.start + pieces.start, pieces.end - pieces.start);
    item->message = keep_text(out, words);
    item->source = keep_text(out, source);
    return item->message && item->source;
}

static bool show(const struct mending *mending, struct mended_errors *out, groat_diagnostic *item)
{
    if (!mending->found)
        return !mending->no_memory;
    item->help = keep_text(out, mending->proposal);
    return item->help && (!mending->elsewhere || move_elsewhere(mending, out, item));
}

/* Whether an error that was shown before has the same place and the same proposal: two lines may
 * depend on one definition. */
static bool is_shown(const struct mended_errors *out, const groat_diagnostic *item)
{
    for (size_t i = 0; i < out->count; i++) {
        const groat_diagnostic *each = &out->items[i];
        if (each->line == item->line && strcmp(each->file, item->file) == 0 && each->help &&
            strcmp(each->help, item->help) == 0)
            return true;
    }
    return false;
}

bool mend_report(const struct mend *mend, const groat_report *report, struct mended_errors *out)
{
    enum { TEXTS_OF_ONE = 3 };
    size_t count = groat_report_count(report), errors = groat_report_errors(report);
    size_t left = errors < ERRORS_MOST ? errors : ERRORS_MOST;
    struct mend_work work = {0};
    *out = (struct mended_errors){.items = calloc(count + 1, sizeof *out->items),
                                  .texts = calloc(TEXTS_OF_ONE * ERRORS_MOST, sizeof *out->texts)};
    bool fine = out->items && out->texts;
    for (size_t i = 0; i < count && fine; i++) {
        const groat_diagnostic *each = groat_report_at(report, i);
        out->items[out->count] = *each;
        bool shown = false;
        if (each->severity == GROAT_ERROR && left > 0) {
            mend_work_share(&work, left--);
            struct mending mending = mend_error(mend, report, each, &work);
            fine = show(&mending, out, &out->items[out->count]);
            if (fine && mending.mends_all) {
                out->items[0] = out->items[out->count];
                out->count = 1;
                break;
            }
            shown = fine && mending.elsewhere && is_shown(out, &out->items[out->count]);
        }
        out->count += !shown;
    }
    if (!fine)
        mended_free(out);
    return fine;
}

void mended_free(struct mended_errors *mended)
{
    for (size_t i = 0; i < mended->texts_count; i++)
        free(mended->texts[i]);
    free(mended->texts);
    free(mended->items);
    *mended = (struct mended_errors){0};
}
