#include "text/near.h"

#include <assert.h>
#include <stdbool.h>
#include <string.h>

enum { LONGEST = 80 };

/* Capitals count as small letters. The C library's tolower is not used because it depends on the
 * locale. */
static bool same(char a, char b)
{
    char small_a = a >= 'A' && a <= 'Z' ? (char)(a - 'A' + 'a') : a;
    char small_b = b >= 'A' && b <= 'Z' ? (char)(b - 'A' + 'a') : b;
    return small_a == small_b;
}

/* The number of letters that must be changed, added, dropped or swapped with their neighbour (the
 * restricted distance of Damerau, 1964), or any number above `most` if it is more than that. Only
 * cells within `most` of the diagonal are computed, because a file may look for thousands of names
 * among thousands. */
static size_t distance(const char *a, size_t a_length, const char *b, size_t b_length, size_t most)
{
    size_t rows[3][LONGEST + 2];
    assert(a_length <= LONGEST && b_length <= LONGEST && most > 0);
    size_t *before = rows[0], *last = rows[1], *row = rows[2];
    for (size_t j = 0; j <= b_length; j++)
        last[j] = j;
    for (size_t i = 1; i <= a_length; i++) {
        size_t first = i > most ? i - most : 1;
        size_t end = i + most < b_length ? i + most : b_length;
        size_t nearest = row[first - 1] = first == 1 ? i : most + 1;
        for (size_t j = first; j <= end; j++) {
            size_t least = last[j - 1] + !same(a[i - 1], b[j - 1]);
            if (last[j] + 1 < least)
                least = last[j] + 1;
            if (row[j - 1] + 1 < least)
                least = row[j - 1] + 1;
            if (i > 1 && j > 1 && same(a[i - 1], b[j - 2]) && same(a[i - 2], b[j - 1]) &&
                before[j - 2] + 1 < least)
                least = before[j - 2] + 1;
            row[j] = least;
            nearest = least < nearest ? least : nearest;
        }
        row[end + 1] = most + 1;
        if (nearest > most)
            return nearest;
        size_t *spare = before;
        before = last;
        last = row;
        row = spare;
    }
    return last[b_length];
}

struct near near_to(const char *wanted, size_t length)
{
    return (struct near){wanted, length, NULL, 0};
}

void near_offer(struct near *near, const char *word)
{
    size_t length = strlen(word);
    if (length > LONGEST || near->length > LONGEST || near->length < 2)
        return;
    size_t most = near->length < 4 ? 1 : near->length < 8 ? 2 : 3;
    if (length > near->length + most || near->length > length + most)
        return;
    size_t found = distance(near->wanted, near->length, word, length, most);
    if (found <= most && (!near->best || found < near->distance)) {
        near->best = word;
        near->distance = found;
    }
}
