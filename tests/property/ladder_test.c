/* Allowed prices against a blind loop: random ladders, every coin of which is looked at by itself. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "evaluate/evaluate.h"
#include "property/chance.h"

enum {
    BANDS_MOST = 6,
    POINTS_MOST = 4,
    LADDERS = 1500,
    FAR_LADDERS = 20000,
    ROUNDINGS_EACH = 150,
    SPAN = 2500,        /* coins over which bounds are strewn */
    PERIOD_MOST = 1000, /* so that an open ladder has a price before REACH */
    REACH = SPAN + 3 * PERIOD_MOST,
    WINDOW = 300 /* coins below the end of all prices */
};

/* A ladder with room for its own bands. */
struct random_ladder {
    struct rung rungs[BANDS_MOST];
    int64_t endings[BANDS_MOST][POINTS_MOST], periods[BANDS_MOST][POINTS_MOST];
    struct ladder ladder;
};

static struct memory memory;
static struct num_heap heap;
static struct random_ladder made;
static bool allowed[REACH + 1];
static unsigned long long questions, unanswered;

static int open_heap(void **state)
{
    (void)state;
    memory = memory_standard();
    num_heap_open(&heap, &memory, NUM_BITS_DEFAULT);
    return 0;
}

static int close_heap(void **state)
{
    (void)state;
    num_heap_close(&heap);
    printf("%llu questions compared, %llu of them without a price\n", questions, unanswered);
    return memory.held == 0 && unanswered > 1000 ? 0 : -1;
}

/* ---- ladders ---- */

static void make_endings(size_t band, int64_t period_most)
{
    struct rung *rung = &made.rungs[band];
    rung->count = 1 + random_below(POINTS_MOST);
    for (size_t i = 0; i < rung->count; i++) {
        int64_t period = 1;
        while (period <= period_most / 10 && random_below(4) != 0)
            period *= 10;
        made.periods[band][i] = period;
        made.endings[band][i] = random_from(0, period - 1);
    }
    rung->endings = made.endings[band];
    rung->periods = made.periods[band];
}

/* Bands between bounds that ascend from `from`. One in a few is too narrow for its points, so that
 * it has none; now and then nothing stands between two; the last one is open or ends. */
static void make_ladder(int64_t from, int64_t span, int64_t end, int64_t period_most)
{
    made.ladder = (struct ladder){.rungs = made.rungs, .count = 1 + random_below(BANDS_MOST)};
    for (size_t i = 0; i < made.ladder.count; i++) {
        struct rung *rung = &made.rungs[i];
        int64_t width =
            random_below(3) == 0 ? random_from(1, 12) : random_from(1, span / BANDS_MOST);
        *rung = (struct rung){.from = from, .to = from + width};
        if (rung->to > end)
            rung->to = end;
        if (i + 1 == made.ladder.count && random_below(3) != 0)
            rung->to = COINS_MOST;
        if (random_below(2) == 0)
            rung->every = random_below(3) == 0 ? random_from(1, 6) : random_from(1, period_most);
        else
            make_endings(i, period_most);
        from = rung->to + (random_below(5) == 0 ? random_from(1, 30) : 0);
    }
}

/* By the definition: the first band that is not yet over at the coin, and its points. */
static bool allows(int64_t coin)
{
    for (size_t i = 0; i < made.ladder.count; i++) {
        const struct rung *rung = &made.rungs[i];
        if (coin >= rung->to)
            continue;
        if (coin < rung->from)
            return false;
        if (rung->every)
            return coin % rung->every == 0;
        for (size_t k = 0; k < rung->count; k++)
            if (coin % rung->periods[k] == rung->endings[k])
                return true;
        return false;
    }
    return false;
}

static void describe(void)
{
    for (size_t i = 0; i < made.ladder.count; i++) {
        const struct rung *rung = &made.rungs[i];
        printf("from %lld to %lld", (long long)rung->from, (long long)rung->to);
        if (rung->every)
            printf(" every %lld", (long long)rung->every);
        for (size_t k = 0; k < rung->count; k++)
            printf(" %lld in %lld", (long long)rung->endings[k], (long long)rung->periods[k]);
        printf("\n");
    }
}

/* ---- what the loop expects; 0 where there is no price ---- */

static int64_t loop_up(int64_t from, int64_t end)
{
    for (int64_t coin = from > 1 ? from : 1; coin <= end; coin++)
        if (coin <= REACH ? allowed[coin] : allows(coin))
            return coin;
    return 0;
}

static int64_t loop_down(int64_t from, int64_t end)
{
    for (int64_t coin = from; coin >= end; coin--)
        if (coin <= REACH ? allowed[coin] : allows(coin))
            return coin;
    return 0;
}

static void expect_price(const char *what, int64_t from, bool found, int64_t price,
                         int64_t expected)
{
    questions++;
    unanswered += expected == 0;
    if (found == (expected != 0) && (!found || price == expected))
        return;
    describe();
    fail_msg("%s %lld: %s %lld where the loop finds %lld", what, (long long)from,
             found ? "gives" : "gives none,", (long long)price, (long long)expected);
}

static void make_near_ladder(void)
{
    make_ladder(1, SPAN, SPAN, PERIOD_MOST);
    for (int64_t coin = 1; coin <= REACH; coin++)
        allowed[coin] = allows(coin);
}

/* ---- the tests ---- */

static void the_next_price_is_the_first_that_a_loop_upward_meets(void **state)
{
    (void)state;
    for (int i = 0; i < LADDERS; i++) {
        make_near_ladder();
        int64_t expected = loop_up(SPAN + PERIOD_MOST, REACH);
        for (int64_t from = SPAN + PERIOD_MOST; from >= -3; from--) {
            int64_t price = 0;
            bool found = ladder_next(&made.ladder, from, &price);
            if (from >= 1 && allowed[from])
                expected = from;
            expect_price("next", from, found, price, expected);
        }
    }
}

static void the_previous_price_is_the_first_that_a_loop_downward_meets(void **state)
{
    (void)state;
    for (int i = 0; i < LADDERS; i++) {
        make_near_ladder();
        int64_t expected = 0;
        for (int64_t from = -3; from <= SPAN + PERIOD_MOST; from++) {
            int64_t price = 0;
            bool found = ladder_previous(&made.ladder, from, &price);
            if (from >= 1 && allowed[from])
                expected = from;
            expect_price("previous", from, found, price, expected);
        }
    }
}

/* coins = top / bottom; by the distances on either side, in whole numbers. */
static int64_t loop_round(int64_t top, int64_t bottom, enum num_rounding rounding)
{
    int64_t down = top >= 0 ? top / bottom : -((-top + bottom - 1) / bottom);
    int64_t up = down * bottom == top ? down : down + 1;
    int64_t above = loop_up(up, REACH), below = loop_down(down, 1);
    if (rounding == NUM_UP)
        return above;
    if (rounding == NUM_DOWN)
        return below;
    if (above == 0 || below == 0)
        return above == 0 ? below : above;
    return above * bottom - top <= top - below * bottom ? above : below;
}

static void rounding_goes_its_way_and_a_tie_to_the_dearer_price(void **state)
{
    static const int64_t bottoms[] = {1, 1, 2, 2, 3, 4, 7, 100};
    unsigned ties = 0;
    (void)state;
    for (int i = 0; i < LADDERS; i++) {
        make_near_ladder();
        for (int k = 0; k < ROUNDINGS_EACH; k++) {
            int64_t bottom = bottoms[random_below(sizeof bottoms / sizeof *bottoms)];
            int64_t top = random_from(-5 * bottom, (SPAN + PERIOD_MOST) * bottom);
            if (random_below(3) == 0) { /* halfway between two prices */
                int64_t low = loop_up(random_from(1, SPAN), REACH);
                int64_t high = low ? loop_up(low + 1, REACH) : 0;
                top = high ? low + high : top;
                bottom = high ? 2 : bottom;
                ties += high != 0;
            }
            struct num coins;
            assert_int_equal(num_fraction(&heap, top, bottom, &coins), NUM_OK);
            for (int rounding = NUM_UP; rounding <= NUM_EVEN; rounding++) {
                int64_t price = 0;
                bool found =
                    ladder_round(&heap, &made.ladder, coins, (enum num_rounding)rounding, &price);
                expect_price("rounding", top, found, price,
                             loop_round(top, bottom, (enum num_rounding)rounding));
            }
        }
    }
    assert_true(ties > 10000);
}

/* Bands that begin in the last coins there are, with steps and periods of any length. */
static void ladders_at_the_end_of_all_prices_neither_pass_it_nor_overflow(void **state)
{
    static const int64_t periods[] = {10, 100, 1000, INT64_C(1000000000000000000), COINS_MOST - 1};
    (void)state;
    for (int i = 0; i < FAR_LADDERS; i++) {
        const int64_t low = COINS_MOST - WINDOW;
        make_ladder(low, WINDOW, COINS_MOST - 1, periods[random_below(5)]);
        made.rungs[0].from = random_below(2) ? 1 : low;
        for (int k = 0; k < 20; k++) {
            int64_t from = random_from(low - 5, COINS_MOST + 5), price = 0;
            bool found = ladder_next(&made.ladder, from, &price);
            expect_price("next", from, found, price, loop_up(from, COINS_MOST - 1));
            found = ladder_previous(&made.ladder, from, &price);
            int64_t expected = loop_down(from < COINS_MOST ? from : COINS_MOST - 1, low - 5);
            if (expected == 0 && found) { /* further down than the loop goes */
                assert_true(price >= 1 && price < low - 5 && allows(price));
                continue;
            }
            expect_price("previous", from, found, price, expected);
        }
    }
}

static void asking_from_the_ends_of_machine_words_does_not_overflow(void **state)
{
    (void)state;
    for (int i = 0; i < LADDERS; i++) {
        make_near_ladder();
        int64_t price = 0;
        assert_false(ladder_next(&made.ladder, INT64_MAX, &price));
        assert_false(ladder_next(&made.ladder, COINS_MOST, &price));
        assert_false(ladder_previous(&made.ladder, INT64_MIN, &price));
        assert_false(ladder_previous(&made.ladder, 0, &price));
        bool found = ladder_next(&made.ladder, INT64_MIN, &price);
        expect_price("next", INT64_MIN, found, price, loop_up(1, REACH));
        found = ladder_previous(&made.ladder, INT64_MAX, &price);
        assert_true(!found || (price < COINS_MOST && allows(price)));
    }
}

static void amounts_beyond_prices_round_to_none(void **state)
{
    struct rung rung = {.from = 1, .to = COINS_MOST, .every = 1};
    struct ladder ladder = {.rungs = &rung, .count = 1};
    int64_t price = 0;
    struct num beyond;
    (void)state;
    for (int rounding = NUM_UP; rounding <= NUM_EVEN; rounding++) {
        assert_true(ladder_round(&heap, &ladder, num_whole(COINS_MOST - 1),
                                 (enum num_rounding)rounding, &price));
        assert_int_equal(price, COINS_MOST - 1);
        assert_false(ladder_round(&heap, &ladder, num_whole(COINS_MOST),
                                  (enum num_rounding)rounding, &price));
        assert_int_equal(num_multiply(&heap, num_whole(INT64_MAX), num_whole(INT64_MAX), &beyond),
                         NUM_OK);
        assert_false(ladder_round(&heap, &ladder, beyond, (enum num_rounding)rounding, &price));
        assert_int_equal(num_negate(&heap, beyond, &beyond), NUM_OK);
        assert_false(ladder_round(&heap, &ladder, beyond, (enum num_rounding)rounding, &price));
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_next_price_is_the_first_that_a_loop_upward_meets),
        cmocka_unit_test(the_previous_price_is_the_first_that_a_loop_downward_meets),
        cmocka_unit_test(rounding_goes_its_way_and_a_tie_to_the_dearer_price),
        cmocka_unit_test(ladders_at_the_end_of_all_prices_neither_pass_it_nor_overflow),
        cmocka_unit_test(asking_from_the_ends_of_machine_words_does_not_overflow),
        cmocka_unit_test(amounts_beyond_prices_round_to_none),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("ladders", tests, open_heap, close_heap);
}
