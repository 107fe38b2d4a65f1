/* Memory that runs out within a study: it ends there or gives the right answer, and no row ever says
 * that there is no memory. The library and the studies both take from the C library here, and a call
 * for memory is refused by its number. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/refusing.h"
#include "fault/rules_text.h"
#include "study/drivers.h"
#include "study/earn.h"
#include "study/effect.h"
#include "study/estimate.h"
#include "study/goals.h"
#include "study/rank.h"
#include "study/sweep.h"
#include "study/sweep_line.h"

/* ---- what is studied ---- */

struct desk {
    groat_method *method;
    groat_record *record;
    groat_scratch *scratch; /* made when memory may already be refused */
    struct text heard;
};

static void hear(struct desk *desk, const char *text)
{
    bool on = refusing.on;
    refusing.on = false;
    text_append(&desk->heard, "%s\n", text);
    refusing.on = on;
}

static void hear_amount(struct desk *desk, struct amount amount)
{
    char text[1000] = "none";
    bool on = refusing.on;
    refusing.on = false;
    if (amount.there)
        amount_places(amount, 12, '.', text, sizeof text);
    refusing.on = on;
    hear(desk, text);
}

static void hear_number(struct desk *desk, size_t number)
{
    hear_amount(desk, amount_whole((int64_t)number));
}

static void hear_words(struct desk *desk, const char *words)
{
    if (words)
        hear(desk, words);
}

static groat_order order_on(size_t channel)
{
    return (groat_order){.channel = channel, .quantity = 5, .as_of = "2027-02-01"};
}

/* ---- the studies; each is false when it says that memory ran out ---- */

static bool study_estimate(struct desk *desk)
{
    struct estimate *estimate = estimate_open(desk->method);
    bool done = estimate != NULL;
    for (size_t i = 0; done && i < groat_method_channels(desk->method); i++) {
        groat_order order = order_on(i);
        const struct estimate_result *result = estimate_row(estimate, desk->record, &order);
        done = result->outcome != ESTIMATE_NO_MEMORY;
        if (!done)
            break;
        hear_amount(desk, result->lowest);
        hear_amount(desk, result->highest);
        hear_amount(desk, result->mean);
        hear_number(desk, result->corners);
        hear_number(desk, result->unpriced);
        hear(desk, result->reason);
    }
    estimate_close(estimate);
    return done;
}

static void hear_moves(struct desk *desk, const struct drivers *drivers,
                       const struct drivers_result *result)
{
    hear_amount(desk, result->before);
    hear_words(desk, result->reason);
    for (size_t i = 0; i < result->count && result->outcome == GROAT_PRICED; i++) {
        hear_words(desk, drivers_still(drivers, i));
        hear_amount(desk, result->moves[i].after);
        hear_amount(desk, result->moves[i].share);
        hear_words(desk, result->moves[i].reason);
    }
}

static bool study_drivers(struct desk *desk)
{
    groat_trouble trouble;
    struct drivers *drivers = drivers_open(desk->method, "+1%", &trouble);
    struct drivers_result result = {0};
    if (!drivers)
        assert_int_equal(trouble.kind, GROAT_TROUBLE_NO_MEMORY);
    bool done = drivers && drivers_result_open(&result, drivers);
    for (size_t i = 0; done && i < groat_method_channels(desk->method); i++) {
        groat_order order = order_on(i);
        done = drivers_price(drivers, desk->scratch, desk->record, &order, &result);
        if (done)
            hear_moves(desk, drivers, &result);
    }
    drivers_result_close(&result);
    drivers_close(drivers);
    return done;
}

static bool study_rank(struct desk *desk)
{
    struct rank *rank = rank_open(desk->method, "season");
    bool done = rank != NULL;
    if (done)
        rank_begin(rank);
    for (size_t i = 0; done && i < groat_method_channels(desk->method); i++) {
        groat_order order = order_on(i);
        done = rank_add(rank, desk->scratch, desk->record, &order) == RANK_FINE;
    }
    if (done)
        rank_settle(rank);
    for (size_t i = 0; done && i < rank_count(rank); i++) {
        const struct rank_place *place = rank_at(rank, i);
        hear_number(desk, place->channel);
        hear_amount(desk, place->place);
        hear_amount(desk, place->value);
        hear_amount(desk, place->figures[RANK_PROFIT]);
        for (size_t j = 0; j < place->notes_count; j++)
            hear(desk, place->notes[j]);
    }
    rank_close(rank);
    return done;
}

static bool study_goals(struct desk *desk)
{
    struct goals goals;
    groat_outcome outcome;
    goals_open(&goals, desk->method, amount_whole(3));
    bool done = true;
    for (size_t i = 0; done && i < groat_method_channels(desk->method); i++) {
        groat_order order = order_on(i);
        done = goals_add(&goals, desk->scratch, desk->record, &order, 0, &outcome);
    }
    if (done)
        goals_sort(&goals);
    for (size_t i = 0; done && i < goals.count; i++) {
        hear_number(desk, goals.rows[i]->answer);
        hear_amount(desk, goals.rows[i]->sales);
        hear_amount(desk, goals.rows[i]->brings);
        hear_amount(desk, goals.rows[i]->price_needed);
        hear_words(desk, goals.rows[i]->reason);
    }
    goals_close(&goals);
    return done;
}

static bool study_earn(struct desk *desk)
{
    struct earn earn;
    bool done = true;
    earn_open(&earn);
    for (size_t i = 0; done && i < groat_method_channels(desk->method); i++) {
        groat_order order = order_on(i);
        done = earn_at(&earn, desk->scratch, desk->method, desk->record, &order, 12345);
        if (!done)
            break;
        hear_number(desk, earn.outcome);
        hear_amount(desk, earn.no_loss);
        hear_amount(desk, earn.position);
        hear_number(desk, earn.aim);
        hear_number(desk, earn.aim_of_one);
        hear(desk, earn.why_loss);
    }
    earn_close(&earn);
    return done;
}

static bool hear_points(void *context, size_t order, size_t point, groat_outcome outcome,
                        const groat_scratch *scratch)
{
    (void)order;
    return sweep_line_add(context, point, outcome, scratch);
}

static bool sweep_channel(struct desk *desk, const struct sweep *sweep, size_t channel)
{
    struct sweep_line line;
    groat_order order = order_on(channel);
    sweep_line_open(&line, SWEEP_FULL);
    bool done = sweep_walk(sweep, desk->scratch, desk->record, &order, 1, hear_points, &line);
    for (size_t i = 0; done && i < line.count; i++) {
        hear_number(desk, line.runs[i].last);
        hear_number(desk, line.runs[i].outcome);
        hear_amount(desk, line.runs[i].price);
        hear_amount(desk, line.runs[i].keep[1]);
        hear_words(desk, line.runs[i].note[0]);
    }
    sweep_line_close(&line);
    return done;
}

static bool study_sweep(struct desk *desk)
{
    struct sweep_range range = {"polish", "$1.0000000001 per sqm", "$2.70 per sqm", 3};
    groat_trouble trouble;
    struct sweep *sweep = sweep_open(desk->method, &range, &trouble);
    bool done = sweep != NULL;
    if (!done)
        assert_int_equal(trouble.kind, GROAT_TROUBLE_NO_MEMORY);
    for (size_t i = 0; done && i < sweep->points; i++) {
        char value[64];
        sweep_number(sweep, &sweep->values[i], '.', value, sizeof value);
        hear(desk, value);
    }
    for (size_t i = 0; done && i < groat_method_channels(desk->method); i++)
        done = sweep_channel(desk, sweep, i);
    sweep_close(sweep);
    return done;
}

static enum effect_loss no_loss(void *context, const struct effect_place *place)
{
    (void)context;
    (void)place;
    return EFFECT_NOT_LOST;
}

/* The price of one piece before, of the same rules where the hands cost 10% more now. */
static bool compare_channels(struct desk *desk, struct effect *effect, const groat_method *dearer)
{
    bool done = true;
    for (size_t i = 0; done && i < groat_method_channels(desk->method); i++) {
        groat_order order = order_on(i);
        struct effect_place place = {0, groat_method_channel(desk->method, i), 5};
        groat_outcome outcome = groat_price(desk->scratch, desk->method, desk->record, &order);
        done = effect_was_priced(effect, &place, outcome, desk->scratch);
    }
    effect_ready(effect);
    for (size_t i = 0; done && i < groat_method_channels(desk->method); i++) {
        groat_order order = order_on(i);
        struct effect_place place = {0, groat_method_channel(desk->method, i), 5};
        struct effect_question question = {desk->scratch, dearer, desk->record, &order};
        done = effect_now(effect, &place, &question);
    }
    return done && effect_finish(effect, no_loss, NULL);
}

static bool study_effect(struct desk *desk)
{
    struct effect effect;
    struct effect_summary summary;
    groat_trouble trouble;
    groat_rate_value value = {.rate = "hourly", .value = "+0.4%"};
    groat_method *dearer = groat_method_with_rates(desk->method, &value, 1, &trouble);
    if (!dearer) {
        assert_int_equal(trouble.kind, GROAT_TROUBLE_NO_MEMORY);
        return false;
    }
    effect_open(&effect, 2, (struct effect_band){1, 10});
    bool done = compare_channels(desk, &effect, dearer);
    for (size_t i = 0; done && i < effect.rows_count; i++) {
        hear_number(desk, effect.rows[i].move);
        hear_number(desk, effect.rows[i].hold);
        hear_number(desk, (size_t)effect.rows[i].after.price);
        hear_words(desk, effect.rows[i].after.notes);
        hear_words(desk, effect.rows[i].hold_reason);
    }
    if (done) {
        done = effect_sum_up(&effect, &summary);
        if (done)
            hear_amount(desk, summary.mean_percent);
        effect_summary_close(&summary);
    }
    effect_close(&effect);
    groat_method_free(dearer);
    return done;
}

/* ---- the desk ---- */

static void set(groat_record *record, const groat_method *method, const char *field,
                const char *cell)
{
    size_t index = groat_method_find_field(method, field);
    assert_int_equal(groat_record_set(record, index, (groat_text){cell, strlen(cell)}, NULL, NULL),
                     GROAT_OK);
}

static int lay_desk(void **state)
{
    static struct desk desk;
    struct text rules = text_of_file("tests/fault/everything.rules"), shared = {0};
    groat_reading reading = {.loader = load_fault_file, .loader_context = &shared};
    desk = (struct desk){0};
    desk.method = groat_method_read("everything.rules", (groat_text){rules.start, rules.length},
                                    &reading, NULL);
    assert_non_null(desk.method);
    desk.record = groat_record_new(desk.method);
    set(desk.record, desk.method, "timber", "1.12345678901234567890123456789 bf");
    set(desk.record, desk.method, "ply", "0.1 to 0.30000000000000000000000000000000001 sheet");
    set(desk.record, desk.method, "uses", "screws 8 + oil 15.00000000000000000000000001 g");
    set(desk.record, desk.method, "bench", "20");
    set(desk.record, desk.method, "parcel", "300 g");
    set(desk.record, desk.method, "share", "0.3333333333333333333333333333333333333333");
    set(desk.record, desk.method, "made_on", "2027-03-01");
    set(desk.record, desk.method, "batch", "6 to 9 likely 7");
    text_free(&rules);
    text_free(&shared);
    *state = &desk;
    return 0;
}

static int clear_desk(void **state)
{
    struct desk *desk = *state;
    groat_record_free(desk->record);
    groat_method_free(desk->method);
    text_free(&desk->heard);
    return 0;
}

typedef bool study(struct desk *desk);

/* One run. Returns whether it ended, with what it says in `heard`. */
static bool run(struct desk *desk, study *each, size_t from, size_t to)
{
    text_free(&desk->heard);
    desk->heard = (struct text){0};
    refusing.asked = refusing.refused = 0;
    refusing.from = from;
    refusing.to = to;
    refusing.on = true;
    desk->scratch = groat_scratch_new(desk->method);
    bool done = desk->scratch && each(desk);
    groat_scratch_free(desk->scratch);
    refusing.on = false;
    return done;
}

/* Refuses every single call, and every call with all after it. */
static void assert_ends_or_is_right(struct desk *desk, study *each)
{
    assert_true(run(desk, each, SIZE_MAX, SIZE_MAX));
    struct text right = desk->heard;
    size_t calls = refusing.asked, ended = 0;
    desk->heard = (struct text){0};
    assert_true(right.length > 0);
    assert_null(strstr(right.start, "memory"));
    for (size_t n = 1; n <= calls; n++) {
        for (int lasting = 0; lasting < 2; lasting++) {
            bool done = run(desk, each, n, lasting ? SIZE_MAX : n + 1);
            assert_true(refusing.refused > 0);
            ended += !done;
            if (done && strcmp(desk->heard.start, right.start) != 0)
                print_message("call %zu of %zu\n", n, calls);
            if (done)
                assert_string_equal(desk->heard.start, right.start);
        }
    }
    print_message("%zu calls for memory, %zu runs ended\n", calls, ended);
    assert_true(ended >= calls); /* what stays out ends every study */
    text_free(&right);
}

/* ---- the tests ---- */

#define STUDY(name, what)                                                                          \
    static void name(void **state)                                                                 \
    {                                                                                              \
        assert_ends_or_is_right(*state, what);                                                     \
    }
STUDY(an_estimate_without_memory_is_no_corner_without_a_price, study_estimate)
STUDY(drivers_without_memory_are_no_rate_that_stays_still, study_drivers)
STUDY(a_ranking_without_memory_has_no_place_that_is_refused, study_rank)
STUDY(goals_without_memory_are_not_unanswered, study_goals)
STUDY(a_price_that_is_named_is_not_left_out_for_want_of_memory, study_earn)
STUDY(a_sweep_without_memory_has_no_points_without_a_price, study_sweep)
STUDY(an_effect_without_memory_is_no_product_that_is_newly_refused, study_effect)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_estimate_without_memory_is_no_corner_without_a_price),
        cmocka_unit_test(drivers_without_memory_are_no_rate_that_stays_still),
        cmocka_unit_test(a_ranking_without_memory_has_no_place_that_is_refused),
        cmocka_unit_test(goals_without_memory_are_not_unanswered),
        cmocka_unit_test(a_price_that_is_named_is_not_left_out_for_want_of_memory),
        cmocka_unit_test(a_sweep_without_memory_has_no_points_without_a_price),
        cmocka_unit_test(an_effect_without_memory_is_no_product_that_is_newly_refused),
    };
    return cmocka_run_group_tests_name("memory that runs out within a study", tests, lay_desk,
                                       clear_desk);
}
