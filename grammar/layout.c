/* Decides which line ends end a statement, by the rules of LANGUAGE.md, "Layout". */
#include "lexer.h"

#include <string.h>

#include "grammar.h"

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

/* A statement cannot end after one of these. */
static bool wants_more(int kind)
{
    switch (kind) {
    case TOKEN_PLUS:
    case TOKEN_MINUS:
    case TOKEN_STAR:
    case TOKEN_SLASH:
    case TOKEN_ASSIGN:
    case TOKEN_NE:
    case TOKEN_LT:
    case TOKEN_LE:
    case TOKEN_GT:
    case TOKEN_GE:
    case TOKEN_COMMA:
    case TOKEN_COLON:
    case TOKEN_LB:
    case TOKEN_IF:
    case TOKEN_THEN:
    case TOKEN_ELSE:
    case TOKEN_AND:
    case TOKEN_OR:
    case TOKEN_NOT:
    case TOKEN_BETWEEN:
    case TOKEN_OF:
    case TOKEN_OTHERWISE:
    case TOKEN_PER:
    case TOKEN_AS:
    case TOKEN_ROUNDED:
    case TOKEN_ROUNDED_TO:
    case TOKEN_AT_LEAST:
    case TOKEN_AT_MOST:
    case TOKEN_AT_MARGIN:
    case TOKEN_MARKED_UP:
    case TOKEN_MARKED_DOWN:
    case TOKEN_ALLOWING:
    case TOKEN_WORTH_OF:
    case TOKEN_CARET:
    case TOKEN_UP_TO:
    case TOKEN_DOWN_TO:
    case TOKEN_NEAREST_TO:
    case TOKEN_EVEN_TO: return true;
    default: return false;
    }
}

/* A line that begins with one of these continues the statement before it. `-` and `not` are not
 * among them, because they may begin a value. */
static bool goes_on(const struct layout *layout, size_t at)
{
    switch (kind_at(layout, at)) {
    case TOKEN_ELSE:
    case TOKEN_PLUS:
    case TOKEN_STAR:
    case TOKEN_SLASH:
    case TOKEN_ASSIGN:
    case TOKEN_NE:
    case TOKEN_LT:
    case TOKEN_LE:
    case TOKEN_GT:
    case TOKEN_GE:
    case TOKEN_AND:
    case TOKEN_OR:
    case TOKEN_BETWEEN:
    case TOKEN_OF:
    case TOKEN_PER:
    case TOKEN_PER_ORDER:
    case TOKEN_EACH:
    case TOKEN_AS:
    case TOKEN_ROUNDED:
    case TOKEN_ROUNDED_TO:
    case TOKEN_AT_LEAST:
    case TOKEN_AT_MOST:
    case TOKEN_AT_MARGIN:
    case TOKEN_MARKED_UP:
    case TOKEN_MARKED_DOWN:
    case TOKEN_ALLOWING:
    case TOKEN_IS_MISSING:
    case TOKEN_OR_MORE:
    case TOKEN_LOST: return true;
    case TOKEN_OTHERWISE: return kind_at(layout, at + 1) != TOKEN_COLON; /* `:` makes it a row */
    case TOKEN_THEN: return layout->ifs > 0;
    default: return false;
    }
}

static bool is_statement_word(int kind)
{
    switch (kind) {
    case TOKEN_CURRENCY:
    case TOKEN_UNIT:
    case TOKEN_USE:
    case TOKEN_MATERIALS:
    case TOKEN_PRODUCT:
    case TOKEN_RATE:
    case TOKEN_LET:
    case TOKEN_COST:
    case TOKEN_PAY:
    case TOKEN_TABLE:
    case TOKEN_ROUNDING:
    case TOKEN_CHANNEL:
    case TOKEN_FEE:
    case TOKEN_BUYER_PAYS:
    case TOKEN_TAX:
    case TOKEN_PRICE:
    case TOKEN_SHOW:
    case TOKEN_WARN:
    case TOKEN_REFUSE:
    case TOKEN_GOAL:
    case TOKEN_EXPECT: return true;
    default: return false;
    }
}

/* Whether a statement begins here: with its keyword, followed by what can come only after a
 * keyword. */
static bool begins_statement(const struct layout *layout, size_t at)
{
    int after = kind_at(layout, at + 1);
    return is_statement_word(kind_at(layout, at)) &&
           (after == TOKEN_NAME || after == TOKEN_LB || after == TOKEN_TEXT ||
            is_statement_word(after));
}

/* Whether a statement of the shop begins here that could in a block be only a field. */
static bool begins_surely(const struct layout *layout, size_t at)
{
    int after = kind_at(layout, at + 1), second = kind_at(layout, at + 2);
    switch (kind_at(layout, at)) {
    case TOKEN_PRODUCT:
    case TOKEN_MATERIALS:
    case TOKEN_PRICE: return after == TOKEN_LB;
    case TOKEN_CHANNEL:
    case TOKEN_ROUNDING:
    case TOKEN_GOAL:
    case TOKEN_EXPECT: return second == TOKEN_LB;
    case TOKEN_TABLE: return second == TOKEN_BY;
    case TOKEN_LET: return second == TOKEN_ASSIGN || second == TOKEN_LP;
    case TOKEN_RATE:
    case TOKEN_COST:
    case TOKEN_PAY:
    case TOKEN_FEE: return second == TOKEN_ASSIGN;
    case TOKEN_SHOW: return second == TOKEN_ASSIGN || second == TOKEN_AS || second == TOKEN_NL;
    case TOKEN_UNIT: return second == TOKEN_ASSIGN || second == TOKEN_NL;
    case TOKEN_WARN:
    case TOKEN_REFUSE:
    case TOKEN_USE: return after == TOKEN_TEXT;
    case TOKEN_TAX: return after == TOKEN_ADDED || after == TOKEN_INCLUDED;
    case TOKEN_BUYER_PAYS:
    case TOKEN_SAME_PRICE_ON: return after == TOKEN_NAME;
    default: return false;
    }
}

/* Whether a line that begins with this word may be one of the block's own. */
static bool may_be_within(int block, int word)
{
    switch (word) {
    case TOKEN_LET:
    case TOKEN_COST:
    case TOKEN_PAY:
    case TOKEN_FEE:
    case TOKEN_SHOW: return block == TOKEN_CHANNEL || block == TOKEN_PRODUCT;
    case TOKEN_RATE: /* a field may have this name */
    case TOKEN_UNIT: return block == TOKEN_PRODUCT;
    case TOKEN_WARN:
    case TOKEN_REFUSE:
    case TOKEN_TAX:
    case TOKEN_BUYER_PAYS:
    case TOKEN_PRICE: return block == TOKEN_CHANNEL;
    default: return false;
    }
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
        if (is_statement_word(kind))
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
    switch (head->kind) {
    case TOKEN_MATERIALS:
    case TOKEN_PRODUCT:
    case TOKEN_PRICE: whole = length == 1; break;
    case TOKEN_CHANNEL:
    case TOKEN_ROUNDING: whole = length == 2 && head[1].kind == TOKEN_NAME; break;
    case TOKEN_GOAL:
    case TOKEN_EXPECT: whole = length == 2 && head[1].kind == TOKEN_TEXT; break;
    case TOKEN_TABLE:
        whole = length > 3 && head[2].kind == TOKEN_BY && !wants_more(last_kind(layout));
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
    const char *help = length > SHOWN_MOST || memchr(text, '\n', (size_t)length)
                           ? "begin the block with {"
                           : arena_print(layout->arena, "%.*s {", length, text);
    diagnostics_error(layout->diagnostics, span, help,
                      "this line ends too early; `{` was expected");
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
    } else if (layout->parens == 0 && !wants_more(last_kind(layout)) && !goes_on(layout, next)) {
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
