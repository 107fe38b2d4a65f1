#include "mend/changes.h"

#include <stdio.h>
#include <string.h>

#include "mend/phrases.h"
#include "text/money.h"
#include "text/near.h"

enum { UNITS_MOST = 12, UNIT_MOST = 24 };

/* ---- phrases ---- */

enum { SIGN_MOST = 16 };

/* The sign of the shop's money, or its code where it has none. */
static void currency_sign(const struct mending *mending, char sign[SIGN_MOST])
{
    memcpy(sign, "$", 2);
    for (size_t i = 0; i < mending->mend->files_count; i++) {
        groat_text text = mending->mend->files[i].text;
        for (size_t line = 0; line < text.length; line = mend_next_line(text, line)) {
            struct pieces pieces = pieces_at(text.start, text.length, line, line);
            if (piece_is(&pieces, 0, "currency") && pieces.count > 1) {
                piece_text(&pieces, pieces.count > 2 ? 2 : 1, sign, SIGN_MOST);
                return;
            }
        }
    }
}

static void try_phrases(struct mending *mending)
{
    char instead[PROPOSAL_MOST], sign[SIGN_MOST];
    size_t from, to;
    currency_sign(mending, sign);
    for (size_t i = 0; i < phrases_count && !mending->found; i++)
        for (size_t at = 0; at < mending->pieces.count && !mending->found; at++)
            if (phrase_at(&phrases[i], &mending->pieces, at, sign, instead, sizeof instead, &from,
                          &to))
                mend_try(mending, from, to, instead);
}

/* ---- words ---- */

/* The order in which pieces are tried: from the mark outward. */
static size_t outward(const struct mending *mending, size_t turn)
{
    const struct pieces *pieces = &mending->pieces;
    size_t at = 0;
    while (at + 1 < pieces->count && pieces->items[at].end <= mending->mark_start)
        at++;
    size_t step = (turn + 1) / 2;
    bool back = turn % 2 == 1;
    if (back)
        return step <= at ? at - step : SIZE_MAX;
    return at + step < pieces->count ? at + step : SIZE_MAX;
}

/* Whether the word is spelt as the language or another place of the rules spells it. */
static bool is_known(const struct mending *mending, const char *word)
{
    size_t length = strlen(word), count = 0;
    for (size_t i = 0; i < phrases_words_count; i++)
        if (strcmp(phrases_words[i], word) == 0)
            return true;
    for (size_t f = 0; f < mending->mend->files_count && count < 2; f++) {
        groat_text text = mending->mend->files[f].text;
        if (!mend_work_take(mending->work, text.length))
            return true;
        for (size_t at = 0; at + length <= text.length && count < 2; at++) {
            bool same = memcmp(text.start + at, word, length) == 0;
            bool begins = at == 0 || !piece_letter(text.start[at - 1]);
            count += same && begins &&
                     (at + length == text.length || !piece_letter(text.start[at + length]));
        }
    }
    return count >= 2;
}

/* Tries a word of the language or of the rules in place of a piece, if it is so far from it. */
static void try_word(struct mending *mending, const struct piece *piece, const char *wanted,
                     const char *word, size_t distance)
{
    struct near near = near_to(wanted, strlen(wanted));
    near_offer(&near, word);
    if (near.best && near.distance == distance && strcmp(wanted, word) != 0)
        mend_try(mending, piece->start, piece->end, word);
}

static void try_words_of(struct mending *mending, const struct piece *piece, const char *wanted,
                         groat_text text, size_t distance)
{
    char word[WORD_MOST];
    if (!mend_work_take(mending->work, text.length))
        return;
    for (size_t at = 0; at < text.length && !mending->found;) {
        size_t length = 0;
        while (at + length < text.length && piece_letter(text.start[at + length]))
            length++;
        if (length > 0 && length < sizeof word) {
            memcpy(word, text.start + at, length);
            word[length] = '\0';
            try_word(mending, piece, wanted, word, distance);
        }
        at += length + 1;
    }
}

/* The words that are spelt most like each unknown one, the marked one first. */
static void try_words(struct mending *mending)
{
    enum { DISTANCE_MOST = 2 };
    char word[WORD_MOST];
    for (size_t turn = 0; turn < 2 * mending->pieces.count && !mending->found; turn++) {
        size_t at = outward(mending, turn);
        if (at == SIZE_MAX || mending->pieces.items[at].kind != PIECE_WORD)
            continue;
        const struct piece *piece = &mending->pieces.items[at];
        if (piece->end - piece->start >= sizeof word)
            continue;
        piece_text(&mending->pieces, at, word, sizeof word);
        for (size_t far = 0; far <= DISTANCE_MOST && !is_known(mending, word); far++) {
            for (size_t i = 0; i < phrases_words_count && !mending->found; i++)
                try_word(mending, piece, word, phrases_words[i], far);
            for (size_t i = 0; i < mending->mend->files_count && !mending->found; i++)
                try_words_of(mending, piece, word, mending->mend->files[i].text, far);
        }
    }
}

/* ---- signs and neighbours ---- */

/* Signs and words that may have been left out, the likelier first. */
static const struct joint {
    const char *text;
    enum { BETWEEN, AT_START, AT_END } place; /* of a piece */
} joints[] = {
    {":", BETWEEN},     {";", AT_END},        {"of", BETWEEN},      {"(", AT_START},
    {")", AT_END},      {"{", BETWEEN},       {"*", BETWEEN},       {"+", BETWEEN},
    {"/", BETWEEN},     {">=", BETWEEN},      {",", AT_END},        {"\"", AT_START},
    {"\"", AT_END},     {"when", BETWEEN},    {"by", BETWEEN},      {"to", BETWEEN},
    {"up to", BETWEEN}, {"below", BETWEEN},   {"per", BETWEEN},     {"and", BETWEEN},
    {"or", BETWEEN},    {"then", BETWEEN},    {"else", BETWEEN},    {"lost", BETWEEN},
    {"as", BETWEEN},    {"-", BETWEEN},       {"order", BETWEEN},   {"otherwise", BETWEEN},
    {"aim", BETWEEN},   {"set", BETWEEN},     {"or more", BETWEEN}, {"at least", BETWEEN},
    {"in", BETWEEN},    {"ends in", BETWEEN}, {"every", BETWEEN},   {"up", BETWEEN},
    {"$", AT_START},    {"=", BETWEEN},       {"rate", BETWEEN},    {"let", BETWEEN},
    {"fee", BETWEEN},   {"cost", BETWEEN},    {"name", BETWEEN},
};

static void try_joint(struct mending *mending, const struct joint *joint, size_t at)
{
    const struct pieces *pieces = &mending->pieces;
    bool last = at == pieces->count;
    size_t place =
        last || joint->place == AT_END ? pieces->items[at - last].end : pieces->items[at].start;
    char instead[24];
    if (joint->place != BETWEEN)
        snprintf(instead, sizeof instead, "%s", joint->text);
    else if (last)
        snprintf(instead, sizeof instead, " %s", joint->text);
    else
        snprintf(instead, sizeof instead, "%s%s ",
                 place > 0 && strchr(" \t\n{;", pieces->text[place - 1]) ? "" : " ", joint->text);
    mend_try(mending, place, place, instead);
}

static void try_joints(struct mending *mending)
{
    size_t count = sizeof joints / sizeof *joints;
    for (size_t turn = 0; turn < 2 * mending->pieces.count && !mending->found; turn++) {
        size_t at = outward(mending, turn);
        for (size_t i = 0; i < count && at != SIZE_MAX && !mending->found; i++)
            try_joint(mending, &joints[i], at);
    }
    for (size_t i = 0; i < count && !mending->found; i++)
        try_joint(mending, &joints[i], mending->pieces.count);
}

/* Two neighbours as one name, or in the other order; or one of them left out. */
static void try_neighbours(struct mending *mending)
{
    const struct pieces *pieces = &mending->pieces;
    char instead[PROPOSAL_MOST];
    for (int way = 0; way < 3; way++) {
        for (size_t turn = 0; turn < 2 * pieces->count && !mending->found; turn++) {
            size_t at = outward(mending, turn);
            if (at == SIZE_MAX)
                continue;
            const struct piece *a = &pieces->items[at], *b = a + 1;
            bool two = at + 1 < pieces->count;
            const char *text = pieces->text;
            if (way == 0 && two && a->kind == PIECE_WORD && b->kind == PIECE_WORD) {
                snprintf(instead, sizeof instead, "%.*s_%.*s", (int)(a->end - a->start),
                         text + a->start, (int)(b->end - b->start), text + b->start);
                mend_try(mending, a->start, b->end, instead);
            } else if (way == 0 && at + 2 < pieces->count && piece_is(pieces, at + 1, "-")) {
                snprintf(instead, sizeof instead, "%.*s_%.*s", (int)(a->end - a->start),
                         text + a->start, (int)(b[1].end - b[1].start), text + b[1].start);
                mend_try(mending, a->start, b[1].end, instead);
            } else if (way == 1 && two) {
                snprintf(instead, sizeof instead, "%.*s%.*s%.*s", (int)(b->end - b->start),
                         text + b->start, (int)(b->start - a->end), text + a->end,
                         (int)(a->end - a->start), text + a->start);
                mend_try(mending, a->start, b->end, instead);
            } else if (way == 2 && (turn <= 2 || a->kind == PIECE_SIGN)) {
                size_t end = two ? b->start : a->end;
                mend_try(mending, a->start, end, "");
            }
        }
    }
}

static void try_signs(struct mending *mending)
{
    static const char *const signs[][2] = {{"=", ":"}, {":", "="}, {"(", "{"},   {"[", "{"},
                                           {"]", "}"}, {"[", "("}, {"]", ")"},   {"*", "="},
                                           {"-", "="}, {";", ","}, {",", " and"}};
    for (size_t at = 0; at < mending->pieces.count && !mending->found; at++)
        for (size_t i = 0; i < sizeof signs / sizeof *signs && !mending->found; i++)
            if (piece_is(&mending->pieces, at, signs[i][0]))
                mend_try(mending, mending->pieces.items[at].start, mending->pieces.items[at].end,
                         signs[i][1]);
}

/* ---- amounts ---- */

/* The units that stand in the rules behind numbers and after `per` and `as`. */
static size_t units_of(const struct mending *mending, char units[UNITS_MOST][UNIT_MOST])
{
    size_t count = 1;
    strcpy(units[0], "h"); /* the likeliest of all that an amount is per */
    for (size_t f = 0; f < mending->mend->files_count; f++) {
        groat_text text = mending->mend->files[f].text;
        for (size_t line = 0; line < text.length; line = mend_next_line(text, line)) {
            struct pieces pieces = pieces_at(text.start, text.length, line, line);
            for (size_t i = 1; i < pieces.count && count < UNITS_MOST; i++) {
                bool before = pieces.items[i - 1].kind == PIECE_NUMBER ||
                              piece_is(&pieces, i - 1, "per") || piece_is(&pieces, i - 1, "as");
                size_t length = pieces.items[i].end - pieces.items[i].start;
                if (!before || pieces.items[i].kind != PIECE_WORD || length >= UNIT_MOST)
                    continue;
                piece_text(&pieces, i, units[count], UNIT_MOST);
                bool known = strcmp(units[count], "per") == 0 || strcmp(units[count], "order") == 0;
                for (size_t k = 0; k < count; k++)
                    known = known || strcmp(units[k], units[count]) == 0;
                count += !known;
            }
        }
    }
    return count;
}

/* Whether a sign of money stands before a piece. */
static bool is_money(const struct pieces *pieces, size_t index)
{
    return index > 0 && pieces->items[index - 1].kind == PIECE_SIGN &&
           pieces->items[index - 1].end == pieces->items[index].start &&
           !strchr("(-+*/=<>", pieces->text[pieces->items[index].start - 1]);
}

/* What an amount may lack: the currency or `%`, the unit that it is in or that it is per. */
static void try_amount(struct mending *mending, const struct mend_file *file,
                       const struct pieces *pieces, size_t index)
{
    char units[UNITS_MOST][UNIT_MOST], instead[PROPOSAL_MOST], sign[SIGN_MOST];
    char digits[WORD_MOST], money[WORD_MOST + SIGN_MOST + 2];
    const struct piece *piece = &pieces->items[index];
    size_t start = piece->start, end = piece->end, count = units_of(mending, units);
    bool has_sign = is_money(pieces, index), per = piece_is(pieces, index + 1, "per");
    bool has_unit = false;
    for (size_t k = 0; k < count && !has_unit; k++)
        has_unit = piece_is(pieces, index + 1, units[k]);
    currency_sign(mending, sign);
    piece_text(pieces, index, digits, sizeof digits);
    text_money(money, sizeof money, sign, digits);
    if (!has_sign)
        mend_try_at(mending, file, pieces, start, end, money);
    for (size_t k = 0; k < count && !has_unit && !mending->found; k++) {
        snprintf(instead, sizeof instead, "%s %s", digits, units[k]);
        if (!has_sign)
            mend_try_at(mending, file, pieces, start, end, instead);
        snprintf(instead, sizeof instead, "%s per %s", has_sign ? digits : money, units[k]);
        if (!per)
            mend_try_at(mending, file, pieces, start, end, instead);
    }
    if (!has_sign && !per)
        mend_try_at(mending, file, pieces, end, end, "%");
}

void mend_try_amounts(struct mending *mending, const struct mend_file *file,
                      const struct pieces *pieces)
{
    for (size_t i = 0; i < pieces->count && !mending->found; i++)
        if (pieces->items[i].kind == PIECE_NUMBER)
            try_amount(mending, file, pieces, i);
}

/* ---- all of them ---- */

void mend_try_changes(struct mending *mending)
{
    try_phrases(mending);
    if (!mending->found)
        try_signs(mending);
    if (!mending->found)
        try_words(mending);
    if (!mending->found)
        mend_try_amounts(mending, mending->file, &mending->pieces);
    if (!mending->found)
        try_joints(mending);
    if (!mending->found)
        try_neighbours(mending);
}
