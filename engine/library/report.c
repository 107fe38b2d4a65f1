/* Diagnostics for the host: texts of their own, that outlive the rules. */
#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "library/call.h"
#include "text/utf8.h"

/* No line is written for people at such a length, and a report shows one for each diagnostic. What
 * is not UTF-8 is not shown at all: what a host is handed is text. */
enum { LINE_MOST = 1000 };

static struct span line_of(struct span span)
{
    struct span line = span_line(span);
    size_t length = text_bad_byte(span_text(line), line.end - line.start);
    line.end = line.start + (uint32_t)text_cut(span_text(line), length, LINE_MOST);
    return line;
}

static bool copy_diagnostic(groat_report *report, const struct diagnostic *from,
                            groat_diagnostic *to)
{
    struct span line = line_of(from->span);
    struct place place = span_place(from->span);
    uint32_t end = from->span.end < line.end ? from->span.end : line.end;
    uint32_t start = from->span.start < line.end ? from->span.start : line.end;
    unsigned marked =
        end > start ? (unsigned)text_characters(
                          span_text((struct span){from->span.source, start, end}), end - start)
                    : 1;
    const char *name = from->span.source->name;
    *to = (groat_diagnostic){
        .severity = from->severity == DIAGNOSTIC_ERROR ? GROAT_ERROR : GROAT_WARNING,
        .file = arena_text(&report->arena, name, strlen(name)),
        .line = place.line,
        .column = place.column,
        .span = marked,
        .source = arena_text(&report->arena, span_text(line), line.end - line.start),
        .message = arena_text(&report->arena, from->message, strlen(from->message))};
    if (from->help) {
        to->help_kind = (groat_help)from->help_kind;
        to->help = arena_text(&report->arena, from->help, strlen(from->help));
    }
    report->errors += to->severity == GROAT_ERROR;
    return to->file && to->source && to->message && (!from->help || to->help);
}

groat_report *report_new(const groat_allocator *allocator, struct diagnostics *diagnostics)
{
    groat_report *report = allocator->resize(allocator->context, NULL, 0, sizeof *report);
    if (!report)
        return NULL;
    *report = (groat_report){
        .memory = {.resize = allocator->resize, .context = allocator->context, .limit = SIZE_MAX}};
    arena_open(&report->arena, &report->memory);
    report->items = arena_take(&report->arena, (diagnostics->count + 1) * sizeof *report->items);
    bool copied = report->items != NULL;
    for (size_t i = 0; i < diagnostics->count && copied; i++) {
        copied = copy_diagnostic(report, &diagnostics->items[i], &report->items[i]);
        report->count++;
        assert(report->errors <= report->count);
    }
    if (copied)
        return report;
    groat_report_free(report);
    return NULL;
}

groat_report *report_alone(const struct core *core, const char *name, const char *message)
{
    struct source source = {.name = name, .text = ""};
    struct diagnostic item = {
        .severity = DIAGNOSTIC_ERROR, .span = {&source, 0, 0}, .message = message};
    struct diagnostics diagnostics = {.items = &item, .count = 1, .errors = 1};
    return report_new(&core->allocator, &diagnostics);
}

void groat_report_free(groat_report *report)
{
    if (!report)
        return;
    arena_close(&report->arena);
    struct memory memory = report->memory;
    memory.resize(memory.context, report, sizeof *report, 0);
}

void report_hand_out(groat_report *report, groat_report **wanted)
{
    if (wanted)
        *wanted = report;
    else
        groat_report_free(report);
}

size_t groat_report_count(const groat_report *report)
{
    return report ? report->count : 0;
}

size_t groat_report_errors(const groat_report *report)
{
    return report ? report->errors : 0;
}

const groat_diagnostic *groat_report_at(const groat_report *report, size_t index)
{
    return index < groat_report_count(report) ? &report->items[index] : NULL;
}

/* ---- writing ---- */

/* A text being written as snprintf would. */
struct writer {
    char *buffer;
    size_t size, length;
};

static void put(struct writer *writer, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static void put(struct writer *writer, const char *format, ...)
{
    va_list given;
    va_start(given, format);
    size_t at = writer->length < writer->size ? writer->length : writer->size;
    int added =
        vsnprintf(writer->size ? writer->buffer + at : NULL, writer->size - at, format, given);
    va_end(given);
    writer->length += added > 0 ? (size_t)added : 0;
}

static const char *text_or_none(const char *text)
{
    return text ? text : "";
}

/* Under the line: its tabs as they are, so that the mark stands where the eye looks for it. */
static void put_marks(struct writer *writer, const groat_diagnostic *diagnostic)
{
    unsigned column = 1;
    for (const char *at = text_or_none(diagnostic->source); *at && column < diagnostic->column;
         at++) {
        if (text_continues(*at))
            continue;
        put(writer, "%c", *at == '\t' ? '\t' : ' ');
        column++;
    }
    for (unsigned i = 0; i < diagnostic->span; i++)
        put(writer, "^");
}

size_t groat_diagnostic_write(const groat_diagnostic *diagnostic, char *buffer, size_t size)
{
    struct writer writer = {buffer, call_room(buffer, size), 0};
    put(&writer, "%s", "");
    if (!diagnostic)
        return 0;
    put(&writer, "%s:%u:%u: %s: %s\n", text_or_none(diagnostic->file), diagnostic->line,
        diagnostic->column, diagnostic->severity == GROAT_ERROR ? "error" : "warning",
        text_or_none(diagnostic->message));
    put(&writer, "    %s\n    ", text_or_none(diagnostic->source));
    put_marks(&writer, diagnostic);
    put(&writer, "\n");
    if (diagnostic->help)
        put(&writer, "Try: %s\n", diagnostic->help);
    return writer.length;
}
