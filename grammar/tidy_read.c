/* Reads a text as lines of tokens, and decides whether there is a space between two of them. */
#include <string.h>

#include "lexer.h"
#include "text/money.h"
#include "text/utf8.h"
#include "tidy_lines.h"
#include "token.h"

enum { BLOCKS_MOST = 4, BLANKS_MOST = 2 };

/* The state of the reading. */
struct reading {
    struct tidy *tidy;
    struct token_list laid; /* the tokens, with only those line ends that end a statement */
    size_t laid_at;
    struct tidy_line line;
    uint32_t line_start;
    uint8_t blanks;
    int head;                /* the first word of the statement */
    int blocks[BLOCKS_MOST]; /* the keywords of the open blocks */
    size_t depth;
    bool negates; /* the previous token is a `-` without a left operand */
};

/* ---- between two tokens ---- */

static int block_of(const struct reading *reading)
{
    return reading->depth > 0 ? reading->blocks[reading->depth - 1] : 0;
}

/* Whether the token is an operand: neither an operator nor a keyword of a statement. */
static bool is_operand(const struct reading *reading, const struct tidy_token *token)
{
    int block = block_of(reading);
    bool heads_row = block == TOKEN_TABLE || block == TOKEN_ROUNDING;
    return !token_is(token->kind, BEFORE_VALUE) && (!token->begins || heads_row);
}

/* `$5`, but `zł 5`. */
static bool is_word_of_money(const struct reading *reading, const struct tidy_token *token)
{
    const char *text = reading->tidy->source->text;
    return text_sign_is_word(text + token->start, token->end - token->start);
}

static bool can_be_called(const struct reading *reading, const struct tidy_token *token)
{
    return (token->kind == TOKEN_NAME || !token_is(token->kind, ENDS_VALUE)) &&
           is_operand(reading, token);
}

static bool joined(const struct reading *reading, const struct tidy_token *before, int kind)
{
    if (reading->negates || before->kind == TOKEN_LP || before->kind == TOKEN_CARET)
        return true;
    switch (kind) {
    case TOKEN_COMMA:
    case TOKEN_SEMICOLON:
    case TOKEN_RP:
    case TOKEN_CARET: return true;
    case TOKEN_LP: return can_be_called(reading, before);
    case TOKEN_NUMBER: return before->kind == TOKEN_SYMBOL && !is_word_of_money(reading, before);
    default: return false;
    }
}

/* ---- tokens ---- */

/* The width of a token, whose words are separated by one space in the result. */
static uint32_t width_of(const char *text, uint32_t start, uint32_t end, bool verbatim)
{
    uint32_t width = 0;
    for (uint32_t at = start; at < end; at++) {
        bool blank = text[at] == ' ' || text[at] == '\t';
        bool again = blank && !verbatim && (text[at - 1] == ' ' || text[at - 1] == '\t');
        width += !text_continues(text[at]) && !again;
    }
    return width;
}

/* Whether the token is the first of a statement, according to the layout. */
static bool begins_statement(struct reading *reading, int kind)
{
    if (kind == TOKEN_SEMICOLON)
        return false; /* the layout replaced it by a line end */
    const struct token *laid = reading->laid.items;
    bool begins = reading->laid_at == 0 || laid[reading->laid_at - 1].kind == TOKEN_LB;
    while (laid[reading->laid_at].kind == TOKEN_NL) {
        reading->laid_at++;
        begins = true;
    }
    reading->laid_at++;
    return begins && kind != TOKEN_RB;
}

static void enter_blocks(struct reading *reading, const struct tidy_token *token)
{
    if (token->begins)
        reading->head = token->kind;
    if (token->kind == TOKEN_LB && reading->depth < BLOCKS_MOST)
        reading->blocks[reading->depth++] = reading->head;
    if (token->kind == TOKEN_RB && reading->depth > 0)
        reading->depth--;
}

static void add_token(struct reading *reading, struct token from)
{
    struct tidy *tidy = reading->tidy;
    const char *text = tidy->source->text;
    struct tidy_token *token = &tidy->tokens[tidy->tokens_count];
    const struct tidy_token *before = reading->line.count > 0 ? token - 1 : NULL;
    *token = (struct tidy_token){.kind = from.kind, .start = from.start, .end = from.end};
    token->width = width_of(text, from.start, from.end, from.kind == TOKEN_TEXT);
    token->begins = begins_statement(reading, from.kind);
    if (!before) {
        reading->line.first = tidy->tokens_count;
        reading->line.block = (int16_t)block_of(reading);
    }
    token->gap = !before || joined(reading, before, from.kind) ? 0 : 1;
    const struct tidy_token *left = tidy->tokens_count > 0 ? token - 1 : NULL;
    reading->negates =
        from.kind == TOKEN_MINUS && (!left || token->begins || !is_operand(reading, left));
    enter_blocks(reading, token);
    tidy->tokens_count++;
    reading->line.count++;
}

/* ---- lines ---- */

/* Finds a comment between the last token and the end of the line. */
static void find_comment(struct reading *reading, uint32_t from, uint32_t end)
{
    const char *text = reading->tidy->source->text;
    struct tidy_line *line = &reading->line;
    const char *sign = memchr(text + from, '#', end - from);
    if (!sign)
        return;
    while (text[end - 1] == ' ' || text[end - 1] == '\t' || text[end - 1] == '\r')
        end--;
    line->comment = (uint32_t)(sign - text);
    line->comment_end = end;
    bool tabs = memchr(text + reading->line_start, '\t', line->comment - reading->line_start);
    line->comment_column =
        tabs ? TIDY_NO_COLUMN : width_of(text, reading->line_start, line->comment, true);
}

/* Ends a line; `end` is the token of its line end. */
static void end_line(struct reading *reading, struct token end)
{
    struct tidy *tidy = reading->tidy;
    struct tidy_line *line = &reading->line;
    uint32_t from =
        line->count > 0 ? tidy->tokens[tidy->tokens_count - 1].end : reading->line_start;
    find_comment(reading, from, end.start);
    if (line->count > 0 || line->comment_end > line->comment) {
        line->blanks = tidy->lines_count > 0 ? reading->blanks : 0;
        tidy->lines[tidy->lines_count++] = *line;
        reading->blanks = 0;
    } else if (reading->blanks < BLANKS_MOST) {
        reading->blanks++;
    }
    *line = (struct tidy_line){0};
    reading->line_start = end.end;
}

void tidy_read(struct tidy *tidy)
{
    struct diagnostics nothing = {.arena = tidy->arena};
    struct token_list tokens = lexer_read(tidy->arena, tidy->source, &nothing, false);
    struct reading reading = {.tidy = tidy};
    reading.laid = layout_read(tidy->arena, tidy->source, tokens, &nothing);
    size_t ends = 0;
    for (size_t i = 0; i < tokens.count; i++)
        ends += tokens.items[i].kind == TOKEN_NL || tokens.items[i].kind == TOKEN_END;
    tidy->lines = arena_take(tidy->arena, ends * sizeof *tidy->lines);
    tidy->tokens = arena_take(tidy->arena, tokens.count * sizeof *tidy->tokens);
    for (size_t i = 0; i < tokens.count; i++) {
        struct token token = tokens.items[i];
        if (token.kind == TOKEN_NL || token.kind == TOKEN_END)
            end_line(&reading, token);
        else
            add_token(&reading, token);
    }
}
