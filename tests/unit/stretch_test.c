/* Stretches enclose what they stand for: GMP's rationals are the referee, and every bound is made a
 * rational before it is compared.
 *
 * A stretch stands for each line between its own two. So a test draws a line inside each operand, has
 * GMP work the operation out on the lines, and asks whether the result lies inside the stretch that
 * the engine made: exactly, as lines, term by term. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gmp.h>
#include <math.h>

#include "number/large.h"
#include "property/chance.h"
#include "solve/line.h"

enum { ROUNDS = 100000, WALKS = 60000, PRICE_BITS_MOST = 52, SAMPLES = 24 };

/* A line at + slope·t, exactly. */
struct exact_line {
    mpq_t at, slope;
};

static struct exact_line line_a, line_b, result;
static mpq_t bound, spare, share_of_way;
static unsigned long long held, kinds[LINE_UNSURE + 1];

static int open_lines(void **state)
{
    (void)state;
    mpq_inits(line_a.at, line_a.slope, line_b.at, line_b.slope, result.at, result.slope, NULL);
    mpq_inits(bound, spare, share_of_way, NULL);
    return 0;
}

static int close_lines(void **state)
{
    (void)state;
    mpq_clears(line_a.at, line_a.slope, line_b.at, line_b.slope, result.at, result.slope, NULL);
    mpq_clears(bound, spare, share_of_way, NULL);
    printf("%llu bounds held; %llu yes, %llu no, %llu either\n", held, kinds[LINE_YES],
           kinds[LINE_NO], kinds[LINE_EITHER]);
    return 0;
}

/* ---- operands ---- */

/* Of the sizes that amounts, slopes and rates have, and some that only nonsense has. */
static double random_double(void)
{
    static const double plain[] = {0, 0, 1, -1, 0.5, 100, 0.01, -0.01, 1e-300, -1e-300};
    double mantissa = (double)(int64_t)(random_word() >> 11) * 0x1p-53 + 0.5;
    double sign = random_below(2) ? 1 : -1;
    switch (random_below(8)) {
    case 0: return plain[random_below(sizeof plain / sizeof *plain)];
    case 1: return (double)random_from(-100000, 100000);
    case 2: return sign * ldexp(mantissa, (int)random_from(-400, 200));
    default: return sign * ldexp(mantissa, (int)random_from(-14, 40));
    }
}

/* Two doubles in order: equal, close, or as they come. */
static void random_pair(double *low, double *high)
{
    *low = *high = random_double();
    uint64_t kind = random_below(4);
    if (kind == 1)
        *high += fabs(*high) * ldexp(1, -(int)random_from(1, 52));
    else if (kind == 2)
        *high = random_double();
    if (*low > *high) {
        double held_low = *low;
        *low = *high;
        *high = held_low;
    }
}

static struct stretch random_stretch(void)
{
    struct stretch stretch;
    random_pair(&stretch.low_at, &stretch.high_at);
    random_pair(&stretch.low_slope, &stretch.high_slope);
    return stretch;
}

static struct stretch random_level(void)
{
    struct stretch stretch = {0};
    random_pair(&stretch.low_at, &stretch.high_at);
    return stretch;
}

/* An exact number from one double to another: either end, or between. */
static void set_between(mpq_t out, double low, double high)
{
    mpq_set_d(out, low);
    mpq_set_d(spare, high);
    mpq_sub(spare, spare, out);
    mpq_set_ui(share_of_way, (unsigned long)random_below(4), 3);
    mpq_canonicalize(share_of_way);
    mpq_mul(spare, spare, share_of_way);
    mpq_add(out, out, spare);
}

static void set_inside(struct exact_line *line, const struct stretch *stretch)
{
    set_between(line->at, stretch->low_at, stretch->high_at);
    set_between(line->slope, stretch->low_slope, stretch->high_slope);
}

/* ---- what is held ---- */

/* An infinite bound holds whatever lies on its side; one that is no number claims nothing, and comes
 * about beyond doubles alone. */
static void expect_between(const char *what, double low, const mpq_t value, double high)
{
    held++;
    bool inside = !(low >= INFINITY) && !(high <= -INFINITY);
    if (isfinite(low)) {
        mpq_set_d(bound, low);
        inside = inside && mpq_cmp(bound, value) <= 0;
    }
    if (isfinite(high)) {
        mpq_set_d(bound, high);
        inside = inside && mpq_cmp(value, bound) <= 0;
    }
    if (inside)
        return;
    gmp_printf("%Qd\n", value);
    fail_msg("%s: bound %llu: not from %a to %a", what, held, low, high);
}

static void expect_inside(const char *what, const struct stretch *stretch)
{
    assert_true(isnan(stretch->low_at) == 0 && isnan(stretch->high_at) == 0);
    assert_true(isnan(stretch->low_slope) == 0 && isnan(stretch->high_slope) == 0);
    expect_between(what, stretch->low_at, result.at, stretch->high_at);
    expect_between(what, stretch->low_slope, result.slope, stretch->high_slope);
}

/* ---- arithmetic ---- */

static void sums_and_differences_of_lines_lie_inside_those_of_their_stretches(void **state)
{
    (void)state;
    for (int i = 0; i < ROUNDS; i++) {
        struct stretch a = random_stretch(), b = random_stretch(), found = stretch_add(a, b);
        set_inside(&line_a, &a);
        set_inside(&line_b, &b);
        mpq_add(result.at, line_a.at, line_b.at);
        mpq_add(result.slope, line_a.slope, line_b.slope);
        expect_inside("sum", &found);
        found = stretch_subtract(a, b);
        mpq_sub(result.at, line_a.at, line_b.at);
        mpq_sub(result.slope, line_a.slope, line_b.slope);
        expect_inside("difference", &found);
        found = stretch_negate(a);
        mpq_neg(result.at, line_a.at);
        mpq_neg(result.slope, line_a.slope);
        expect_inside("negation", &found);
    }
}

static void a_widened_stretch_holds_its_lines_moved_by_as_much_either_way(void **state)
{
    (void)state;
    for (int i = 0; i < ROUNDS; i++) {
        struct stretch a = random_stretch();
        double low = -fabs(random_double()), high = fabs(random_double());
        struct stretch found = stretch_widen(a, low, high);
        set_inside(&line_a, &a);
        set_between(result.at, low, high);
        mpq_add(result.at, line_a.at, result.at);
        mpq_set(result.slope, line_a.slope);
        expect_inside("widened", &found);
    }
}

static void products_with_a_level_factor_of_any_sign_lie_inside_the_stretch(void **state)
{
    unsigned around_zero = 0;
    (void)state;
    for (int i = 0; i < 2 * ROUNDS; i++) {
        struct stretch a = random_stretch(), factor = random_level();
        if (random_below(3) == 0) {
            factor.low_at = -fabs(random_double());
            factor.high_at = fabs(random_double());
        }
        around_zero += factor.low_at < 0 && factor.high_at > 0;
        struct stretch found = stretch_multiply(a, &factor);
        set_inside(&line_a, &a);
        set_between(line_b.at, factor.low_at, factor.high_at);
        mpq_mul(result.at, line_a.at, line_b.at);
        mpq_mul(result.slope, line_a.slope, line_b.at);
        expect_inside("product", &found);
    }
    assert_true(around_zero > ROUNDS / 2);
}

static void one_over_a_level_stretch_without_zero_lies_inside_the_inverse(void **state)
{
    (void)state;
    for (int i = 0; i < ROUNDS; i++) {
        struct stretch a = random_level();
        if (a.low_at <= 0 && a.high_at >= 0)
            continue;
        struct stretch found = stretch_invert(&a);
        set_between(line_a.at, a.low_at, a.high_at);
        mpq_inv(result.at, line_a.at);
        mpq_set_ui(result.slope, 0, 1);
        expect_inside("inverse", &found);
    }
}

/* result.at = at + slope·price of the line. */
static void set_at_price(const struct exact_line *line, int64_t price)
{
    mpq_set_si(result.at, (long)price, 1);
    mpq_mul(result.at, result.at, line->slope);
    mpq_add(result.at, result.at, line->at);
}

static int64_t random_price(void)
{
    return 1 + (int64_t)(random_word() >> (64 - 1 - random_below(PRICE_BITS_MOST)));
}

static void the_bounds_at_a_price_hold_every_line_of_the_stretch_there(void **state)
{
    (void)state;
    for (int i = 0; i < ROUNDS; i++) {
        struct stretch a = random_stretch();
        int64_t price = random_price();
        set_inside(&line_a, &a);
        set_at_price(&line_a, price);
        expect_between("at a price", stretch_low(&a, price), result.at, stretch_high(&a, price));
    }
}

static void an_amount_lies_inside_its_own_stretch_and_is_level(void **state)
{
    (void)state;
    for (int i = 0; i < ROUNDS; i++) {
        int64_t bottom = random_from(1, 1000), top = random_from(-10000000, 10000000);
        struct num number = num_whole(top);
        if (bottom > 1)
            assert_int_equal(num_fraction(NULL, top, bottom, &number), NUM_OK);
        struct stretch found = stretch_of(number);
        assert_true(stretch_is_level(&found));
        mpq_set_si(result.at, (long)top, (unsigned long)bottom);
        mpq_canonicalize(result.at);
        expect_between("amount", found.low_at, result.at, found.high_at);
    }
}

/* ---- crossing zero ---- */

/* A stretch of money: two nearly parallel lines that cross zero somewhere among prices, or none. */
static struct stretch random_gap(int64_t from)
{
    if (random_below(8) == 0)
        return random_stretch();
    double root = (double)from + (double)random_from(-300, 300);
    if (random_below(3) == 0)
        root = (double)random_price();
    double slope = ldexp((double)random_from(-1000, 1000), -(int)random_below(20));
    double width = random_below(3) ? 0.01 * (double)random_below(5) : 1e-12;
    double skew = random_below(2) ? 0 : fabs(slope) * 0x1p-50;
    return (struct stretch){-root * slope - width, slope - skew, -root * slope + width,
                            slope + skew};
}

/* Whether a line of the stretch contradicts an answer at a price: LINE_YES says that every one is at
 * or above zero there, LINE_NO that every one is below. */
static bool contradicts(const struct stretch *stretch, enum line_kind answer, int64_t price)
{
    bool yes = answer == LINE_YES;
    mpq_set_d(line_a.at, yes ? stretch->low_at : stretch->high_at);
    mpq_set_d(line_a.slope, yes ? stretch->low_slope : stretch->high_slope);
    set_at_price(&line_a, price);
    return yes ? mpq_sgn(result.at) < 0 : mpq_sgn(result.at) >= 0;
}

static void check_claim(const struct walk *walk, const struct stretch *stretch,
                        enum line_kind answer, int64_t price)
{
    held++;
    if (contradicts(stretch, answer, price))
        fail_msg("%s is false at %lld of %lld to %lld: from %a + %a t to %a + %a t",
                 answer == LINE_YES ? "yes" : "no", (long long)price, (long long)walk->from,
                 (long long)walk->end, stretch->low_at, stretch->low_slope, stretch->high_at,
                 stretch->high_slope);
}

/* The first price, the last one, those beside them and some between. */
static void check_answer(const struct walk *walk, const struct stretch *stretch,
                         enum line_kind answer)
{
    kinds[answer]++;
    if (answer == LINE_EITHER)
        return;
    int64_t last = walk->end == WALK_END ? COINS_MOST - 1 : walk->end - 1;
    for (int64_t step = 0; step < 4; step++) {
        if (walk->from + step <= last)
            check_claim(walk, stretch, answer, walk->from + step);
        if (last - step >= walk->from)
            check_claim(walk, stretch, answer, last - step);
    }
    for (int i = 0; i < SAMPLES; i++)
        check_claim(walk, stretch, answer, random_from(walk->from, last));
}

static void
a_claim_about_zero_is_true_of_every_price_left_and_one_price_is_always_left(void **state)
{
    (void)state;
    for (int i = 0; i < WALKS; i++) {
        int64_t from = random_price(), end = WALK_END;
        if (random_below(3) == 0)
            end = from + random_from(1, 1000);
        struct stretch gap = random_gap(from), turned = stretch_negate(gap);
        struct walk walk = {.from = from, .end = end};
        enum line_kind answer = stretch_not_below_zero(&walk, &gap);
        assert_true(answer == LINE_YES || answer == LINE_NO || answer == LINE_EITHER);
        assert_true(walk.from == from && walk.end > from && walk.end <= end);
        check_answer(&walk, &gap, answer);
        walk = (struct walk){.from = from, .end = end};
        answer = stretch_above_zero(&walk, &gap);
        assert_true(walk.from == from && walk.end > from && walk.end <= end);
        /* Above zero is not at or below it: not so for the stretch turned over. */
        check_answer(&walk, &turned, line_not(answer));
    }
    assert_true(kinds[LINE_YES] > 10000 && kinds[LINE_NO] > 10000 && kinds[LINE_EITHER] > 1000);
}

/* What rounding decides is no longer than it must be: past the end both lines have crossed. */
static void where_rounding_decides_the_walk_ends_no_later_than_both_lines_have_crossed(void **state)
{
    unsigned shortened = 0;
    (void)state;
    for (int i = 0; i < WALKS; i++) {
        int64_t from = random_from(1, 1000000);
        double root = (double)from + (double)random_from(-20, 20);
        double slope = (double)random_from(-100, 100) / 100, width = 0.05;
        struct stretch gap = {-root * slope - width, slope, -root * slope + width, slope};
        struct walk walk = {.from = from, .end = WALK_END};
        if (slope == 0 || stretch_not_below_zero(&walk, &gap) != LINE_EITHER)
            continue;
        shortened++;
        int64_t most = (int64_t)(2 * width / fabs(slope)) + 3;
        assert_true(walk.end != WALK_END && walk.end - from <= most);
    }
    assert_true(shortened > 1000);
}

/* ---- beyond doubles ---- */

/* A power of two or one over it, of any length, as a number and exactly. */
static struct num random_power(struct num_heap *heap, mpq_t exact)
{
    struct num number;
    mpq_set_ui(exact, 1, 1);
    mpz_mul_2exp(mpq_numref(exact), mpq_numref(exact), (unsigned long)random_below(2500));
    mpz_srcptr power = mpq_numref(exact);
    bool negative = random_below(2);
    uint64_t one = 1;
    struct limbs long_one = {mpz_limbs_read(power), mpz_size(power)}, short_one = {&one, 1};
    bool tiny = random_below(3) == 0;
    assert_int_equal(
        num_keep(heap, negative, tiny ? short_one : long_one, tiny ? long_one : short_one, &number),
        NUM_OK);
    if (tiny)
        mpq_inv(exact, exact);
    if (negative)
        mpq_neg(exact, exact);
    return number;
}

/* at + slope·t of three such numbers: (a + b·t)·c, or (a + b·t) - c. */
static void numbers_beyond_doubles_never_lead_to_a_false_claim(void **state)
{
    struct memory memory = memory_standard();
    struct num_heap heap;
    (void)state;
    num_heap_open(&heap, &memory, NUM_BITS_MOST);
    for (int i = 0; i < ROUNDS; i++) {
        struct num_mark mark = num_heap_mark(&heap);
        struct stretch at = stretch_of(random_power(&heap, line_a.at));
        struct stretch slope = stretch_of(random_power(&heap, line_a.slope));
        struct stretch other = stretch_of(random_power(&heap, line_b.at));
        struct stretch found = {at.low_at, slope.low_at, at.high_at, slope.high_at};
        num_heap_rewind(&heap, mark);
        mpq_set(result.slope, line_a.slope);
        if (random_below(2)) {
            found = stretch_subtract(found, other);
            mpq_sub(result.at, line_a.at, line_b.at);
        } else {
            found = stretch_multiply(found, &other);
            mpq_mul(result.at, line_a.at, line_b.at);
            mpq_mul(result.slope, line_a.slope, line_b.at);
        }
        expect_between("at", found.low_at, result.at, found.high_at);
        expect_between("slope", found.low_slope, result.slope, found.high_slope);
        struct walk walk = {.from = random_price(), .end = WALK_END};
        enum line_kind answer = stretch_not_below_zero(&walk, &found);
        assert_true(walk.end > walk.from);
        int64_t last = walk.end == WALK_END ? COINS_MOST - 1 : walk.end - 1;
        int64_t prices[] = {walk.from, last, random_from(walk.from, last)};
        mpq_set(line_b.at, result.at);
        mpq_set(line_b.slope, result.slope);
        for (size_t k = 0; k < 3 && answer != LINE_EITHER; k++) {
            set_at_price(&line_b, prices[k]);
            assert_true((mpq_sgn(result.at) >= 0) == (answer == LINE_YES));
        }
    }
    num_heap_close(&heap);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sums_and_differences_of_lines_lie_inside_those_of_their_stretches),
        cmocka_unit_test(a_widened_stretch_holds_its_lines_moved_by_as_much_either_way),
        cmocka_unit_test(products_with_a_level_factor_of_any_sign_lie_inside_the_stretch),
        cmocka_unit_test(one_over_a_level_stretch_without_zero_lies_inside_the_inverse),
        cmocka_unit_test(the_bounds_at_a_price_hold_every_line_of_the_stretch_there),
        cmocka_unit_test(an_amount_lies_inside_its_own_stretch_and_is_level),
        cmocka_unit_test(
            a_claim_about_zero_is_true_of_every_price_left_and_one_price_is_always_left),
        cmocka_unit_test(
            where_rounding_decides_the_walk_ends_no_later_than_both_lines_have_crossed),
        cmocka_unit_test(numbers_beyond_doubles_never_lead_to_a_false_claim),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("stretches", tests, open_lines, close_lines);
}
