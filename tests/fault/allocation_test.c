/* Memory that runs out: at every single call, and at every call from there on. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/counting.h"
#include "fault/rules_text.h"

/* A whole run writes down all it hears. What fails for want of memory is asked once more; a second
 * failure ends the run. */
struct run {
    struct counting counting;
    groat_allocator allocator;
    struct text heard, rules, shared;
    bool out_of_memory; /* twice in a row at one place */
    bool unclear;       /* something failed without saying that it was for memory */
};

static const char no_memory[] = "there is no memory left";

/* ---- one step each, asked at most twice ---- */

static groat_method *read_once(struct run *run, bool *failed)
{
    groat_reading reading = {
        .allocator = &run->allocator, .loader = load_fault_file, .loader_context = &run->shared};
    groat_report *report;
    groat_method *method = groat_method_read(
        "everything.rules", (groat_text){run->rules.start, run->rules.length}, &reading, &report);
    *failed = !method;
    if (!method && report && !report_says(report, "no memory"))
        run->unclear = true;
    if (method)
        text_append(&run->heard, "read, %zu to say\n", groat_report_count(report));
    groat_report_free(report);
    return method;
}

static groat_method *read_method(struct run *run)
{
    bool failed = true;
    groat_method *method = NULL;
    for (int i = 0; i < 2 && failed; i++)
        method = read_once(run, &failed);
    run->out_of_memory |= failed;
    return method;
}

static void check_expects(struct run *run, const groat_method *method)
{
    groat_report *report = NULL;
    size_t count = 0;
    for (int i = 0; i < 2 && !report; i++)
        report = groat_method_check(method, &count);
    run->out_of_memory |= !report;
    if (!report)
        return;
    text_append(&run->heard, "%zu expects\n", count);
    for (size_t i = 0; i < groat_report_count(report); i++)
        text_append(&run->heard, "%.900s\n", groat_report_at(report, i)->message);
    groat_report_free(report);
}

static groat_method *with_rates(struct run *run, const groat_method *method)
{
    static const groat_rate_value values[] = {
        {.rate = "hourly", .value = "$31.12345678901234567890123456789 per h"},
        {.rate = "oil", .value = "$41.00000000000000000000000001 to $44 per 5 l"}};
    groat_method *other = NULL;
    groat_trouble trouble;
    for (int i = 0; i < 2 && !other; i++) {
        other = groat_method_with_rates(method, values, 2, &trouble);
        run->unclear |= !other && strcmp(trouble.message, no_memory) != 0;
    }
    run->out_of_memory |= !other;
    return other;
}

static void set_field(struct run *run, const groat_method *method, groat_record *record,
                      const char *field, const char *cell)
{
    groat_status status = GROAT_NO_MEMORY;
    groat_trouble trouble = {.message = ""};
    for (int i = 0; i < 2 && status == GROAT_NO_MEMORY; i++)
        status = set_cell(record, method, field, cell, &trouble);
    run->out_of_memory |= status == GROAT_NO_MEMORY;
    if (!run->out_of_memory)
        text_append(&run->heard, "%s %d %s\n", field, status, trouble.message);
}

static void write_value(struct run *run, groat_value value)
{
    char text[1000];
    groat_value_write(value, 6, text, sizeof text);
    text_append(&run->heard, " %s", text);
}

/* Names are worked out when they are asked for. */
static void write_named(struct run *run, groat_scratch *scratch, const char *name)
{
    groat_value value = {.presence = GROAT_UNKNOWN};
    for (int i = 0; i < 2 && value.presence == GROAT_UNKNOWN; i++)
        value = groat_result_named(scratch, name);
    run->out_of_memory |= value.presence == GROAT_UNKNOWN;
    if (!run->out_of_memory)
        write_value(run, value);
}

static void price_on(struct run *run, groat_scratch *scratch, const groat_method *method,
                     const groat_record *record, const groat_order *order)
{
    groat_outcome outcome = GROAT_FAILED;
    bool failed = true;
    for (int i = 0; i < 2 && failed; i++) {
        outcome = groat_price(scratch, method, record, order);
        failed = outcome == GROAT_FAILED && strcmp(groat_result_reason(scratch), no_memory) == 0;
    }
    run->out_of_memory |= failed;
    if (failed)
        return;
    text_append(&run->heard, "%s %d %s:", groat_method_channel(method, order->channel), outcome,
                groat_result_reason(scratch));
    for (int figure = GROAT_LIST; figure <= GROAT_TAKE_HOME && outcome != GROAT_FAILED; figure++)
        write_value(run, groat_result_figure(scratch, (groat_figure)figure));
    for (size_t i = 0; i < groat_method_shows(method) && outcome == GROAT_PRICED; i++)
        write_value(run, groat_result_show(scratch, i));
    for (size_t i = 0; i < groat_result_notes(scratch); i++)
        text_append(&run->heard, " %s", groat_result_note(scratch, i));
    if (outcome == GROAT_PRICED) {
        write_named(run, scratch, "wood");
        write_named(run, scratch, "season");
    }
    if (!run->out_of_memory)
        text_append(&run->heard, "\n");
}

/* What may be asked beside the price: without loss (-2), for a goal, at a given price (-1). */
static groat_outcome ask(groat_scratch *scratch, const groat_method *method,
                         const groat_record *record, const groat_order *order, int question)
{
    if (question == -2)
        return groat_price_without_loss(scratch, method, record, order);
    if (question == -1)
        return groat_price_at(scratch, method, record, order, 123456789);
    return groat_price_for_goal(scratch, method, record, order, (size_t)question);
}

static void ask_on(struct run *run, groat_scratch *scratch, const groat_method *method,
                   const groat_record *record, const groat_order *order, int question)
{
    groat_outcome outcome = GROAT_FAILED;
    groat_aim aim = GROAT_AIM_UNKNOWN;
    bool failed = true;
    for (int i = 0; i < 2 && failed; i++) {
        outcome = ask(scratch, method, record, order, question);
        failed = outcome == GROAT_FAILED && strcmp(groat_result_reason(scratch), no_memory) == 0;
    }
    for (int i = 0; i < 2 && !failed && aim == GROAT_AIM_UNKNOWN; i++)
        aim = groat_result_aim(scratch);
    run->out_of_memory |= failed || aim == GROAT_AIM_UNKNOWN;
    if (run->out_of_memory)
        return;
    text_append(&run->heard, "asked %d: %d %d %s", question, outcome, aim,
                groat_result_reason(scratch));
    write_value(run, groat_result_figure(scratch, GROAT_PRICE));
    write_value(run, groat_result_figure(scratch, GROAT_PROFIT));
    text_append(&run->heard, "\n");
}

static void read_money(struct run *run, const groat_method *method)
{
    static const char text[] = "$1,234.50";
    int64_t coins = 0;
    groat_trouble trouble;
    groat_status status = GROAT_NO_MEMORY;
    for (int i = 0; i < 2 && status == GROAT_NO_MEMORY; i++)
        status =
            groat_money_read(method, (groat_text){text, sizeof text - 1}, NULL, &coins, &trouble);
    run->out_of_memory |= status == GROAT_NO_MEMORY;
    if (!run->out_of_memory)
        text_append(&run->heard, "%lld\n", (long long)coins);
}

static void write_explanation(struct run *run, const groat_explanation *explanation)
{
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++) {
        const groat_line *line = groat_explanation_line(explanation, i);
        text_append(&run->heard, "%u %s = %.300s = %.300s = %s", line->depth, line->name,
                    line->written ? line->written : "", line->worked ? line->worked : "",
                    line->amount);
        write_value(run, line->value);
        text_append(&run->heard, "\n");
    }
    groat_below below = groat_explanation_below(explanation);
    text_append(&run->heard, "on %d, below %s\n", below.footing,
                below.price ? below.price : "none");
    for (size_t i = 0; i < below.misses; i++)
        text_append(&run->heard, "not %.300s\n", groat_explanation_miss(explanation, i)->written);
}

/* Of a whole price, or of one name. */
static void explain_on(struct run *run, groat_scratch *scratch, const groat_method *method,
                       const groat_record *record, const groat_order *order, const char *name)
{
    groat_explanation *explanation = NULL;
    groat_outcome outcome;
    for (int i = 0; i < 2 && !explanation && !run->out_of_memory; i++)
        explanation = name ? groat_explain_name(scratch, method, record, order, name, &outcome)
                           : groat_explain(scratch, method, record, order, &outcome);
    run->out_of_memory |= !explanation;
    if (explanation)
        write_explanation(run, explanation);
    groat_explanation_free(explanation);
}

static void price_columns(struct run *run, groat_scratch *scratch, const groat_method *method)
{
    static const int64_t timber[] = {100, 250, INT64_MAX};
    groat_number_column column = {groat_method_find_field(method, "timber"), timber, 999983};
    groat_order order = {.channel = 0, .quantity = 3};
    int64_t prices[3];
    groat_outcome outcomes[3];
    groat_trouble trouble;
    groat_status status = GROAT_NO_MEMORY;
    for (int i = 0; i < 2 && status == GROAT_NO_MEMORY; i++)
        status =
            groat_price_columns(scratch, method, &order, &column, 1, 3, prices, outcomes, &trouble);
    run->out_of_memory |= status == GROAT_NO_MEMORY;
    for (int i = 0; i < 3 && status == GROAT_OK; i++)
        text_append(&run->heard, "%lld %d\n", (long long)prices[i], outcomes[i]);
}

/* ---- ranges ---- */

static groat_method *leaned(struct run *run, const groat_method *method)
{
    groat_lean leans[8];
    size_t count = 0;
    for (size_t i = 0; i < groat_method_rates(method); i++)
        if (groat_method_rate_range(method, i, NULL) && count < 8)
            leans[count++] = (groat_lean){i, GROAT_HIGH};
    groat_method *most = NULL;
    groat_trouble trouble;
    for (int i = 0; i < 2 && !most; i++) {
        most = groat_method_leaned(method, leans, count, &trouble);
        run->unclear |= !most && strcmp(trouble.message, no_memory) != 0;
    }
    run->out_of_memory |= !most;
    if (most)
        text_append(&run->heard, "%zu at their ends\n", count);
    return most;
}

static void write_reads(struct run *run, groat_scratch *scratch, const groat_method *method,
                        const groat_record *record)
{
    bool fields[64], rates[64];
    groat_status status = GROAT_NO_MEMORY;
    for (int i = 0; i < 2 && status == GROAT_NO_MEMORY; i++)
        status = groat_reads(scratch, method, record, 0, fields, rates);
    run->out_of_memory |= status == GROAT_NO_MEMORY;
    for (size_t i = 0; i < groat_method_rates(method) && status == GROAT_OK; i++)
        text_append(&run->heard, "%s %d\n", groat_method_rate(method, i).name, rates[i]);
}

/* What is a unit stays one when memory is short: then nothing can be said of it. */
static void write_unit(struct run *run, const groat_method *method)
{
    static const char literal[] = "$20.33333333333333333333333333333333333333 per h";
    groat_unit unit;
    groat_status status = GROAT_NO_MEMORY;
    for (int i = 0; i < 2 && status == GROAT_NO_MEMORY; i++)
        status = groat_unit_read(method, literal, &unit);
    run->out_of_memory |= status == GROAT_NO_MEMORY;
    run->unclear |= status == GROAT_BAD_VALUE;
    if (status == GROAT_OK)
        text_append(&run->heard, "in %s\n", unit.text);
}

static void price_leaned(struct run *run, groat_scratch *scratch, const groat_method *method,
                         groat_record *record)
{
    groat_order order = {.channel = 0, .quantity = 2, .as_of = "2027-02-01"};
    write_unit(run, method);
    write_reads(run, scratch, method, record);
    groat_method *most = run->out_of_memory ? NULL : leaned(run, method);
    for (size_t i = 0; i < groat_method_fields(method); i++)
        groat_record_lean(record, i, GROAT_LOW);
    if (most)
        price_on(run, scratch, most, record, &order);
    groat_method_free(most);
}

/* ---- all of them ---- */

static const char *const cells[][2] = {
    {"name", "a nest box with a name that takes some room in whatever it is put"},
    {"timber", "1.12345678901234567890123456789 bf"},
    {"uses", "screws 8 + oil 15.00000000000000000000000001 g"},
    {"bench", "20"},
    {"parcel", "300 g"},
    {"share", "0.3333333333333333333333333333333333333333"},
    {"made_on", "2027-03-01"},
    {"colour", "red"},
    {"batch", "6 to 9 likely 7"},
    {"ply", "0.1 to 0.30000000000000000000000000000000001 sheet"},
    {"bench", "wrong"}, /* refused, and the record stays as it was */
};

static void set_all(struct run *run, const groat_method *method, groat_record *record)
{
    for (size_t i = 0; i < sizeof cells / sizeof *cells && !run->out_of_memory; i++)
        set_field(run, method, record, cells[i][0], cells[i][1]);
}

static void price_all(struct run *run, groat_scratch *scratch, const groat_method *method,
                      groat_record *record)
{
    for (size_t i = 0; i < groat_method_channels(method) && !run->out_of_memory; i++) {
        groat_order order = {.channel = i, .quantity = 1 + (int64_t)i * 4, .as_of = "2027-02-01"};
        price_on(run, scratch, method, record, &order);
        explain_on(run, scratch, method, record, &order, NULL);
        explain_on(run, scratch, method, record, &order, "take_home");
        for (int question = -2; question < (int)groat_method_goals(method); question++)
            ask_on(run, scratch, method, record, &order, question);
    }
}

static void price_with(struct run *run, const groat_method *method, const groat_method *other)
{
    groat_record *record = NULL;
    groat_scratch *scratch = NULL;
    for (int i = 0; i < 2 && !record; i++)
        record = groat_record_new(method);
    for (int i = 0; i < 2 && record && !scratch; i++)
        scratch = groat_scratch_new(method);
    run->out_of_memory |= !scratch;
    if (scratch) {
        set_all(run, method, record);
        price_all(run, scratch, method, record);
        price_all(run, scratch, other, record);
        if (!run->out_of_memory)
            price_leaned(run, scratch, other, record);
        if (!run->out_of_memory) /* too heavy for any post: a reason with the key in it */
            set_field(run, method, record, "parcel", "31.00000000000000000000000000000001 kg");
        price_all(run, scratch, method, record);
        if (!run->out_of_memory)
            price_columns(run, scratch, method);
        if (!run->out_of_memory)
            read_money(run, method);
    }
    groat_record_free(record);
    groat_scratch_free(scratch);
}

static void run_whole(struct run *run, size_t fail_from, size_t fail_to)
{
    *run = (struct run){.counting = {.fail_from = fail_from, .fail_to = fail_to},
                        .rules = text_of_file("tests/fault/everything.rules")};
    run->allocator = counting_allocator(&run->counting);
    groat_method *method = read_method(run), *other = NULL;
    if (method)
        check_expects(run, method);
    if (method && !run->out_of_memory)
        other = with_rates(run, method);
    if (other)
        price_with(run, method, other);
    groat_method_free(method); /* the one first made goes first */
    groat_method_free(other);
}

static void end_run(struct run *run)
{
    text_free(&run->heard);
    text_free(&run->rules);
    text_free(&run->shared);
}

static void assert_books_balance(const struct run *run)
{
    assert_false(run->counting.wrong_size);
    assert_int_equal(run->counting.live_blocks, 0);
    assert_int_equal(run->counting.live_bytes, 0);
    assert_false(run->unclear);
}

/* ---- the tests ---- */

static void a_whole_run_gives_back_all_it_took_and_tells_every_size_right(void **state)
{
    (void)state;
    struct run run;
    run_whole(&run, SIZE_MAX, SIZE_MAX);
    assert_false(run.out_of_memory);
    assert_books_balance(&run);
    assert_non_null(strstr(run.heard.start, "3 expects\nexpect \"one that fails\" fails on stall"));
    assert_non_null(strstr(run.heard.start, "stall 0 :"));
    assert_non_null(strstr(run.heard.start, "2 at their ends"));
    assert_non_null(strstr(run.heard.start, "web 3 the table postage has no row for"));
    print_message("%zu calls for memory, at most %zu bytes at once\n", run.counting.asked,
                  run.counting.most_bytes);
    end_run(&run);
}

static void after_any_one_failure_the_same_call_works_and_gives_the_same(void **state)
{
    (void)state;
    struct run whole;
    run_whole(&whole, SIZE_MAX, SIZE_MAX);
    for (size_t n = 1; n <= whole.counting.asked; n++) {
        struct run run;
        run_whole(&run, n, n + 1);
        assert_int_equal(run.counting.failed, 1);
        assert_books_balance(&run);
        assert_false(run.out_of_memory);
        if (strcmp(run.heard.start, whole.heard.start) != 0)
            print_message("call %zu\n", n);
        assert_string_equal(run.heard.start, whole.heard.start);
        end_run(&run);
    }
    end_run(&whole);
}

static void when_memory_stays_out_all_fails_clearly_and_nothing_leaks(void **state)
{
    (void)state;
    struct run whole;
    run_whole(&whole, SIZE_MAX, SIZE_MAX);
    for (size_t n = 1; n <= whole.counting.asked; n++) {
        struct run run;
        run_whole(&run, n, SIZE_MAX);
        assert_books_balance(&run);
        assert_true(run.out_of_memory);
        /* Up to there it went as ever. */
        if (run.heard.start)
            assert_memory_equal(run.heard.start, whole.heard.start, run.heard.length);
        end_run(&run);
    }
    end_run(&whole);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_whole_run_gives_back_all_it_took_and_tells_every_size_right),
        cmocka_unit_test(after_any_one_failure_the_same_call_works_and_gives_the_same),
        cmocka_unit_test(when_memory_stays_out_all_fails_clearly_and_nothing_leaks),
    };
    return cmocka_run_group_tests_name("memory that runs out", tests, NULL, NULL);
}
