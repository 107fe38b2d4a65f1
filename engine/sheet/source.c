#include "sheet/source.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "text/utf8.h"

static bool is_blank(char byte)
{
    return byte == ' ' || byte == '\t' || byte == '\r' || byte == '\n';
}

/* ---- reporting ---- */

bool sheet_ends_line(const struct sheet_source *source, size_t at)
{
    char byte = source->bytes[at];
    return byte == '\n' ||
           (byte == '\r' && (at + 1 == source->length || source->bytes[at + 1] != '\n'));
}

size_t sheet_line_end(const struct sheet_source *source, size_t at)
{
    while (at < source->length && !sheet_ends_line(source, at))
        at++;
    return at < source->length ? at + 1 : at;
}

static void find_place(const struct sheet_source *source, size_t at, size_t *line_found,
                       size_t *column_found)
{
    size_t line = source->mark_line, column = 1;
    for (size_t i = source->mark; i < at && i < source->length; i++) {
        if (sheet_ends_line(source, i)) {
            line++;
            column = 1;
        } else if (!text_continues(source->bytes[i])) {
            column++;
        }
    }
    *line_found = line;
    *column_found = column;
}

size_t sheet_line_of(const struct sheet_source *source, size_t at)
{
    size_t line, column;
    find_place(source, at, &line, &column);
    return line;
}

bool sheet_fail(const struct sheet_source *source, size_t at, const char *help, const char *format,
                ...)
{
    struct sheet_error *error = source->error;
    *error = (struct sheet_error){0};
    if (at != SHEET_NO_PLACE)
        find_place(source, at, &error->line, &error->column);
    va_list values;
    va_start(values, format);
    vsnprintf(error->message, sizeof error->message, format, values);
    va_end(values);
    snprintf(error->help, sizeof error->help, "%s", help);
    return false;
}

bool sheet_fail_empty(const struct sheet_source *source)
{
    return sheet_fail(source, SHEET_NO_PLACE, "export the sheet again, with its headings",
                      "the sheet is empty");
}

bool sheet_fail_memory(const struct sheet_source *source)
{
    return sheet_fail(source, SHEET_NO_PLACE, "split the sheet in two",
                      "there is not enough memory to read the sheet");
}

struct sheet_shown sheet_shown(const char *text, size_t length)
{
    struct sheet_shown shown;
    const char *rest = "\xE2\x80\xA6"; /* an ellipsis */
    size_t room = sizeof shown.text - sizeof "\xE2\x80\xA6";
    size_t used = 0, at = 0;
    while (at < length) {
        size_t next = text_character(text + at, length - at);
        if (used + (next ? next : 1) > room)
            break;
        if (next == 0 || text_control(text + at, length - at) > 0)
            shown.text[used++] = ' ';
        else
            memcpy(shown.text + used, text + at, next), used += next;
        at += next ? next : 1;
    }
    strcpy(shown.text + used, at < length ? rest : "");
    return shown;
}

struct sheet_text sheet_trimmed(const char *text, size_t length)
{
    while (length > 0 && is_blank(text[0]))
        text++, length--;
    while (length > 0 && is_blank(text[length - 1]))
        length--;
    return (struct sheet_text){text, length};
}

/* ---- what is not text ---- */

/* Files that are not text but may be given as sheets, recognised by their first bytes. */
static const struct signature {
    const char *bytes;
    size_t length;
    const char *message, *help;
} signatures[] = {
    {"\xFF\xFE", 2, "the sheet is in UTF-16, not in UTF-8", "save it as UTF-8"},
    {"\xFE\xFF", 2, "the sheet is in UTF-16, not in UTF-8", "save it as UTF-8"},
    {"PK\x03\x04", 4, "this is a spreadsheet's own file (or another packed file), not text",
     "save the sheet as CSV in UTF-8"},
    {"\xD0\xCF\x11\xE0", 4, "this is a spreadsheet's own file, not text",
     "save the sheet as CSV in UTF-8"},
    {"{\\rtf", 5, "this is a word processor's file, not a sheet", "save the sheet as CSV in UTF-8"},
    {"<html", 5, "this is a web page, not a sheet", "save the sheet as CSV in UTF-8"},
    {"<!DOCTYPE", 9, "this is a web page, not a sheet", "save the sheet as CSV in UTF-8"},
};

bool sheet_check_signature(const struct sheet_source *source)
{
    for (size_t i = 0; i < sizeof signatures / sizeof *signatures; i++) {
        const struct signature *known = &signatures[i];
        if (source->length >= known->length &&
            memcmp(source->bytes, known->bytes, known->length) == 0)
            return sheet_fail(source, SHEET_NO_PLACE, known->help, "%s", known->message);
    }
    return true;
}

bool sheet_check_characters(const struct sheet_source *source, size_t at, size_t end)
{
    const char *start = source->bytes + at;
    const char *zero = memchr(start, 0, end - at);
    size_t bad = at + text_bad_byte(start, end - at);
    if (zero && (size_t)(zero - source->bytes) < bad)
        return sheet_fail(source, (size_t)(zero - source->bytes),
                          "save the sheet as plain text in UTF-8",
                          "there is a zero byte here, so this is not a text file");
    return bad == end || sheet_fail(source, bad, "save the sheet as UTF-8",
                                    "the byte %02X here is not valid UTF-8",
                                    (unsigned)(unsigned char)source->bytes[bad]);
}
