#include "command/say.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "command/terminal.h"
#include "text/near.h"
#include "text/utf8.h"

/* There is one standard error. */
static bool only_errors;

void say_only_errors(void)
{
    only_errors = true;
}

bool say_takes_notes(void)
{
    return !only_errors;
}

/* Writes a text without what steers a terminal. */
static void write_plain(const char *text, size_t length, bool lines)
{
    for (size_t i = 0; i < length; i++) {
        bool kept = lines && (text[i] == '\n' || text[i] == '\t');
        size_t control = kept ? 0 : text_control(text + i, length - i);
        fputc(control > 0 ? ' ' : text[i], stderr);
        i += control > 1;
    }
}

static void say_given(const char *format, va_list given)
{
    va_list again;
    va_copy(again, given);
    int length = vsnprintf(NULL, 0, format, given);
    char *text = length < 0 ? NULL : malloc((size_t)length + 1);
    if (text) {
        vsnprintf(text, (size_t)length + 1, format, again);
        write_plain(text, (size_t)length, false);
    }
    va_end(again);
    fputc('\n', stderr);
    free(text);
}

void say(const char *format, ...)
{
    va_list given;
    progress_clear();
    va_start(given, format);
    say_given(format, given);
    va_end(given);
}

void say_note(const char *format, ...)
{
    va_list given;
    if (only_errors)
        return;
    progress_clear();
    va_start(given, format);
    say_given(format, given);
    va_end(given);
}

void say_try(const char *help)
{
    if (help && *help)
        say("Try: %s", help);
}

void say_try_of(const groat_trouble *trouble)
{
    char help[sizeof trouble->help + 16];
    groat_trouble_help(trouble, help, sizeof help);
    say_try(help);
}

void say_try_percent(const char *option, const char *given, const char *example)
{
    static const char digits[] = "0123456789";
    const char *number = given + (given[0] == '+' || given[0] == '-');
    size_t whole = strspn(number, digits), sign = (size_t)(number - given);
    size_t decimals = number[whole] == ',' ? strspn(number + whole + 1, digits) : 0;
    if (whole > 0 && decimals > 0 && strcmp(number + whole + 1 + decimals, "%") == 0)
        say("Try: %s %.*s.%.*s%%", option, (int)(sign + whole), given, (int)decimals,
            number + whole + 1);
    else
        say("Try: for example %s %s", option, example);
}

void say_lines(const char *text, size_t length)
{
    progress_clear();
    write_plain(text, length, true);
}

/* Says it without asking for memory. */
void say_no_memory(void)
{
    progress_clear();
    fputs("groat: there is no memory left\n", stderr);
}

void say_list_item(struct say_list *list, const char *name, size_t length)
{
    progress_clear();
    fputs(list->count == 0 ? "" : ", ", stderr);
    if (list->count++ == 0) {
        write_plain(list->begin, strlen(list->begin), false);
        fputs(": ", stderr);
    }
    fputs(list->quoted ? "\"" : "", stderr);
    write_plain(name, length, false);
    fputs(list->quoted ? "\"" : "", stderr);
}

void say_list_end(struct say_list *list)
{
    if (list->count > 0)
        fputc('\n', stderr);
    list->count = 0;
}

bool say_nearest(const struct say_names *names, const char *wanted, char nearest[SAY_NEAREST_BYTES])
{
    struct near near = near_to(wanted, strlen(wanted));
    for (size_t i = 0; i < names->count; i++) {
        groat_text name = names->name(names->context, i);
        char word[SAY_NEAREST_BYTES];
        snprintf(word, sizeof word, "%.*s", (int)name.length, name.start);
        const char *before = near.best;
        near_offer(&near, word);
        if (near.best != before)
            near.best = strcpy(nearest, word);
    }
    for (size_t i = 0; i < names->count && !near.best; i++) {
        groat_text name = names->name(names->context, i);
        if (*wanted && name.length > strlen(wanted) &&
            strncasecmp(name.start, wanted, strlen(wanted)) == 0) {
            snprintf(nearest, SAY_NEAREST_BYTES, "%.*s", (int)name.length, name.start);
            near.best = nearest;
        }
    }
    return near.best;
}

void say_names(const struct say_names *names, const char *begin, size_t most)
{
    struct say_list list = {.begin = begin, .quoted = names->quoted};
    for (size_t i = 0; i < names->count && i < most; i++) {
        groat_text name = names->name(names->context, i);
        say_list_item(&list, name.start, name.length);
    }
    say_list_end(&list);
}

void say_try_names(const struct say_names *names, const char *wanted, const char *begin,
                   size_t most)
{
    char nearest[SAY_NEAREST_BYTES];
    if (say_nearest(names, wanted, nearest))
        say_try(nearest);
    else
        say_names(names, begin, most);
}

int say_length(groat_text text, size_t most)
{
    return (int)text_cut(text.start, text.length, most);
}

struct say_cell say_cell(groat_text cell)
{
    struct say_cell said = {""};
    if (cell.start)
        snprintf(said.text, sizeof said.text, ", \"%.*s%s\"", say_length(cell, SAY_CELL_MOST),
                 cell.start, cell.length > SAY_CELL_MOST ? "..." : "");
    return said;
}
