/* What does not fit the grammar, said to a maker. */
#include "build.h"

#include <string.h>

#include "grammar.h"
#include "lexer.h"
#include "source/near.h"

/* What may stand where a token did not fit, in the words of a message. Few enough to be read. */
static const struct {
    int kind;
    const char *words;
} expectations[] = {
    {TOKEN_RB, "}"},
    {TOKEN_RP, ")"},
    {TOKEN_ASSIGN, "="},
    {TOKEN_LB, "{"},
    {TOKEN_COLON, ":"},
    {TOKEN_BY, "by"},
    {TOKEN_WHEN, "when"},
    {TOKEN_LOST, "lost"},
    {TOKEN_THEN, "then"},
    {TOKEN_ELSE, "else"},
    {TOKEN_COMMA, "a comma"},
    {TOKEN_TEXT, "a text in quotes"},
    {TOKEN_PLUS, "a sign"},
    {TOKEN_NUMBER, "a value"},
    {TOKEN_NAME, "a name"},
    {TOKEN_EVERY, "every or ends in"},
    {TOKEN_ADDED, "added or included"},
    {TOKEN_NL, "the end of the line"},
    {TOKEN_CURRENCY, "a statement"},
    /* Never named: any of them tells that a value stands before. */
    {TOKEN_STAR, NULL},
    {TOKEN_AT_LEAST, NULL},
    {TOKEN_OR, NULL},
};
enum { EXPECTATIONS = sizeof expectations / sizeof *expectations, EXPECTATIONS_SAID = 4 };

static bool expects(const struct build *build, int kind)
{
    for (unsigned i = 0; i < EXPECTATIONS; i++)
        if (expectations[i].kind == kind)
            return (build->expected & 1u << i) != 0;
    return false;
}

static bool value_ended(const struct build *build)
{
    return expects(build, TOKEN_STAR) || expects(build, TOKEN_AT_LEAST) || expects(build, TOKEN_OR);
}

void build_syntax_error(struct build *build, int kind, struct span token)
{
    build->wrong = token;
    build->wrong_kind = kind;
    build->expected = 0;
}

void build_expected(struct build *build, int kind)
{
    for (unsigned i = 0; i < EXPECTATIONS; i++)
        if (expectations[i].kind == kind)
            build->expected |= 1u << i;
}

/* "`=` or `{`"; NULL when too much could stand here to be worth listing. */
static const char *expected_words(struct build *build)
{
    bool value = expects(build, TOKEN_NUMBER);
    bool ended = value_ended(build);
    const char *text = NULL;
    unsigned count = 0;
    for (unsigned i = 0; i < EXPECTATIONS; i++) {
        int kind = expectations[i].kind;
        bool part_of_value = value && (kind == TOKEN_NAME || kind == TOKEN_TEXT);
        bool after_value = ended && (kind == TOKEN_COMMA || kind == TOKEN_ASSIGN ||
                                     kind == TOKEN_NAME || kind == TOKEN_NUMBER);
        if (!(build->expected & 1u << i) || !expectations[i].words || part_of_value || after_value)
            continue;
        count++;
        text = text ? arena_print(build->arena, "%s or %s", text, expectations[i].words)
                    : expectations[i].words;
    }
    return count <= EXPECTATIONS_SAID ? text : NULL;
}

static const char *nearest_statement(struct span token)
{
    struct near near = near_to(span_text(token), (size_t)span_length(token));
    for (int kind = 0; kind <= STATEMENT_REFUSE; kind++)
        near_offer(&near, statement_word((enum statement_kind)kind));
    return near.best;
}

static bool is_comparison(int kind)
{
    return kind == TOKEN_ASSIGN || kind == TOKEN_NE || kind == TOKEN_LT || kind == TOKEN_LE ||
           kind == TOKEN_GT || kind == TOKEN_GE;
}

static bool is_word(struct span token)
{
    unsigned char first = (unsigned char)*span_text(token);
    return (first | 0x20) >= 'a' && (first | 0x20) <= 'z';
}

static void report(struct build *build, const char *help, const char *reason)
{
    if (build->wrong_kind == TOKEN_NL || build->wrong_kind == TOKEN_END)
        diagnostics_error(build->diagnostics, build->wrong, help, "this line ends too early; %s",
                          reason);
    else
        diagnostics_error(build->diagnostics, build->wrong, help, "`%.*s` does not fit here; %s",
                          span_length(build->wrong), span_text(build->wrong), reason);
}

void build_syntax_error_end(struct build *build)
{
    if (build->recovering)
        return;
    build->recovering = build->wrong_kind != TOKEN_NL;
    int kind = build->wrong_kind;
    bool ended = value_ended(build);
    const char *words = expected_words(build);
    if (expects(build, TOKEN_CURRENCY) && is_word(build->wrong))
        report(build, nearest_statement(build->wrong), "no statement begins with it");
    else if (kind == TOKEN_RB && !expects(build, TOKEN_RB) && expects(build, TOKEN_CURRENCY))
        report(build, NULL, "no { is open");
    else if (kind == TOKEN_END && expects(build, TOKEN_RB))
        diagnostics_error(build->diagnostics, build->wrong, "close it with }",
                          "the file ends inside a { … }");
    else if (expects(build, TOKEN_NAME) && is_word(build->wrong) && !ended)
        report(build, NULL, "it is a word of the language and cannot be a name");
    else if (is_comparison(kind) && ended)
        report(build, "a between b and c, or a < b and b < c", "comparisons do not chain");
    else if ((kind == TOKEN_PLUS || kind == TOKEN_MINUS) && ended)
        report(build, "put the sum in parentheses", "a sum here needs parentheses");
    else if ((kind == TOKEN_NAME || kind == TOKEN_NUMBER || kind == TOKEN_LP) && ended)
        report(build, NULL, "two values stand side by side with no sign between them");
    else
        report(build, NULL,
               words ? arena_print(build->arena, "%s was expected", words)
                     : "the line cannot go on so");
}

void build_gave_up(struct build *build)
{
    if (build->diagnostics->errors == 0)
        diagnostics_error(build->diagnostics, (struct span){build->source, 0, 0}, NULL,
                          "nothing of this can be read");
}

void build_nested_too_deep(struct build *build)
{
    diagnostics_error(
        build->diagnostics, build->wrong.source ? build->wrong : (struct span){build->source, 0, 0},
        "give a part of it a name of its own with let", "something here nests too deep to be read");
}
