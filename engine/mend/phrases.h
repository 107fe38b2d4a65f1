/* Words that people use for those of the language: from the phrase to what the rules say. They are
 * used only for proposals. To add one, add a row. */
#ifndef GROAT_PHRASES_H
#define GROAT_PHRASES_H

#include "mend/pieces.h"

/* A pattern is words and signs with spaces between them. `^` before them: at the beginning of the
 * statement. NAME, NUMBER and SHARE stand for one word, one number and one percentage, AMOUNT for a
 * number with its sign and its unit, and REST for all that follows. In what is written instead they
 * stand for what they were, and MONEY for the NUMBER as the shop writes its
 * money; `~` joins what stands beside it. */
struct phrase {
    const char *pattern, *instead;
};

extern const struct phrase phrases[];
extern const size_t phrases_count;

/* The words of the language, for those that are misspelt. */
extern const char *const phrases_words[];
extern const size_t phrases_words_count;

/* Whether the phrase stands at a piece. If so, writes what the rules say instead, for the text from
 * `*from` to `*to`. `sign` is that of the shop's money. */
bool phrase_at(const struct phrase *phrase, const struct pieces *pieces, size_t index,
               const char *sign, char *buffer, size_t size, size_t *from, size_t *to);

#endif
