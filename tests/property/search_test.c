/* What a least price is, on methods written by hand, for thousands of random records each: worked out
 * in whole numbers beside the engine, which is asked through its public header alone. */
#include "property/search_pricing.h"

enum { RECORDS = 1500, BELOW = 400 };

static unsigned long long records, without, below_floor;

/* Runs a check on random records of every method. */
static void on_random_records(void check(struct shop *shop, struct item *item, int64_t price))
{
    for (size_t i = 0; i < METHODS; i++)
        for (int k = 0; k < RECORDS; k++) {
            struct item item = random_item(&shops[i]);
            item.dearer = random_below(4) == 0 ? DEARER : 0;
            int64_t price = price_item(&shops[i], &item);
            records++;
            without += !priced;
            check(&shops[i], &item, price);
        }
}

/* ---- the price alone ---- */

static void check_allowed(struct shop *shop, struct item *item, int64_t price)
{
    if (!priced)
        return;
    if (!shop->allowed[price])
        fail_item(shop, item, price, "the ladder's spelling does not allow it");
    if (price < item->floor)
        fail_item(shop, item, price, "it is below the floor");
}

static void the_price_is_spelled_as_the_ladder_allows_and_no_lower_than_the_floor(void **state)
{
    (void)state;
    on_random_records(check_allowed);
}

static void check_figures(struct shop *shop, struct item *item, int64_t price)
{
    if (!priced)
        return;
    struct sale sale = sale_at(shop, item, price);
    bool same = coins_of(shop, GROAT_EXTRAS) == sale.extras &&
                coins_of(shop, GROAT_TAX) == sale.tax && coins_of(shop, GROAT_PAID) == sale.paid &&
                coins_of(shop, GROAT_NET) == sale.net && coins_of(shop, GROAT_FEES) == sale.fees &&
                coins_of(shop, GROAT_KEEP) == sale.keep;
    if (!same)
        fail_item(shop, item, price, "a figure differs from the one worked out in whole numbers");
}

static void the_figures_of_the_sale_are_those_that_whole_numbers_give(void **state)
{
    (void)state;
    on_random_records(check_figures);
}

/* ---- the least ---- */

static void check_least(struct shop *shop, struct item *item, int64_t price)
{
    if (!priced)
        return;
    if (!aim_holds(shop, item, price))
        fail_item(shop, item, price, "the aim does not hold at it");
    int64_t lower = price - 1;
    for (int tried = 0; tried < BELOW && lower >= 1 && lower >= item->floor; lower--) {
        if (!shop->allowed[lower])
            continue;
        tried++;
        if (aim_holds(shop, item, lower))
            fail_item(shop, item, lower, "the aim holds here already");
    }
    below_floor += lower >= 1 && lower < item->floor;
}

static void the_aim_holds_at_the_price_and_at_none_of_the_allowed_ones_below(void **state)
{
    (void)state;
    on_random_records(check_least);
    assert_true(below_floor > 100);
}

/* Every allowed price there is, from the first one on. */
static void check_from_the_first(struct shop *shop, struct item *item, int64_t price)
{
    int64_t from = item->floor > 1 ? item->floor : 1, least = 0;
    for (int64_t coins = from; coins < COINS_END && !least; coins++)
        if (shop->allowed[coins] && aim_holds(shop, item, coins))
            least = coins;
    if (least != price)
        fail_item(shop, item, price, "a loop from the first price ends elsewhere");
}

static void the_price_is_the_one_that_a_loop_from_the_first_allowed_one_finds(void **state)
{
    (void)state;
    on_random_records(check_from_the_first);
}

/* ---- what moves it ---- */

static void check_dearer_fees(struct shop *shop, struct item *item, int64_t price)
{
    struct item other = *item;
    if (item->dearer)
        return;
    other.dearer = DEARER;
    int64_t raised = price_item(shop, &other);
    if (priced && raised < price)
        fail_item(shop, item, raised, "a dearer fee made it cheaper");
    if (priced && !price)
        fail_item(shop, item, raised, "a dearer fee gave it a price");
}

static void a_rate_raised_in_every_fee_never_lowers_the_price(void **state)
{
    (void)state;
    on_random_records(check_dearer_fees);
}

static void check_dearer_stuff(struct shop *shop, struct item *item, int64_t price)
{
    struct item other = *item;
    for (int64_t more = 1; more < 3000; more *= 7) {
        other.stuff = item->stuff + more;
        int64_t raised = price_item(shop, &other);
        if (priced && raised < price)
            fail_item(shop, &other, raised, "a dearer cost made it cheaper");
        if (priced && !price)
            fail_item(shop, &other, raised, "a dearer cost gave it a price");
    }
}

static void a_dearer_cost_never_lowers_the_price(void **state)
{
    (void)state;
    on_random_records(check_dearer_stuff);
}

static int close_and_count(void **state)
{
    printf("%llu records priced, %llu of them without a price\n", records, without);
    return close_shops(state) == 0 && without > 300 ? 0 : -1;
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_price_is_spelled_as_the_ladder_allows_and_no_lower_than_the_floor),
        cmocka_unit_test(the_figures_of_the_sale_are_those_that_whole_numbers_give),
        cmocka_unit_test(the_aim_holds_at_the_price_and_at_none_of_the_allowed_ones_below),
        cmocka_unit_test(the_price_is_the_one_that_a_loop_from_the_first_allowed_one_finds),
        cmocka_unit_test(a_rate_raised_in_every_fee_never_lowers_the_price),
        cmocka_unit_test(a_dearer_cost_never_lowers_the_price),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("least prices", tests, open_shops, close_and_count);
}
