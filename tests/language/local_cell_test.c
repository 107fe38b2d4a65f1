/* A sheet as it is written where money stands behind the number and decimals behind a comma: prices
 * as their tags have them, and proposals that can be typed into that same sheet.
 *
 * Amounts are in the currency, and worked out by hand. */
#include "language/reading.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const char local_rules[] = "currency NOK kr\n"
                                  "materials { clay 189 kr per 10 kg }\n"
                                  "product {\n"
                                  "    money_   money            optional\n"
                                  "    number_  number           optional\n"
                                  "    count_   count            optional\n"
                                  "    percent_ percent          optional\n"
                                  "    minutes  time as min      optional\n"
                                  "    grams    mass as g        optional\n"
                                  "    wage     money per time   optional\n"
                                  "    made_on  date             optional\n"
                                  "    uses     parts            optional\n"
                                  "}\n"
                                  "price { set 1 kr }\n";

struct bench {
    groat_method *method;
    groat_record *record;
    groat_scratch *scratch;
};

static int open_bench(void **state)
{
    static struct bench bench;
    bench.method = read_rules(local_rules);
    bench.record = groat_record_new(bench.method);
    bench.scratch = groat_scratch_new(bench.method);
    *state = &bench;
    return bench.record && bench.scratch ? 0 : -1;
}

static int close_bench(void **state)
{
    struct bench *bench = *state;
    groat_record_free(bench->record);
    groat_scratch_free(bench->scratch);
    groat_method_free(bench->method);
    return 0;
}

static groat_status set_cell(struct bench *bench, const char *field, const char *cell, bool comma,
                             groat_trouble *trouble)
{
    const groat_cells cells = {.decimal_comma = comma};
    size_t index = groat_method_find_field(bench->method, field);
    assert_true(index != SIZE_MAX);
    memset(trouble, 0, sizeof *trouble);
    return groat_record_set(bench->record, index, (groat_text){cell, strlen(cell)}, &cells,
                            trouble);
}

/* ---- whole money as on a price tag ---- */

static void assert_money(struct bench *bench, const char *cell, bool comma, const char *decimals)
{
    const groat_order order = {.channel = 0, .quantity = 1};
    groat_trouble trouble;
    char found[64];
    if (set_cell(bench, "money_", cell, comma, &trouble) != GROAT_OK)
        fail_msg("%s: %s", cell, trouble.message);
    assert_int_equal(groat_price(bench->scratch, bench->method, bench->record, &order),
                     GROAT_PRICED);
    groat_value_places(groat_result_named(bench->scratch, "money_"), 2, found, sizeof found);
    if (strcmp(found, decimals) != 0)
        fail_msg("%s is %s, not %s", cell, found, decimals);
}

static void a_dash_stands_for_decimals_that_are_not_there(void **state)
{
    for (int comma = 0; comma <= 1; comma++) {
        assert_money(*state, "320,-", comma, "320.00");
        assert_money(*state, "320.-", comma, "320.00");
        assert_money(*state, "320,- kr", comma, "320.00");
        assert_money(*state, "320,\xE2\x80\x93", comma, "320.00");
        assert_money(*state, "320,-\xC2\xA0kr", comma, "320.00");
        assert_money(*state, "-5,-", comma, "-5.00");
        assert_money(*state, "200,- to 300,- likely 250,-", comma, "250.00");
    }
    assert_money(*state, "1.450,-", true, "1450.00");
    assert_money(*state, "1,450.-", false, "1450.00");
}

static void a_comma_may_begin_decimals_but_is_no_number_alone(void **state)
{
    groat_trouble trouble;
    assert_money(*state, ",99", true, "0.99");
    assert_money(*state, "-,5", true, "-0.50");
    assert_int_equal(set_cell(*state, "money_", ",", true, &trouble), GROAT_BAD_VALUE);
    assert_int_equal(set_cell(*state, "money_", "5 ,", true, &trouble), GROAT_BAD_VALUE);
    assert_int_equal(set_cell(*state, "money_", ",99", false, &trouble), GROAT_BAD_VALUE);
}

static void such_a_dash_is_nothing_else(void **state)
{
    static const struct {
        const char *field, *cell;
    } cases[] = {{"money_", "320,-5"},  {"money_", "320,50,-"}, {"money_", ",-"},
                 {"money_", "320,--"},  {"number_", "320,-"},   {"count_", "3,-"},
                 {"minutes", "20,-"},   {"grams", "20.-"},      {"percent_", "5,-%"},
                 {"uses", "clay 3,-"},  {"money_", "320 ,-"},   {"made_on", "2027,-"},
                 {"money_", "20,-30,-"}};
    for (int comma = 0; comma <= 1; comma++) {
        for (size_t i = 0; i < COUNT(cases); i++) {
            groat_trouble trouble;
            if (set_cell(*state, cases[i].field, cases[i].cell, comma, &trouble) != GROAT_BAD_VALUE)
                fail_msg("%s of %s is read", cases[i].cell, cases[i].field);
        }
    }
}

/* ---- what is tried ---- */

struct tried_case {
    const char *field, *cell, *help;
};

/* What is tried, after `for example` or as it stands, is read in the same sheet. */
static void assert_tried(struct bench *bench, bool comma, const struct tried_case *cases,
                         size_t count)
{
    for (size_t i = 0; i < count; i++) {
        groat_trouble trouble, again;
        if (set_cell(bench, cases[i].field, cases[i].cell, comma, &trouble) != GROAT_BAD_VALUE)
            fail_msg("%s of %s is read", cases[i].cell, cases[i].field);
        if (strcmp(tried(&trouble), cases[i].help) != 0)
            fail_msg("%s of %s: Try: %s, not %s", cases[i].cell, cases[i].field, tried(&trouble),
                     cases[i].help);
        if (trouble.help_kind != GROAT_HELP_EXAMPLE && trouble.help_kind != GROAT_HELP_VALUE)
            fail_msg("%s of %s: %s is no value", cases[i].cell, cases[i].field, trouble.help);
        if (set_cell(bench, cases[i].field, trouble.help, comma, &again) != GROAT_OK)
            fail_msg("%s of %s: %s: %s", cases[i].cell, cases[i].field, trouble.help,
                     again.message);
    }
}

static void what_is_tried_is_written_as_the_sheet_is(void **state)
{
    static const struct tried_case cases[] = {
        {"money_", "dyrt", "for example 3,20"},
        {"money_", "2 to", "for example 4 to 6 likely 4,50"},
        {"money_", "3 kr to 2,5 kr", "2,5 kr to 3 kr"},
        {"grams", "2,5 to 3 kg likely 1,5 kg", "2,5 to 3 kg"},
        {"grams", "1,5 kg - 2,5 kg", "1,5 kg to 2,5 kg"},
        {"number_", "many", "for example 12,50"},
        {"made_on", "soon", "for example 2027-01-31"},
    };
    assert_tried(*state, true, cases, COUNT(cases));
}

static void what_is_tried_without_a_decimal_comma_has_a_point(void **state)
{
    static const struct tried_case cases[] = {
        {"money_", "dyrt", "for example 3.20"},
        {"grams", "2.5 to 3 kg likely 1.5 kg", "2.5 to 3 kg"},
    };
    assert_tried(*state, false, cases, COUNT(cases));
}

static void a_number_between_words_is_what_is_tried(void **state)
{
    static const struct tried_case cases[] = {
        {"money_", "ca 320", "320"},
        {"money_", "ca. 320,50", "320,50"},
        {"money_", "Ca. 320 kr", "320 kr"},
        {"money_", "about 320", "320"},
        {"money_", "~320", "320"},
        {"money_", "\xE2\x89\x88 320", "320"},
        {"money_", "ca 320,-", "320,-"},
        {"money_", "circa kr. 320", "320 kr"},
        {"money_", "kr. 650", "650 kr"},
        {"money_", "Kr 650,50", "650,50 kr"},
        {"money_", "650 kr.", "650 kr"},
        {"money_", "650,- kr.", "650 kr"},
        {"money_", "kr. 650,-", "650 kr"},
        {"money_", "650,50 kroner", "650,50 kr"},
        {"money_", "1.450,50 kr.", "1.450,50 kr"},
        {"count_", "ca. 40", "40"},
        {"minutes", "ca 9", "9"},
        {"minutes", "ca 1,5 h", "1,5 h"},
        {"grams", "ca. 2,5 kilo", "2,5 kg"},
        {"percent_", "ca 8", "8%"},
        {"wage", "ca 310,50 kr/h", "310,50 kr per h"},
        {"money_", "ca", "for example 3,20"},
        {"money_", "can 320", "for example 3,20"},
        {"money_", "650 kr. each", "650 kr each"},
    };
    assert_tried(*state, true, cases, COUNT(cases));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_dash_stands_for_decimals_that_are_not_there),
        cmocka_unit_test(a_comma_may_begin_decimals_but_is_no_number_alone),
        cmocka_unit_test(such_a_dash_is_nothing_else),
        cmocka_unit_test(what_is_tried_is_written_as_the_sheet_is),
        cmocka_unit_test(what_is_tried_without_a_decimal_comma_has_a_point),
        cmocka_unit_test(a_number_between_words_is_what_is_tried),
    };
    return cmocka_run_group_tests_name("local cells", tests, open_bench, close_bench);
}
