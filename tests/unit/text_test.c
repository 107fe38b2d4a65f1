/* Texts by whole characters, near words, and where the sign of a currency stands. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "text/money.h"
#include "text/near.h"
#include "text/utf8.h"

static void a_text_is_cut_before_the_character_that_does_not_fit(void **state)
{
    static const struct {
        const char *text;
        size_t most, kept;
    } cuts[] = {
        {"abc", 2, 2},
        {"abc", 3, 3},
        {"abc", 9, 3},
        {"\xC3\xA5lv", 1, 0},
        {"\xC3\xA5lv", 2, 2},
        {"a\xE2\x82\xAC", 3, 1},
        {"a\xE2\x82\xAC", 4, 4},
        {"\xF0\x9F\xAA\xB5x", 3, 0},
        {"", 0, 0},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cuts / sizeof *cuts; i++)
        assert_int_equal(text_cut(cuts[i].text, strlen(cuts[i].text), cuts[i].most), cuts[i].kept);
}

/* The forms that RFC 3629 forbids, each with a byte before it. */
static void bytes_that_are_no_utf8_are_found_where_they_stand(void **state)
{
    static const char *const bad[] = {
        "a\x80",             /* nothing begins it */
        "a\xC3",             /* cut off */
        "a\xC0\xAF",         /* overlong */
        "a\xE0\x80\xAF",     /* overlong */
        "a\xF0\x80\x80\xAF", /* overlong */
        "a\xED\xA0\x80",     /* a surrogate */
        "a\xF4\x90\x80\x80", /* above U+10FFFF */
        "a\xE2\x82x",        /* the third byte is a letter */
        "a\xFF",
    };
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        assert_int_equal(text_bad_byte(bad[i], strlen(bad[i])), 1);
    const char *good = "a\xC2\x80\xE0\xA0\x80\xEF\xBF\xBF\xF4\x8F\xBF\xBF";
    assert_int_equal(text_bad_byte(good, strlen(good)), strlen(good));
    assert_int_equal(text_characters(good, strlen(good)), 5);
}

static void a_message_that_is_too_long_ends_at_a_whole_character(void **state)
{
    char buffer[5];
    (void)state;
    text_write(buffer, sizeof buffer, "ab%s", "\xE2\x82\xAC");
    assert_string_equal(buffer, "ab");
    text_write(buffer, sizeof buffer, "a%s", "\xE2\x82\xAC");
    assert_string_equal(buffer, "a\xE2\x82\xAC");
    text_write(buffer, sizeof buffer, "%s", "abcdefg");
    assert_string_equal(buffer, "abcd");
}

static void characters_that_steer_a_terminal_are_told_from_others(void **state)
{
    (void)state;
    assert_int_equal(text_control("\x1B[", 2), 1);
    assert_int_equal(text_control("\x7F", 1), 1);
    assert_int_equal(text_control("\xC2\x9B", 2), 2); /* U+009B begins a sequence too */
    assert_int_equal(text_control("\xC2\xA0", 2), 0);
    assert_int_equal(text_control("\xC2", 1), 0);
    assert_int_equal(text_control(" ", 1), 0);
    assert_int_equal(text_control("", 0), 0);
}

static const char *nearest(const char *wanted, const char *const *words, size_t count)
{
    struct near near = near_to(wanted, strlen(wanted));
    for (size_t i = 0; i < count; i++)
        near_offer(&near, words[i]);
    return near.best;
}

static void the_nearest_word_is_proposed_whatever_its_capitals(void **state)
{
    static const char *const words[] = {"margin", "hourly", "wood"};
    (void)state;
    assert_string_equal(nearest("hourley", words, 3), "hourly");
    assert_string_equal(nearest("horuly", words, 3), "hourly"); /* neighbours swapped */
    assert_string_equal(nearest("HOURLY", words, 3), "hourly");
    assert_string_equal(nearest("wod", words, 3), "wood");
}

static void a_word_that_is_too_far_from_all_is_near_none(void **state)
{
    static const char *const words[] = {"margin", "hourly", "wood"};
    (void)state;
    assert_null(nearest("kiln", words, 3));
    assert_null(nearest("w", words, 3)); /* a single letter is near everything */
}

static void the_first_of_two_words_that_are_as_near_is_proposed(void **state)
{
    static const char *const words[] = {"rates", "rated"};
    (void)state;
    assert_string_equal(nearest("ratex", words, 2), "rates");
}

static void a_sign_of_money_stands_before_its_amount_and_a_word_behind_it(void **state)
{
    static const struct {
        const char *sign, *digits, *written;
    } amounts[] = {
        {"$", "12.50", "$12.50"},
        {"R$", "12.50", "R$12.50"},
        {"\xE2\x82\xAC", "45",
         "\xE2\x82\xAC"
         "45"},
        {"\xC2\xA3", "-4.50",
         "-\xC2\xA3"
         "4.50"},
        {"kr", "80.00", "80.00 kr"},
        {"kr", "-80.00", "-80.00 kr"},
        {"USD", "45", "45 USD"},
        {"z\xC5\x82", "45", "45 z\xC5\x82"},
        {"\xD1\x80\xD1\x83\xD0\xB1", "45", "45 \xD1\x80\xD1\x83\xD0\xB1"},
    };
    char text[64];
    (void)state;
    for (size_t i = 0; i < sizeof amounts / sizeof *amounts; i++) {
        size_t length = text_money(text, sizeof text, amounts[i].sign, amounts[i].digits);
        assert_string_equal(text, amounts[i].written);
        assert_int_equal(length, strlen(amounts[i].written));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_text_is_cut_before_the_character_that_does_not_fit),
        cmocka_unit_test(bytes_that_are_no_utf8_are_found_where_they_stand),
        cmocka_unit_test(a_message_that_is_too_long_ends_at_a_whole_character),
        cmocka_unit_test(characters_that_steer_a_terminal_are_told_from_others),
        cmocka_unit_test(the_nearest_word_is_proposed_whatever_its_capitals),
        cmocka_unit_test(a_word_that_is_too_far_from_all_is_near_none),
        cmocka_unit_test(the_first_of_two_words_that_are_as_near_is_proposed),
        cmocka_unit_test(a_sign_of_money_stands_before_its_amount_and_a_word_behind_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
