/* Prices without ladders and whole coins. Expected figures are by hand. */
#include "language/reading.h"

static const char rules[] = "currency USD $\n"
                            "product { stuff money; low money optional }\n"
                            "cost material = stuff\n"
                            "rounding charm { otherwise : ends in .99 }\n"
                            "table bulk by quantity { 5 or more : 10%; otherwise : 0% }\n"
                            "let tidy = stuff rounded up to charm\n"
                            "channel aimed { fee card = 3% of paid + $0.10 }\n"
                            "channel plain { price { set stuff / 3; discount bulk } }\n"
                            "channel own { price { set tidy * 2 } }\n"
                            "price { aim margin >= 30%; floor low; round up to charm }\n";

static void assert_price(const char *channel, int64_t quantity, const char *stuff, const char *low,
                         const char *expected)
{
    groat_reading reading = {.unrounded = true};
    groat_report *report;
    groat_trouble trouble;
    char text[64];
    groat_method *method =
        groat_method_read("test.rules", (groat_text){rules, strlen(rules)}, &reading, &report);
    groat_report_free(report);
    assert_non_null(method);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_record_set(record, 0, (groat_text){stuff, strlen(stuff)}, NULL, &trouble);
    groat_record_set(record, 1, (groat_text){low, strlen(low)}, NULL, &trouble);
    groat_order order = {groat_method_find_channel(method, channel), quantity, NULL};
    assert_int_equal(groat_price(scratch, method, record, &order), GROAT_PRICED);
    groat_value_places(groat_result_figure(scratch, GROAT_PRICE), 8, text, sizeof text);
    assert_string_equal(text, expected);
    groat_scratch_free(scratch);
    groat_record_free(record);
    groat_method_free(method);
}

/* p - (0.03 p + 0.10) - 20 >= 0.30 p: p is 20.10 / 0.67, which is 30 exactly; with $7 of stuff it is
 * 7.10 / 0.67, 10.597014925…, and the fee is rounded to a millionth of a cent. */
static void an_aim_is_met_to_a_millionth_of_a_cent(void **state)
{
    (void)state;
    assert_price("aimed", 1, "$20", "", "30.00000000");
    assert_price("aimed", 1, "$7", "", "10.59701493");
}

static void floors_still_hold(void **state)
{
    (void)state;
    assert_price("aimed", 1, "$7", "$12.345", "12.34500000");
}

/* Up, as the price block says: by a millionth of a cent at most. */
static void set_and_discounted_prices_leave_their_ladder(void **state)
{
    (void)state;
    assert_price("plain", 1, "$10", "", "3.33333334");
    assert_price("plain", 5, "$10", "", "3.00000001"); /* nine tenths of it */
}

static void what_the_rules_round_themselves_is_rounded(void **state)
{
    (void)state;
    assert_price("own", 1, "$7.20", "", "15.98000000"); /* twice 7.99 */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_aim_is_met_to_a_millionth_of_a_cent),
        cmocka_unit_test(floors_still_hold),
        cmocka_unit_test(set_and_discounted_prices_leave_their_ladder),
        cmocka_unit_test(what_the_rules_round_themselves_is_rounded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
