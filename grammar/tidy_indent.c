/* Finds the indents of lines: from the blocks, and within a statement from its parentheses and
 * `if`s. */
#include "tidy_lines.h"
#include "token.h"

enum { LEVEL = 4, BRACES_MOST = 8 };

/* A parenthesis or an `if` that is open in the statement. */
struct opening {
    int kind;
    uint32_t outer; /* indent of a line that begins with its `)`; for an `if`, of its own line */
    uint32_t inner; /* indent of other lines within it */
    bool parts;     /* for an `if`: its `then` or `else` begins a line */
    bool ended;     /* for an `if`: its `else` was read */
};

struct page {
    struct tidy *tidy;
    uint32_t braces[BRACES_MOST]; /* indents of the lines of the open blocks */
    size_t braces_count;
    struct opening *openings;
    size_t openings_count, openings_room;
    const struct tidy_line *line;
    uint32_t statement; /* indent of the line on which the statement begins */
};

static uint32_t at_most(uint32_t indent)
{
    return indent < TIDY_INDENT_MOST ? indent : TIDY_INDENT_MOST;
}

/* The indent of a statement in the innermost block. */
static uint32_t statement_indent(const struct page *page)
{
    return page->braces_count > 0 ? page->braces[page->braces_count - 1] + LEVEL : 0;
}

static struct opening *innermost(struct page *page)
{
    return page->openings_count > 0 ? &page->openings[page->openings_count - 1] : NULL;
}

static struct opening *open(struct page *page, struct opening opening)
{
    ARENA_ADD(page->tidy->arena, page->openings, opening);
    return innermost(page);
}

/* ---- where a line begins ---- */

/* The `if` that a `then` or an `else` belongs to. Closes inner ones that have both already. */
static struct opening *open_if(struct page *page)
{
    struct opening *inner = innermost(page);
    while (inner && inner->kind == TOKEN_IF && inner->ended) {
        page->openings_count--;
        inner = innermost(page);
    }
    return inner && inner->kind == TOKEN_IF ? inner : NULL;
}

/* Closes the `if`s within the innermost parenthesis. */
static struct opening *leave_ifs(struct page *page)
{
    struct opening *inner = innermost(page);
    while (inner && inner->kind == TOKEN_IF) {
        page->openings_count--;
        inner = innermost(page);
    }
    return inner;
}

/* The indent of a line that continues a statement. */
static uint32_t further_indent(const struct page *page)
{
    for (size_t i = page->openings_count; i > 0; i--) {
        const struct opening *opening = &page->openings[i - 1];
        if (opening->kind != TOKEN_IF)
            return opening->inner;
        if (opening->parts)
            return at_most(opening->outer + 2 * LEVEL);
    }
    return statement_indent(page) + LEVEL;
}

static uint32_t indent_of(struct page *page, const struct tidy_token *token)
{
    if (token->begins || token->kind == TOKEN_SEMICOLON)
        return statement_indent(page);
    struct opening *opening = NULL;
    if (token->kind == TOKEN_THEN || token->kind == TOKEN_ELSE)
        opening = open_if(page);
    if (opening)
        return at_most(opening->outer + LEVEL);
    if (token->kind == TOKEN_RP)
        opening = leave_ifs(page);
    return opening ? opening->outer : further_indent(page);
}

/* A line that begins with `}` is indented like the line that opens the block; if it begins with
 * several, the last one counts. */
static uint32_t closing_indent(const struct page *page)
{
    const struct tidy_token *tokens = &page->tidy->tokens[page->line->first];
    size_t left = page->braces_count;
    for (size_t i = 0; i < page->line->count && tokens[i].kind == TOKEN_RB && left > 0; i++)
        left--;
    return page->braces[left];
}

/* ---- what a token opens and closes ---- */

static void open_parenthesis(struct page *page, uint32_t column, bool last)
{
    uint32_t indent = page->line->indent;
    bool hangs = last || column + 1 > TIDY_INDENT_MOST;
    open(page, (struct opening){.kind = TOKEN_LP,
                                .outer = hangs ? indent : column,
                                .inner = hangs ? at_most(indent + LEVEL) : column + 1});
}

/* `else if` continues the `if` it belongs to, so that a long chain of them is not indented further
 * and further. */
static void open_another_if(struct page *page, bool after_else)
{
    struct opening *inner = innermost(page);
    if (after_else && inner && inner->kind == TOKEN_IF) {
        inner->ended = false;
        return;
    }
    uint32_t outer = page->line->indent;
    if (inner && inner->kind == TOKEN_LP && inner->inner > outer)
        outer = inner->inner;
    open(page, (struct opening){.kind = TOKEN_IF, .outer = at_most(outer)});
}

static void take_branch(struct page *page, int kind, bool first)
{
    struct opening *branch = open_if(page);
    if (!branch)
        return;
    branch->parts = branch->parts || first;
    branch->ended = kind == TOKEN_ELSE;
}

static void pass(struct page *page, uint32_t at, uint32_t column)
{
    const struct tidy_line *line = page->line;
    const struct tidy_token *token = &page->tidy->tokens[at];
    if (token->begins) {
        page->openings_count = 0;
        page->statement = line->indent;
    }
    switch (token->kind) {
    case TOKEN_LB:
        if (page->braces_count < BRACES_MOST)
            page->braces[page->braces_count++] = page->statement;
        break;
    case TOKEN_RB: page->braces_count -= page->braces_count > 0; break;
    case TOKEN_LP: open_parenthesis(page, column, at + 1 == line->first + line->count); break;
    case TOKEN_RP:
        if (leave_ifs(page))
            page->openings_count--;
        break;
    case TOKEN_COMMA: leave_ifs(page); break;
    case TOKEN_IF: open_another_if(page, at > 0 && token[-1].kind == TOKEN_ELSE); break;
    case TOKEN_THEN:
    case TOKEN_ELSE: take_branch(page, token->kind, at == line->first); break;
    default: break;
    }
}

static void set_line(struct page *page, struct tidy_line *line)
{
    const struct tidy_token *tokens = page->tidy->tokens;
    page->line = line;
    bool closes = tokens[line->first].kind == TOKEN_RB;
    line->indent = closes ? closing_indent(page) : indent_of(page, &tokens[line->first]);
    line->above = closes ? statement_indent(page) : line->indent;
    line->width = line->indent;
    for (uint32_t i = 0; i < line->count; i++) {
        const struct tidy_token *token = &tokens[line->first + i];
        line->width += i > 0 ? token->gap : 0;
        pass(page, line->first + i, line->width);
        line->width += token->width;
    }
}

void tidy_indent(struct tidy *tidy)
{
    struct page page = {.tidy = tidy};
    for (size_t i = 0; i < tidy->lines_count; i++)
        if (tidy->lines[i].count > 0)
            set_line(&page, &tidy->lines[i]);
    uint32_t above = 0;
    for (size_t i = tidy->lines_count; i > 0; i--) {
        struct tidy_line *line = &tidy->lines[i - 1];
        if (line->count == 0)
            line->indent = above;
        else
            above = line->above;
    }
}
