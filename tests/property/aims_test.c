/* The least price of random aims, against every allowed price tried one after the other: the search
 * looks ahead along lines, groat_price_at works everything out at one price and looks nowhere. The
 * second argument is how many methods are made up. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "groat.h"
#include "property/aim_words.h"

/* Prices are tried up to $40; where the engine finds none, up to there. It may try some more. */
enum { RECORDS = 5, COINS_END = 4000, TRIALS = 4500 };

static int methods = 800;
static struct words words;
static unsigned long long read_methods, refused_methods, found, at_once, without, gave_up, beyond;

struct bench {
    groat_method *method;
    groat_scratch *scratch;
    groat_record *record;
    int64_t grid, low; /* in cents; 0 is no floor */
    size_t channels;
};

static void set(struct bench *bench, const char *field, const char *cell)
{
    groat_trouble trouble;
    size_t index = groat_method_find_field(bench->method, field);
    assert_int_equal(
        groat_record_set(bench->record, index, (groat_text){cell, strlen(cell)}, NULL, &trouble),
        GROAT_OK);
}

static void set_money(struct bench *bench, const char *field, int64_t cents)
{
    char cell[32];
    snprintf(cell, sizeof cell, "%lld.%02lld", (long long)(cents / 100), (long long)(cents % 100));
    set(bench, field, cell);
}

static void random_record(struct bench *bench)
{
    groat_record_clear(bench->record);
    set_money(bench, "stuff", random_below(6) ? random_from(0, 1200) : 0);
    set(bench, "colour", ONE_OF("red", "blue", "grey", "green"));
    set(bench, "fragile", ONE_OF("yes", "no"));
    set(bench, "part", ONE_OF("0.5", "0", "1.25", "-0.3"));
    if (random_below(2))
        set_money(bench, "spare", random_from(0, 900));
    if (random_below(3) == 0)
        set_money(bench, "extra", random_from(0, 900));
    bench->low = random_below(3) == 0 ? random_from(1, 500) : 0;
    if (bench->low)
        set_money(bench, "low", bench->low);
}

/* Whether the channel's aim, which it shows, is yes with everything worked out at this price, or the
 * channel does not sell it. */
static bool holds_at(struct bench *bench, size_t channel, int64_t coins)
{
    groat_order order = {.channel = channel, .quantity = 1};
    int64_t top, bottom;
    if (groat_price_at(bench->scratch, bench->method, bench->record, &order, coins) ==
        GROAT_NOT_SOLD)
        return true;
    groat_value shown = groat_result_show(bench->scratch, 0);
    return shown.presence == GROAT_THERE && groat_value_fraction(shown, &top, &bottom) && top == 1;
}

static bool all_hold_at(struct bench *bench, int64_t coins)
{
    for (size_t i = 0; i < bench->channels; i++)
        if (!holds_at(bench, i, coins))
            return false;
    return true;
}

/* The least allowed price not below the floor at which every aim holds, up to `end`; 0 is none. */
static int64_t tried_price(struct bench *bench, int64_t end)
{
    int64_t from = bench->low > bench->grid ? bench->low : bench->grid;
    int64_t coins = (from + bench->grid - 1) / bench->grid * bench->grid;
    for (; coins <= end; coins += bench->grid)
        if (all_hold_at(bench, coins))
            return coins;
    return 0;
}

/* The engine's price in cents; NONE where it says that there is none or that it gave up, NOT_SOLD
 * where the channel does not sell it. */
enum { NONE = 0, NOT_SOLD = -1 };

static int64_t found_price(struct bench *bench, size_t channel)
{
    groat_order order = {.channel = channel, .quantity = 1};
    groat_outcome outcome = groat_price(bench->scratch, bench->method, bench->record, &order);
    int64_t coins = NONE;
    if (outcome == GROAT_NOT_SOLD)
        return NOT_SOLD;
    if (outcome != GROAT_FAILED)
        assert_true(groat_value_coins(groat_result_figure(bench->scratch, GROAT_PRICE), &coins));
    else /* it tries more prices before it gives up than are tried here */
        gave_up += strstr(groat_result_reason(bench->scratch), "the limit allows") != NULL;
    return coins;
}

/* The one price of all channels that sell it; NOT_SOLD if none does. */
static int64_t shared_price(struct bench *bench)
{
    int64_t shared = NOT_SOLD;
    for (size_t i = 0; i < bench->channels; i++) {
        int64_t price = found_price(bench, i);
        if (price != NOT_SOLD && shared != NOT_SOLD)
            assert_int_equal(price, shared);
        shared = price == NOT_SOLD ? shared : price;
    }
    return shared;
}

static void fail_record(const struct bench *bench, int64_t engine, int64_t tried)
{
    fail_msg("the engine finds %lld cents, trying each %lld; floor %lld\n%s", (long long)engine,
             (long long)tried, (long long)bench->low, words.text);
}

static void check_record(struct bench *bench)
{
    int64_t engine = shared_price(bench);
    if (engine == NOT_SOLD)
        return;
    int64_t end = engine > 0 && engine < COINS_END ? engine : COINS_END;
    int64_t tried = tried_price(bench, end);
    beyond += engine > COINS_END;
    if (engine > COINS_END ? tried != 0 || !all_hold_at(bench, engine) : tried != engine)
        fail_record(bench, engine, tried);
    found += engine > 0;
    at_once += engine == bench->grid;
    without += engine == NONE;
}

static groat_method *read_words(void)
{
    groat_report *report;
    groat_limits limits = groat_limits_default();
    limits.trials = TRIALS;
    groat_method *method = groat_method_read("aim.rules", (groat_text){words.text, words.length},
                                             &(groat_reading){.limits = &limits}, &report);
    for (size_t i = 0; !method && getenv("SHOW_REFUSED") && i < groat_report_count(report); i++) {
        char text[2048];
        groat_diagnostic_write(groat_report_at(report, i), text, sizeof text);
        if (groat_report_at(report, i)->severity == GROAT_ERROR)
            fputs(text, stderr);
    }
    groat_report_free(report);
    return method;
}

static void try_method(void)
{
    static const int64_t grids[] = {1, 1, 1, 5, 10, 7};
    struct bench bench = {.grid = grids[random_below(6)], .channels = random_below(4) ? 1 : 2};
    put_rules(&words, (int)bench.channels, bench.grid);
    bench.method = read_words();
    read_methods += bench.method != NULL;
    refused_methods += bench.method == NULL;
    if (!bench.method)
        return;
    bench.record = groat_record_new(bench.method);
    bench.scratch = groat_scratch_new(bench.method);
    for (int i = 0; i < RECORDS; i++) {
        random_record(&bench);
        check_record(&bench);
    }
    groat_scratch_free(bench.scratch);
    groat_record_free(bench.record);
    groat_method_free(bench.method);
}

static void the_price_of_an_aim_is_the_first_at_which_it_holds(void **state)
{
    (void)state;
    for (int i = 0; i < methods; i++)
        try_method();
    printf(
        "%llu methods, %llu refused; %llu prices, %llu at the lowest, %llu beyond what is tried; "
        "%llu without, %llu given up\n",
        read_methods, refused_methods, found, at_once, beyond, without, gave_up);
    /* Most are decided between the two ends. */
    assert_true(read_methods > refused_methods && found - at_once > found / 3 &&
                without > found / 9);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_price_of_an_aim_is_the_first_at_which_it_holds),
    };
    choose_seed(argc, argv);
    if (argc > 2)
        methods = atoi(argv[2]);
    return cmocka_run_group_tests_name("random aims", tests, NULL, NULL);
}
