/* Prices far up, found with few trials: whatever an aim is made of, prices at which it surely fails
 * are passed over along lines and not tried one by one. Every price is worked out by hand: what is
 * made costs $3,000. */
#include "language/reading.h"

enum { TRIALS = 60 };

struct far_price {
    const char *lines, *fee, *aim, *price;
};

static const struct far_price far_prices[] = {
    /* p - (100 + 5% of (p - 1000)) - 3000 >= 1000: 4050 / 0.95 */
    {"table cut by price sliced { up to $1000 : 10%; otherwise : 5% }", "cut", "profit >= $1000",
     "4263.16"},
    {"", "10% of price at most $50", "profit >= $1000", "4050.00"},
    {"", "1% of price at least $100", "profit >= $1000", "4100.00"},
    {"table t by price { below $2000 : $5; otherwise : $70 }", "t", "profit >= $1000", "4070.00"},
    {"let tone = if price < $3500 then \"red\" else \"blue\"\n"
     "table t by tone, price { \"red\", any : $1; \"blue\", up to $9000 : $30; otherwise : $2 }",
     "t", "profit >= $1000", "4030.00"},
    {"rate hue = \"blue\"\nlet tone = if price < $3500 then \"bluer\" else \"blue\"\n"
     "table t by tone { hue : $30; otherwise : $1 }",
     "t", "profit >= $1000", "4030.00"},
    /* at $4,000 the fee begins; 0.99 p >= 4000, and half a cent of rounding */
    {"", "if price >= $4000 then 1% of price else $0", "profit >= $1000", "4040.40"},
    {"let maybe = if price < $4200 then spare else price", "$0", "(maybe > $100) otherwise no",
     "4200.00"},
    {"let maybe = if price < $4200 then spare else price", "$0",
     "not (maybe is missing) and profit >= $1000", "4200.00"},
    {"let maybe = if price < $4200 then spare else price", "$0", "(maybe otherwise $5) > $100",
     "4200.00"},
    {"", "$0", "(price at most spare) >= $4111", "4111.00"},
    {"", "$0", "-price <= -$4321", "4321.00"},
    {"", "$0", "margin >= 25%", "4000.00"},
    {"", "$0", "25% <= margin", "4000.00"},
    {"", "$0", "profit / price >= 25%", "4000.00"},
    {"", "$0", "profit / (-price) <= -25%", "4000.00"},
    {"", "$0", "cost / price <= 60%", "5000.00"},
    {"", "$0", "60% >= cost / price", "5000.00"},
    {"", "$0", "profit / cost >= 50%", "4500.00"},
    {"", "$0", "price = $4444.44", "4444.44"},
    {"", "$0", "not (price != $4444.44)", "4444.44"},
    {"", "$0", "price between $4100 and $5000", "4100.00"},
    {"", "$0", "profit >= $1000 or price = $3999", "3999.00"},
    {"", "$0", "price at margin 20% >= $5000", "4000.00"},
    {"", "$0", "price marked down 10% >= $4000", "4444.45"},
    {"", "$0", "price * (if price > $3500 then 2 else 1) >= $7500", "3750.00"},
    {"", "$0", "price - cost > $1000", "4000.01"},
    /* a second key that is missing up to $4,200 */
    {"let maybe = if price < $4200 then spare else price\n"
     "table t by channel, maybe { any, over $100 : $7; otherwise : $1 }",
     "$0", "(t > $5) otherwise no", "4200.00"},
    /* from $1.50 on the fee is 2 cents; up to $2.50 rounding decides it */
    {"fee g = 1% of price\nlet big = g >= $0.02\ntable t by big { yes : $7; no : $1 }", "$0",
     "t >= $5; floor $1.60", "1.60"},
    /* the same, where the key of a row divides by zero and that comparison so does not hold */
    {"rate nothing = 0\nfee g = 1% of price\nlet big = g >= $0.02\nlet odd = if big then 1 / "
     "nothing else 1\n"
     "table t by odd, spare { any, over $1 : $2; otherwise : $3 }",
     "$0", "not ((t otherwise $9) > $5); floor $1.60", "1.60"},
    {"", "$0", "((price + spare > $5) otherwise no) or price >= $4111", "4111.00"},
    {"", "$0", "((spare + price > $5) otherwise no) or price >= $4111", "4111.00"},
    /* from $1.50 to $2.50 rounding decides which of the two is larger; neither is near $1 */
    {"fee g = 1% of price\nlet big = g >= $0.02\ntable t by big { yes : $7; no : $1 }", "$0",
     "t + $1 >= $8; floor $1.60", "1.60"},
    {"fee g = 1% of price\ntable t by g sliced { up to $0.02 : 100%; otherwise : 50% }", "$0",
     "t >= $0.02; floor $1.60", "1.60"},
    {"fee g = 1% of price", "$0", "g >= $0.02 or price >= $9; floor $1.60", "1.60"},
    {"table t by price { over $4000 : $1 }", "$0", "not (t >= $5)", "4000.01"},
    {"fee g = 1% of price", "$0", "(g at least $0.02) < $1; floor $2", "2.00"},
    {"fee g = 1% of price", "$0", "(g at most $0.02) > -$1; floor $2", "2.00"},
    {"let tone = if price < $3500 then \"red\" else \"tan\"\n"
     "table t by tone { \"pink\" or \"red\" : $1; \"blue\" or \"tan\" : $30; otherwise : $2 }",
     "t", "profit >= $1000", "4030.00"},
};

static void a_price_far_up_is_found_with_few_trials(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof far_prices / sizeof *far_prices; i++) {
        const struct far_price *far = &far_prices[i];
        char rules[1024], found[64];
        int length = snprintf(rules, sizeof rules,
                              "currency USD $\nproduct { spare money optional }\n"
                              "cost made = $3000\n%s\nchannel stall { fee f = %s }\n"
                              "price { aim %s }\n",
                              far->lines, far->fee, far->aim);
        groat_limits limits = groat_limits_default();
        limits.trials = TRIALS;
        groat_report *report;
        groat_method *method = groat_method_read("far.rules", (groat_text){rules, (size_t)length},
                                                 &(groat_reading){.limits = &limits}, &report);
        if (!method)
            print_report(rules, report);
        assert_non_null(method);
        groat_report_free(report);
        groat_record *record = groat_record_new(method);
        groat_scratch *scratch = groat_scratch_new(method);
        if (groat_price(scratch, method, record, &(groat_order){.quantity = 1}) != GROAT_PRICED)
            fail_msg("%s: %s", far->aim, groat_result_reason(scratch));
        groat_value_places(groat_result_figure(scratch, GROAT_PRICE), 2, found, sizeof found);
        if (strcmp(found, far->price) != 0)
            fail_msg("%s, fee %s: %s, not %s", far->aim, far->fee, found, far->price);
        groat_scratch_free(scratch);
        groat_record_free(record);
        groat_method_free(method);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_price_far_up_is_found_with_few_trials),
    };
    return cmocka_run_group_tests_name("prices along lines", tests, NULL, NULL);
}
