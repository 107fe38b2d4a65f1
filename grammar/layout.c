/* Decides which line ends end a statement, by the rules of LANGUAGE.md, "Layout". */
#include "lexer.h"

#include <string.h>

#include "token.h"

/* A `{` that is open. */
struct brace {
    struct token token;
    int block;       /* the keyword of its statement; TOKEN_END if it has none */
    uint32_t margin; /* the indent of its line, in spaces */
    bool flat;       /* one of the block's lines is not indented more than that */
};

struct layout {
    struct arena *arena;
    const struct source *source;
    struct diagnostics *diagnostics;
    struct token_list in, out;
    size_t at;          /* index of the current token */
    size_t parens;      /* number of open ones */
    struct token first; /* the first open one */
    size_t lacking;     /* how many more `{` than `}` the text has, less those closed here */
    size_t spare;       /* how many more `}` than `{`, less those opened here */
    struct brace *braces;
    size_t braces_open, braces_room;
    uint32_t margin; /* the indent of the current line, in spaces */
    unsigned ifs;    /* those whose `then` has not come yet */
};

static int kind_at(const struct layout *layout, size_t at)
{
    return at < layout->in.count ? layout->in.items[at].kind : TOKEN_END;
}

static void put(struct layout *layout, int kind, struct token at)
{
    struct token_list *out = &layout->out;
    out->items =
        arena_grow(layout->arena, out->items, sizeof *out->items, &out->room, out->count + 1);
    out->items[out->count++] = (struct token){kind, at.start, at.end};
}

static int last_kind(const struct layout *layout)
{
    return layout->out.count ? layout->out.items[layout->out.count - 1].kind : TOKEN_NL;
}

/* A line that begins with one of these continues the statement before it. `-` and `not` are not
 * among them, because they may begin a value. */
static bool goes_on(const struct layout *layout, size_t at)
{
    int kind = kind_at(layout, at);
    if (kind == TOKEN_OTHERWISE)
        return kind_at(layout, at + 1) != TOKEN_COLON; /* `:` makes it a row */
    return kind == TOKEN_THEN ? layout->ifs > 0 : token_is(kind, GOES_ON);
}

/* Whether a statement begins here: with its keyword, followed by what can come only after a
 * keyword. */
static bool begins_statement(const struct layout *layout, size_t at)
{
    int after = kind_at(layout, at + 1);
    return token_begins_statement(kind_at(layout, at)) &&
           (after == TOKEN_NAME || after == TOKEN_LB || after == TOKEN_TEXT ||
            token_begins_statement(after));
}

/* Whether a statement of the shop begins here that could in a block be only a field. */
static bool begins_surely(const struct layout *layout, size_t at)
{
    /* One of `signs` comes `ahead` tokens after the keyword. */
    enum { SIGNS_MOST = 3 };
    static const struct {
        size_t ahead;
        int signs[SIGNS_MOST];
    } forms[] = {
        [FORM_BLOCK] = {1, {TOKEN_LB}},
        [FORM_NAMED_BLOCK] = {2, {TOKEN_LB}},
        [FORM_TEXT_BLOCK] = {2, {TOKEN_LB}},
        [FORM_TABLE] = {2, {TOKEN_BY}},
        [FORM_DEFINITION] = {2, {TOKEN_ASSIGN}},
        [FORM_FUNCTION] = {2, {TOKEN_ASSIGN, TOKEN_LP}},
        [FORM_UNIT] = {2, {TOKEN_ASSIGN, TOKEN_NL}},
        [FORM_SHOW] = {2, {TOKEN_ASSIGN, TOKEN_AS, TOKEN_NL}},
        [FORM_TAX] = {1, {TOKEN_ADDED, TOKEN_INCLUDED}},
        [FORM_EXTRA] = {1, {TOKEN_NAME}},
        [FORM_NAMES] = {1, {TOKEN_NAME}},
        [FORM_TEXT] = {1, {TOKEN_TEXT}},
        [FORM_MESSAGE] = {1, {TOKEN_TEXT}},
    };
    uint8_t form = token_traits[kind_at(layout, at)].form;
    int sign = kind_at(layout, at + forms[form].ahead);
    for (size_t i = 0; i < SIGNS_MOST; i++)
        if (sign != TOKEN_END && sign == forms[form].signs[i])
            return true;
    return false;
}

/* Whether a line that begins with this word may be one of the block's own. */
static bool may_be_within(int block, int word)
{
    return (block == TOKEN_CHANNEL && token_is(word, IN_CHANNEL)) ||
           (block == TOKEN_PRODUCT && token_is(word, IN_PRODUCT));
}

/* The number of open blocks that end before this line, because a `}` is missing. A block that
 * cannot contain the line has ended. A block that could contain it has ended only if the line is
 * the block's first to be indented no more than the block's own statement. */
static size_t braces_ended(const struct layout *layout, size_t at, uint32_t margin)
{
    size_t ended = 0;
    if (layout->lacking == 0 || !begins_surely(layout, at))
        return 0;
    for (; ended < layout->braces_open && ended < layout->lacking; ended++) {
        const struct brace *brace = &layout->braces[layout->braces_open - 1 - ended];
        bool out = margin <= brace->margin && !brace->flat && last_kind(layout) != TOKEN_LB;
        if (may_be_within(brace->block, kind_at(layout, at)) && !out)
            break;
    }
    return ended;
}

static void close_parens(struct layout *layout, struct token at)
{
    struct span span = {layout->source, layout->first.start, layout->first.end};
    diagnostics_error(layout->diagnostics, span, "close it with )", "this ( is not closed");
    diagnostics_help_is(layout->diagnostics, HELP_ADVICE);
    for (; layout->parens > 0; layout->parens--)
        put(layout, TOKEN_RP, (struct token){0, at.start, at.start});
}

static void end_statement(struct layout *layout, struct token at)
{
    if (last_kind(layout) != TOKEN_NL)
        put(layout, TOKEN_NL, at);
    layout->ifs = 0;
}

/* Reports the missing braces once, and closes the innermost `count` blocks. */
static void close_braces(struct layout *layout, size_t count, struct token at)
{
    const struct brace *outermost = &layout->braces[layout->braces_open - count];
    struct span span = {layout->source, outermost->token.start, outermost->token.end};
    diagnostics_error(layout->diagnostics, span, "close it with }", "this { is not closed");
    diagnostics_help_is(layout->diagnostics, HELP_ADVICE);
    layout->braces_open -= count;
    layout->lacking -= count < layout->lacking ? count : layout->lacking;
    for (; count > 0; count--) {
        put(layout, TOKEN_RB, (struct token){0, at.start, at.start});
        put(layout, TOKEN_NL, (struct token){0, at.start, at.start});
    }
}

/* The number of spaces before the token, which is the first of its line. */
static uint32_t margin_of(const struct layout *layout, size_t at)
{
    uint32_t start = at < layout->in.count ? layout->in.items[at].start : 0, from = start;
    const char *text = layout->source->text;
    while (from > 0 && (text[from - 1] == ' ' || text[from - 1] == '\t'))
        from--;
    return start - from;
}

/* The keyword of the block that the current `{` opens: the first word of the statement. */
static int block_opened(const struct layout *layout)
{
    const struct token_list *out = &layout->out;
    for (size_t back = 2; back <= 3 && back <= out->count; back++) {
        int kind = out->items[out->count - back].kind;
        if (token_begins_statement(kind))
            return kind;
    }
    return TOKEN_END;
}

static void open_brace(struct layout *layout, struct token token)
{
    layout->braces = arena_grow(layout->arena, layout->braces, sizeof *layout->braces,
                                &layout->braces_room, layout->braces_open + 1);
    layout->braces[layout->braces_open++] =
        (struct brace){token, block_opened(layout), layout->margin, false};
}

/* The first token of the statement if what was read of it is the head of a block that lacks only
 * its `{`; otherwise NULL. */
static const struct token *head_of(const struct layout *layout)
{
    enum { HEAD_MOST = 32 };
    const struct token_list *out = &layout->out;
    size_t length = 0;
    while (length < HEAD_MOST && length < out->count) {
        int kind = out->items[out->count - 1 - length].kind;
        if (kind == TOKEN_NL || kind == TOKEN_LB)
            break;
        length++;
    }
    if (length == 0 || length == HEAD_MOST)
        return NULL;
    const struct token *head = out->items + out->count - length;
    bool whole = false;
    switch (token_traits[head->kind].form) {
    case FORM_BLOCK: whole = length == 1; break;
    case FORM_NAMED_BLOCK: whole = length == 2 && head[1].kind == TOKEN_NAME; break;
    case FORM_TEXT_BLOCK: whole = length == 2 && head[1].kind == TOKEN_TEXT; break;
    case FORM_TABLE:
        whole = length > 3 && head[2].kind == TOKEN_BY && !token_is(last_kind(layout), WANTS_MORE);
        break;
    default: break;
    }
    return whole ? head : NULL;
}

/* Adds a missing `{`: there is a `}` too many, and this line is a head without its `{`. */
static void open_head(struct layout *layout, const struct token *head)
{
    enum { SHOWN_MOST = 60 };
    uint32_t end = layout->out.items[layout->out.count - 1].end;
    struct span span = {layout->source, end, end + (end < layout->source->length)};
    struct token brace = {TOKEN_LB, end, end};
    int length = (int)(end - head->start);
    const char *text = layout->source->text + head->start;
    bool shown = length <= SHOWN_MOST && !memchr(text, '\n', (size_t)length);
    const char *help =
        !shown ? "begin the block with {" : arena_print(layout->arena, "%.*s {", length, text);
    diagnostics_error(layout->diagnostics, span, help,
                      "this line ends too early; `{` was expected");
    diagnostics_help_is(layout->diagnostics, shown ? HELP_VALUE : HELP_ADVICE);
    put(layout, TOKEN_LB, brace);
    open_brace(layout, brace);
    layout->spare--;
}

static void line_end(struct layout *layout, struct token at)
{
    size_t next = layout->at;
    while (kind_at(layout, next) == TOKEN_NL)
        next++;
    bool begins = begins_statement(layout, next);
    uint32_t margin = margin_of(layout, next);
    if (layout->parens > 0 && begins)
        close_parens(layout, at);
    const struct token *head = layout->spare > 0 && layout->parens == 0 ? head_of(layout) : NULL;
    if (head)
        open_head(layout, head);
    size_t ended = braces_ended(layout, next, margin);
    layout->margin = margin;
    if (ended > 0) {
        end_statement(layout, at);
        close_braces(layout, ended, at);
    } else if (begins && last_kind(layout) != TOKEN_LB) {
        end_statement(layout, at);
    } else if (layout->parens == 0 && !token_is(last_kind(layout), WANTS_MORE) &&
               !goes_on(layout, next)) {
        end_statement(layout, at);
    }
    if (layout->braces_open > 0 && kind_at(layout, next) != TOKEN_RB) {
        struct brace *brace = &layout->braces[layout->braces_open - 1];
        brace->flat = brace->flat || margin <= brace->margin;
    }
}

static void count(struct layout *layout, struct token token)
{
    if (token.kind == TOKEN_LP && layout->parens++ == 0)
        layout->first = token;
    if (token.kind == TOKEN_RP && layout->parens > 0)
        layout->parens--;
    if (token.kind == TOKEN_LB)
        open_brace(layout, token);
    if (token.kind == TOKEN_RB && layout->braces_open > 0)
        layout->braces_open--;
    if (token.kind == TOKEN_IF)
        layout->ifs++;
    if (token.kind == TOKEN_THEN && layout->ifs > 0)
        layout->ifs--;
}

static size_t count_of(struct token_list tokens, int kind)
{
    size_t count = 0;
    for (size_t i = 0; i < tokens.count; i++)
        count += tokens.items[i].kind == kind;
    return count;
}

struct token_list layout_read(struct arena *arena, const struct source *source,
                              struct token_list tokens, struct diagnostics *diagnostics)
{
    struct layout layout = {
        .arena = arena, .source = source, .diagnostics = diagnostics, .in = tokens};
    size_t opening = count_of(tokens, TOKEN_LB), closing = count_of(tokens, TOKEN_RB);
    layout.lacking = opening > closing ? opening - closing : 0;
    layout.spare = closing > opening ? closing - opening : 0;
    layout.margin = margin_of(&layout, 0);
    while (layout.at < tokens.count) {
        struct token token = tokens.items[layout.at++];
        bool closes =
            token.kind == TOKEN_RB || token.kind == TOKEN_END || token.kind == TOKEN_SEMICOLON;
        if (closes && layout.parens > 0)
            close_parens(&layout, token);
        if (token.kind == TOKEN_NL) {
            /* The first line end of a run decides for all of them; looking past each one would take
             * quadratic time. */
            if (layout.at < 2 || kind_at(&layout, layout.at - 2) != TOKEN_NL)
                line_end(&layout, token);
            continue;
        }
        if (closes && last_kind(&layout) != TOKEN_LB)
            end_statement(&layout, token);
        if (token.kind == TOKEN_END && layout.braces_open > 0)
            close_braces(&layout, layout.braces_open, token);
        if (token.kind != TOKEN_SEMICOLON)
            put(&layout, token.kind, token);
        count(&layout, token);
    }
    return layout.out;
}
