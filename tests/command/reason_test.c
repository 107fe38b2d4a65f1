/* Why there is no price. */
#include "command/command_checks.h"

static void write_shop(const char *price)
{
    char text[600];
    snprintf(text, sizeof text,
             "currency USD $\n"
             "product { name text; wood money; low money optional; high money optional }\n"
             "cost timber = wood\n"
             "channel stall { fee card = 2%% of paid }\n"
             "%s\n",
             price);
    write_text("s.rules", text);
}

static void reasons_are(const char *products, const char *reasons)
{
    write_text("p.csv", products);
    expect_run("groat price s.rules p.csv --format csv", 1, NULL, reasons);
}

/* Fees of 2% leave 98 cents of a dollar: a margin of 98% is out of reach of any cost. */
static void an_aim_that_asks_more_of_a_dollar_than_fees_leave_is_told_so(void **state)
{
    (void)state;
    write_shop("price { aim margin >= 99% }");
    reasons_are("name,wood\nBox,10\n",
                "p.csv:2: Box, stall: no price: no price meets the aim: each extra $1 leaves $0.98 "
                "after fees, which is less than it asks for (s.rules:4)\n");
}

static void fees_that_take_more_than_a_dollar_of_each_are_told_as_what_they_leave(void **state)
{
    (void)state;
    write_shop("fee all = 110% of price\nprice { aim profit >= $1 }");
    reasons_are("name,wood\nBox,10\n", "p.csv:2: Box, stall: no price: no price meets the aim: "
                                       "each extra $1 leaves -$0.12 after fees (s.rules:4)\n");
}

/* The aim's other side, $10 / 0.68 = $14.71, lies above the price it allows. */
static void an_aim_that_holds_low_prices_only_in_part_is_not_blamed_on_fees(void **state)
{
    (void)state;
    write_shop("price { aim margin >= 30% and price <= $12 }");
    reasons_are("name,wood\nBox,10\n",
                "p.csv:2: Box, stall: no price: no price meets the aim: part of the condition "
                "holds only at lower prices (s.rules:4)\n");
}

static void a_floor_above_the_ceiling_is_told_with_both(void **state)
{
    (void)state;
    static const char reasons[] =
        "p.csv:2: Jar, stall: no price: the floor ($50.00) is above the ceiling ($22.00) "
        "(s.rules:4)\n";
    write_shop("price { aim margin >= 30%; floor low; ceiling high }");
    reasons_are("name,wood,low,high\nJar,10,50,22\nBox,10,20,50\n", reasons);
    write_shop("price { set cost * 2; floor low; ceiling high }");
    reasons_are("name,wood,low,high\nJar,10,50,22\nBox,10,20,50\n", reasons);
}

static void limits_that_leave_no_allowed_price_between_them_are_told_so(void **state)
{
    (void)state;
    write_shop("price { aim margin >= 30%; floor low; ceiling high; round up to $10 }");
    reasons_are("name,wood,low,high\nJar,10,21,29\n",
                "p.csv:2: Jar, stall: no price: the price has no allowed value between the floor "
                "and the ceiling (s.rules:4)\n");
}

static void a_key_that_has_no_row_is_told_with_its_money_where_the_sign_is_a_word(void **state)
{
    (void)state;
    write_text("s.rules", "currency NOK kr\n"
                          "product { name text; wood money }\n"
                          "table wrapping by wood { below 200 kr : 5 kr }\n"
                          "cost timber = wood + wrapping\n"
                          "channel stall { }\n"
                          "price { set cost }\n");
    reasons_are("name,wood\nBox,250\n",
                "p.csv:2: Box, stall: no price: the table wrapping has no row for 250.00 kr "
                "(s.rules:3)\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(an_aim_that_asks_more_of_a_dollar_than_fees_leave_is_told_so),
        TEST(fees_that_take_more_than_a_dollar_of_each_are_told_as_what_they_leave),
        TEST(an_aim_that_holds_low_prices_only_in_part_is_not_blamed_on_fees),
        TEST(a_floor_above_the_ceiling_is_told_with_both),
        TEST(limits_that_leave_no_allowed_price_between_them_are_told_so),
        TEST(a_key_that_has_no_row_is_told_with_its_money_where_the_sign_is_a_word),
    };
    return RUN_TESTS("why there is no price", tests);
}
