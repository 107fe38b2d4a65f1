/* Words that people write in sheets but that the language does not know, with their meanings. They
 * are used only for proposals and never read as values. To add a word of another language, add a
 * row. */
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

/* Whether the whole word has this meaning, ignoring case. */
bool habit_is(enum habit habit, const char *word, size_t length);
/* The length of the sign for "about" that a text begins with, or 0. */
size_t habit_about_sign(const char *text);

#endif
