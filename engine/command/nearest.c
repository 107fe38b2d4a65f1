#include "command/nearest.h"

#include <stdbool.h>
#include <string.h>

/* Longer words are not compared: they are not slips of the finger. */
#define WORD_MOST 40

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* The C library's tolower follows the locale. */
static char small(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

static bool same(char left, char right)
{
    return small(left) == small(right);
}

/* How many letters are to be put in, left out, replaced, or swapped with their neighbour; capitals
 * are the same as small letters. */
static size_t distance(const char *left, size_t left_length, const char *right, size_t right_length)
{
    size_t rows[3][WORD_MOST + 1]; /* the row before the last one, the last one, this one */
    size_t *before = rows[0], *last = rows[1], *now = rows[2];
    for (size_t j = 0; j <= right_length; j++)
        last[j] = before[j] = j;
    for (size_t i = 1; i <= left_length; i++) {
        now[0] = i;
        for (size_t j = 1; j <= right_length; j++) {
            size_t replaced = last[j - 1] + !same(left[i - 1], right[j - 1]);
            now[j] = least(replaced, least(last[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && same(left[i - 1], right[j - 2]) &&
                same(left[i - 2], right[j - 1]))
                now[j] = least(now[j], before[j - 2] + 1);
        }
        size_t *free_row = before;
        before = last;
        last = now;
        now = free_row;
    }
    return last[right_length];
}

struct nearest nearest_to(const char *wanted)
{
    return (struct nearest){.wanted = wanted, .best = NULL, .distance = 0};
}

void nearest_offer(struct nearest *nearest, const char *word)
{
    size_t length = strlen(nearest->wanted), word_length = strlen(word);
    if (length > WORD_MOST || word_length > WORD_MOST)
        return;
    size_t found = distance(nearest->wanted, length, word, word_length);
    /* A third of the letters may be wrong, and one always; but not all of them. */
    if (found > word_length / 3 + 1 || found >= word_length)
        return;
    if (nearest->best && found >= nearest->distance)
        return;
    nearest->best = word;
    nearest->distance = found;
}
