/* Rules made up by a test, read, and what was said of them. */
#ifndef FAULT_RULES_TEXT_H
#define FAULT_RULES_TEXT_H

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "groat.h"

/* ---- texts that grow ---- */

struct text {
    char *start;
    size_t length, room;
};

static inline void text_add(struct text *text, const char *more, size_t length)
{
    if (text->length + length + 1 > text->room) {
        text->room = 2 * (text->length + length + 1);
        text->start = realloc(text->start, text->room);
        if (!text->start)
            abort();
    }
    memcpy(text->start + text->length, more, length);
    text->length += length;
    text->start[text->length] = '\0';
}

__attribute__((format(printf, 2, 3))) static inline void text_append(struct text *text,
                                                                     const char *format, ...)
{
    char line[1024];
    va_list given;
    va_start(given, format);
    int length = vsnprintf(line, sizeof line, format, given);
    va_end(given);
    if (length < 0 || (size_t)length >= sizeof line)
        abort();
    text_add(text, line, (size_t)length);
}

/* A line with a value, exactly. */
static inline void text_value(struct text *text, const char *name, groat_value value)
{
    char top[3000], bottom[3000];
    groat_value_top(value, top, sizeof top);
    groat_value_bottom(value, bottom, sizeof bottom);
    text_append(text, "%s %d ", name, (int)value.presence);
    text_add(text, top, strlen(top));
    text_append(text, "/");
    text_add(text, bottom, strlen(bottom));
    text_append(text, "\n");
}

static inline void text_repeat(struct text *text, const char *more, size_t times)
{
    for (size_t i = 0; i < times; i++)
        text_add(text, more, strlen(more));
}

static inline void text_free(struct text *text)
{
    free(text->start);
    *text = (struct text){0};
}

static inline struct text text_of_file(const char *name)
{
    struct text text = {0};
    char bytes[4096];
    FILE *file = fopen(name, "rb");
    for (size_t count; file && (count = fread(bytes, 1, sizeof bytes, file)) > 0;)
        text_add(&text, bytes, count);
    if (file)
        fclose(file);
    return text;
}

/* Hands out the files that stand beside everything.rules. */
static inline bool load_fault_file(void *context, const char *name, const char *from,
                                   const char **full_name, groat_text *out)
{
    struct text *kept = context;
    (void)from;
    if (strcmp(name, "shared.rules") != 0)
        return false;
    if (!kept->start)
        *kept = text_of_file("tests/fault/shared.rules");
    *full_name = "shared.rules";
    *out = (groat_text){kept->start, kept->length};
    return kept->start != NULL;
}

/* ---- what reading says ---- */

static inline bool report_says(const groat_report *report, const char *words)
{
    for (size_t i = 0; i < groat_report_count(report); i++)
        if (strstr(groat_report_at(report, i)->message, words))
            return true;
    return false;
}

static inline void report_print(const groat_report *report)
{
    for (size_t i = 0; report && i < groat_report_count(report) && i < 5; i++) {
        char line[4096];
        groat_diagnostic_write(groat_report_at(report, i), line, sizeof line);
        fputs(line, stderr);
    }
}

static inline groat_method *read_with(const char *rules, const groat_limits *limits,
                                      groat_report **report)
{
    groat_reading reading = {.limits = limits};
    return groat_method_read("hostile.rules", (groat_text){rules, strlen(rules)}, &reading, report);
}

/* Rules that must be right. */
static inline groat_method *read_right(const char *rules)
{
    groat_report *report;
    groat_method *method = read_with(rules, NULL, &report);
    if (!method)
        report_print(report);
    groat_report_free(report);
    return method;
}

/* Whether reading these rules is refused with these words. */
static inline bool refused_with(const char *rules, const groat_limits *limits, const char *words)
{
    groat_report *report;
    groat_method *method = read_with(rules, limits, &report);
    bool refused = !method && report && report_says(report, words);
    if (!refused)
        report_print(report);
    groat_method_free(method);
    groat_report_free(report);
    return refused;
}

static inline groat_status set_cell(groat_record *record, const groat_method *method,
                                    const char *field, const char *cell, groat_trouble *trouble)
{
    return groat_record_set(record, groat_method_find_field(method, field),
                            (groat_text){cell, strlen(cell)}, NULL, trouble);
}

#endif
