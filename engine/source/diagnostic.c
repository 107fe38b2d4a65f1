#include "source/diagnostic.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool said_already(const struct diagnostics *list, struct span span, const char *message)
{
    for (size_t i = 0; i < list->count; i++) {
        const struct diagnostic *other = &list->items[i];
        if (other->span.source == span.source && other->span.start == span.start &&
            strcmp(other->message, message) == 0)
            return true;
    }
    return false;
}

static void say(struct diagnostics *list, enum diagnostic_severity severity, struct span span,
                const char *help, const char *message)
{
    if (severity == DIAGNOSTIC_ERROR)
        list->errors++;
    if (list->count > DIAGNOSTICS_MOST || said_already(list, span, message))
        return;
    if (list->count == DIAGNOSTICS_MOST) {
        message = "there is more to say about these rules; mend the above first";
        help = NULL;
    }
    list->items =
        arena_grow(list->arena, list->items, sizeof *list->items, &list->room, list->count + 1);
    list->items[list->count++] = (struct diagnostic){
        severity, span, message, help ? arena_text(list->arena, help, strlen(help)) : NULL};
}

static const char *made(struct arena *arena, const char *format, va_list given)
{
    char text[1024];
    vsnprintf(text, sizeof text, format, given);
    return arena_text(arena, text, strlen(text));
}

void diagnostics_error(struct diagnostics *list, struct span span, const char *help,
                       const char *format, ...)
{
    va_list given;
    va_start(given, format);
    const char *message = made(list->arena, format, given);
    va_end(given);
    say(list, DIAGNOSTIC_ERROR, span, help, message);
}

void diagnostics_warning(struct diagnostics *list, struct span span, const char *help,
                         const char *format, ...)
{
    va_list given;
    va_start(given, format);
    const char *message = made(list->arena, format, given);
    va_end(given);
    say(list, DIAGNOSTIC_WARNING, span, help, message);
}

static int by_place(const void *left, const void *right)
{
    const struct diagnostic *a = left, *b = right;
    if (a->span.source != b->span.source)
        return a->span.source->number < b->span.source->number ? -1 : 1;
    if (a->span.start != b->span.start)
        return a->span.start < b->span.start ? -1 : 1;
    return strcmp(a->message, b->message);
}

void diagnostics_sort(struct diagnostics *list)
{
    if (list->count > 1)
        qsort(list->items, list->count, sizeof *list->items, by_place);
}
