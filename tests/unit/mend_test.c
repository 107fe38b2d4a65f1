/* The pieces of a line, the phrases that people use, and the words of the language as mending knows
 * them. What is proposed as a whole is seen in tests/command/mend.md. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "mend/phrases.h"
#include "token.h"

static struct pieces pieces_of(const char *text, size_t place)
{
    return pieces_at(text, strlen(text), 0, place);
}

/* What all phrases that stand in the text make of it; the first. */
static const char *made_of(const char *text, const char *pattern)
{
    static char made[200];
    struct pieces pieces = pieces_of(text, 0);
    size_t from, to;
    for (size_t i = 0; i < phrases_count; i++)
        for (size_t at = 0; at < pieces.count; at++)
            if (strcmp(phrases[i].pattern, pattern) == 0 &&
                phrase_at(&phrases[i], &pieces, at, "\xC2\xA3", made, sizeof made, &from, &to))
                return made;
    return "nothing";
}

static void a_statement_is_parted_into_words_numbers_texts_and_signs(void **state)
{
    (void)state;
    static const struct {
        size_t start, end;
        enum piece_kind kind;
    } wanted[] = {{2, 5, PIECE_WORD},     {6, 10, PIECE_WORD},  {11, 12, PIECE_SIGN},
                  {13, 17, PIECE_SHARE},  {18, 20, PIECE_SIGN}, {21, 23, PIECE_SIGN},
                  {23, 27, PIECE_NUMBER}, {28, 32, PIECE_TEXT}};
    struct pieces pieces = pieces_of("  fee card = 2.4% >= \xC2\xA3"
                                     "0.25 \"so\" # why",
                                     0);
    assert_int_equal(pieces.count, sizeof wanted / sizeof *wanted);
    for (size_t i = 0; i < pieces.count; i++) {
        assert_int_equal(pieces.items[i].start, wanted[i].start);
        assert_int_equal(pieces.items[i].end, wanted[i].end);
        assert_int_equal(pieces.items[i].kind, wanted[i].kind);
    }
}

static void only_the_statement_at_the_place_is_looked_at(void **state)
{
    (void)state;
    const char *text = "price { aim profit; round up to $1 }";
    struct pieces pieces = pieces_of(text, 20);
    assert_int_equal(pieces.start, 20);
    assert_int_equal(pieces.end, 34);
    pieces = pieces_of(text, 0);
    assert_int_equal(pieces.end, 5);
    assert_true(pieces.opens);
}

static void a_quote_that_is_not_closed_is_a_sign(void **state)
{
    (void)state;
    struct pieces pieces = pieces_of("wide = 44\"\nlet a = \"b\"", 0);
    assert_int_equal(pieces.count, 4);
    assert_int_equal(pieces.items[3].kind, PIECE_SIGN);
}

static void phrases_keep_what_stands_in_their_slots(void **state)
{
    (void)state;
    assert_string_equal(made_of("aim 25%", "^ aim SHARE"), "aim margin >= 25%");
    assert_string_equal(made_of("a : 500 g - 2 kg", "AMOUNT - AMOUNT"), "500 g to 2 kg");
    assert_string_equal(made_of("44 1/2\"", "NUMBER NUMBER / NUMBER \""), "44-1/2 in");
    assert_string_equal(made_of("w length as in = 3/4", "as NAME = NUMBER / NUMBER"),
                        "as in = 3/4 in");
    assert_string_equal(made_of("rate a = 5 pounds", "NUMBER pounds"), "\xC2\xA3"
                                                                       "5");
    assert_string_equal(made_of("commission 50%", "^ aim SHARE"), "nothing");
}

static bool is_slot(const char *word)
{
    static const char *const slots[] = {"NAME", "NUMBER", "SHARE", "REST", "AMOUNT"};
    for (size_t i = 0; i < sizeof slots / sizeof *slots; i++)
        if (strcmp(slots[i], word) == 0)
            return true;
    return false;
}

/* A slot that stands only in what is written instead would be written as its own name. */
static void each_slot_of_a_phrase_is_found_before_it_is_written(void **state)
{
    (void)state;
    for (size_t i = 0; i < phrases_count; i++) {
        char words[200];
        snprintf(words, sizeof words, "%s", phrases[i].instead);
        for (const char *word = strtok(words, " ~"); word; word = strtok(NULL, " ~"))
            if (is_slot(word) && !strstr(phrases[i].pattern, word))
                fail_msg("%s: %s is nowhere in it", phrases[i].pattern, word);
    }
}

static bool is_known(const char *word)
{
    for (size_t i = 0; i < phrases_words_count; i++)
        if (strcmp(phrases_words[i], word) == 0)
            return true;
    return false;
}

static void each_word_of_the_language_is_known(void **state)
{
    (void)state;
    for (int kind = 0; kind < TOKENS_COUNT; kind++) {
        char words[64];
        snprintf(words, sizeof words, "%s",
                 token_traits[kind].spelling ? token_traits[kind].spelling : "");
        for (const char *word = strtok(words, " "); word; word = strtok(NULL, " "))
            if (word[0] >= 'a' && word[0] <= 'z' && !is_known(word))
                fail_msg("%s is not in the list of phrases.c", word);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_statement_is_parted_into_words_numbers_texts_and_signs),
        cmocka_unit_test(only_the_statement_at_the_place_is_looked_at),
        cmocka_unit_test(a_quote_that_is_not_closed_is_a_sign),
        cmocka_unit_test(phrases_keep_what_stands_in_their_slots),
        cmocka_unit_test(each_slot_of_a_phrase_is_found_before_it_is_written),
        cmocka_unit_test(each_word_of_the_language_is_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
