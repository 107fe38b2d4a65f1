/* What a host learns of a value that cannot be taken: the kind, what it is about, what to write. */
#include "fault/counting.h"
#include "language/bench.h"

static const char rules[] =
    "currency USD $\n"
    "product {\n"
    "    name text; hours time as h; weight mass; pieces count; share percent\n"
    "    gilt flag; due date; uses parts optional\n"
    "}\n"
    "materials { screws $0.10 each }\n"
    "rate hourly = $24 per h\n"
    "rate offcuts = 15%\n"
    "rate bound = $50\n"
    "rounding tags { below bound : every $1\n below $100 : every $2\n otherwise : every $5 }\n"
    "cost work = hours * hourly * (1 + offcuts) + (worth of uses otherwise $0)\n"
    "price { set cost; round up to tags }\n";

static int open_bench(void **state)
{
    return bench_open(state, rules);
}

static groat_trouble set(struct bench *bench, const char *field, const char *cell)
{
    groat_trouble trouble;
    memset(&trouble, 'x', sizeof trouble);
    groat_record_set(bench->record, groat_method_find_field(bench->method, field),
                     (groat_text){cell, strlen(cell)}, NULL, &trouble);
    return trouble;
}

static groat_trouble give(const groat_method *method, const groat_rate_value *values, size_t count)
{
    groat_trouble trouble;
    memset(&trouble, 'x', sizeof trouble);
    groat_method_free(groat_method_with_rates(method, values, count, &trouble));
    return trouble;
}

static void the_kind_of_trouble_with_a_cell_is_told(void **state)
{
    static const struct {
        const char *field, *cell;
        groat_trouble_kind kind;
    } cases[] = {
        {"hours", "soon", GROAT_TROUBLE_FORM},
        {"gilt", "perhaps", GROAT_TROUBLE_FORM},
        {"due", "2027-02-30", GROAT_TROUBLE_FORM},
        {"name", "12\xE9", GROAT_TROUBLE_NOT_TEXT},
        {"weight", "12", GROAT_TROUBLE_NO_UNIT},
        {"share", "12", GROAT_TROUBLE_NO_UNIT},
        {"weight", "12 xyzzy", GROAT_TROUBLE_UNKNOWN_UNIT},
        {"weight", "2 gal", GROAT_TROUBLE_AMBIGUOUS_UNIT},
        {"hours", "12 kg", GROAT_TROUBLE_OTHER_KIND},
        {"hours", "1,5 h", GROAT_TROUBLE_DOUBTFUL_MARK},
        {"hours", "-1", GROAT_TROUBLE_NEGATIVE},
        {"pieces", "-1", GROAT_TROUBLE_NEGATIVE},
        {"pieces", "1.5", GROAT_TROUBLE_NOT_WHOLE},
        {"hours", "3 to 2", GROAT_TROUBLE_RANGE},
        {"due", "2027-01-31 to 2027-02-01", GROAT_TROUBLE_RANGE},
        {"uses", "nails 3", GROAT_TROUBLE_UNKNOWN_NAME},
    };
    struct bench *bench = *state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        groat_trouble trouble = set(bench, cases[i].field, cases[i].cell);
        if (trouble.kind != cases[i].kind)
            fail_msg("%s of %s: %s", cases[i].cell, cases[i].field, trouble.message);
        assert_int_equal(trouble.index, groat_method_find_field(bench->method, cases[i].field));
        assert_true(trouble.given == SIZE_MAX);
    }
}

static void a_cell_that_is_taken_leaves_no_trouble(void **state)
{
    groat_trouble trouble = set(*state, "hours", "1.5");
    assert_int_equal(trouble.kind, GROAT_TROUBLE_NONE);
    assert_int_equal(trouble.help_kind, GROAT_HELP_NONE);
    assert_string_equal(trouble.message, "");
    assert_string_equal(trouble.help, "");
    assert_true(trouble.index == SIZE_MAX);
}

static void what_is_tried_is_a_value_an_example_or_advice(void **state)
{
    static const struct {
        const char *field, *cell;
        groat_help kind;
        const char *help, *read;
    } cases[] = {
        {"share", "6.5", GROAT_HELP_VALUE, "6.5%", "6.5%"},
        {"hours", "3 h to 2 h", GROAT_HELP_VALUE, "2 h to 3 h", "2 h to 3 h"},
        {"hours", "soon", GROAT_HELP_EXAMPLE, "1 h 20 min", "for example 1 h 20 min"},
        {"uses", "-", GROAT_HELP_ADVICE, "leave the cell empty", "leave the cell empty"},
        {"pieces", "-1", GROAT_HELP_VALUE, "1", "1"},
        {"pieces", "1.5", GROAT_HELP_NONE, "", ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        groat_trouble trouble = set(*state, cases[i].field, cases[i].cell);
        assert_int_equal(trouble.help_kind, cases[i].kind);
        assert_string_equal(trouble.help, cases[i].help);
        assert_string_equal(tried(&trouble), cases[i].read);
        assert_int_equal(groat_trouble_help(&trouble, NULL, 0), strlen(cases[i].read));
    }
}

static void the_core_proposes_no_option_of_a_command(void **state)
{
    groat_trouble trouble = set(*state, "hours", "1,5 h");
    assert_null(strstr(trouble.help, "--"));
    assert_int_equal(trouble.help_kind, GROAT_HELP_VALUE);
    assert_string_equal(trouble.help, "1.5 h");
}

static void a_fraction_that_a_field_does_not_take_is_told_by_its_kind(void **state)
{
    static const struct {
        const char *field;
        int64_t top, bottom;
        groat_trouble_kind kind;
    } cases[] = {
        {"name", 1, 1, GROAT_TROUBLE_OTHER_KIND},  {"hours", 1, 0, GROAT_TROUBLE_CALL},
        {"weight", 1, 1, GROAT_TROUBLE_NO_UNIT},   {"pieces", 1, 2, GROAT_TROUBLE_NOT_WHOLE},
        {"pieces", -1, 1, GROAT_TROUBLE_NEGATIVE}, {"gilt", 2, 1, GROAT_TROUBLE_FORM},
        {"hours", 3, 2, GROAT_TROUBLE_NONE},
    };
    struct bench *bench = *state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        groat_trouble trouble;
        size_t field = groat_method_find_field(bench->method, cases[i].field);
        groat_record_set_fraction(bench->record, field, cases[i].top, cases[i].bottom, &trouble);
        assert_int_equal(trouble.kind, cases[i].kind);
        assert_true(trouble.index == (cases[i].kind == GROAT_TROUBLE_NONE ? SIZE_MAX : field));
    }
}

static void an_amount_of_money_that_is_no_price_is_told_by_its_kind(void **state)
{
    static const struct {
        const char *text;
        groat_trouble_kind kind;
    } cases[] = {
        {"", GROAT_TROUBLE_EMPTY},
        {"$0", GROAT_TROUBLE_NEGATIVE},
        {"$4 to $6", GROAT_TROUBLE_RANGE},
        {"$1.005", GROAT_TROUBLE_NOT_WHOLE},
        {"3 kg", GROAT_TROUBLE_OTHER_KIND},
        {"$99_999_999_999_999_999", GROAT_TROUBLE_TOO_LARGE},
        {"3 EUR", GROAT_TROUBLE_UNKNOWN_UNIT},
        {"$45", GROAT_TROUBLE_NONE},
    };
    struct bench *bench = *state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        groat_trouble trouble;
        int64_t coins;
        groat_text text = {cases[i].text, strlen(cases[i].text)};
        groat_money_read(bench->method, text, NULL, &coins, &trouble);
        if (trouble.kind != cases[i].kind)
            fail_msg("%s: %s", cases[i].text, trouble.message);
    }
}

static void which_of_several_rates_cannot_be_taken_is_told(void **state)
{
    struct bench *bench = *state;
    const groat_rate_value values[] = {{.rate = "hourly", .value = "+10%"},
                                       {.rate = "offcuts", .value = "15"},
                                       {.rate = "nothing", .value = "1"}};
    groat_trouble trouble = give(bench->method, values, 3);
    assert_int_equal(trouble.kind, GROAT_TROUBLE_NO_UNIT);
    assert_int_equal(trouble.given, 1);
    assert_int_equal(trouble.index, rate_of(bench->method, "offcuts"));
    assert_int_equal(trouble.help_kind, GROAT_HELP_VALUE);
    assert_string_equal(trouble.help, "15%");
    trouble = give(bench->method, values + 2, 1);
    assert_int_equal(trouble.kind, GROAT_TROUBLE_UNKNOWN_NAME);
    assert_int_equal(trouble.given, 0);
    assert_true(trouble.index == SIZE_MAX);
    const groat_rate_value bound = {.rate = "bound", .value = "$200"};
    assert_int_equal(give(bench->method, &bound, 1).kind, GROAT_TROUBLE_RULES);
    trouble = give(bench->method, values, 1);
    assert_int_equal(trouble.kind, GROAT_TROUBLE_NONE);
    assert_true(trouble.given == SIZE_MAX);
}

/* Each allocation fails in its turn, until there are enough. */
static void want_of_memory_is_told_from_a_bad_value(void **state)
{
    struct counting counting = {0};
    groat_allocator allocator = {counting_resize, &counting};
    groat_reading reading = {.allocator = &allocator};
    groat_report *report;
    const groat_rate_value value = {.rate = "hourly", .value = "$30 per h"};
    size_t failures = 0;
    (void)state;
    groat_method *method =
        groat_method_read("test.rules", (groat_text){rules, strlen(rules)}, &reading, &report);
    groat_report_free(report);
    for (bool made = false; !made;) {
        groat_trouble trouble;
        counting.fail_from = counting.asked + 1 + failures;
        counting.fail_to = SIZE_MAX;
        groat_method *other = groat_method_with_rates(method, &value, 1, &trouble);
        made = other != NULL;
        assert_int_equal(trouble.kind, made ? GROAT_TROUBLE_NONE : GROAT_TROUBLE_NO_MEMORY);
        groat_method_free(other);
        failures++;
    }
    counting.fail_from = 0;
    assert_true(failures > 1);
    groat_method_free(method);
    assert_int_equal(counting.live_blocks, 0);
}

static void want_of_memory_for_a_cell_sets_the_trouble(void **state)
{
    struct counting counting = {0};
    groat_allocator allocator = {counting_resize, &counting};
    groat_reading reading = {.allocator = &allocator};
    groat_report *report;
    groat_trouble trouble;
    char cell[20000];
    (void)state;
    memset(cell, 'n', sizeof cell);
    groat_method *method =
        groat_method_read("test.rules", (groat_text){rules, strlen(rules)}, &reading, &report);
    groat_report_free(report);
    groat_record *record = groat_record_new(method);
    memset(&trouble, 'x', sizeof trouble);
    counting.fail_from = counting.asked + 1;
    counting.fail_to = SIZE_MAX;
    groat_status status =
        groat_record_set(record, 0, (groat_text){cell, sizeof cell}, NULL, &trouble);
    counting.fail_from = 0;
    assert_int_equal(status, GROAT_NO_MEMORY);
    assert_int_equal(trouble.kind, GROAT_TROUBLE_NO_MEMORY);
    assert_string_equal(trouble.message, "there is no memory left");
    groat_record_free(record);
    groat_method_free(method);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_kind_of_trouble_with_a_cell_is_told),
        cmocka_unit_test(a_cell_that_is_taken_leaves_no_trouble),
        cmocka_unit_test(what_is_tried_is_a_value_an_example_or_advice),
        cmocka_unit_test(the_core_proposes_no_option_of_a_command),
        cmocka_unit_test(a_fraction_that_a_field_does_not_take_is_told_by_its_kind),
        cmocka_unit_test(an_amount_of_money_that_is_no_price_is_told_by_its_kind),
        cmocka_unit_test(which_of_several_rates_cannot_be_taken_is_told),
        cmocka_unit_test(want_of_memory_is_told_from_a_bad_value),
        cmocka_unit_test(want_of_memory_for_a_cell_sets_the_trouble),
    };
    return cmocka_run_group_tests(tests, open_bench, bench_close);
}
