#include "parse.h"

#include <stdint.h>
#include <string.h>

#include "build.h"
#include "lexer.h"
#include "parser.h"
#include "token.h"

size_t parse_room(void)
{
    return parser_size();
}

/* Skips a block whose head was wrong, so that its lines are not read as lines of the shop. */
static size_t skip_block(struct token_list tokens, size_t at)
{
    size_t open = 0;
    for (; at < tokens.count && tokens.items[at].kind != TOKEN_END; at++) {
        if (tokens.items[at].kind == TOKEN_LB)
            open++;
        if (tokens.items[at].kind == TOKEN_RB && --open == 0)
            return at + 1;
    }
    return at;
}

static struct build read_as(const struct parse *parse, int begin)
{
    struct build build = {.arena = parse->arena,
                          .source = parse->source,
                          .diagnostics = parse->diagnostics,
                          .depth_most = parse->depth_most};
    struct token_list tokens =
        lexer_read(parse->arena, parse->source, parse->diagnostics, begin == TOKEN_BEGIN_PARTS);
    tokens = layout_read(parse->arena, parse->source, tokens, parse->diagnostics);
    parser_begin(parse->room, &build);
    if (begin)
        parser_feed(parse->room, begin, (struct span){parse->source, 0, 0});
    for (size_t at = 0; at < tokens.count;) {
        struct token token = tokens.items[at];
        if (build.recovering && token.kind == TOKEN_LB) {
            at = skip_block(tokens, at);
            continue;
        }
        struct span span = {parse->source, token.start, token.end};
        bool before = build.recovering;
        build.token = span;
        parser_feed(parse->room, token.kind, span);
        if (build.gave_up || diagnostics_full(parse->diagnostics))
            break;
        if (!before && build.recovering && token.kind == TOKEN_LB) {
            at = skip_block(tokens, at);
            continue;
        }
        at++;
        build_open(&build, token.kind);
        if (token.kind == TOKEN_NL) {
            build.recovering = false;
        } else {
            build.last = span;
            build.last_kind = token.kind;
        }
        /* Feeds an empty line after each line and at the beginning of each block, so that the
         * parser finishes the statement or begins the block before an error in the next line could
         * undo it. */
        if (!begin && (token.kind == TOKEN_NL || token.kind == TOKEN_LB))
            parser_feed(parse->room, TOKEN_NL, span);
    }
    parser_end(parse->room);
    return build;
}

struct statement *parse_file(const struct parse *parse, bool *lost)
{
    struct build build = read_as(parse, 0);
    *lost = *lost || build.lost;
    return build.statements;
}

struct expression *parse_value(const struct parse *parse)
{
    return read_as(parse, TOKEN_BEGIN_VALUE).value;
}

struct tree_part *parse_parts(const struct parse *parse)
{
    return read_as(parse, TOKEN_BEGIN_PARTS).parts;
}
