#include "mend/elsewhere.h"

#include <stdio.h>
#include <string.h>

#include "mend/changes.h"

/* ---- definitions ---- */

/* Whether the line of the file defines the name: `rate NAME =`, `NAME money`. */
static bool defines(const struct pieces *pieces, const char *name)
{
    if (piece_is(pieces, 0, name))
        return !piece_is(pieces, 1, ":") && !piece_is(pieces, 1, "{");
    return piece_is(pieces, 1, name) && pieces->items[0].kind == PIECE_WORD;
}

static void try_definition(struct mending *mending, const char *name, unsigned depth);

static void try_names(struct mending *mending, const struct pieces *pieces, size_t start,
                      unsigned depth)
{
    char name[WORD_MOST];
    for (size_t i = start; i < pieces->count && !mending->found; i++) {
        const struct piece *piece = &pieces->items[i];
        if (piece->kind != PIECE_WORD || piece->end - piece->start >= sizeof name)
            continue;
        piece_text(pieces, i, name, sizeof name);
        try_definition(mending, name, depth);
    }
}

/* The slip may stand where a name of the marked line is defined: `rate hourly = $19`. */
static void try_definition(struct mending *mending, const char *name, unsigned depth)
{
    for (size_t f = 0; f < mending->mend->files_count && !mending->found; f++) {
        const struct mend_file *file = &mending->mend->files[f];
        groat_text text = file->text;
        if (!mend_work_take(mending->work, text.length))
            return;
        for (size_t line = 0; line < text.length && !mending->found;
             line = mend_next_line(text, line)) {
            struct pieces pieces = pieces_at(text.start, text.length, line, line);
            if (defines(&pieces, name) && pieces.start != mending->pieces.start) {
                mending->elsewhere = file;
                mending->elsewhere_at = pieces.start;
                mend_try_amounts(mending, file, &pieces);
                if (!mending->found && depth > 0)
                    try_names(mending, &pieces, 2, depth - 1);
            }
        }
    }
}

void mend_try_definitions(struct mending *mending)
{
    enum { DEPTH_MOST = 2 };
    try_names(mending, &mending->pieces, 0, DEPTH_MOST);
    if (!mending->found && !mending->doubtful)
        mending->elsewhere = NULL;
}

/* A name that is unknown in several places is more likely to be misspelt where it is defined: the
 * engine proposes the name of that definition. */
void mend_try_renaming(struct mending *mending, const char *defined)
{
    char used[WORD_MOST];
    size_t length = mending->mark_end - mending->mark_start;
    if (length >= sizeof used || groat_report_errors(mending->report) < 2)
        return;
    memcpy(used, mending->file->text.start + mending->mark_start, length);
    used[length] = '\0';
    mending->fall_least = 2;
    for (size_t f = 0; f < mending->mend->files_count && !mending->found; f++) {
        const struct mend_file *file = &mending->mend->files[f];
        for (size_t line = 0; line < file->text.length; line = mend_next_line(file->text, line)) {
            struct pieces pieces = pieces_at(file->text.start, file->text.length, line, line);
            size_t at = piece_is(&pieces, 0, defined) ? 0 : 1;
            if (!defines(&pieces, defined))
                continue;
            mending->elsewhere = file;
            mending->elsewhere_at = pieces.start;
            mend_try_at(mending, file, &pieces, pieces.items[at].start, pieces.items[at].end, used);
            break;
        }
    }
    mending->fall_least = 1;
    if (!mending->found)
        mending->elsewhere = NULL;
}
