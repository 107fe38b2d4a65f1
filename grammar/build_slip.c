/* Usual mistakes of people who know another way to write a rule: `aim margin 25%`, `tax 25%
 * included`, `9% of price, min 15 kr`. */
#include "build_slip.h"

#include <string.h>

#include "token.h"

/* ---- pieces of the line ---- */

static struct span trimmed(struct span span)
{
    const char *text = span.source->text;
    while (span.start < span.end && strchr(" \t", text[span.start]))
        span.start++;
    while (span.end > span.start && strchr(" \t", text[span.end - 1]))
        span.end--;
    return span;
}

/* The line up to the wrong token. */
static struct span line_before(const struct build *build)
{
    struct span line = {build->source, build->wrong.start, build->wrong.start};
    while (line.start > 0 && !strchr("\r\n;{", build->source->text[line.start - 1]))
        line.start--;
    return trimmed(line);
}

/* The line from a place on. */
static struct span line_from(const struct build *build, uint32_t start)
{
    struct span behind = build_behind(build);
    uint32_t end = behind.end > build->wrong.end ? behind.end : build->wrong.end;
    return trimmed((struct span){build->source, start, end});
}

static bool begins_with(struct span span, const char *word)
{
    size_t length = strlen(word);
    return (size_t)span_length(span) > length && memcmp(span_text(span), word, length) == 0 &&
           strchr(" \t.:", span_text(span)[length]);
}

/* The span up to the word, if the span contains it. */
static struct span cut_before(struct span span, const char *word)
{
    uint32_t length = (uint32_t)strlen(word);
    for (uint32_t at = span.start; at + length <= span.end; at++)
        if (memcmp(span.source->text + at, word, length) == 0)
            return (struct span){span.source, span.start, at};
    return span;
}

static bool has_letter(struct span span, char letter)
{
    return memchr(span_text(span), letter, (size_t)span_length(span)) != NULL;
}

/* ---- `aim margin 25%` and `aim 25% margin` ---- */

static struct span word_before(const struct build *build, uint32_t end)
{
    const char *text = build->source->text;
    while (end > 0 && strchr(" \t", text[end - 1]))
        end--;
    struct span word = {build->source, end, end};
    while (word.start > 0 && !strchr(" \t\r\n;{()=", text[word.start - 1]))
        word.start--;
    return word;
}

static bool report_aim(struct build *build)
{
    int kind = build->wrong_kind;
    struct span line = line_before(build), name = build->last, value = build->wrong;
    bool number = kind == TOKEN_NUMBER || kind == TOKEN_PERCENT || kind == TOKEN_SYMBOL;
    bool share = span_text(build->last)[span_length(build->last) - 1] == '%';
    if (!begins_with(line, "aim"))
        return false;
    if (kind == TOKEN_NAME && share &&
        build_is_text(word_before(build, build->last.start), "aim")) {
        name = build->wrong;
        value = build->last;
    } else if (kind == TOKEN_NAME && strchr("0123456789", *span_text(build->last))) {
        name = word_before(build, build->last.start); /* `aim profit 4 kr` */
        value = line_from(build, build->last.start);
    } else if (number) {
        value = line_from(build, build->wrong.start);
    } else {
        return false;
    }
    value = cut_before(cut_before(value, " and "), " or ");
    if (name.start == name.end || !build_is_word(name) || build_is_text(name, "aim"))
        return false;
    build_report(build,
                 arena_print(build->arena, "%.*s >= %.*s", span_length(name), span_text(name),
                             span_length(value), span_text(value)),
                 "an aim is a comparison of two values");
    return true;
}

/* ---- `tax 25% included` ---- */

static bool report_tax(struct build *build)
{
    static const char *const ways[] = {"included", "added"};
    if (!build->last.source || !build_is_text(build->last, "tax") ||
        !build_expects(build, TOKEN_ADDED) || build->wrong_kind == TOKEN_NL)
        return false;
    bool equals = build->wrong_kind == TOKEN_ASSIGN;
    struct span value = line_from(build, equals ? build->wrong.end : build->wrong.start);
    const char *way = NULL;
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
        uint32_t length = (uint32_t)strlen(ways[i]);
        if (!way && value.end - value.start > length &&
            memcmp(value.source->text + value.end - length, ways[i], length) == 0) {
            way = ways[i];
            value.end -= length;
        }
    }
    value = trimmed(value);
    int size = span_length(value);
    if (size == 0 || has_letter(value, '='))
        return false;
    const char *text = span_text(value);
    const char *help = way ? arena_print(build->arena, "tax %s %.*s", way, size, text)
                           : arena_print(build->arena, "tax included %.*s, or tax added %.*s", size,
                                         text, size, text);
    build_report(build, help, "the word `added` or `included` comes before the tax rate");
    diagnostics_help_is(build->diagnostics, way ? HELP_VALUE : HELP_CHOICE);
    return true;
}

/* ---- `9% of price, min 15 kr` ---- */

static const struct limit {
    const char *word, *operator;
} limits[] = {{"minimum", "at least"}, {"maximum", "at most"},   {"min", "at least"},
              {"max", "at most"},      {"at least", "at least"}, {"at most", "at most"}};

static const struct limit *limit_of(struct span words)
{
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++)
        if (begins_with(words, limits[i].word))
            return &limits[i];
    return NULL;
}

static bool report_limit(struct build *build)
{
    bool comma = build->wrong_kind == TOKEN_COMMA;
    if (!comma && build->wrong_kind != TOKEN_NAME)
        return false;
    struct span words = line_from(build, comma ? build->wrong.end : build->wrong.start);
    const struct limit *limit = limit_of(words);
    if (!limit)
        return false;
    struct span value = words, line = line_before(build);
    value.start += (uint32_t)strlen(limit->word);
    while (value.start < value.end && strchr(" \t.:", value.source->text[value.start]))
        value.start++;
    if (begins_with(value, "of"))
        value.start += 2;
    value = trimmed(value);
    if (value.start == value.end)
        return false;
    struct span head = cut_before(cut_before(line, ":"), "=");
    struct span left = {line.source, head.end + (head.end < line.end), line.end};
    left = trimmed(head.end < line.end ? left : (struct span){line.source, line.end, line.end});
    const char *help = arena_print(build->arena, "%.*s%s%s %.*s", span_length(left),
                                   span_text(left), left.start < left.end ? " " : "",
                                   limit->operator, span_length(value), span_text(value));
    build_report(build, help,
                 strcmp(limit->operator, "at least") == 0 ? "write `at least` for a minimum"
                                                          : "write `at most` for a maximum");
    return true;
}

bool build_report_slip(struct build *build, bool ended)
{
    if (!build->last.source || build->wrong_kind == TOKEN_END)
        return false;
    /* The parser takes a value as ended before a comma. */
    bool limit = ended || build->wrong_kind == TOKEN_COMMA;
    return report_tax(build) || (ended && report_aim(build)) || (limit && report_limit(build));
}
