/* Which line ends end a statement. The rules are those of LANGUAGE.md, "Lines". */
#include "lexer.h"

#include "grammar.h"

struct layout {
    struct arena *arena;
    const struct source *source;
    struct diagnostics *diagnostics;
    struct token_list in, out;
    size_t at;          /* the token looked at */
    size_t parens;      /* how many are open */
    struct token first; /* of the open ones */
    bool lacks_brace;   /* more open in this text than close */
    size_t braces;
    struct token brace; /* the outermost of the open ones */
    unsigned ifs;       /* `if` whose `then` has not come */
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

/* A line that begins with one of these goes on with the statement before it. `-` and `not` may
 * begin a value, so they do not. */
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
    case TOKEN_OTHERWISE: return kind_at(layout, at + 1) != TOKEN_COLON; /* a row's, not ours */
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

/* Whether a statement begins here: its word, then what only a statement can have after it. */
static bool begins_statement(const struct layout *layout, size_t at)
{
    int after = kind_at(layout, at + 1);
    return is_statement_word(kind_at(layout, at)) &&
           (after == TOKEN_NAME || after == TOKEN_LB || after == TOKEN_TEXT ||
            is_statement_word(after));
}

/* Whether a line begins here that stands in no braces. A `price { … }` may. */
static bool begins_outside(const struct layout *layout, size_t at)
{
    switch (kind_at(layout, at)) {
    case TOKEN_PRODUCT:
    case TOKEN_MATERIALS: return kind_at(layout, at + 1) == TOKEN_LB;
    case TOKEN_CHANNEL:
    case TOKEN_ROUNDING:
    case TOKEN_GOAL:
    case TOKEN_EXPECT: return kind_at(layout, at + 2) == TOKEN_LB;
    case TOKEN_TABLE: return kind_at(layout, at + 2) == TOKEN_BY;
    default: return false;
    }
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

/* One slip, said once: the rest is read as if the braces were closed. */
static void close_braces(struct layout *layout, struct token at)
{
    struct span span = {layout->source, layout->brace.start, layout->brace.end};
    diagnostics_error(layout->diagnostics, span, "close it with }", "this { is not closed");
    for (; layout->braces > 0; layout->braces--) {
        put(layout, TOKEN_RB, (struct token){0, at.start, at.start});
        put(layout, TOKEN_NL, (struct token){0, at.start, at.start});
    }
}

static void line_end(struct layout *layout, struct token at)
{
    size_t next = layout->at;
    while (kind_at(layout, next) == TOKEN_NL)
        next++;
    bool begins = begins_statement(layout, next);
    if (layout->parens > 0 && begins)
        close_parens(layout, at);
    if (layout->lacks_brace && layout->braces > 0 && begins_outside(layout, next)) {
        end_statement(layout, at);
        close_braces(layout, at);
    } else if (begins && last_kind(layout) != TOKEN_LB) {
        end_statement(layout, at);
    } else if (layout->parens == 0 && !wants_more(last_kind(layout)) && !goes_on(layout, next)) {
        end_statement(layout, at);
    }
}

static void count(struct layout *layout, struct token token)
{
    if (token.kind == TOKEN_LP && layout->parens++ == 0)
        layout->first = token;
    if (token.kind == TOKEN_RP && layout->parens > 0)
        layout->parens--;
    if (token.kind == TOKEN_LB && layout->braces++ == 0)
        layout->brace = token;
    if (token.kind == TOKEN_RB && layout->braces > 0)
        layout->braces--;
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
    layout.lacks_brace = count_of(tokens, TOKEN_LB) > count_of(tokens, TOKEN_RB);
    while (layout.at < tokens.count) {
        struct token token = tokens.items[layout.at++];
        bool closes =
            token.kind == TOKEN_RB || token.kind == TOKEN_END || token.kind == TOKEN_SEMICOLON;
        if (closes && layout.parens > 0)
            close_parens(&layout, token);
        if (token.kind == TOKEN_NL) {
            /* Of a run of line ends the first decides; looking past each of them would take the
             * square of their number. */
            if (layout.at < 2 || kind_at(&layout, layout.at - 2) != TOKEN_NL)
                line_end(&layout, token);
            continue;
        }
        if (closes && last_kind(&layout) != TOKEN_LB)
            end_statement(&layout, token);
        if (token.kind == TOKEN_END && layout.braces > 0)
            close_braces(&layout, token);
        if (token.kind != TOKEN_SEMICOLON)
            put(&layout, token.kind, token);
        count(&layout, token);
    }
    return layout.out;
}
