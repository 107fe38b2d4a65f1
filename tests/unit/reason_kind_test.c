/* The kind of a reason, and the names of what is counted. */
#define _POSIX_C_SOURCE 200809L
#include "language/bench.h"

static const char rules[] =
    "currency USD $\n"
    "product { stuff money; finish text; top money optional; low money optional;\n"
    "    part number optional }\n"
    "table finishes by finish { \"oiled\" : $1 }\n"
    "cost material = stuff + finishes\n"
    "channel stall { price { aim profit >= $1; floor low; ceiling top }\n"
    "    refuse \"too dear\" when price > $50 }\n"
    "channel greedy { fee all = 120% of price\n price { aim profit >= $1 } }\n"
    "channel divided { cost one = $1 / (part otherwise 0)\n price { set cost } }\n"
    "channel dated { cost one = if as_of > 2027-01-01 then $1 else $2\n price { set cost } }\n"
    "channel free { price { set $0 } }\n"
    "channel elsewhere { only when stuff > $100\n price { set cost } }\n";

static int open_bench(void **state)
{
    return bench_open(state, rules);
}

static groat_reason reason_of(struct bench *bench, const char *channel, const char *const *cells)
{
    groat_order order = {groat_method_find_channel(bench->method, channel), 1, NULL};
    groat_record_clear(bench->record);
    for (; *cells; cells += 2) {
        size_t field = groat_method_find_field(bench->method, cells[0]);
        groat_text cell = {cells[1], strlen(cells[1])};
        assert_int_equal(groat_record_set(bench->record, field, cell, NULL, NULL), GROAT_OK);
    }
    groat_price(bench->scratch, bench->method, bench->record, &order);
    return groat_result_reason_kind(bench->scratch);
}

#define REASON_OF(channel, ...) reason_of(*state, channel, (const char *const[]){__VA_ARGS__, NULL})

static void the_kind_of_reason_is_told_for_each_way_to_have_no_price(void **state)
{
#define OILED "stuff", "$4", "finish", "oiled"
    assert_int_equal(REASON_OF("stall", OILED), GROAT_REASON_NONE);
    assert_int_equal(REASON_OF("elsewhere", OILED), GROAT_REASON_NONE);
    assert_int_equal(REASON_OF("stall", "stuff", "$80", "finish", "oiled"), GROAT_REASON_RULES);
    assert_int_equal(REASON_OF("stall", "stuff", "$4"), GROAT_REASON_REQUIRED);
    assert_int_equal(REASON_OF("stall", "stuff", "$4", "finish", "waxed"), GROAT_REASON_NO_ROW);
    assert_int_equal(REASON_OF("greedy", OILED), GROAT_REASON_NO_PRICE);
    assert_int_equal(REASON_OF("stall", OILED, "low", "$9", "top", "$8"), GROAT_REASON_NO_PRICE);
    assert_int_equal(REASON_OF("divided", OILED), GROAT_REASON_NO_VALUE);
    assert_int_equal(REASON_OF("dated", OILED), GROAT_REASON_NO_DATE);
    assert_int_equal(REASON_OF("free", OILED), GROAT_REASON_NOT_A_PRICE);
    assert_int_equal(REASON_OF("stall", OILED), GROAT_REASON_NONE);
}

static void what_is_wrong_with_an_order_is_told_from_what_is_wrong_with_the_call(void **state)
{
    struct bench *bench = *state;
    groat_order order = {.quantity = 0};
    REASON_OF("stall", OILED);
    groat_price(bench->scratch, bench->method, bench->record, &order);
    assert_int_equal(groat_result_reason_kind(bench->scratch), GROAT_REASON_ORDER);
    order = (groat_order){.quantity = 1, .as_of = "2027-02-30"};
    groat_price(bench->scratch, bench->method, bench->record, &order);
    assert_int_equal(groat_result_reason_kind(bench->scratch), GROAT_REASON_ORDER);
    order = (groat_order){.quantity = 1, .channel = SIZE_MAX};
    groat_price(bench->scratch, bench->method, bench->record, &order);
    assert_int_equal(groat_result_reason_kind(bench->scratch), GROAT_REASON_CALL);
    order = (groat_order){.quantity = 1};
    groat_price_at(bench->scratch, bench->method, bench->record, &order, 0);
    assert_int_equal(groat_result_reason_kind(bench->scratch), GROAT_REASON_NOT_A_PRICE);
}

/* Asks for the name of each number until there is none, and that many there must be. */
#define ASSERT_NAMES(name, last, last_name)                                                        \
    do {                                                                                           \
        for (int i = 0; i <= (int)(last); i++)                                                     \
            assert_non_null(name(i));                                                              \
        assert_string_equal(name(last), last_name);                                                \
        assert_null(name((int)(last) + 1));                                                        \
    } while (0)

static void every_number_of_an_enum_has_a_name(void **state)
{
    (void)state;
    ASSERT_NAMES(groat_status_name, GROAT_NO_MEMORY, "no memory");
    ASSERT_NAMES(groat_trouble_kind_name, GROAT_TROUBLE_CALL, "call");
    ASSERT_NAMES(groat_help_name, GROAT_HELP_ELSEWHERE, "elsewhere");
    ASSERT_NAMES(groat_severity_name, GROAT_WARNING, "warning");
    ASSERT_NAMES(groat_kind_name, GROAT_KIND_PARTS, "parts");
    ASSERT_NAMES(groat_presence_name, GROAT_UNKNOWN, "unknown");
    ASSERT_NAMES(groat_end_name, GROAT_HIGH, "high");
    ASSERT_NAMES(groat_outcome_name, GROAT_FAILED, "failed");
    ASSERT_NAMES(groat_reason_name, GROAT_REASON_NO_MEMORY, "no memory");
    ASSERT_NAMES(groat_figure_name, GROAT_CEILING, "ceiling");
    ASSERT_NAMES(groat_footing_name, GROAT_ON_GIVEN, "given");
    ASSERT_NAMES(groat_aim_name, GROAT_AIM_UNKNOWN, "unknown");
    ASSERT_NAMES(groat_goal_line_name, GROAT_HAS, "has");
    ASSERT_NAMES(groat_part_name, GROAT_PART_DETAIL, "detail");
}

/* Everything is freed before the texts are read, and the address sanitizer watches. */
static void an_explanation_outlives_what_it_explains(void **state)
{
    (void)state;
    char *text = strdup(rules), *name = strdup("shop.rules");
    groat_report *report;
    groat_outcome outcome;
    groat_method *method = groat_method_read(name, (groat_text){text, strlen(text)}, NULL, &report);
    groat_report_free(report);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_record_set(record, 0, (groat_text){"$4", 2}, NULL, NULL);
    groat_record_set(record, 1, (groat_text){"oiled", 5}, NULL, NULL);
    groat_order order = {.quantity = 1};
    groat_explanation *explanation = groat_explain(scratch, method, record, &order, &outcome);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
    free(text);
    free(name);
    const groat_line *line = groat_explanation_line(explanation, 0);
    assert_string_equal(line->name, "material");
    assert_string_equal(line->file, "shop.rules");
    assert_string_equal(line->written, "stuff + finishes");
    assert_string_equal(line->amount, "$5.00");
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++)
        assert_true(strlen(groat_explanation_line(explanation, i)->name) > 0);
    groat_below below = groat_explanation_below(explanation);
    assert_string_equal(below.price, "$5.99");
    assert_string_equal(groat_explanation_miss(explanation, 0)->name, "aim");
    groat_explanation_free(explanation);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_kind_of_reason_is_told_for_each_way_to_have_no_price),
        cmocka_unit_test(what_is_wrong_with_an_order_is_told_from_what_is_wrong_with_the_call),
        cmocka_unit_test(every_number_of_an_enum_has_a_name),
        cmocka_unit_test(an_explanation_outlives_what_it_explains),
    };
    return cmocka_run_group_tests(tests, open_bench, bench_close);
}
