/* A scratch that is warm asks for no memory any more. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/counting.h"
#include "fault/rules_text.h"

enum { WARMING = 500, RECORDS = 10000 };

/* Small steps of a linear congruence (Knuth's MMIX): the same records on every machine. */
static uint64_t next(uint64_t *state)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return *state >> 33;
}

static void set_printed(groat_record *record, const groat_method *method, const char *field,
                        const char *format, ...) __attribute__((format(printf, 4, 5)));

static void set_printed(groat_record *record, const groat_method *method, const char *field,
                        const char *format, ...)
{
    char cell[200];
    groat_trouble trouble = {.message = ""};
    va_list given;
    va_start(given, format);
    vsnprintf(cell, sizeof cell, format, given);
    va_end(given);
    groat_status status = set_cell(record, method, field, cell, &trouble);
    if (status != GROAT_OK)
        print_message("%s: %s\n", cell, trouble.message);
    assert_int_equal(status, GROAT_OK);
}

/* Texts, parts, dates, and numbers too large for a machine word, some of them out of every table. */
static void set_record(groat_record *record, const groat_method *method, uint64_t *state)
{
    static const char *const colours[] = {"red", "blue", "plain", "a colour of many words"};
    groat_record_clear(record);
    set_printed(record, method, "name", "piece %u", (unsigned)next(state));
    set_printed(record, method, "colour", "%s", colours[next(state) % 4]);
    set_printed(record, method, "timber", "%u.%09u%09u%09u bf", (unsigned)next(state) % 9,
                (unsigned)(next(state) % 1000000000), (unsigned)(next(state) % 1000000000),
                (unsigned)(next(state) % 1000000000));
    set_printed(record, method, "uses", "screws %u + oil %u.%u ml", (unsigned)next(state) % 40,
                (unsigned)next(state) % 20, (unsigned)next(state) % 100);
    set_printed(record, method, "bench", "%u/%u h", (unsigned)next(state) % 100 + 1,
                (unsigned)next(state) % 1000 + 1);
    set_printed(record, method, "share", "0.%09u%09u%09u", (unsigned)(next(state) % 1000000000),
                (unsigned)(next(state) % 1000000000), (unsigned)(next(state) % 1000000000));
    set_printed(record, method, "batch", "%u", (unsigned)next(state) % 12 + 1);
    set_printed(record, method, "parcel", "%u g", (unsigned)next(state) % 1200);
    set_printed(record, method, "made_on", "2027-%02u-%02u", (unsigned)next(state) % 12 + 1,
                (unsigned)next(state) % 28 + 1);
    if (next(state) % 3 == 0)
        set_printed(record, method, "seen_high", "%u", (unsigned)next(state) % 60 + 1);
    if (next(state) % 20 == 0)
        set_printed(record, method, "agreed", "%u.%02u", (unsigned)next(state) % 60 + 1,
                    (unsigned)next(state) % 100);
}

/* Everything a host would look at. */
static void price_everywhere(groat_scratch *scratch, const groat_method *method,
                             const groat_record *record, uint64_t *state, size_t outcomes[4])
{
    char text[600];
    for (size_t i = 0; i < groat_method_channels(method); i++) {
        groat_order order = {
            .channel = i, .quantity = 1 + (int64_t)(next(state) % 30), .as_of = "2027-02-01"};
        groat_outcome outcome = groat_price(scratch, method, record, &order);
        outcomes[outcome]++;
        groat_result_named(scratch, "wood");
        for (size_t k = 0; k < groat_method_shows(method); k++)
            groat_value_write(groat_result_show(scratch, k), 4, text, sizeof text);
        groat_value_write(groat_result_figure(scratch, GROAT_MARGIN), 4, text, sizeof text);
        groat_result_reason(scratch);
    }
}

static groat_method *read_everything(struct counting *counting, groat_allocator *allocator)
{
    struct text rules = text_of_file("tests/fault/everything.rules"), shared = {0};
    *allocator = counting_allocator(counting);
    groat_reading reading = {
        .allocator = allocator, .loader = load_fault_file, .loader_context = &shared};
    groat_report *report;
    groat_method *method = groat_method_read(
        "everything.rules", (groat_text){rules.start, rules.length}, &reading, &report);
    groat_report_free(report);
    text_free(&rules);
    text_free(&shared);
    return method;
}

static void pricing_different_records_asks_for_no_memory_once_warm(void **state)
{
    (void)state;
    struct counting counting = {.fail_from = SIZE_MAX, .fail_to = SIZE_MAX};
    groat_allocator allocator;
    uint64_t random = 2027;
    size_t outcomes[4] = {0};
    groat_method *method = read_everything(&counting, &allocator);
    assert_non_null(method);
    groat_trouble trouble;
    groat_rate_value rate = {.rate = "hourly", .value = "$31 per h"};
    groat_method *other = groat_method_with_rates(method, &rate, 1, &trouble);
    assert_non_null(other);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    for (int i = 0; i < WARMING; i++) {
        set_record(record, method, &random);
        price_everywhere(scratch, i % 2 ? method : other, record, &random, outcomes);
    }
    size_t warm = counting.asked;
    for (int i = 0; i < RECORDS; i++) {
        set_record(record, method, &random);
        price_everywhere(scratch, i % 2 ? method : other, record, &random, outcomes);
    }
    print_message("%zu calls until warm, %zu after; priced %zu, not sold %zu, failed %zu\n", warm,
                  counting.asked - warm, outcomes[GROAT_PRICED], outcomes[GROAT_NOT_SOLD],
                  outcomes[GROAT_FAILED]);
    assert_int_equal(counting.asked, warm);
    assert_true(outcomes[GROAT_PRICED] > RECORDS && outcomes[GROAT_FAILED] > 100 &&
                outcomes[GROAT_NOT_SOLD] > 0 && outcomes[GROAT_REFUSED] > 0);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(other);
    groat_method_free(method);
    assert_int_equal(counting.live_bytes, 0);
    assert_false(counting.wrong_size);
}

/* Cells and a default that are ranges, at every end that they have. */
static void lean_and_price(groat_scratch *scratch, const groat_method *method, groat_record *record,
                           uint64_t *state, size_t outcomes[4])
{
    for (int end = GROAT_LOW; end <= GROAT_HIGH; end++) {
        for (size_t i = 0; i < groat_method_fields(method); i++)
            groat_record_lean(record, i, (groat_end)end);
        price_everywhere(scratch, method, record, state, outcomes);
    }
}

static void pricing_a_leaned_record_asks_for_no_memory_once_warm(void **state)
{
    (void)state;
    struct counting counting = {.fail_from = SIZE_MAX, .fail_to = SIZE_MAX};
    groat_allocator allocator;
    uint64_t random = 1959;
    size_t outcomes[4] = {0}, warm = 0;
    groat_method *method = read_everything(&counting, &allocator);
    assert_non_null(method);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    for (int i = 0; i < WARMING + RECORDS; i++) {
        if (i == WARMING)
            warm = counting.asked;
        set_record(record, method, &random);
        set_printed(record, method, "timber", "%u.%09u to 12.%09u bf", (unsigned)next(&random) % 9,
                    (unsigned)(next(&random) % 1000000000), (unsigned)(next(&random) % 1000000000));
        set_printed(record, method, "batch", "1 to %u likely 1", (unsigned)next(&random) % 12 + 1);
        lean_and_price(scratch, method, record, &random, outcomes);
    }
    assert_int_equal(counting.asked, warm);
    assert_true(outcomes[GROAT_PRICED] > RECORDS && outcomes[GROAT_FAILED] > 100);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
    assert_int_equal(counting.live_bytes, 0);
    assert_false(counting.wrong_size);
}

/* Columns make a record of their own, and nothing for each row. */
static void pricing_columns_asks_for_as_much_for_many_rows_as_for_one(void **state)
{
    (void)state;
    struct counting counting = {.fail_from = SIZE_MAX, .fail_to = SIZE_MAX};
    groat_allocator allocator;
    groat_method *method = read_everything(&counting, &allocator);
    assert_non_null(method);
    groat_scratch *scratch = groat_scratch_new(method);
    static int64_t tops[RECORDS], prices[RECORDS];
    for (int i = 0; i < RECORDS; i++)
        tops[i] = INT64_MAX - i * INT64_C(1000003);
    groat_number_column column = {groat_method_find_field(method, "timber"), tops,
                                  INT64_C(1000000000000000003)};
    groat_order order = {.channel = 0, .quantity = 1};
    groat_trouble trouble;
    size_t asked[3];
    for (int i = 0; i < 3; i++) {
        size_t before = counting.asked;
        assert_int_equal(groat_price_columns(scratch, method, &order, &column, 1,
                                             i == 1 ? 1 : RECORDS, prices, NULL, &trouble),
                         GROAT_OK);
        asked[i] = counting.asked - before;
    }
    assert_true(prices[0] > 0);
    assert_int_equal(asked[1], asked[2]);
    groat_scratch_free(scratch);
    groat_method_free(method);
    assert_int_equal(counting.live_bytes, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pricing_different_records_asks_for_no_memory_once_warm),
        cmocka_unit_test(pricing_a_leaned_record_asks_for_no_memory_once_warm),
        cmocka_unit_test(pricing_columns_asks_for_as_much_for_many_rows_as_for_one),
    };
    return cmocka_run_group_tests_name("warm", tests, NULL, NULL);
}
