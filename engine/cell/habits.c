#include "cell/habits.h"

#include <string.h>

static const struct {
    enum habit habit;
    const char *word; /* in small letters */
} words[] = {
    {HABIT_ABOUT, "ca"},
    {HABIT_ABOUT, "circa"},
    {HABIT_ABOUT, "cirka"},
    {HABIT_ABOUT, "about"},
    {HABIT_ABOUT, "approx"},
    {HABIT_ABOUT, "around"},
    {HABIT_ABOUT, "approximately"},
    {HABIT_ABOUT, "roughly"},
    {HABIT_NOTHING, "-"},
    {HABIT_NOTHING, "--"},
    {HABIT_NOTHING, "\xE2\x80\x93"},
    {HABIT_NOTHING, "\xE2\x80\x94"},
    {HABIT_NOTHING, "?"},
    {HABIT_NOTHING, "n/a"},
    {HABIT_NOTHING, "na"},
    {HABIT_NOTHING, "n.a."},
    {HABIT_NOTHING, "none"},
    {HABIT_NOTHING, "nil"},
    {HABIT_NOTHING, "null"},
    {HABIT_NOTHING, "tbd"},
    {HABIT_NOTHING, "tba"},
    {HABIT_NOTHING, "unknown"},
    {HABIT_NOTHING, "#n/a"},
    {HABIT_NOTHING, "#ref!"},
    {HABIT_NOTHING, "#value!"},
    {HABIT_NOTHING, "#name?"},
    {HABIT_NOTHING, "#div/0!"},
    {HABIT_MONEY, "dollar"},
    {HABIT_MONEY, "dollars"},
    {HABIT_MONEY, "euro"},
    {HABIT_MONEY, "euros"},
    {HABIT_MONEY, "bucks"},
    {HABIT_MONEY, "kr"},
    {HABIT_MONEY, "kroner"},
    {HABIT_MONEY, "kronor"},
    {HABIT_PIECES, "piece"},
    {HABIT_PIECES, "pieces"},
    {HABIT_PIECES, "pc"},
    {HABIT_PIECES, "pcs"},
    {HABIT_PIECES, "x"},
    {HABIT_PIECES, "each"},
    {HABIT_PER, "per"},
    {HABIT_PER, "an"},
    {HABIT_PER, "a"},
    {HABIT_YES, "y"},
    {HABIT_YES, "t"},
    {HABIT_YES, "x"},
    {HABIT_YES, "on"},
    {HABIT_NO, "n"},
    {HABIT_NO, "f"},
    {HABIT_NO, "off"},
};

static bool is_same(const char *known, const char *word, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        bool capital = word[i] >= 'A' && word[i] <= 'Z';
        if (known[i] == '\0' || known[i] != (capital ? word[i] - 'A' + 'a' : word[i]))
            return false;
    }
    return known[length] == '\0';
}

bool habit_is(enum habit habit, const char *word, size_t length)
{
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (words[i].habit == habit && is_same(words[i].word, word, length))
            return true;
    return false;
}

size_t habit_about_sign(const char *text)
{
    static const char *const signs[] = {"~", "\xE2\x89\x88"};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (strncmp(text, signs[i], strlen(signs[i])) == 0)
            return strlen(signs[i]);
    return 0;
}
