#include "report/show_columns.h"

#include <stdlib.h>
#include <string.h>

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

/* What is left of a unit that begins with the currency, `per h` of `USD per h`; NULL where it does
 * not. */
static const char *per_what(const char *unit, const char *code)
{
    size_t length = strlen(code);
    if (!unit || strncmp(unit, code, length) != 0 || strncmp(unit + length, " per ", 5) != 0)
        return NULL;
    return unit + length + 1;
}

bool show_column_make(struct listing_column *column, const groat_method *method, size_t show)
{
    groat_column shown = groat_method_show(method, show);
    const char *per = per_what(shown.unit, groat_method_currency(method).code);
    bool number = amount_is_kind(shown.kind);
    enum listing_look look = per ? LISTING_MONEY_PER : number ? LISTING_NUMBER : LISTING_WORD;
    *column = (struct listing_column){
        shown.name, show_column_words(shown.name), per ? per : shown.unit, look, LISTING_ALWAYS,
        true};
    return column->heading != NULL;
}

bool show_columns_fill(struct listing_column *columns, const groat_method *method)
{
    for (size_t i = 0; i < groat_method_shows(method); i++)
        if (!show_column_make(&columns[i], method, i))
            return false;
    return true;
}

void show_columns_empty(struct listing_column *columns, size_t count)
{
    for (size_t i = 0; i < count; i++)
        free((char *)columns[i].heading);
}
