/* The units that rates, fields, shows and figures are written in. */
#include "language/reading.h"

static const char *const rules[] = {
    "currency USD $\n",
    "currency DKK kr\n",
};

static const char rest[] = "unit sheet\n"
                           "product { bench time as min; stuff money; used sheet; share percent;\n"
                           "    pieces count; finish text; weight mass optional }\n"
                           "rate hourly = 24 USD per h\n"
                           "rate offcuts = 15%\n"
                           "rate press = 90 min\n"
                           "rate upper = 7\n"
                           "rate box = 3 USD\n"
                           "cost work = bench * hourly * (1 + offcuts) + stuff + box\n"
                           "price { set cost * upper }\n"
                           "show earned as USD per h = take_home / bench\n"
                           "show spent as h = bench\n"
                           "show box\n";

static groat_method *read_in(const char *code, const char *currency)
{
    char text[1024];
    size_t length = 0;
    length += (size_t)snprintf(text, sizeof text, "%s", currency);
    for (const char *at = rest; *at; at++) {
        bool here = strncmp(at, "USD", 3) == 0;
        length += (size_t)snprintf(text + length, sizeof text - length, "%.*s", here ? 3 : 1,
                                   here ? code : at);
        at += here ? 2 : 0;
    }
    return read_rules(text);
}

static void assert_unit(groat_unit unit, groat_unit_kind kind, const char *written, int64_t top,
                        int64_t bottom)
{
    char text[200];
    snprintf(text, sizeof text, "%s5%s", unit.before, unit.after);
    assert_string_equal(text, written);
    assert_int_equal(unit.kind, kind);
    assert_int_equal(unit.top, top);
    assert_int_equal(unit.bottom, bottom);
}

static void a_rate_is_in_the_unit_that_the_rules_write(void **state)
{
    (void)state;
    groat_method *method = read_in("USD", rules[0]);
#define RATE(name) groat_method_rate_unit(method, rate_of(method, name))
    assert_unit(RATE("hourly"), GROAT_UNIT_MONEY_PER, "$5 per h", 1, 3600);
    assert_string_equal(RATE("hourly").text, "per h");
    assert_unit(RATE("offcuts"), GROAT_UNIT_PERCENT, "5%", 1, 100);
    assert_unit(RATE("press"), GROAT_UNIT_MEASURE, "5 min", 60, 1);
    assert_unit(RATE("upper"), GROAT_UNIT_NONE, "5", 1, 1);
    assert_unit(RATE("box"), GROAT_UNIT_MONEY, "$5", 1, 1);
    assert_string_equal(RATE("box").text, "USD");
    assert_unit(groat_method_rate_unit(method, SIZE_MAX), GROAT_UNIT_NONE, "5", 1, 1);
    groat_method_free(method);
}

static void a_sign_that_is_a_word_stands_behind_the_amount(void **state)
{
    (void)state;
    groat_method *method = read_in("DKK", rules[1]);
    assert_unit(RATE("hourly"), GROAT_UNIT_MONEY_PER, "5 kr per h", 1, 3600);
    assert_unit(RATE("box"), GROAT_UNIT_MONEY, "5 kr", 1, 1);
    groat_method_free(method);
}

static void a_field_is_in_the_unit_of_its_bare_numbers_or_one_of_the_shop(void **state)
{
    (void)state;
    groat_method *method = read_in("USD", rules[0]);
#define FIELD(name) groat_method_field_unit(method, groat_method_find_field(method, name))
    assert_unit(FIELD("bench"), GROAT_UNIT_MEASURE, "5 min", 60, 1);
    assert_unit(FIELD("stuff"), GROAT_UNIT_MONEY, "$5", 1, 1);
    assert_unit(FIELD("used"), GROAT_UNIT_MEASURE, "5 sheet", 1, 1);
    assert_unit(FIELD("share"), GROAT_UNIT_PERCENT, "5%", 1, 100);
    assert_unit(FIELD("pieces"), GROAT_UNIT_NONE, "5", 1, 1);
    assert_unit(FIELD("finish"), GROAT_UNIT_NONE, "5", 1, 1);
    assert_unit(FIELD("weight"), GROAT_UNIT_MEASURE, "5 g", 1, 1);
    groat_method_free(method);
}

static void a_show_and_a_figure_tell_their_units(void **state)
{
    (void)state;
    groat_method *method = read_in("USD", rules[0]);
    assert_unit(groat_method_show_unit(method, 0), GROAT_UNIT_MONEY_PER, "$5 per h", 1, 3600);
    assert_unit(groat_method_show_unit(method, 1), GROAT_UNIT_MEASURE, "5 h", 3600, 1);
    assert_unit(groat_method_show_unit(method, 2), GROAT_UNIT_MONEY, "$5", 1, 1);
    assert_string_equal(groat_method_show(method, 0).per, "per h");
    assert_null(groat_method_show(method, 1).per);
    assert_unit(groat_figure_unit(method, GROAT_PRICE), GROAT_UNIT_MONEY, "$5", 1, 1);
    assert_unit(groat_figure_unit(method, GROAT_MARGIN), GROAT_UNIT_PERCENT, "5%", 1, 100);
    groat_method_free(method);
}

static void the_unit_of_a_literal_is_read_off_it(void **state)
{
    (void)state;
    groat_method *method = read_in("USD", rules[0]);
    groat_unit unit;
    assert_int_equal(groat_unit_read(method, "$0.30 per min", &unit), GROAT_OK);
    assert_unit(unit, GROAT_UNIT_MONEY_PER, "$5 per min", 1, 60);
    assert_int_equal(groat_unit_read(method, "-2.5 kg", &unit), GROAT_OK);
    assert_unit(unit, GROAT_UNIT_MEASURE, "5 kg", 1000, 1);
    assert_int_equal(groat_unit_read(method, "15%", &unit), GROAT_OK);
    assert_unit(unit, GROAT_UNIT_PERCENT, "5%", 1, 100);
    assert_int_equal(groat_unit_read(method, "12", &unit), GROAT_OK);
    assert_unit(unit, GROAT_UNIT_NONE, "5", 1, 1);
    static const char *const none[] = {"1 h 20 min", "-10%", "+10%", "soon", "", "2 xyzzy"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++)
        if (groat_unit_read(method, none[i], &unit) != GROAT_BAD_VALUE)
            fail_msg("%s has the unit %s", none[i], unit.text);
    groat_method_free(method);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_rate_is_in_the_unit_that_the_rules_write),
        cmocka_unit_test(a_sign_that_is_a_word_stands_behind_the_amount),
        cmocka_unit_test(a_field_is_in_the_unit_of_its_bare_numbers_or_one_of_the_shop),
        cmocka_unit_test(a_show_and_a_figure_tell_their_units),
        cmocka_unit_test(the_unit_of_a_literal_is_read_off_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
