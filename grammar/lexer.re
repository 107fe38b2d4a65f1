/* The lexer of the rules language, for re2c. */
#include "lexer.h"

#include <stdio.h>
#include <string.h>

#include "token.h"

struct lexer {
    const struct source *source;
    struct diagnostics *diagnostics;
    const char *cursor; /* the next byte to read */
    const char *token;  /* where the current token begins */
    bool operand_ended; /* the token before this one completes a value */
    bool parts;         /* reading a list of parts, in which an amount follows a name */
};

static struct span token_span(const struct lexer *lexer)
{
    const char *text = lexer->source->text;
    return (struct span){lexer->source, (uint32_t)(lexer->token - text),
                         (uint32_t)(lexer->cursor - text)};
}

static void complain(struct lexer *lexer, const char *help, const char *message)
{
    diagnostics_error(lexer->diagnostics, token_span(lexer), help, "%s", message);
}

/* The same, where what helps is said in words. */
static void advise(struct lexer *lexer, const char *help, const char *message)
{
    complain(lexer, help, message);
    diagnostics_help_is(lexer->diagnostics, HELP_ADVICE);
}

/* Whether exactly three digits follow each comma. */
static bool parts_thousands(const char *at, const char *end)
{
    for (; at < end; at++)
        if (*at == ',' && (strspn(at + 1, "0123456789") != 3 || at + 4 > end))
            return false;
    return true;
}

/* Reports `1,250` and `3,50` with what to write instead. The number is then read without the
 * comma. */
static void complain_of_comma(struct lexer *lexer)
{
    char help[64];
    size_t length = 0;
    bool thousands = parts_thousands(lexer->token, lexer->cursor);
    const char *first = memchr(lexer->token, ',', (size_t)(lexer->cursor - lexer->token));
    bool decimals = !thousands && first + 1 + strspn(first + 1, "0123456789") == lexer->cursor;
    bool dollars = lexer->token > lexer->source->text && lexer->token[-1] == '$';
    lexer->token -= dollars; /* what is proposed stands for what is marked */
    for (const char *at = lexer->token; at < lexer->cursor && length + 1 < sizeof help; at++)
        if (*at != ',' || decimals)
            help[length++] = *at == ',' ? '.' : *at;
    help[length] = '\0';
    complain(lexer, thousands || decimals ? help : NULL,
             "a number cannot contain a comma");
    lexer->token += dollars;
}

/* Reports `2027-1-31`, and proposes the date in full. */
static void complain_of_date(struct lexer *lexer)
{
    char help[16];
    int year = 0, month = 0, day = 0;
    sscanf(lexer->token, "%4d-%2d-%2d", &year, &month, &day);
    snprintf(help, sizeof help, "%04d-%02d-%02d", year % 10000, month % 100, day % 100);
    complain(lexer, help, "a date needs four digits for the year and two each for month and day");
}

/* Ends a text without a closing quote before the braces at the end of the line, so that they
 * count. */
static void end_open_text(struct lexer *lexer)
{
    const char *end = memchr(lexer->token, '#', (size_t)(lexer->cursor - lexer->token));
    end = end ? end : lexer->cursor;
    while (end > lexer->token + 1 && (end[-1] == ' ' || end[-1] == '\t'))
        end--;
    if (end > lexer->token + 1 && (end[-1] == '{' || end[-1] == '}'))
        lexer->cursor = end - 1;
}

/* Reports `// a note`, proposes `#`, and continues after the note. */
static void complain_of_comment(struct lexer *lexer)
{
    char help[64] = "#";
    const char *end = lexer->cursor, *from = lexer->token + 2;
    if ((size_t)(end - from) + 2 < sizeof help)
        snprintf(help, sizeof help, "#%.*s", (int)(end - from), from);
    lexer->cursor = from;
    complain(lexer, help, "a comment begins with #");
    lexer->cursor = end;
}

/* Reports `'a text'`, and proposes double quotes. */
static void complain_of_quotes(struct lexer *lexer)
{
    char help[64] = "straight double quotes: \"…\"";
    int length = (int)(lexer->cursor - lexer->token) - 2;
    bool fits = (size_t)length + 3 < sizeof help;
    if (fits)
        snprintf(help, sizeof help, "\"%.*s\"", length, lexer->token + 1);
    complain(lexer, help, "a text is written between double quotes");
    diagnostics_help_is(lexer->diagnostics, fits ? HELP_VALUE : HELP_ADVICE);
}

/* The kind of the next token; TOKEN_END at the end of the text; -1 for text to skip. */
static int scan(struct lexer *lexer)
{
    const char *marker = lexer->cursor, *context = NULL;
    const char *limit = lexer->source->text + lexer->source->length;
    lexer->token = lexer->cursor;

    /*!re2c
    re2c:define:YYCTYPE = "unsigned char";
    re2c:define:YYCURSOR = lexer->cursor;
    re2c:define:YYMARKER = marker;
    re2c:define:YYCTXMARKER = context;
    re2c:yyfill:enable = 0;
    re2c:flags:utf-8 = 1;

    space    = [ \t];
    letter   = [A-Za-z_];
    name     = letter [A-Za-z0-9_]*;
    digits   = [0-9]+ ("_" [0-9]+)*;
    number   = digits ("." digits)? | "." digits;
    sign     = [$\u00a2-\u00a5\u058f\u060b\u09f2\u09f3\u0e3f\u17db\u20a0-\u20c0\ufdfc];
    // Letters of other alphabets, and the marks above them: what XML 1.0 lets begin a name.
    european = [\u00aa\u00b5\u00ba\u00c0-\u00d6\u00d8-\u00f6\u00f8-\u037d\u037f-\u1fff\u2070-\u218f];
    asian    = [\u2c00-\u2fef\u3001-\ud7ff\uf900-\ufdcf\ufdf0-\ufffd\U00010000-\U000effff];
    foreign  = (european | asian) \ sign;
    part     = [A-Za-z0-9_] | foreign;
    word     = (letter | foreign) part*;
    quote    = [\u00ab\u00bb\u2018-\u201f\u2039\u203a];
    stop     = [^A-Za-z0-9_];

    "\x00"            { if (lexer->token >= limit) {
                            lexer->cursor = lexer->token;
                            return TOKEN_END;
                        }
                        complain(lexer, NULL, "the text contains a zero byte");
                        return -1; }
    space+            { lexer->token = lexer->cursor; return -1; }
    "#" [^\n\x00]*    { return -1; }
    "\r"? "\n"        { return TOKEN_NL; }
    ";"               { return TOKEN_SEMICOLON; }

    [0-9]{4} "-" [0-9]{2} "-" [0-9]{2}         { return TOKEN_DATE; }
    [0-9]{4} "-" [0-9]{1,2} "-" [0-9]{1,2}     {
                        complain_of_date(lexer);
                        return TOKEN_DATE; }
    number "%"        { return TOKEN_PERCENT; }
    number            { return TOKEN_NUMBER; }
    digits ("," [0-9]+)+ ("." digits)?         { complain_of_comma(lexer); return TOKEN_NUMBER; }
    (digits "-")? digits "/" digits            { return TOKEN_FRACTION; }

    ["] ([^"\\\n\r\x00] | "\\" ["\\])* ["]     { return TOKEN_TEXT; }
    ["] ([^"\\\n\r\x00] | "\\" [^\n\r\x00])* ["]? {
                        bool closed = lexer->cursor > lexer->token + 1 && lexer->cursor[-1] == '"';
                        advise(lexer, closed ? "\\\" for a quote, \\\\ for a backslash"
                                             : "close it with \" on the same line",
                               closed ? "a backslash in a text must be followed by \" or \\"
                                      : "this text is not closed");
                        if (!closed)
                            end_open_text(lexer);
                        return TOKEN_TEXT; }
    "'" [^'"\\\n\r\x00]* "'" { complain_of_quotes(lexer); return TOKEN_TEXT; }
    "//" [^\n\r\x00]*  { complain_of_comment(lexer); return -1; }

    "("  { return TOKEN_LP; }
    ")"  { return TOKEN_RP; }
    "{"  { return TOKEN_LB; }
    "}"  { return TOKEN_RB; }
    ","  { return TOKEN_COMMA; }
    ":"  { return TOKEN_COLON; }
    "+"  { return TOKEN_PLUS; }
    "-"  { return TOKEN_MINUS; }
    "*"  { return TOKEN_STAR; }
    "/"  { return TOKEN_SLASH; }
    "^"  { return TOKEN_CARET; }
    "="  { return TOKEN_ASSIGN; }
    "!=" { return TOKEN_NE; }
    "<"  { return TOKEN_LT; }
    "<=" { return TOKEN_LE; }
    ">"  { return TOKEN_GT; }
    ">=" { return TOKEN_GE; }
    "\u2212" | "\u2013"    { complain(lexer, "-", "this character looks like a minus sign but is not one");
                            return TOKEN_MINUS; }
    "\u00d7" { complain(lexer, "*", "the multiplication sign is *"); return TOKEN_STAR; }
    "\u00f7" { complain(lexer, "/", "the division sign is /"); return TOKEN_SLASH; }
    "\u2264" { complain(lexer, "<=", "≤ is written <="); return TOKEN_LE; }
    "\u2265" { complain(lexer, ">=", "≥ is written >="); return TOKEN_GE; }
    "==" { complain(lexer, "=", "to compare, write a single ="); return TOKEN_ASSIGN; }
    "<>" { complain(lexer, "!=", "<> is written !="); return TOKEN_NE; }
    quote ([^"\n\r\x00] \ quote)* quote {
           advise(lexer, "straight quotes: \"…\"",
                  "these are curly quotes; a text is written between straight ones");
           return TOKEN_TEXT; }
    quote { advise(lexer, "a straight quote: \"", "this is a curly quote");
           return -1; }
    "\u00a0" | "\u2007" | "\u202f" {
           advise(lexer, "an ordinary space", "this space is a no-break space"); return -1; }

    "at" space+ "least" / stop       { return TOKEN_AT_LEAST; }
    "at" space+ "most" / stop        { return TOKEN_AT_MOST; }
    "at" space+ "margin" / stop      { return TOKEN_AT_MARGIN; }
    "marked" space+ "up" / stop      { return TOKEN_MARKED_UP; }
    "marked" space+ "down" / stop    { return TOKEN_MARKED_DOWN; }
    "or" space+ "more" / stop        { return TOKEN_OR_MORE; }
    "up" space+ "to" / stop          { return TOKEN_UP_TO; }
    "down" space+ "to" / stop        { return TOKEN_DOWN_TO; }
    "nearest" space+ "to" / stop     { return TOKEN_NEAREST_TO; }
    "even" space+ "to" / stop        { return TOKEN_EVEN_TO; }
    "rounded" space+ "to" / stop     { return TOKEN_ROUNDED_TO; }
    "ends" space+ "in" / stop        { return TOKEN_ENDS_IN; }
    "buyer" space+ "pays" / stop     { return TOKEN_BUYER_PAYS; }
    "per" space+ "order" / stop      { return TOKEN_PER_ORDER; }
    "only" space+ "when" / stop      { return TOKEN_ONLY_WHEN; }
    "is" space+ "missing" / stop     { return TOKEN_IS_MISSING; }
    "worth" space+ "of" / stop       { return TOKEN_WORTH_OF; }
    "same" space+ "price" space+ "on" / stop { return TOKEN_SAME_PRICE_ON; }

    "and"       { return TOKEN_AND; }
    "or"        { return TOKEN_OR; }
    "not"       { return TOKEN_NOT; }
    "if"        { return TOKEN_IF; }
    "then"      { return TOKEN_THEN; }
    "else"      { return TOKEN_ELSE; }
    "otherwise" { return TOKEN_OTHERWISE; }
    "between"   { return TOKEN_BETWEEN; }
    "of"        { return TOKEN_OF; }
    "per"       { return TOKEN_PER; }
    "as"        { return TOKEN_AS; }
    "rounded"   { return TOKEN_ROUNDED; }
    "marked"    { return TOKEN_MARKED; }
    "allowing"  { return TOKEN_ALLOWING; }
    "worth"     { return TOKEN_WORTH; }
    "lost"      { return TOKEN_LOST; }
    "more"      { return TOKEN_MORE; }
    "missing"   { return TOKEN_MISSING; }
    "each"      { return TOKEN_EACH; }
    "yes"       { return TOKEN_YES; }
    "no"        { return TOKEN_NO; }

    "currency"  { return TOKEN_CURRENCY; }
    "unit"      { return TOKEN_UNIT; }
    "use"       { return TOKEN_USE; }
    "materials" { return TOKEN_MATERIALS; }
    "product"   { return TOKEN_PRODUCT; }
    "rate"      { return TOKEN_RATE; }
    "let"       { return TOKEN_LET; }
    "cost"      { return TOKEN_COST; }
    "pay"       { return TOKEN_PAY; }
    "table"     { return TOKEN_TABLE; }
    "rounding"  { return TOKEN_ROUNDING; }
    "channel"   { return TOKEN_CHANNEL; }
    "fee"       { return TOKEN_FEE; }
    "tax"       { return TOKEN_TAX; }
    "price"     { return TOKEN_PRICE; }
    "show"      { return TOKEN_SHOW; }
    "warn"      { return TOKEN_WARN; }
    "refuse"    { return TOKEN_REFUSE; }
    "goal"      { return TOKEN_GOAL; }
    "expect"    { return TOKEN_EXPECT; }
    "any"       { return TOKEN_ANY; }
    "sliced"    { return TOKEN_SLICED; }
    "optional"  { return TOKEN_OPTIONAL; }
    "from"      { return TOKEN_FROM; }
    "when"      { return TOKEN_WHEN; }
    "on"        { return TOKEN_ON; }
    "needs"     { return TOKEN_NEEDS; }
    "gives"     { return TOKEN_GIVES; }
    "takes"     { return TOKEN_TAKES; }
    "has"       { return TOKEN_HAS; }
    "aim"       { return TOKEN_AIM; }
    "set"       { return TOKEN_SET; }
    "floor"     { return TOKEN_FLOOR; }
    "ceiling"   { return TOKEN_CEILING; }
    "discount"  { return TOKEN_DISCOUNT; }
    "pin"       { return TOKEN_PIN; }
    "round"     { return TOKEN_ROUND; }
    "none"      { return TOKEN_NONE; }
    "added"     { return TOKEN_ADDED; }
    "included"  { return TOKEN_INCLUDED; }
    "every"     { return TOKEN_EVERY; }
    "to"        { return TOKEN_TO; }
    "by"        { return TOKEN_BY; }
    "below"     { return TOKEN_BELOW; }
    "over"      { return TOKEN_OVER; }
    "weighs"    { return TOKEN_WEIGHS; }
    "refused"   { return TOKEN_REFUSED; }
    "warned"    { return TOKEN_WARNED; }
    "error"     { return TOKEN_ERROR; }
    "likely"    { return TOKEN_LIKELY; }

    name              { return TOKEN_NAME; }
    [A-Za-z]{0,3} sign { return TOKEN_SYMBOL; }
    // A currency's word may be foreign, `zł`; what is longer is meant for a name, and goes on as one.
    (letter | foreign) part{4,}
                      { complain(lexer, NULL, "a name may contain only the letters a to z, digits and _");
                        return TOKEN_NAME; }
    word              { return TOKEN_SYMBOL; }
    [^] \ [\x00]      { complain(lexer, NULL, "this character is not part of the language"); return -1; }
    *                 { complain(lexer, NULL, "this character is not part of the language"); return -1; }
    */
}

/* Where `3/4` is not a fraction, returns only the digits before the `/` or the `-`. */
static int shorten_to_number(struct lexer *lexer)
{
    lexer->cursor = lexer->token;
    while ((*lexer->cursor >= '0' && *lexer->cursor <= '9') || *lexer->cursor == '_')
        lexer->cursor++;
    return TOKEN_NUMBER;
}

/* A fraction must be the start of an operand and have a unit after it; elsewhere `/` divides. A word
 * that may come after an amount, or the first of several such words, is not a unit. */
static bool is_fraction(const struct lexer *lexer)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_";
    const char *after = lexer->cursor + strspn(lexer->cursor, " \t");
    size_t length = strspn(after, letters);
    for (int kind = 0; kind < TOKENS_COUNT; kind++) {
        const char *word = token_traits[kind].spelling;
        if (token_is(kind, AFTER_VALUE) && strncmp(word, after, length) == 0 &&
            strcspn(word, " ") == length)
            return false;
    }
    return length > 0 && (lexer->parts || !lexer->operand_ended);
}

enum { NAME_LENGTH_MOST = 80 };

struct token_list lexer_read(struct arena *arena, const struct source *source,
                             struct diagnostics *diagnostics, bool parts)
{
    struct lexer lexer = {source, diagnostics, source->text, source->text, false, parts};
    struct token_list list = {0};
    for (;;) {
        int kind = scan(&lexer);
        if (kind == -1)
            continue;
        if (kind == TOKEN_FRACTION && !is_fraction(&lexer))
            kind = shorten_to_number(&lexer);
        if (kind == TOKEN_NAME && lexer.cursor - lexer.token > NAME_LENGTH_MOST)
            complain(&lexer, NULL, "a name may have at most 80 characters");
        struct span span = token_span(&lexer);
        list.items = arena_grow(arena, list.items, sizeof *list.items, &list.room, list.count + 1);
        list.items[list.count++] = (struct token){kind, span.start, span.end};
        lexer.operand_ended = token_is(kind, ENDS_VALUE);
        if (kind == TOKEN_END)
            return list;
    }
}
