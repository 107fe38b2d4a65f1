/* Messages to a maker about what does not fit the grammar. */
#include "build.h"
#include "build_slip.h"

#include <string.h>

#include "text/near.h"
#include "text/utf8.h"
#include "token.h"

bool build_expects(const struct build *build, int kind)
{
    return (build->expected[kind / 64] >> kind % 64 & 1) != 0;
}

static bool value_ended(const struct build *build)
{
    return build_expects(build, TOKEN_STAR) || build_expects(build, TOKEN_AT_LEAST) ||
           build_expects(build, TOKEN_OR);
}

void build_syntax_error(struct build *build, int kind, struct span token)
{
    build->wrong = token;
    build->wrong_kind = kind;
    memset(build->expected, 0, sizeof build->expected);
}

void build_expected(struct build *build, int kind)
{
    build->expected[kind / 64] |= UINT64_C(1) << kind % 64;
}

/* "`=` or `{`"; NULL if too many things could come here to list them. */
static const char *expected_words(struct build *build)
{
    enum { SAID_MOST = 4 };
#define TOKEN_KIND(NAME, spelling, said, traits, form) TOKEN_##NAME,
    static const uint8_t kinds[] = {TOKENS(TOKEN_KIND)};
#undef TOKEN_KIND
    bool value = build_expects(build, TOKEN_NUMBER);
    bool ended = value_ended(build);
    const char *text = NULL;
    unsigned count = 0;
    for (size_t i = 0; i < sizeof kinds; i++) {
        int kind = kinds[i];
        const char *words = token_traits[kind].said;
        bool part_of_value = value && (kind == TOKEN_NAME || kind == TOKEN_TEXT);
        bool after_value = ended && (kind == TOKEN_COMMA || kind == TOKEN_ASSIGN ||
                                     kind == TOKEN_NAME || kind == TOKEN_NUMBER);
        if (!build_expects(build, kind) || !words || part_of_value || after_value)
            continue;
        if (kind == TOKEN_NUMBER && !build_expects(build, TOKEN_SYMBOL))
            words = "a number";
        count++;
        text = text ? arena_print(build->arena, "%s or %s", text, words) : words;
    }
    return count <= SAID_MOST ? text : NULL;
}

/* ---- the tokens around the wrong one ---- */

bool build_is_word(struct span token)
{
    return text_is_letter(*span_text(token));
}

bool build_is_text(struct span token, const char *text)
{
    return token.source && (size_t)span_length(token) == strlen(text) &&
           memcmp(span_text(token), text, strlen(text)) == 0;
}

/* Whether nothing separates the wrong token from the last one. */
static bool adjoins(const struct build *build)
{
    return build->last.source && build->last.end == build->wrong.start;
}

struct span build_rest_of_line(const struct build *build)
{
    struct span rest = build->wrong;
    const char *text = build->source->text;
    while (rest.end < build->source->length && !strchr("\r\n#;", text[rest.end]))
        rest.end++;
    while (rest.end > rest.start && (text[rest.end - 1] == ' ' || text[rest.end - 1] == '\t'))
        rest.end--;
    return rest;
}

struct span build_behind(const struct build *build)
{
    struct span rest = build_rest_of_line(build);
    const char *text = build->source->text;
    uint32_t end = rest.end;
    rest.start = build->wrong.end;
    while (rest.start < end && (text[rest.start] == ' ' || text[rest.start] == '\t'))
        rest.start++;
    for (rest.end = rest.start; rest.end < end && !strchr("{}", text[rest.end]);)
        rest.end++;
    while (rest.end > rest.start && (text[rest.end - 1] == ' ' || text[rest.end - 1] == '\t'))
        rest.end--;
    return rest;
}

/* The first character after the wrong token that is not a space. */
static char character_after(const struct build *build)
{
    const char *at = build->source->text + build->wrong.end;
    return at[strspn(at, " \t")];
}

/* Whether this line has an error already: another one after it is only a consequence. */
static bool said_on_this_line(const struct build *build)
{
    for (size_t i = build->diagnostics->count; i-- > 0;) {
        struct span said = build->diagnostics->items[i].span;
        if (said.source != build->source || said.start > build->wrong.start)
            continue;
        const char *from = span_text(said);
        size_t length = build->wrong.start - said.start;
        if (!memchr(from, '\n', length) && !memchr(from, ';', length))
            return true;
    }
    return false;
}

/* ---- the messages ---- */

void build_report(struct build *build, const char *help, const char *reason)
{
    if (build->wrong_kind == TOKEN_NL || build->wrong_kind == TOKEN_END)
        diagnostics_error(build->diagnostics, build->wrong, help, "this line ends too early; %s",
                          reason);
    else
        diagnostics_error(build->diagnostics, build->wrong, help, "`%.*s` does not fit here; %s",
                          span_length(build->wrong), span_text(build->wrong), reason);
}

/* The word that may be meant. NULL if the word is right as it is, or no word is like it. */
static const char *nearest_statement(const struct build *build)
{
    size_t length = (size_t)span_length(build->wrong);
    struct near near = near_to(span_text(build->wrong), length);
    for (int kind = 0; kind <= STATEMENT_REFUSE; kind++)
        near_offer(&near, statement_word((enum statement_kind)kind));
    return near.best && near.distance > 0 && near.distance * 2 < length ? near.best : NULL;
}

/* The block in which a line belongs that is no statement of the shop; NULL if there is none. */
static const char *place_of_line(struct build *build)
{
    static const struct {
        enum token_trait trait;
        const char *head;
    } blocks[] = {{IN_PRICE, "price"},
                  {IN_CHANNEL, "channel stall"},
                  {IN_GOAL, "goal \"…\""},
                  {IN_EXPECT, "expect \"…\""}};
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; i++)
        if (token_is(build->wrong_kind, blocks[i].trait))
            return arena_print(build->arena, "%s { %s … }", blocks[i].head,
                               token_traits[build->wrong_kind].spelling);
    return NULL;
}

/* `only if x`. */
static bool report_only(struct build *build)
{
    struct span rest = build_behind(build);
    int length = span_length(rest);
    const char *text = span_text(rest);
    if (!build_is_text(build->wrong, "only"))
        return false;
    if (length > 2 && memcmp(text, "if", 2) == 0 && (text[2] == ' ' || text[2] == '\t')) {
        text += 3;
        length -= 3;
    }
    build_report(build,
                 arena_print(build->arena,
                             build_expects(build, TOKEN_CURRENCY)
                                 ? "channel stall { only when %.*s }"
                                 : "only when %.*s",
                             length, text),
                 "`only when`, inside a channel, says which products are sold there");
    diagnostics_help_is(build->diagnostics,
                        build_expects(build, TOKEN_CURRENCY) ? HELP_ELSEWHERE : HELP_VALUE);
    return true;
}

static void report_no_statement(struct build *build)
{
    if (report_only(build))
        return;
    const char *place = place_of_line(build);
    if (place) {
        build_report(build, place, "this line belongs inside a block");
        diagnostics_help_is(build->diagnostics, HELP_ELSEWHERE);
        return;
    }
    const char *help = nearest_statement(build);
    if (!help && character_after(build) == '=')
        help = arena_print(build->arena, "let %.*s", span_length(build_rest_of_line(build)),
                           span_text(build->wrong));
    build_report(build, help, "no statement begins with this word");
}

/* Where a name is expected: reports a word that cannot be a name, and then returns true. */
static bool report_no_name(struct build *build)
{
    int kind = build->wrong_kind;
    bool foreign = kind == TOKEN_SYMBOL && (unsigned char)*span_text(build->wrong) >= 0x80;
    if (kind == TOKEN_SYMBOL && build_is_text(build->last, "currency")) {
        build_report(build, "currency USD $", "the three letters of the currency come first");
        diagnostics_help_is(build->diagnostics, HELP_EXAMPLE);
    } else if (kind == TOKEN_NUMBER)
        build_report(build, NULL, "a name must begin with a letter");
    else if (foreign || (kind == TOKEN_SYMBOL && build_is_word(build->wrong)))
        build_report(build, NULL, "a name may contain only the letters a to z, digits and _");
    else if (build_is_word(build->wrong) && !build_expects(build, TOKEN_NUMBER))
        build_report(build, NULL, "this word belongs to the language and cannot be a name");
    else
        return false;
    return true;
}

/* `rate saw blade = …` and `rate saw-blade = …`. */
static bool report_parted_name(struct build *build)
{
    bool defines = build_expects(build, TOKEN_ASSIGN) || build_expects(build, TOKEN_LB) ||
                   build_expects(build, TOKEN_BY);
    if (!defines || build_expects(build, TOKEN_NL) || !build->last.source ||
        !build_is_word(build->last))
        return false;
    int length = span_length(build->last);
    const char *before = span_text(build->last);
    if (build->wrong_kind == TOKEN_PER_ORDER)
        return false;
    if (build_is_word(build->wrong)) {
        build_report(build,
                     arena_print(build->arena, "%.*s_%.*s", length, before,
                                 span_length(build->wrong), span_text(build->wrong)),
                     "a name must be one word");
        return true;
    }
    if (build->wrong_kind != TOKEN_MINUS || !adjoins(build))
        return false;
    const char *after = span_text(build->wrong) + 1;
    size_t rest = strspn(after, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_0123456789");
    build_report(build, arena_print(build->arena, "%.*s_%.*s", length, before, (int)rest, after),
                 "a name cannot contain a hyphen");
    return true;
}

/* `to` and `likely` where a range is not allowed, or already has both ends. */
static bool report_no_range(struct build *build)
{
    bool to = build_is_text(build->wrong, "to"), likely = build_is_text(build->wrong, "likely");
    if (!to && !likely)
        return false;
    if (to && build_expects(build, TOKEN_LIKELY))
        build_report(build, "$4 to $6 likely $4.50", "a range has only two ends");
    else if (likely && build_expects(build, TOKEN_TO))
        build_report(build, "$4 to $6 likely $4.50",
                     "the likely value comes after both ends of the range");
    else
        build_report(build, "rate material = $2 to $3",
                     "a range must be the whole of a rate, a default or a cell");
    diagnostics_help_is(build->diagnostics, HELP_EXAMPLE);
    return true;
}

/* `45% price` and `45% (price + shipping)`. */
static void report_share(struct build *build)
{
    struct span of = build->wrong;
    if (build->wrong_kind == TOKEN_LP) {
        struct span rest = build_rest_of_line(build);
        const char *close = span_text(rest);
        size_t open = 0;
        do {
            open += *close == '(';
            open -= *close == ')';
            close++;
        } while (open > 0 && close < span_text(rest) + span_length(rest));
        of.end = of.start + (uint32_t)(close - span_text(of));
    }
    build_report(build,
                 arena_print(build->arena, "%.*s of %.*s", span_length(build->last),
                             span_text(build->last), span_length(of), span_text(of)),
                 "`of` is missing after the percentage");
}

/* `$450 a month` and `$26 an hour`: true when it is one of these. */
static bool report_an_hour(struct build *build)
{
    static const char *const units[][2] = {
        {"second", "s"}, {"minute", "min"}, {"hour", "h"}, {"piece", NULL}, {"item", NULL}};
    if (!build_is_text(build->wrong, "a") && !build_is_text(build->wrong, "an"))
        return false;
    struct span unit = build_behind(build);
    const char *text = build->source->text;
    unit.end = unit.start;
    while (unit.end < build->source->length && text_is_letter(text[unit.end]))
        unit.end++;
    uint32_t start = build->last.start; /* the sign of money before the digits */
    while (start > 0 && !strchr(" \t\r\n=({:,;*/+-", text[start - 1]))
        start--;
    const char *amount =
        arena_print(build->arena, "%.*s", (int)(build->last.end - start), text + start);
    const char *help =
        arena_print(build->arena, "%s per %.*s", amount, span_length(unit), span_text(unit));
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        if (build_is_text(unit, units[i][0]))
            help = units[i][1] ? arena_print(build->arena, "%s per %s", amount, units[i][1])
                               : arena_print(build->arena, "%s each", amount);
    }
    build_report(build, unit.end > unit.start ? help : NULL, "use `per` for an amount per unit");
    return true;
}

/* Reports a wrong token after a complete value. */
static bool report_after_value(struct build *build)
{
    int kind = build->wrong_kind;
    const char *closing = build->open.ifs         ? "`then`"
                          : build->open.allowings ? "`lost`"
                          : build->open.thens     ? "`else`"
                                                  : NULL;
    const char *last = span_text(build->last);
    if (report_no_range(build))
        return true;
    if (token_is(kind, COMPARISON)) {
        build_report(build, "a between b and c, or a < b and b < c",
                     "comparisons cannot be chained");
        diagnostics_help_is(build->diagnostics, HELP_EXAMPLE);
    } else if (kind == TOKEN_PLUS || kind == TOKEN_MINUS) {
        build_report(build, "put the sum in parentheses", "a sum needs parentheses here");
        diagnostics_help_is(build->diagnostics, HELP_ADVICE);
    } else if (token_is(kind, BEGINS_VALUE) && last[span_length(build->last) - 1] == '%')
        report_share(build);
    else if (kind == TOKEN_NAME && report_an_hour(build))
        return true;
    else if (token_is(kind, BEGINS_VALUE) && closing)
        build_report(build, NULL,
                     arena_print(build->arena, "%s or an operator was expected", closing));
    else if (token_is(kind, BEGINS_VALUE))
        build_report(build, NULL, "an operator such as + or * is missing between two values");
    else
        return false;
    return true;
}

/* `aim = margin >= 30%`: words that are followed directly by their value. */
static bool report_no_equals(struct build *build)
{
    if (build->wrong_kind != TOKEN_ASSIGN || !token_is(build->last_kind, NO_EQUALS))
        return false;
    struct span rest = build_behind(build);
    build_report(build,
                 arena_print(build->arena, "%s %.*s", token_traits[build->last_kind].spelling,
                             span_length(rest), span_text(rest)),
                 "leave it out");
    return true;
}

/* `ends in $4.99`: an ending is written in digits only. */
static bool report_sign_of_ending(struct build *build)
{
    bool digits = build_expects(build, TOKEN_NUMBER) && !build_expects(build, TOKEN_SYMBOL);
    const char *text = build->source->text + build->wrong.end;
    int length = (int)strspn(text, "0123456789_.");
    if (build->wrong_kind != TOKEN_SYMBOL || !digits || length == 0)
        return false;
    bool nought = length > 2 && memcmp(text, "0.", 2) == 0;
    build_report(build, arena_print(build->arena, "%.*s", length - nought, text + nought),
                 "an ending has no currency sign");
    return true;
}

/* `round to .99`: digits where the name of a rounding or an amount is expected. */
static bool report_rounded_to_digits(struct build *build)
{
    const char *text = build->source->text;
    uint32_t at = build->last.source ? build->last.start : 0;
    while (at > 0 && (text[at - 1] == ' ' || text[at - 1] == '\t'))
        at--;
    uint32_t from = at;
    while (from > 0 && text[from - 1] != '\n' && text[from - 1] != ';' && text[from - 1] != '{')
        from--;
    from += (uint32_t)strspn(text + from, " \t");
    bool round = at >= from + 8 && memcmp(text + from, "round ", 6) == 0 &&
                 memcmp(text + at - 3, " to", 3) == 0;
    int length = build->last.source ? span_length(build->last) : 0;
    if (!round || !memchr("0123456789.", text[build->last.start], 11))
        return false;
    const char *digits = span_text(build->last);
    const char *sign = build->sign.source ? span_text(build->sign) : "";
    const char *help = NULL;
    bool ending = memchr(digits, '.', (size_t)length) != NULL;
    if (ending)
        help = arena_print(build->arena,
                           "rounding charm { otherwise : ends in %.*s } outside this block, and "
                           "round to charm inside it",
                           length, digits);
    else if (build->sign.source && text_is_letter(*sign))
        help = arena_print(build->arena, "round to %.*s %.*s", length, digits,
                           span_length(build->sign), sign);
    else if (build->sign.source)
        help = arena_print(build->arena, "round to %.*s%.*s", span_length(build->sign), sign,
                           length, digits);
    build->wrong = build->last;
    build->wrong_kind = TOKEN_NUMBER;
    build_report(build, help, "prices are rounded to an amount or to a `rounding` that you define");
    diagnostics_help_is(build->diagnostics, ending ? HELP_ADVICE : HELP_VALUE);
    return true;
}

/* `goal pay for it {`: a text that lacks its quotes. */
static bool report_no_quotes(struct build *build)
{
    bool text = build_expects(build, TOKEN_TEXT) && !build_expects(build, TOKEN_NUMBER) &&
                !build_expects(build, TOKEN_NAME);
    struct span all = build_behind(build);
    bool condition = build->wrong_kind == TOKEN_WHEN || build->wrong_kind == TOKEN_IF;
    if (!text || !build_is_word(build->wrong) || condition ||
        memchr(span_text(all), '"', (size_t)span_length(all)))
        return false;
    all.start = build->wrong.start;
    while (all.end > build->wrong.end && strchr(" \t", build->source->text[all.end - 1]))
        all.end--;
    for (uint32_t at = build->wrong.end; at + 6 <= all.end; at++) {
        if (memcmp(build->source->text + at, " when ", 6) == 0) {
            all.end = at;
            break;
        }
    }
    build->wrong = all;
    build_report(build, arena_print(build->arena, "\"%.*s\"", span_length(all), span_text(all)),
                 "a text in quotes was expected");
    return true;
}

/* `warn "too much" on stall when ...`: a warn of one channel is a line of its block. */
static bool report_on_channel(struct build *build)
{
    const char *at = build->source->text + build->wrong.end;
    const char *end = build->source->text + build->source->length;
    while (at < end && *at == ' ')
        at++;
    size_t length = 0;
    while (at + length < end && !strchr(" \t\r\n{}#", at[length]))
        length++;
    if (length == 0)
        return false;
    build_report(build,
                 arena_print(build->arena,
                             "move this line into channel %.*s { … }, without `on %.*s`",
                             (int)length, at, (int)length, at),
                 "a line of one channel alone must be in that channel's block");
    diagnostics_help_is(build->diagnostics, HELP_ELSEWHERE);
    return true;
}

void build_open(struct build *build, int kind)
{
    struct open_words *open = &build->open;
    switch (kind) {
    case TOKEN_IF: open->ifs++; break;
    case TOKEN_THEN:
        open->ifs -= open->ifs > 0;
        open->thens++;
        break;
    case TOKEN_ELSE: open->thens -= open->thens > 0; break;
    case TOKEN_ALLOWING: open->allowings++; break;
    case TOKEN_LOST: open->allowings -= open->allowings > 0; break;
    case TOKEN_NL: *open = (struct open_words){0}; break;
    default: break;
    }
}

void build_syntax_error_end(struct build *build)
{
    if (build->recovering)
        return;
    int kind = build->wrong_kind;
    build->recovering = kind != TOKEN_NL;
    build->lost = true;
    if ((kind == TOKEN_NL || kind == TOKEN_END) && build->last.source) {
        /* The place is the character after the last token, not the end of a comment; it is empty at
         * the end of the text. */
        uint32_t end = build->last.end;
        build->wrong = (struct span){build->source, end, end + (end < build->source->length)};
    }
    if (said_on_this_line(build))
        return;
    bool ended = value_ended(build) && build->last.source;
    if (build_expects(build, TOKEN_CURRENCY) &&
        (build_is_word(build->wrong) || kind == TOKEN_ONLY_WHEN)) {
        report_no_statement(build);
        return;
    }
    if (kind == TOKEN_RB && !build_expects(build, TOKEN_RB) &&
        build_expects(build, TOKEN_CURRENCY)) {
        build_report(build, NULL, "there is no { that it closes");
        return;
    }
    if (build_report_slip(build, ended) || report_no_equals(build) ||
        (!ended && report_sign_of_ending(build)) || report_no_quotes(build) ||
        ((kind == TOKEN_NL || kind == TOKEN_RB) && report_rounded_to_digits(build)))
        return;
    if ((!ended && build_expects(build, TOKEN_NAME) && report_no_name(build)) ||
        (!ended && report_parted_name(build)) || (ended && report_after_value(build)))
        return;
    const char *words = expected_words(build);
    bool after_digits =
        build->last.source && *span_text(build->last) >= '0' && *span_text(build->last) <= '9';
    if (after_digits && build_expects(build, TOKEN_NAME) && !build_expects(build, TOKEN_NUMBER))
        words = "a unit or the currency sign";
    if (kind == TOKEN_ON && build_expects(build, TOKEN_WHEN) && report_on_channel(build))
        return;
    bool line_of_block = build_expects(build, TOKEN_RB) && build_expects(build, TOKEN_NL) && !ended;
    if (line_of_block && report_only(build))
        return;
    if (line_of_block && build_is_word(build->wrong) && kind != TOKEN_ELSE)
        build_report(build, nearest_statement(build),
                     "no line of this block begins with this word");
    else if (kind == TOKEN_ELSE) {
        build_report(build, "otherwise, for the last row of a table",
                     "there is no `if` that it belongs to");
        diagnostics_help_is(build->diagnostics, HELP_ADVICE);
    } else if (words)
        build_report(build, NULL, arena_print(build->arena, "%s was expected", words));
    else
        build_report(build, NULL, "the end of the line or an operator was expected");
}

void build_gave_up(struct build *build)
{
    if (build->diagnostics->errors == 0)
        diagnostics_error(build->diagnostics, (struct span){build->source, 0, 0}, NULL,
                          "this text cannot be read at all");
}

void build_nested_too_deep(struct build *build)
{
    build->gave_up = build->lost = true;
    diagnostics_error(build->diagnostics, build->token, "use let to give a part of it a name",
                      "parts of this text are nested too deeply");
    diagnostics_help_is(build->diagnostics, HELP_ADVICE);
}
