/* Slips that hostile reading found, each once. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/rules_text.h"
#include "text/utf8.h"

#define SHOP "currency USD $\nprice { set $5 }\n"

static void a_show_of_a_name_alone_stands_in_a_shop_of_many_names(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, SHOP "let boards = 3\nshow boards\n");
    for (int i = 0; i < 200; i++)
        text_append(&rules, "cost line%d = $%d\n", i, i);
    groat_method *method = read_right(rules.start);
    assert_non_null(method);
    groat_method_free(method);
    text_free(&rules);
}

static void a_table_of_thousands_of_figures_is_read(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, SHOP "table t by quantity {\n");
    for (int i = 1; i < 3000; i++)
        text_append(&rules, "up to %d : $%d.37\n", i, i);
    text_append(&rules, "otherwise : $1\n}\ncost c = t\n");
    groat_method *method = read_right(rules.start);
    assert_non_null(method);
    groat_method_free(method);
    text_free(&rules);
}

static void a_date_each_is_no_date(void **state)
{
    (void)state;
    assert_true(refused_with(SHOP "expect \"x\" { as_of = 2027-01-31 each; then price = $5 }\n",
                             NULL, "a value given in an expect must be a literal"));
}

static void a_date_is_written_with_all_its_digits_and_nothing_else(void **state)
{
    (void)state;
    static const char *const wrong[] = {"",           "2027-1-31",  "+202-01-31",  " 202-01-31",
                                        "2027-+1-31", "2027-01- 1", "2027-01-31 ", "2027-01-3",
                                        "-027-01-31", "2027-02-29", "2027/01/31",  "2027-01-310"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_false(groat_date_valid(wrong[i]));
    assert_true(groat_date_valid("2027-01-31"));
    assert_true(groat_date_valid("2028-02-29"));
    assert_true(groat_date_valid("0000-12-31"));
}

static void endings_stay_within_a_machine_word(void **state)
{
    (void)state;
    assert_true(
        refused_with("currency USD $\nrounding r { otherwise : ends in 99999999999999999 }\n"
                     "price { set $5; round to r }\n",
                     NULL, "an ending may have at most 12 digits"));
    groat_method *method =
        read_right("currency UYW\nrounding r { otherwise : ends in 9999999.9999 }\n"
                   "price { set 5 UYW; round to r }\n");
    assert_non_null(method);
    groat_method_free(method);
}

/* One record priced at quantity 1; its reason, or its price. */
static void price_one(const char *rules, const char *field, const char *cell, char *said,
                      size_t size)
{
    groat_method *method = read_right(rules);
    assert_non_null(method);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_trouble trouble;
    if (field)
        assert_int_equal(set_cell(record, method, field, cell, &trouble), GROAT_OK);
    groat_order order = {.channel = 0, .quantity = 1};
    if (groat_price(scratch, method, record, &order) == GROAT_PRICED)
        groat_value_write(groat_result_figure(scratch, GROAT_PRICE), 2, said, size);
    else
        snprintf(said, size, "%s", groat_result_reason(scratch));
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
}

/* The key's text must not be read as a number, nor an empty one as a place in memory. */
static void a_key_that_no_row_tells_the_kind_of_is_left_out_of_the_reason(void **state)
{
    (void)state;
    char said[600];
    static const char rules[] = SHOP "product { label text = \"\"\n size number = 1 }\n"
                                     "table t by label, size { any, 5 : $1\n any, 6 : $2 }\n"
                                     "cost c = t\n";
    price_one(rules, NULL, NULL, said, sizeof said);
    assert_non_null(strstr(said, "the table t has no row for this key and its other keys"));
    price_one(rules, "label", "long enough", said, sizeof said);
    assert_non_null(strstr(said, "the table t has no row for this key and its other keys"));
}

/* Its number lies where the next trial's numbers are put. */
static void a_key_that_is_tried_is_left_out_of_the_reason(void **state)
{
    (void)state;
    char said[600];
    price_one("currency USD $\nprice { aim profit >= $500 }\n"
              "table t by price * 0.33333333333333333333333333333333333333 {\n"
              "up to $1 : $1\n}\nfee f = t\n",
              NULL, NULL, said, sizeof said);
    assert_true(strstr(said, "no row for this key") || strstr(said, "no price meets the aim"));
}

static void a_result_that_came_to_nothing_shows_none_of_the_last(void **state)
{
    (void)state;
    groat_method *method = read_right(SHOP "product { label text\n size number }\n"
                                           "channel c { only when size > 1 }\nshow label\n");
    assert_non_null(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_order order = {.channel = 0, .quantity = 1};
    groat_trouble trouble;
    assert_int_equal(groat_result_figure(scratch, GROAT_PRICE).presence, GROAT_MISSING);
    assert_int_equal(groat_result_named(scratch, "size").presence, GROAT_MISSING);
    for (int i = 0; i < 3; i++) {
        groat_record *record = groat_record_new(method);
        set_cell(record, method, "label", "a text that the record owns", &trouble);
        if (i < 2)
            set_cell(record, method, "size", i == 0 ? "2" : "1", &trouble);
        static const groat_outcome outcomes[] = {GROAT_PRICED, GROAT_NOT_SOLD, GROAT_FAILED};
        assert_int_equal(groat_price(scratch, method, record, &order), outcomes[i]);
        groat_presence there = i == 0 ? GROAT_THERE : GROAT_MISSING;
        assert_int_equal(groat_result_figure(scratch, GROAT_PRICE).presence, there);
        assert_int_equal(groat_result_show(scratch, 0).presence, there);
        assert_int_equal(groat_result_named(scratch, "size").presence, there);
        groat_record_free(record);
    }
    groat_scratch_free(scratch);
    groat_method_free(method);
}

static void a_flag_set_as_a_fraction_is_0_or_1(void **state)
{
    (void)state;
    groat_method *method = read_right(SHOP "product { fragile flag = no }\n");
    assert_non_null(method);
    groat_record *record = groat_record_new(method);
    groat_trouble trouble;
    assert_int_equal(groat_record_set_fraction(record, 0, 5, 1, &trouble), GROAT_BAD_VALUE);
    assert_int_equal(groat_record_set_fraction(record, 0, 2, 2, &trouble), GROAT_OK);
    assert_int_equal(groat_record_set_fraction(record, 0, INT64_MIN, INT64_MIN, &trouble),
                     GROAT_BAD_VALUE);
    assert_int_equal(groat_record_set_fraction(record, 0, 1, 0, &trouble), GROAT_BAD_VALUE);
    groat_record_free(record);
    groat_method_free(method);
}

static void a_line_that_is_not_utf8_is_shown_up_to_there(void **state)
{
    (void)state;
    groat_report *report;
    assert_null(
        read_with("currency USD $\nprice { set $\xE2\x9E\x9E\x20 } \x9E\x9E \n", NULL, &report));
    assert_int_equal(groat_report_errors(report), 1);
    const groat_diagnostic *diagnostic = groat_report_at(report, 0);
    assert_string_equal(diagnostic->source, "price { set $\xE2\x9E\x9E\x20 } ");
    assert_int_equal(diagnostic->line, 2);
    assert_int_equal(diagnostic->column, 19);
    groat_report_free(report);
}

static bool is_whole(const char *text)
{
    return text_bad_byte(text, strlen(text)) == strlen(text);
}

static void texts_too_long_for_a_message_are_cut_between_characters(void **state)
{
    (void)state;
    struct text long_text = {0}, rules = {0};
    text_repeat(&long_text, "\xE2\x82\xB4", 400); /* the hryvnia's sign */
    for (int shift = 0; shift < 3; shift++) {
        static const char *const shifts[] = {"", "x", "xx"};
        text_append(&rules, SHOP "product { a parts optional }\nrefuse \"%s", shifts[shift]);
        text_add(&rules, long_text.start, long_text.length);
        text_append(&rules, "\" when price > $1\n");
        groat_method *method = read_right(rules.start);
        groat_record *record = groat_record_new(method);
        groat_scratch *scratch = groat_scratch_new(method);
        groat_order order = {.channel = 0, .quantity = 1};
        groat_trouble trouble;
        assert_int_equal(groat_price(scratch, method, record, &order), GROAT_REFUSED);
        assert_true(strlen(groat_result_reason(scratch)) > 500);
        assert_true(is_whole(groat_result_reason(scratch)));
        groat_rate_value rate = {.rate = long_text.start + 3 * shift, .value = "1"};
        assert_null(groat_method_with_rates(method, &rate, 1, &trouble));
        assert_true(is_whole(trouble.message));
        groat_record_free(record);
        groat_scratch_free(scratch);
        groat_method_free(method);
        text_free(&rules);
    }
    text_free(&long_text);
}

static void expects_without_number_come_to_an_end(void **state)
{
    (void)state;
    struct text rules = {0};
    text_append(&rules, "currency USD $\nrate r = 1\nprice { aim profit >= $5000 }\n"
                        "table t by price {\n");
    for (int i = 1; i < 2000; i++)
        text_append(&rules, "up to $%d : $%d\n", i, i - 1);
    text_append(&rules, "otherwise : $1\n}\nfee f = t\n");
    for (int i = 0; i < 6000; i++)
        text_append(&rules, "expect \"e%d\" { r = 2; then price = $5 }\n", i);
    groat_method *method = read_right(rules.start);
    size_t count;
    groat_report *report = groat_method_check(method, &count);
    assert_int_equal(count, 6000);
    assert_true(report_says(report, "the expects take more steps than the limit allows"));
    groat_report_free(report);
    groat_method_free(method);
    text_free(&rules);
}

static void an_order_that_cannot_be_taken_up_first_has_an_explanation_without_lines(void **state)
{
    (void)state;
    groat_method *method = read_right(SHOP "product { name text }\n");
    groat_scratch *scratch = groat_scratch_new(method);
    groat_record *record = groat_record_new(method);
    groat_order order = {0, 1, NULL};
    groat_outcome outcome;
    groat_explanation *explanation = groat_explain(scratch, method, record, &order, &outcome);
    assert_non_null(explanation);
    assert_int_equal(outcome, GROAT_FAILED);
    assert_int_equal(groat_explanation_lines(explanation), 0);
    assert_string_equal(groat_result_reason(scratch), "name is required, but its cell is empty");
    groat_explanation_free(explanation);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
}

/* The mark stands behind the last character, and nothing behind the text is read: under the address
 * sanitizer the text lies in a block that ends with it. */
static void rules_that_end_inside_a_statement_are_read_to_their_end_and_no_further(void **state)
{
    (void)state;
    static const char ending[] = "rate a = -";
    for (size_t size = 8160; size <= 8224; size++) {
        struct text rules = {0};
        text_add(&rules, "#", 1);
        text_repeat(&rules, "x", size - 2 - strlen(ending));
        text_append(&rules, "\n%s", ending);
        assert_int_equal(rules.length, size);
        groat_report *report;
        assert_null(read_with(rules.start, NULL, &report));
        assert_int_equal(groat_report_count(report), 1);
        const groat_diagnostic *said = groat_report_at(report, 0);
        assert_string_equal(said->message, "this line ends too early; a value was expected");
        assert_string_equal(said->source, ending);
        assert_int_equal(said->line, 2);
        assert_int_equal(said->column, strlen(ending) + 1);
        assert_int_equal(said->span, 1);
        groat_report_free(report);
        text_free(&rules);
    }
}

/* Whatever a rules file is about to say when it breaks off. */
static void rules_that_break_off_anywhere_are_read_to_their_end_and_no_further(void **state)
{
    (void)state;
    struct text rules = text_of_file("tests/fault/everything.rules");
    assert_non_null(rules.start);
    size_t refused = 0, cuts = 0;
    for (const char *line = rules.start; *line;
         line += strcspn(line, "\n"), line += *line == '\n') {
        size_t length = strcspn(line, "\n");
        for (size_t end = 1; end <= length; end++, cuts++) {
            groat_report *report;
            groat_method *method =
                groat_method_read("cut.rules", (groat_text){line, end}, NULL, &report);
            refused += method == NULL;
            assert_true(method || groat_report_errors(report) > 0);
            groat_method_free(method);
            groat_report_free(report);
        }
    }
    assert_true(cuts > 1000 && refused > cuts / 2);
    text_free(&rules);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_show_of_a_name_alone_stands_in_a_shop_of_many_names),
        cmocka_unit_test(a_table_of_thousands_of_figures_is_read),
        cmocka_unit_test(a_date_each_is_no_date),
        cmocka_unit_test(a_date_is_written_with_all_its_digits_and_nothing_else),
        cmocka_unit_test(endings_stay_within_a_machine_word),
        cmocka_unit_test(a_key_that_no_row_tells_the_kind_of_is_left_out_of_the_reason),
        cmocka_unit_test(a_key_that_is_tried_is_left_out_of_the_reason),
        cmocka_unit_test(a_result_that_came_to_nothing_shows_none_of_the_last),
        cmocka_unit_test(a_flag_set_as_a_fraction_is_0_or_1),
        cmocka_unit_test(a_line_that_is_not_utf8_is_shown_up_to_there),
        cmocka_unit_test(texts_too_long_for_a_message_are_cut_between_characters),
        cmocka_unit_test(rules_that_end_inside_a_statement_are_read_to_their_end_and_no_further),
        cmocka_unit_test(rules_that_break_off_anywhere_are_read_to_their_end_and_no_further),
        cmocka_unit_test(expects_without_number_come_to_an_end),
        cmocka_unit_test(an_order_that_cannot_be_taken_up_first_has_an_explanation_without_lines),
    };
    return cmocka_run_group_tests_name("what hostile reading found", tests, NULL, NULL);
}
