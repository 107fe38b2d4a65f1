/* Aligns neighbouring lines of the same kind in columns, and the comments at their ends. A blank
 * line ends a run of neighbours; a comment on its own line does not. */
#include "tidy_lines.h"
#include "token.h"

enum family {
    ALONE,
    DEFINITIONS, /* rate, let, cost … : word, name, `=` */
    BUYER_PAYS,
    MESSAGES, /* warn, refuse: word, text, `when` */
    FIELDS,
    MATERIALS,
    ROWS,  /* cells, `:` */
    LINES, /* of a price block or a goal: word, the rest */
    SUMS,  /* then …, `=` */
    GIVEN
};

/* The spaces before each column, and whether a line that ends before a column counts for its
 * place. */
static const struct {
    unsigned gaps[TIDY_STOPS];
    bool ends_count;
} families[] = {
    [ALONE] = {{1, 1, 1}, false},      [DEFINITIONS] = {{1, 1, 1}, false},
    [BUYER_PAYS] = {{1, 1, 1}, false}, [MESSAGES] = {{1, 1, 1}, false},
    [FIELDS] = {{2, 3, 1}, true},      [MATERIALS] = {{2, 3, 1}, true},
    [ROWS] = {{1, 1, 1}, false},       [LINES] = {{1, 1, 1}, false},
    [SUMS] = {{1, 1, 1}, false},       [GIVEN] = {{1, 1, 1}, false},
};

/* ---- which tokens begin a column ---- */

/* Whether the line has the beginning of exactly one statement. */
static bool is_one_statement(const struct tidy *tidy, const struct tidy_line *line)
{
    if (line->count < 2 || !tidy->tokens[line->first].begins)
        return false;
    for (size_t i = 0; i < line->count; i++) {
        const struct tidy_token *token = &tidy->tokens[line->first + i];
        if ((i > 0 && token->begins) || token->kind == TOKEN_LB || token->kind == TOKEN_RB ||
            token->kind == TOKEN_SEMICOLON)
            return false;
    }
    return true;
}

/* The first token of this kind or with this trait outside parentheses, from `from` on; the end of
 * the line if there is none. Trait 0 is none. */
static uint32_t find_either(const struct tidy *tidy, const struct tidy_line *line, uint32_t from,
                            int wanted, enum token_trait trait)
{
    uint32_t end = line->first + line->count, parens = 0;
    for (uint32_t at = from; at < end; at++) {
        int kind = tidy->tokens[at].kind;
        if (parens == 0 && (kind == wanted || (trait && token_is(kind, trait))))
            return at;
        parens += kind == TOKEN_LP;
        parens -= kind == TOKEN_RP && parens > 0;
    }
    return end;
}

static uint32_t find(const struct tidy *tidy, const struct tidy_line *line, uint32_t from, int kind)
{
    return find_either(tidy, line, from, kind, 0);
}

static void set(struct tidy_line *line, enum family family)
{
    line->family = (uint8_t)family;
    line->stops_count = 0;
}

static void add_stop(struct tidy_line *line, uint32_t at)
{
    if (at < line->first + line->count)
        line->stops[line->stops_count++] = at;
}

static uint32_t least(uint32_t a, uint32_t b)
{
    return a < b ? a : b;
}

static void find_field(const struct tidy *tidy, struct tidy_line *line)
{
    set(line, FIELDS);
    add_stop(line, line->first + 1);
    uint32_t from = find(tidy, line, line->first + 2, TOKEN_FROM);
    uint32_t tail = least(find(tidy, line, line->first + 2, TOKEN_OPTIONAL),
                          find(tidy, line, line->first + 2, TOKEN_ASSIGN));
    add_stop(line, least(from, tail));
    if (from < tail)
        add_stop(line, tail);
}

/* `then x = y` with one comparison and no operator that binds more loosely. */
static void find_sum(const struct tidy *tidy, struct tidy_line *line)
{
    uint32_t end = line->first + line->count;
    uint32_t sign = find_either(tidy, line, line->first + 1, TOKEN_ASSIGN, CONDITION);
    if (sign == end || tidy->tokens[sign].kind != TOKEN_ASSIGN ||
        find_either(tidy, line, sign + 1, TOKEN_ASSIGN, CONDITION) < end)
        return;
    set(line, SUMS);
    add_stop(line, sign);
}

static void find_in_shop(const struct tidy *tidy, struct tidy_line *line)
{
    enum token_form form = token_traits[tidy->tokens[line->first].kind].form;
    switch (form) {
    case FORM_DEFINITION:
    case FORM_FUNCTION:
    case FORM_UNIT:
    case FORM_TAX:
    case FORM_SHOW:
        set(line, DEFINITIONS);
        add_stop(line, line->first + 1);
        if (form != FORM_TAX && form != FORM_SHOW)
            add_stop(line, find(tidy, line, line->first + 2, TOKEN_ASSIGN));
        break;
    case FORM_EXTRA:
        set(line, BUYER_PAYS);
        add_stop(line, find(tidy, line, line->first + 2, TOKEN_ASSIGN));
        break;
    case FORM_MESSAGE:
        set(line, MESSAGES);
        add_stop(line, line->first + 1);
        add_stop(line, find(tidy, line, line->first + 2, TOKEN_WHEN));
        break;
    default: break;
    }
}

static void find_stops(const struct tidy *tidy, struct tidy_line *line)
{
    if (!is_one_statement(tidy, line))
        return;
    switch (line->block) {
    case TOKEN_PRODUCT: find_field(tidy, line); break;
    case TOKEN_MATERIALS:
        set(line, MATERIALS);
        add_stop(line, line->first + 1);
        add_stop(line, find(tidy, line, line->first + 1, TOKEN_WEIGHS));
        break;
    case TOKEN_TABLE:
    case TOKEN_ROUNDING:
        set(line, ROWS);
        add_stop(line, find(tidy, line, line->first + 1, TOKEN_COLON));
        break;
    case TOKEN_PRICE:
    case TOKEN_GOAL:
        set(line, LINES);
        add_stop(line, line->first + 1);
        break;
    case TOKEN_EXPECT:
        if (tidy->tokens[line->first].kind == TOKEN_THEN) {
            find_sum(tidy, line);
        } else if (tidy->tokens[line->first + 1].kind == TOKEN_ASSIGN) {
            set(line, GIVEN);
            add_stop(line, line->first + 1);
        }
        break;
    default: find_in_shop(tidy, line); break;
    }
}

/* ---- where the columns are ---- */

/* The distance from the line's beginning to the end of the token before a stop; 0 if the line does
 * not count. */
static uint32_t end_before(const struct tidy *tidy, const struct tidy_line *line, unsigned stop)
{
    size_t end = line->first + line->count;
    if (stop < line->stops_count)
        end = line->stops[stop];
    else if (stop > line->stops_count || !families[line->family].ends_count)
        return 0;
    uint32_t column = 0;
    for (size_t at = line->first; at < end && column <= TIDY_CELL_MOST; at++)
        column += (at > line->first ? tidy->tokens[at].gap : 0) + tidy->tokens[at].width;
    return column;
}

/* The index of the line after a run. The line `from` has a family. */
static size_t run_end(const struct tidy *tidy, size_t from)
{
    size_t end = from + 1;
    while (end < tidy->lines_count && tidy->lines[end].blanks == 0 &&
           (tidy->lines[end].count == 0 || tidy->lines[end].family == tidy->lines[from].family))
        end++;
    return end;
}

static void set_column(struct tidy *tidy, size_t from, size_t end, unsigned stop)
{
    uint32_t gap = families[tidy->lines[from].family].gaps[stop], column = 0;
    for (size_t i = from; i < end; i++) {
        uint32_t ends = tidy->lines[i].count > 0 ? end_before(tidy, &tidy->lines[i], stop) : 0;
        if (ends > 0 && ends <= TIDY_CELL_MOST && ends + gap > column)
            column = ends + gap;
    }
    for (size_t i = from; i < end; i++) {
        const struct tidy_line *line = &tidy->lines[i];
        if (line->count == 0 || stop >= line->stops_count)
            continue;
        uint32_t ends = end_before(tidy, line, stop);
        tidy->tokens[line->stops[stop]].gap = ends <= TIDY_CELL_MOST ? column - ends : gap;
    }
}

void tidy_columns(struct tidy *tidy)
{
    for (size_t i = 0; i < tidy->lines_count; i++)
        if (tidy->lines[i].count > 0)
            find_stops(tidy, &tidy->lines[i]);
    for (size_t from = 0, end; from < tidy->lines_count; from = end) {
        end = from + 1;
        if (tidy->lines[from].family == ALONE)
            continue;
        end = run_end(tidy, from);
        for (unsigned stop = 0; stop < TIDY_STOPS; stop++)
            set_column(tidy, from, end, stop);
    }
}

/* ---- comments ---- */

static bool has_comment(const struct tidy_line *line)
{
    return line->count > 0 && line->comment_end > line->comment;
}

/* The end of the lines with the same indent as this one and without a blank line between. */
static size_t block_end(const struct tidy *tidy, size_t from)
{
    size_t end = from + 1;
    while (end < tidy->lines_count && tidy->lines[end].blanks == 0 &&
           (tidy->lines[end].count == 0 || tidy->lines[end].indent == tidy->lines[from].indent))
        end++;
    return end;
}

/* The end of a run of lines that each have a comment. */
static size_t comments_end(const struct tidy *tidy, size_t from, size_t end)
{
    size_t at = from;
    while (at < end && (tidy->lines[at].count == 0 || has_comment(&tidy->lines[at])))
        at++;
    return at > from ? at : from + 1;
}

/* Places a run's comments in the column of its first one, if that leaves two spaces before each.
 * Otherwise leaves them without a place, and `*least` becomes the least column they need. */
static void keep_comments(struct tidy *tidy, size_t from, size_t end, uint32_t *least)
{
    uint32_t needed = 0, first = TIDY_NO_COLUMN;
    for (size_t i = from; i < end; i++) {
        const struct tidy_line *line = &tidy->lines[i];
        if (!has_comment(line) || line->width > TIDY_CODE_MOST)
            continue;
        first = needed == 0 ? line->comment_column : first;
        needed = line->width + 2 > needed ? line->width + 2 : needed;
    }
    bool kept = first >= needed && first <= TIDY_CODE_MOST + 2;
    for (size_t i = from; i < end; i++) {
        struct tidy_line *line = &tidy->lines[i];
        bool fits = line->width <= TIDY_CODE_MOST;
        line->comment_at = !fits ? line->width + 2 : kept ? first : 0;
    }
    *least = !kept && needed > *least ? needed : *least;
}

static void set_comments(struct tidy *tidy, size_t from, size_t end)
{
    uint32_t column = 0;
    for (size_t at = from, next; at < end; at = next) {
        next = comments_end(tidy, at, end);
        keep_comments(tidy, at, next, &column);
    }
    for (size_t i = from; i < end; i++)
        if (tidy->lines[i].comment_at == 0)
            tidy->lines[i].comment_at = column;
}

void tidy_comments(struct tidy *tidy)
{
    for (size_t from = 0, end; from < tidy->lines_count; from = end) {
        end = from + 1;
        if (tidy->lines[from].count == 0)
            continue;
        end = block_end(tidy, from);
        set_comments(tidy, from, end);
    }
}
