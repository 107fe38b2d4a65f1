/* Amounts of a text in another currency. The expected texts are written by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "command/tender.h"

static void assert_written(struct tender tender, const char *text, const char *expected)
{
    struct bytes out = {0};
    tender_write(&tender, &out, text);
    bytes_char(&out, '\0');
    assert_false(out.failed);
    assert_string_equal(out.start, expected);
    bytes_free(&out);
}

static const struct tender dollar = {"USD", "$", 2}, krona = {"SEK", "kr", 2},
                           euro = {"EUR", "€", 2}, yen = {"JPY", "¥", 0}, dinar = {"KWD", "KWD", 3},
                           guarani = {"PYG", "PYG", 0};

static void a_text_in_dollars_stays_as_it_is(void **state)
{
    (void)state;
    static const char text[] =
        "currency USD $\nrate a = $4.20 per h # $1_980.\nends in .49 or 9.95\n";
    assert_written(dollar, text, text);
}

static void a_sign_comes_before_the_number_and_a_word_after_it(void **state)
{
    (void)state;
    assert_written(euro, "rate a = $4.20 per h", "rate a = €4.20 per h");
    assert_written(krona, "rate a = $4.20 per h", "rate a = 4.20 kr per h");
    assert_written(krona, "(-$26)", "(-26 kr)");
    assert_written(dinar, "Mug,$4.20,5", "Mug,4.20 KWD,5");
}

static void the_point_of_a_sentence_is_not_of_the_number(void **state)
{
    (void)state;
    assert_written(krona, "it costs $4.", "it costs 4 kr.");
    assert_written(yen, "it costs $4.", "it costs ¥400.");
}

static void the_currency_is_named_with_the_sign_that_it_has(void **state)
{
    (void)state;
    assert_written(krona, "currency USD $\nshow a as USD per h",
                   "currency SEK kr\nshow a as SEK per h");
    assert_written(dinar, "currency USD $\nshow a as USD per h",
                   "currency KWD\nshow a as KWD per h");
}

static void without_decimals_the_smallest_units_stay_the_same(void **state)
{
    (void)state;
    assert_written(yen, "$4.20 $22 $0.05 $0.5 $0 $10.00 $1_980",
                   "¥420 ¥2200 ¥5 ¥50 ¥0 ¥1000 ¥198000");
    assert_written(yen, "$0.997 per kWh, $1.9945", "¥99.7 per kWh, ¥199.45");
    assert_written(yen, "a number 4.20 and $ alone", "a number 4.20 and $ alone");
    assert_written(guarani, "$.99", "99 PYG");
}

static void the_endings_of_a_ladder_follow(void **state)
{
    (void)state;
    assert_written(yen, "ends in .49 or .99", "ends in 49 or 99");
    assert_written(yen, "ends in 4 or 9   # or so", "ends in 400 or 900   # or so");
    assert_written(yen, "ends in 4.95 or 9.95 or not", "ends in 495 or 995 or not");
    assert_written(krona, "ends in .49 or .99", "ends in .49 or .99");
    assert_written(yen, "it ends in tears", "it ends in tears");
}

static void a_currency_is_read_in_capitals_or_not(void **state)
{
    (void)state;
    struct tender tender;
    assert_true(tender_read(&tender, "sek"));
    assert_string_equal(tender.code, "SEK");
    assert_string_equal(tender.sign, "kr");
    assert_int_equal(tender.decimals, 2);
    assert_true(tender_read(&tender, "KWD"));
    assert_string_equal(tender.sign, "KWD");
    assert_int_equal(tender.decimals, 3);
    static const char *const wrong[] = {"",    "E", "EU",  "EURO",        "EUX",
                                        "XAU", "€", "E R", "euros of old"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_false(tender_read(&tender, wrong[i]));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_text_in_dollars_stays_as_it_is),
        cmocka_unit_test(a_sign_comes_before_the_number_and_a_word_after_it),
        cmocka_unit_test(the_point_of_a_sentence_is_not_of_the_number),
        cmocka_unit_test(the_currency_is_named_with_the_sign_that_it_has),
        cmocka_unit_test(without_decimals_the_smallest_units_stay_the_same),
        cmocka_unit_test(the_endings_of_a_ladder_follow),
        cmocka_unit_test(a_currency_is_read_in_capitals_or_not),
    };
    return cmocka_run_group_tests_name("amounts in another currency", tests, NULL, NULL);
}
