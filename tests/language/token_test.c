/* The list of tokens against the lexer, so that neither can change without the other. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "lexer.h"
#include "memory/memory.h"
#include "token.h"

/* What the lexer makes of a text that is one token. */
static int kind_read(const char *text)
{
    struct memory memory = memory_standard();
    struct arena arena;
    arena_open(&arena, &memory);
    struct diagnostics said = {.arena = &arena};
    const struct source *source = source_new(&arena, "token", text, strlen(text));
    struct token_list tokens = lexer_read(&arena, source, &said, false);
    assert_int_equal(said.errors, 0);
    assert_int_equal(tokens.count, 2);
    assert_int_equal(tokens.items[0].start, 0);
    assert_int_equal(tokens.items[0].end, strlen(text));
    assert_int_equal(tokens.items[1].kind, TOKEN_END);
    int kind = tokens.items[0].kind;
    arena_close(&arena);
    return kind;
}

static void each_token_is_read_as_the_list_spells_it(void **state)
{
    (void)state;
    for (int kind = 0; kind < TOKENS_COUNT; kind++) {
        const char *spelling = token_traits[kind].spelling;
        if (spelling && kind_read(spelling) != kind)
            fail_msg("`%s` is read as token %d and listed as %d", spelling, kind_read(spelling),
                     kind);
    }
}

static void a_token_without_a_spelling_is_a_class(void **state)
{
    (void)state;
    static const struct {
        int kind;
        const char *text;
    } classes[] = {{TOKEN_NAME, "beeswax"},     {TOKEN_NUMBER, "4.50"},
                   {TOKEN_PERCENT, "15%"},      {TOKEN_TEXT, "\"a jar\""},
                   {TOKEN_DATE, "2027-01-31"},  {TOKEN_SYMBOL, "$"},
                   {TOKEN_SYMBOL, "z\xC5\x82"}, {TOKEN_NL, "\n"}};
    /* These are read by more than their own text: the end, two that no text has, and `3/4 m`. */
    bool found[TOKENS_COUNT] = {[TOKEN_END] = true,
                                [TOKEN_BEGIN_VALUE] = true,
                                [TOKEN_BEGIN_PARTS] = true,
                                [TOKEN_FRACTION] = true};
    for (size_t i = 0; i < sizeof classes / sizeof *classes; i++) {
        assert_int_equal(kind_read(classes[i].text), classes[i].kind);
        found[classes[i].kind] = true;
    }
    for (int kind = 0; kind < TOKENS_COUNT; kind++)
        assert_int_equal(token_traits[kind].spelling == NULL, found[kind]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_token_is_read_as_the_list_spells_it),
        cmocka_unit_test(a_token_without_a_spelling_is_a_class),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
