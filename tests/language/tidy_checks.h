/* Whether a tidied text still is what it was, in two ways.
 *
 * To the language: the same tokens with the same words, and line ends that end a statement at the
 * same places. This looks with the lexer and the layout alone, and not with what sets lines out.
 * To the eye: the same characters on the same lines, comments among them, when spaces are left out
 * and of a run of blank lines two are kept. */
#ifndef GROAT_TIDY_CHECKS_H
#define GROAT_TIDY_CHECKS_H

#include <stdbool.h>
#include <string.h>

#include "lexer.h"
#include "token.h"

static inline struct token_list tidy_tokens(struct arena *arena, const struct source *source)
{
    struct diagnostics said = {.arena = arena};
    struct token_list tokens = lexer_read(arena, source, &said, false);
    return layout_read(arena, source, tokens, &said);
}

static inline bool tidy_is_blank(char letter)
{
    return letter == ' ' || letter == '\t';
}

/* The same bytes; `at least` may have more blanks between its words. */
static inline bool tidy_same_words(const char *a, const char *a_end, const char *b,
                                   const char *b_end)
{
    if (a < a_end && *a == '"')
        return a_end - a == b_end - b && memcmp(a, b, (size_t)(a_end - a)) == 0;
    while (a < a_end && b < b_end) {
        bool blank = tidy_is_blank(*a);
        if (blank != tidy_is_blank(*b) || (!blank && *a != *b))
            return false;
        for (a++; blank && a < a_end && tidy_is_blank(*a);)
            a++;
        for (b++; blank && b < b_end && tidy_is_blank(*b);)
            b++;
    }
    return a == a_end && b == b_end;
}

static inline bool tidy_same_tokens(const char *a, size_t a_length, const char *b, size_t b_length)
{
    struct memory memory = memory_standard();
    struct arena arena;
    arena_open(&arena, &memory);
    const struct source *one = source_new(&arena, "a", a, a_length);
    const struct source *two = source_new(&arena, "b", b, b_length);
    struct token_list left = tidy_tokens(&arena, one), right = tidy_tokens(&arena, two);
    bool same = left.count == right.count;
    for (size_t i = 0; i < left.count && same; i++) {
        struct token l = left.items[i], r = right.items[i];
        same = l.kind == r.kind;
        if (same && l.kind != TOKEN_NL && l.kind != TOKEN_END)
            same = tidy_same_words(one->text + l.start, one->text + l.end, two->text + r.start,
                                   two->text + r.end);
    }
    arena_close(&arena);
    return same;
}

/* ---- to the eye ---- */

/* Reads on to the next character that counts; '\0' at the end. */
struct tidy_eye {
    const char *at, *end;
    size_t breaks; /* line ends since the last character, at most as many as are kept */
    bool begun;
};

static inline char tidy_next(struct tidy_eye *eye)
{
    size_t breaks = 0;
    while (eye->at < eye->end && (tidy_is_blank(*eye->at) || *eye->at == '\r' || *eye->at == '\n'))
        breaks += *eye->at++ == '\n';
    eye->breaks = !eye->begun || eye->at == eye->end ? 0 : breaks < 3 ? breaks : 3;
    eye->begun = true;
    return eye->at < eye->end ? *eye->at++ : '\0';
}

static inline bool tidy_same_letters(const char *a, size_t a_length, const char *b, size_t b_length)
{
    bool mark = a_length >= 3 && memcmp(a, "\xEF\xBB\xBF", 3) == 0;
    struct tidy_eye one = {.at = a + (mark ? 3 : 0), .end = a + a_length};
    struct tidy_eye two = {.at = b, .end = b + b_length};
    for (;;) {
        char left = tidy_next(&one), right = tidy_next(&two);
        if (left != right || one.breaks != two.breaks)
            return false;
        if (left == '\0' && one.at == one.end)
            return two.at == two.end;
    }
}

/* ---- what every tidy text must be ---- */

/* Line feeds alone, a last one, nothing before a line end, at most two blank lines and none at the
 * ends. */
static inline bool tidy_is_clean(const char *text, size_t length)
{
    size_t breaks = 3;
    for (size_t i = 0; i < length; i++) {
        bool ends = text[i] == '\n';
        if (ends &&
            (++breaks > 3 || (i > 0 && (tidy_is_blank(text[i - 1]) || text[i - 1] == '\r'))))
            return false;
        breaks = ends ? breaks : 0;
    }
    return length == 0 || (length > 1 && breaks == 1);
}

#endif
