#include "tidy.h"

#include <string.h>

#include "tidy_lines.h"
#include "token.h"

struct page_text {
    struct arena *arena;
    struct tidy_text text;
    size_t room;
};

static char *extend(struct page_text *page, size_t length)
{
    struct tidy_text *text = &page->text;
    text->text = arena_grow(page->arena, text->text, 1, &page->room, text->length + length);
    text->length += length;
    return text->text + text->length - length;
}

static void put(struct page_text *page, const char *text, size_t length)
{
    memcpy(extend(page, length), text, length);
}

static void put_spaces(struct page_text *page, size_t count)
{
    memset(extend(page, count), ' ', count);
}

/* Writes one space between the words of a token. */
static void put_token(struct page_text *page, const char *text, const struct tidy_token *token)
{
    if (token->kind == TOKEN_TEXT) {
        put(page, text + token->start, token->end - token->start);
        return;
    }
    bool blank = false;
    for (uint32_t at = token->start; at < token->end; at++) {
        bool before = blank;
        blank = text[at] == ' ' || text[at] == '\t';
        if (!blank)
            put(page, text + at, 1);
        else if (!before)
            put_spaces(page, 1);
    }
}

static void put_line(struct page_text *page, const struct tidy *tidy, const struct tidy_line *line)
{
    const char *text = tidy->source->text;
    for (unsigned i = 0; i < line->blanks; i++)
        put(page, "\n", 1);
    put_spaces(page, line->indent);
    for (size_t i = 0; i < line->count; i++) {
        const struct tidy_token *token = &tidy->tokens[line->first + i];
        put_spaces(page, i > 0 ? token->gap : 0);
        put_token(page, text, token);
    }
    if (line->comment_end > line->comment) {
        put_spaces(page, line->count > 0 ? line->comment_at - line->width : 0);
        put(page, text + line->comment, line->comment_end - line->comment);
    }
    put(page, "\n", 1);
}

struct tidy_text tidy_write(const struct tidy *tidy)
{
    struct page_text page = {.arena = tidy->arena, .room = tidy->source->length + 1};
    page.text.text = arena_take(tidy->arena, page.room);
    for (size_t i = 0; i < tidy->lines_count; i++)
        put_line(&page, tidy, &tidy->lines[i]);
    *extend(&page, 1) = '\0';
    page.text.length--;
    return page.text;
}

struct tidy_text tidy_source(struct arena *arena, const struct source *source)
{
    struct tidy tidy = {.arena = arena, .source = source};
    tidy_read(&tidy);
    tidy_columns(&tidy);
    tidy_indent(&tidy);
    tidy_comments(&tidy);
    return tidy_write(&tidy);
}
