#include "command/changes.h"

#include <stdlib.h>
#include <string.h>

static char *amount_of(const groat_method *method, size_t rate)
{
    size_t length = groat_method_rate_amount(method, rate, NULL, 0);
    char *text = malloc(length + 1);
    if (text)
        groat_method_rate_amount(method, rate, text, length + 1);
    return text;
}

/* A rate that was set is one of the method's. */
static size_t find_rate(const groat_method *method, const char *name)
{
    size_t rate = 0;
    while (strcmp(groat_method_rate(method, rate).name, name) != 0)
        rate++;
    return rate;
}

static bool is_noted(const struct changes *changes, const char *rate)
{
    for (size_t i = 0; i < changes->count; i++)
        if (strcmp(changes->items[i].rate, rate) == 0)
            return true;
    return false;
}

bool changes_take(struct changes *changes, const groat_method *before, const groat_method *after,
                  const groat_rate_value *sets, size_t count)
{
    changes->items = calloc(count + 1, sizeof *changes->items);
    for (size_t i = 0; i < count && changes->items; i++) {
        if (is_noted(changes, sets[i].rate))
            continue;
        size_t rate = find_rate(before, sets[i].rate);
        struct change *change = &changes->items[changes->count++];
        *change = (struct change){sets[i].rate, amount_of(before, rate), amount_of(after, rate)};
        if (!change->before || !change->after)
            return false;
    }
    return changes->items != NULL;
}

bool changes_put(const struct changes *changes, FILE *out)
{
    size_t widest = 0;
    for (size_t i = 0; i < changes->count; i++) {
        size_t length = strlen(changes->items[i].rate);
        widest = length > widest ? length : widest;
    }
    for (size_t i = 0; i < changes->count; i++) {
        const struct change *change = &changes->items[i];
        if (fprintf(out, "%s %-*s  %s → %s\n", i == 0 ? "With" : "    ", (int)widest, change->rate,
                    change->before, change->after) < 0)
            return false;
    }
    return changes->count == 0 || fputc('\n', out) != EOF;
}

void changes_free(struct changes *changes)
{
    for (size_t i = 0; i < changes->count; i++) {
        free(changes->items[i].before);
        free(changes->items[i].after);
    }
    free(changes->items);
    *changes = (struct changes){0};
}
