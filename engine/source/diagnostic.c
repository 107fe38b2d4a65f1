#include "source/diagnostic.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "text/utf8.h"

/* The index of the same message at the same place; SIZE_MAX if it was not said yet. */
static size_t said_already(const struct diagnostics *list, struct span span, const char *message)
{
    for (size_t i = 0; i < list->count; i++) {
        const struct diagnostic *other = &list->items[i];
        if (other->span.source == span.source && other->span.start == span.start &&
            strcmp(other->message, message) == 0)
            return i;
    }
    return SIZE_MAX;
}

bool diagnostics_full(const struct diagnostics *list)
{
    return list->kept[DIAGNOSTIC_ERROR] > DIAGNOSTICS_MOST;
}

static void say(struct diagnostics *list, enum diagnostic_severity severity, enum trouble_kind kind,
                struct span span, const char *help, const char *format, va_list given)
{
    char text[1024];
    assert(list->arena->escape && span_is_sound(span));
    size_t *kept = &list->kept[severity];
    list->last = SIZE_MAX;
    if (*kept > DIAGNOSTICS_MOST)
        return;
    text_write_given(text, sizeof text, format, given);
    list->last = said_already(list, span, text);
    if (list->last != SIZE_MAX)
        return;
    const char *message = text;
    if ((*kept)++ == DIAGNOSTICS_MOST) {
        message = "there are more errors and warnings than are shown; correct the above first";
        help = NULL;
    }
    list->items =
        arena_grow(list->arena, list->items, sizeof *list->items, &list->room, list->count + 1);
    assert(list->count < list->room);
    list->last = list->count++;
    list->items[list->last] =
        (struct diagnostic){severity,
                            kind,
                            span,
                            arena_text(list->arena, message, strlen(message)),
                            help ? arena_text(list->arena, help, strlen(help)) : NULL,
                            help ? HELP_VALUE : HELP_NONE};
}

void diagnostics_help_is(struct diagnostics *list, enum help_kind kind)
{
    if (list->last < list->count && list->items[list->last].help)
        list->items[list->last].help_kind = kind;
}

void diagnostics_error_given(struct diagnostics *list, enum trouble_kind kind, struct span span,
                             const char *help, const char *format, va_list given)
{
    list->errors++;
    say(list, DIAGNOSTIC_ERROR, kind, span, help, format, given);
}

void diagnostics_error(struct diagnostics *list, struct span span, const char *help,
                       const char *format, ...)
{
    va_list given;
    va_start(given, format);
    diagnostics_error_given(list, TROUBLE_FORM, span, help, format, given);
    va_end(given);
}

void diagnostics_error_of(struct diagnostics *list, enum trouble_kind kind, struct span span,
                          const char *help, const char *format, ...)
{
    va_list given;
    va_start(given, format);
    diagnostics_error_given(list, kind, span, help, format, given);
    va_end(given);
}

void diagnostics_warning(struct diagnostics *list, struct span span, const char *help,
                         const char *format, ...)
{
    va_list given;
    va_start(given, format);
    say(list, DIAGNOSTIC_WARNING, TROUBLE_NONE, span, help, format, given);
    va_end(given);
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
    memory_sort(list->items, list->count, sizeof *list->items, by_place);
}
