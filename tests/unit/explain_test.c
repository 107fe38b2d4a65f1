/* Why a price is what it is, as data. Every expected figure is worked out by hand beside it, or is the
 * oracle's (tests/oracle/scenarios). */
#include "unit/explain_checks.h"

/* ---- a whole price ---- */

#define GARDEN "tests/oracle/scenarios/garden/garden.rules"
#define NEST_BOX "name=box|timber=1.8 bf|hardware=$1.35|setup=40|machine=25|bench=20|batch=6"

/* 1.8 bf at $7.80 is $14.04, and 12% lost makes it 14.04 / 0.88 = 15.9545; the machine takes
 * 25/60 h at $6.50, 2.7083; set-up is 40/60 h at $26 over 6, 2.8889; 20/60 h at $26 are 8.6667. */
static void each_line_has_its_numbers_its_amount_and_its_place(void **state)
{
    (void)state;
    read_file(GARDEN);
    set_fields(NEST_BOX);
    explain("stall", 1, NULL);
    assert_int_equal(outcome, GROAT_PRICED);
    assert_line("wood", "(1.8 bf * $7.80 per bf + 0 sheet * $46 per sheet) allowing 12% lost",
                "$15.95");
    assert_exact("wood", "351", "22"); /* 14.04 / 0.88 */
    assert_int_equal(line_of("wood")->line, 34);
    assert_string_equal(line_of("wood")->file, GARDEN);
    assert_line("machine_time", "25 min * $6.50 per h", "$2.71");
    assert_line("setting_up", "40 min * $26 per h / 6", "$2.89");
    assert_true(line_of("setting_up")->own_pay);
    assert_false(line_of("wood")->own_pay);
    assert_line("overheads", "12% of ($15.95 + $1.35 + $2.71 + $2.89 + $8.67)", "$3.79");
    assert_line("cost", NULL, "$35.36");
    assert_line("pay", NULL, "$11.56");
    assert_line("card", "2.4% of $61.99 + $0.06 per order", "$1.55");
    assert_line("pitch", "$85 / 30", "$2.83");
    assert_line("keep", "$61.99 - $4.38", "$57.61");
    assert_line("floor", "missing", "missing");
}

/* At $60.99 the card takes 1.46376 + 0.06, $1.52, and the pitch $2.83: $56.64 are kept. Less the
 * cost of 35.356646, 21.283354 are left, 34.8965% of 60.99. */
static void a_coin_less_is_the_next_rung_and_the_side_of_the_aim_it_misses(void **state)
{
    (void)state;
    read_file(GARDEN);
    set_fields(NEST_BOX);
    explain("stall", 1, NULL);
    assert_below(GROAT_ON_AIM, "$60.99", 1);
    assert_miss(0, "stall", "aim", "34.8965% >= 35%");
    assert_string_equal(groat_explanation_miss(explanation, 0)->written, "margin >= 35%");
}

/* The oracle has 61.99 and 54.55 for twenty. The aim is met by the price for one. */
static void a_discount_leaves_the_aim_to_the_price_for_one(void **state)
{
    (void)state;
    read_file(GARDEN);
    set_fields(NEST_BOX);
    explain("stall", 20, NULL);
    assert_line("list", NULL, "$61.99");
    assert_line("price", NULL, "$54.55");
    assert_line("discount", NULL, "12%");
    assert_line("aim", "35.9% >= 35% and $22.25 >= $4", "yes");
    assert_below(GROAT_ON_AIM, "$60.99", 1);
    assert_line("earned_per_hour", NULL, "59.87 USD per h"); /* the oracle has 59.870045 */
}

/* 30 min at 300 kr an hour are 150 kr, of which nothing is taken. */
static void money_per_time_has_its_unit_whatever_the_sign(void **state)
{
    static const struct {
        const char *currency, *rate, *aim, *worked, *missed;
    } shops[] = {
        {"USD $", "rate hourly = $280 per h\n", "$300 per h", "$300.00 per h >= $300 per h",
         "$298.00 per h >= $300 per h"},
        {"NOK kr", "rate hourly = 280 kr per h\n", "300 kr per h",
         "300.00 kr per h >= 300 kr per h", "298.00 kr per h >= 300 kr per h"},
        {"NOK kr", "rate hourly = 280 NOK per h\n", "300 NOK per h",
         "300.00 kr per h >= 300 NOK per h", "298.00 kr per h >= 300 NOK per h"},
        {"ZMW K", "rate hourly = 280 K per h\n", "300 K per h", "300.00 K per h >= 300 K per h",
         "298.00 K per h >= 300 K per h"},
        {"NOK kr", "", "300 kr per h", "300.00 kr per h >= 300 kr per h",
         "298.00 kr per h >= 300 kr per h"},
    };
    for (size_t i = 0; i < sizeof shops / sizeof *shops; i++) {
        if (i > 0)
            forget(state);
        char rules[600];
        const char *code = shops[i].currency;
        snprintf(rules, sizeof rules,
                 "currency %s\nproduct { name text; making time as min }\n%s%s"
                 "let earned = take_home / making\nchannel stall { }\n"
                 "price { aim earned >= %s; round up to 1 %.3s }\n",
                 code, shops[i].rate, *shops[i].rate ? "let usual = hourly\n" : "", shops[i].aim,
                 code);
        read_rules("words.rules", rules);
        set_fields("name=box|making=30");
        explain("stall", 1, NULL);
        assert_line("aim", shops[i].worked, "yes");
        assert_below(GROAT_ON_AIM, i == 0 ? "$149.00" : i == 3 ? "149.00 K" : "149.00 kr", 1);
        assert_miss(0, "stall", "aim", shops[i].missed);
    }
}

static void a_tax_says_what_it_is_added_to(void **state)
{
    (void)state;
    read_file(GARDEN);
    set_fields(NEST_BOX "|parcel=800 g");
    explain("marketplace", 1, NULL);
    /* 8% of 72.99 + 6.85 is 6.3872 */
    assert_line("tax", "8% added to $79.84", "$6.39");
    assert_line("shipping", NULL, "$6.85");
    assert_line("paid", "$72.99 + $6.85 + $6.39", "$86.23");
    assert_line("net", "$72.99 + $6.85", "$79.84");
    assert_int_equal(line_of("tax")->part, GROAT_PART_BUYER);
}

static void a_product_that_is_not_sold_says_which_condition_failed(void **state)
{
    (void)state;
    read_file(GARDEN);
    set_fields(NEST_BOX);
    explain("marketplace", 1, NULL);
    assert_int_equal(outcome, GROAT_NOT_SOLD);
    assert_int_equal(groat_explanation_lines(explanation), 1);
    assert_line("only when", "0 g > 0 g", "no");
    assert_below(GROAT_ON_NOTHING, NULL, 0);
}

/* ---- why not a coin less ---- */

/* At $19.50 the card takes 0.41 and the place 3.75: 15.34 less 11.289362 is 20.7725% on the stall.
 * The website: 26.40 with the courier, 3.44 tax in it, 1.01 fees: 21.95 less 18.689362 is 3.260638,
 * 14.2014% of 22.96. The gallery: 11.70 less 11.289362. */
static void every_channel_that_shares_a_price_has_its_say(void **state)
{
    (void)state;
    read_file("tests/oracle/scenarios/same_ticket/same_ticket.rules");
    set_fields("name=stud|silver=1.2|bench=12");
    const char *const channels[] = {"stall", "website", "gallery"};
    for (size_t i = 0; i < 3; i++) {
        explain(channels[i], 1, NULL);
        assert_below(GROAT_ON_AIM, "$19.50", 5);
        assert_true(groat_explanation_below(explanation).at_floor);
        assert_miss(0, "stall", "aim", "20.7725% >= 38%");
        assert_miss(1, "website", "floor", "$25");
        assert_miss(2, "website", "aim", "14.2014% >= 30%");
        assert_miss(3, "website", "aim", "$3.26 >= $9");
        assert_miss(4, "gallery", "aim", "$0.41 >= $4");
    }
}

/* The oracle has 16.50. At 15.50 the stall keeps 15.50 - 0.33 - 3.75 = 11.42; less 5.533688 is
 * 5.886312, 37.9762%. The gallery keeps 9.30, which leaves 3.766312. */
static void a_channel_that_does_not_sell_it_has_none(void **state)
{
    (void)state;
    read_file("tests/oracle/scenarios/same_ticket/same_ticket.rules");
    set_fields("name=link|silver=0.9|bench=5|posted=no");
    explain("gallery", 1, NULL);
    assert_line("list", NULL, "$16.50");
    assert_below(GROAT_ON_AIM, "$15.50", 2);
    assert_miss(0, "stall", "aim", "37.9762% >= 38%");
    assert_miss(1, "gallery", "aim", "$3.77 >= $4");
}

#define PLAIN                                                                                      \
    "currency USD $\n"                                                                             \
    "product {\n"                                                                                  \
    "    low money optional\n"                                                                     \
    "    high money optional\n"                                                                    \
    "    agreed money optional\n"                                                                  \
    "}\n"                                                                                          \
    "cost all = $10.004\n"

/* $14.00 leaves 3.996, which must not read as $4.00. */
static void a_side_that_fails_never_reads_as_if_it_held(void **state)
{
    (void)state;
    read_rules("p.rules", PLAIN "price { aim profit >= $4 }\n");
    explain("direct", 1, NULL);
    assert_below(GROAT_ON_AIM, "$14.00", 1);
    assert_miss(0, "direct", "aim", "$3.996 >= $4");
    forget(NULL);
    read_rules("p.rules", "currency USD $\ncost all = $0.000001\nprice {\n"
                          "    aim margin >= 99.9999%\n}\n");
    explain("direct", 1, NULL);
    /* a millionth of $0.99 is 0.000101%, and of $1.00 just the 0.0001% that may go */
    assert_below(GROAT_ON_AIM, "$0.99", 1);
    assert_miss(0, "direct", "aim", "99.999899% >= 99.9999%");
}

static void a_price_stands_on_what_decided_it(void **state)
{
    (void)state;
    read_rules("p.rules", PLAIN "price { aim profit >= $5; floor low; ceiling high; pin agreed;"
                                " round up to $1 }\n");
    explain("direct", 1, NULL); /* 16 leaves 5.996, 15 leaves 4.996 */
    assert_below(GROAT_ON_AIM, "$15.00", 1);
    assert_miss(0, "direct", "aim", "$4.996 >= $5");
    set_fields("low=$20");
    explain("direct", 1, NULL);
    assert_below(GROAT_ON_AIM, "$19.00", 1);
    assert_miss(0, "direct", "floor", "$20.00");
    set_fields("low=|high=12");
    explain("direct", 1, NULL);
    assert_below(GROAT_ON_CEILING, NULL, 0);
    assert_line("aim", "$2.00 >= $5", "no"); /* at the price there is: 12 - 10.004 */
    set_fields("high=|agreed=11.50");
    explain("direct", 1, NULL);
    assert_below(GROAT_ON_PIN, NULL, 0);
    assert_line("pin", NULL, "$11.50");
    set_fields("agreed=|low=20|high=5");
    explain("direct", 1, NULL);
    assert_int_equal(outcome, GROAT_FAILED);
    assert_below(GROAT_ON_NOTHING, NULL, 0);
    assert_line("all", "$10.004", "$10.00");
}

static void a_set_price_is_no_search(void **state)
{
    (void)state;
    read_rules("p.rules", PLAIN "price { set cost * 2; floor low; ceiling high }\n");
    explain("direct", 1, NULL);
    assert_below(GROAT_ON_SET, NULL, 0);
    assert_line("set", "$10.00 * 2", "$20.01"); /* 20.008 */
    set_fields("low=$25");
    explain("direct", 1, NULL);
    assert_below(GROAT_ON_FLOOR, NULL, 0);
    set_fields("low=|high=15");
    explain("direct", 1, NULL);
    assert_below(GROAT_ON_CEILING, NULL, 0);
}

static void below_the_lowest_price_of_the_ladder_there_is_none(void **state)
{
    (void)state;
    read_rules("p.rules", PLAIN "price { aim profit >= $5; round up to $50 }\n");
    explain("direct", 1, NULL);
    assert_below(GROAT_ON_AIM, NULL, 0);
}

/* The unit in which the line of a name has its amount. */
static void assert_line_unit(const char *name, const char *amount, const char *unit,
                             groat_unit_kind kind)
{
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++) {
        const groat_line *line = groat_explanation_line(explanation, i);
        if (strcmp(line->name, name) != 0)
            continue;
        assert_string_equal(line->amount, amount);
        assert_string_equal(line->unit.text, unit);
        assert_int_equal(line->unit.kind, kind);
        return;
    }
    fail_msg("no line %s", name);
}

static void a_line_tells_the_unit_of_its_amount_as_a_value(void **state)
{
    (void)state;
    read_rules("units.rules", "currency USD $\n"
                              "product { name text = \"\"; bench time as min }\n"
                              "rate hourly = $24 per h\n"
                              "rate part = 25%\n"
                              "pay hands = bench * hourly\n"
                              "show rest as USD per h = take_home / bench\n"
                              "show free = part\n"
                              "price { set $20 }\n"
                              "channel stall { }\n");
    set_fields("bench=15 min");
    explain("stall", 1, NULL);
    assert_line_unit("hands", "$6.00", "USD", GROAT_UNIT_MONEY);
    assert_line_unit("margin", "70%", "%", GROAT_UNIT_PERCENT);              /* (20 - 6) / 20 */
    assert_line_unit("rest", "80 USD per h", "per h", GROAT_UNIT_MONEY_PER); /* $20 in 1/4 h */
    assert_line_unit("free", "0.25", "", GROAT_UNIT_NONE);
    explain("stall", 1, "hands");
    assert_line_unit("bench", "15 min", "min", GROAT_UNIT_MEASURE);
    assert_line_unit("hourly", "$24 per h", "per h", GROAT_UNIT_MONEY_PER);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(each_line_has_its_numbers_its_amount_and_its_place),
        TEST(a_coin_less_is_the_next_rung_and_the_side_of_the_aim_it_misses),
        TEST(a_discount_leaves_the_aim_to_the_price_for_one),
        TEST(money_per_time_has_its_unit_whatever_the_sign),
        TEST(a_tax_says_what_it_is_added_to),
        TEST(a_product_that_is_not_sold_says_which_condition_failed),
        TEST(every_channel_that_shares_a_price_has_its_say),
        TEST(a_channel_that_does_not_sell_it_has_none),
        TEST(a_side_that_fails_never_reads_as_if_it_held),
        TEST(a_price_stands_on_what_decided_it),
        TEST(a_set_price_is_no_search),
        TEST(below_the_lowest_price_of_the_ladder_there_is_none),
        TEST(a_line_tells_the_unit_of_its_amount_as_a_value),
    };
    return cmocka_run_group_tests_name("explanations of prices", tests, NULL, NULL);
}
