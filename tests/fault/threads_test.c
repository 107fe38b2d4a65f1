/* One method and many threads: a method is only ever read, and whatever else there is belongs to one
 * thread. Also to be run under the thread sanitizer. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <pthread.h>

#include "fault/rules_text.h"

enum { THREADS = 8, ROUNDS = 40 };

/* What a thread does with the method, and all it hears of it. */
struct worker {
    const groat_method *method;
    unsigned number;
    struct text heard;
};

/* ---- the work ---- */

static void hear_value(struct text *heard, groat_value value)
{
    char text[600];
    groat_value_write(value, 6, text, sizeof text);
    text_append(heard, " %s", text);
}

static void price_everywhere(struct text *heard, groat_scratch *scratch, const groat_method *method,
                             const groat_record *record)
{
    for (size_t i = 0; i < groat_method_channels(method); i++) {
        groat_order order = {.channel = i, .quantity = 1 + (int64_t)i * 4, .as_of = "2027-02-01"};
        groat_outcome outcome = groat_price(scratch, method, record, &order);
        text_append(heard, "%s %d %s", groat_method_channel(method, i), outcome,
                    groat_result_reason(scratch));
        for (int figure = GROAT_LIST; figure <= GROAT_TAKE_HOME; figure++)
            hear_value(heard, groat_result_figure(scratch, (groat_figure)figure));
        for (size_t k = 0; k < groat_method_shows(method); k++)
            hear_value(heard, groat_result_show(scratch, k));
        hear_value(heard, groat_result_named(scratch, "wood"));
        text_append(heard, "\n");
    }
}

static void set_record(groat_record *record, const groat_method *method, unsigned round)
{
    char cell[100];
    groat_trouble trouble;
    groat_record_clear(record);
    snprintf(cell, sizeof cell, "%u.12345678901234567890123 bf", round % 7);
    set_cell(record, method, "timber", cell, &trouble);
    snprintf(cell, sizeof cell, "screws %u + oil 15 g", round);
    set_cell(record, method, "uses", cell, &trouble);
    snprintf(cell, sizeof cell, "%u", round * 60);
    set_cell(record, method, "parcel", cell, &trouble);
    set_cell(record, method, "bench", "20", &trouble);
    set_cell(record, method, "bench", "not a time", &trouble);
    set_cell(record, method, "colour", round % 2 ? "red" : "green", &trouble);
}

static groat_method *with_rate(struct worker *worker, unsigned round)
{
    char value[100];
    groat_trouble trouble;
    snprintf(value, sizeof value, "$%u.123456789012345678901 per h", 20 + round);
    groat_rate_value rates[] = {{.rate = "hourly", .value = value},
                                {.rate = "nonesuch", .value = "1"}};
    if (groat_method_with_rates(worker->method, rates, 2, &trouble))
        text_append(&worker->heard, "a rate too many\n");
    text_append(&worker->heard, "%s\n", trouble.message);
    return groat_method_with_rates(worker->method, rates, 1, &trouble);
}

static void *work(void *context)
{
    struct worker *worker = context;
    groat_record *record = groat_record_new(worker->method);
    groat_scratch *scratch = groat_scratch_new(worker->method);
    for (unsigned round = 0; record && scratch && round < ROUNDS; round++) {
        size_t count;
        groat_method *other = with_rate(worker, round);
        set_record(record, worker->method, round);
        price_everywhere(&worker->heard, scratch, worker->method, record);
        price_everywhere(&worker->heard, scratch, other, record);
        groat_method_free(other);
        if (round % 10 > 0)
            continue;
        groat_report *report = groat_method_check(worker->method, &count);
        text_append(&worker->heard, "%zu of %zu\n", groat_report_errors(report), count);
        groat_report_free(report);
    }
    groat_record_free(record);
    groat_scratch_free(scratch);
    return NULL;
}

static groat_method *read_everything(void)
{
    struct text rules = text_of_file("tests/fault/everything.rules"), shared = {0};
    groat_reading reading = {.loader = load_fault_file, .loader_context = &shared};
    groat_report *report;
    groat_method *method = groat_method_read(
        "everything.rules", (groat_text){rules.start, rules.length}, &reading, &report);
    groat_report_free(report);
    text_free(&rules);
    text_free(&shared);
    return method;
}

/* ---- the tests ---- */

static void eight_threads_hear_of_one_method_what_one_hears(void **state)
{
    (void)state;
    groat_method *method = read_everything();
    assert_non_null(method);
    struct worker alone = {.method = method}, workers[THREADS];
    pthread_t threads[THREADS];
    work(&alone);
    assert_true(alone.heard.length > 10000);
    for (unsigned i = 0; i < THREADS; i++) {
        workers[i] = (struct worker){.method = method, .number = i};
        assert_int_equal(pthread_create(&threads[i], NULL, work, &workers[i]), 0);
    }
    for (unsigned i = 0; i < THREADS; i++) {
        assert_int_equal(pthread_join(threads[i], NULL), 0);
        assert_string_equal(workers[i].heard.start, alone.heard.start);
        text_free(&workers[i].heard);
    }
    text_free(&alone.heard);
    groat_method_free(method);
}

/* What a thread is left with when the others are done with theirs. */
struct rest {
    groat_method *method, *other;
    groat_record *record;
    groat_scratch *scratch;
    unsigned order;
};

static void *free_in_some_order(void *context)
{
    struct rest *rest = context;
    for (unsigned i = 0; i < 4; i++) {
        switch ((rest->order + i) % 4) {
        case 0: groat_method_free(rest->method); break;
        case 1: groat_record_free(rest->record); break;
        case 2: groat_scratch_free(rest->scratch); break;
        default: groat_method_free(rest->other); break;
        }
    }
    return NULL;
}

static void what_was_made_of_a_method_is_freed_in_any_order_in_any_thread(void **state)
{
    (void)state;
    for (int round = 0; round < 20; round++) {
        groat_method *method = read_everything();
        assert_non_null(method);
        pthread_t threads[THREADS];
        struct rest rests[THREADS];
        groat_rate_value rate = {.rate = "hourly", .value = "$30 per h"};
        groat_trouble trouble;
        for (unsigned i = 0; i < THREADS; i++) {
            rests[i] = (struct rest){
                .other = groat_method_with_rates(method, &rate, 1, &trouble),
                .record = groat_record_new(method),
                .scratch = groat_scratch_new(method),
                .order = i,
            };
            assert_true(rests[i].other && rests[i].record && rests[i].scratch);
        }
        rests[round % THREADS].method = method; /* one of them has the first, too */
        for (unsigned i = 0; i < THREADS; i++)
            assert_int_equal(pthread_create(&threads[i], NULL, free_in_some_order, &rests[i]), 0);
        for (unsigned i = 0; i < THREADS; i++)
            assert_int_equal(pthread_join(threads[i], NULL), 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(eight_threads_hear_of_one_method_what_one_hears),
        cmocka_unit_test(what_was_made_of_a_method_is_freed_in_any_order_in_any_thread),
    };
    return cmocka_run_group_tests_name("threads", tests, NULL, NULL);
}
