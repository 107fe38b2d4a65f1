#include "report/show_columns.h"

#include <stdlib.h>
#include <string.h>

#include "study/taken.h"

char *show_column_words(const char *name)
{
    char *words = malloc(strlen(name) + 1);
    if (!words)
        return NULL;
    strcpy(words, name);
    for (char *at = words; *at; at++)
        if (*at == '_')
            *at = ' ';
    if (words[0] >= 'a' && words[0] <= 'z')
        words[0] = (char)(words[0] - 'a' + 'A');
    return words;
}

bool show_column_make(struct listing_column *column, const groat_method *method, size_t show)
{
    groat_column shown = groat_method_show(method, show);
    bool number = taken_is_amount(shown.kind);
    enum listing_look look = shown.per ? LISTING_MONEY_PER : number ? LISTING_NUMBER : LISTING_WORD;
    *column = (struct listing_column){shown.name,
                                      show_column_words(shown.name),
                                      shown.per ? shown.per : shown.unit,
                                      look,
                                      LISTING_ALWAYS,
                                      true};
    return column->heading != NULL;
}

bool show_columns_open(struct show_columns *made, const groat_method *method,
                       const struct listing_column *fixed, size_t fixed_count,
                       const struct listing_column *last, size_t last_count)
{
    size_t shows = groat_method_shows(method), count = fixed_count + shows + last_count;
    *made = (struct show_columns){.fixed = fixed_count, .shows = shows, .count = count};
    made->columns = calloc(count + 1, sizeof *made->columns);
    made->cells = calloc(count + 1, sizeof *made->cells);
    if (!made->columns || !made->cells)
        return false;
    memcpy(made->columns, fixed, fixed_count * sizeof *fixed);
    memcpy(made->columns + fixed_count + shows, last, last_count * sizeof *last);
    for (size_t i = 0; i < shows; i++)
        if (!show_column_make(&made->columns[fixed_count + i], method, i))
            return false;
    return true;
}

void show_columns_close(struct show_columns *made)
{
    for (size_t i = 0; made->columns && i < made->shows; i++)
        free((char *)made->columns[made->fixed + i].heading);
    free(made->columns);
    free(made->cells);
}

void show_columns_take(struct show_columns *made, const groat_scratch *scratch)
{
    for (size_t i = 0; i < made->shows; i++)
        made->cells[made->fixed + i].value = groat_result_show(scratch, i);
}

struct listing_cell *show_columns_last(const struct show_columns *made)
{
    return made->cells + made->fixed + made->shows;
}
