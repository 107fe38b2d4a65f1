/* Words that people write in sheets and that the language does not know, by what they mean. They serve
 * proposals alone: none of them is ever read. A word of another language is one more row. */
#ifndef GROAT_HABITS_H
#define GROAT_HABITS_H

#include <stdbool.h>
#include <stddef.h>

enum habit {
    HABIT_ABOUT,   /* the number is not exact */
    HABIT_NOTHING, /* the cell holds no value */
    HABIT_MONEY,   /* the number is money */
    HABIT_PIECES,  /* the number counts pieces */
    HABIT_PER,     /* a unit follows that the amount is per */
    HABIT_YES,
    HABIT_NO
};

/* Whether the whole word, in capitals or not, is such a one. */
bool habit_is(enum habit habit, const char *word, size_t length);
/* The length of the sign for "about" that a text begins with, or 0. */
size_t habit_about_sign(const char *text);

#endif
