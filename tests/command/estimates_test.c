/* groat price with ranges, and with --estimates. The shop's price is twice the cost, to the dollar. */
#include "command/command_checks.h"

#define ESTIMATE_HEADINGS HEADINGS ",price_lowest,price_highest,cost_mean,notes\n"

/* Half an hour at $30 is $15. Tray: likely 36 minutes are $18, and with $4.50 of wood $22.50, so the
 * price is $45; at the ends 30 and 60 minutes, $4 and $6: $19 and $36, so $38 and $72. The mean of
 * the cost is (19 + 90 + 36) / 6 = 145 / 6 = $24.17. The stall takes 2%, $0.90 of $45. */
static const char products[] = "name,work,wood\n"
                               "Tray,30 min to 1 h likely 36 min,$4 to $6 likely $4.50\n"
                               "Peg,30,$5\n";

static void a_sheet_with_ranges_is_priced_at_the_likely_values(void **state)
{
    (void)state;
    write_text("p.csv", products);
    expect_run("groat price shop.rules p.csv --format csv", 0,
               HEADINGS ",notes\n"
                        "Tray,stall,1,45.00,45.00,0.90,0.00,44.10,22.50,21.60,0.4800,39.60,\n"
                        "Peg,stall,1,40.00,40.00,0.80,0.00,39.20,20.00,19.20,0.4800,34.20,\n",
               "");
}

static void estimates_stand_last_before_the_notes(void **state)
{
    (void)state;
    write_text("p.csv", products);
    expect_run("groat price shop.rules p.csv --format csv --estimates", 0,
               ESTIMATE_HEADINGS
               "Tray,stall,1,45.00,45.00,0.90,0.00,44.10,22.50,21.60,0.4800,39.60,38.00,72.00,"
               "24.17,\n"
               "Peg,stall,1,40.00,40.00,0.80,0.00,39.20,20.00,19.20,0.4800,34.20,40.00,40.00,"
               "20.00,\n",
               "");
}

static void json_has_them_exactly(void **state)
{
    (void)state;
    write_text("p.csv", products);
    expect_run("groat price shop.rules p.csv --format json --estimates | tr -d ' \\n' | "
               "grep -o '\"price_lowest[^}]*'",
               0,
               "\"price_lowest\":\"38.00\",\"price_highest\":\"72.00\",\"cost_mean\":\"145/6\","
               "\"notes\":[]\n"
               "\"price_lowest\":\"40.00\",\"price_highest\":\"40.00\",\"cost_mean\":\"20.00\","
               "\"notes\":[]\n",
               "");
}

static void a_table_says_them_in_a_makers_words(void **state)
{
    (void)state;
    write_text("p.csv", products);
    /* The peg can be nothing else. */
    expect_run("groat price shop.rules p.csv --estimates", 0,
               "                                                      You          Expected   "
               "                Take-\n"
               "Product  Sold at   Price  May be             Fees    keep    Cost      cost  Pr"
               "ofit  Margin    home\n"
               "-------------------------------------------------------------------------------"
               "--------------------\n"
               "Tray     stall    $45.00  $38.00 to $72.00  $0.90  $44.10  $22.50    $24.17  $2"
               "1.60   48.0%  $39.60\n"
               "Peg      stall    $40.00                    $0.80  $39.20  $20.00    $20.00  $1"
               "9.20   48.0%  $34.20\n",
               "");
}

/* At 280 the fee is 5.60; 274.40 less 140 is 134.40. (120 + 4 * 140 + 180) / 6 is 143.33. */
static void a_table_of_estimates_does_without_fees_and_more_where_it_is_too_wide(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\nChest,$120 to $180 likely $140\n");
    expect_run("groat price shop.rules p.csv --estimates --quantity 1,5", 0,
               "                                                                          Expec"
               "ted\n"
               "Product  Sold at  Pieces    Price  May be              You keep     Cost      c"
               "ost   Profit  Margin\n"
               "-------------------------------------------------------------------------------"
               "--------------------\n"
               "Chest    stall         1  $280.00  $240.00 to $360.00   $274.40  $140.00   $143"
               ".33  $134.40   48.0%\n"
               "         stall         5  $280.00  $240.00 to $360.00   $274.40  $140.00   $143"
               ".33  $134.40   48.0%\n",
               "");
}

/* A rate given from outside: $20 to $40 an hour, likely $30, make half an hour $10 to $20. */
static void a_rate_from_the_command_line_may_be_a_range(void **state)
{
    (void)state;
    write_text("p.csv", "name,work,wood\nPeg,30,$5\n");
    expect_run("groat price shop.rules p.csv --format csv --estimates "
               "--set hourly='$20 to $40 per h' | cut -d, -f1-5,13-",
               0,
               "product,channel,quantity,list,price,price_lowest,price_highest,cost_mean,notes\n"
               "Peg,stall,1,40.00,40.00,30.00,50.00,20.00,\n",
               "");
    expect_run("groat price shop.rules p.csv --set hourly='$40 to $20 per h'", 2, "",
               "groat: --set: hourly: this range starts above its end\n"
               "Try: --set hourly='$20 per h to $40'\n");
}

static void json_cells_and_decimal_commas_have_ranges_too(void **state)
{
    (void)state;
    write_text("p.json", "[{\"name\": \"Peg\", \"work\": 30, \"wood\": \"$4 to $6\"}]\n");
    write_text("c.csv", "name;work;wood\nPeg;30;4,00 to 6,00\n");
    static const char expected[] = "product,price,price_lowest,price_highest,cost_mean\n"
                                   "Peg,40.00,38.00,42.00,20.00\n";
    expect_run("groat price shop.rules p.json --format csv --estimates | cut -d, -f1,5,13-15", 0,
               expected, NULL);
    expect_run("groat price shop.rules c.csv --decimal comma --format csv --estimates | "
               "cut -d, -f1,5,13-15",
               0, expected, NULL);
}

/* The parcel's end of 6 kg is too heavy to post; its likely value is not. */
static void combinations_without_a_price_are_noted(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood,parcel\nBox,10,1 kg to 6 kg likely 2 kg\n");
    expect_run("groat price shop.rules p.csv --format csv --estimates --channel post | tail -1 | "
               "cut -d, -f5,13-",
               0,
               "20.00,20.00,20.00,10.00,1 of 2 combinations of the ranges have no price: too "
               "heavy to post\n",
               "");
}

static void more_ranges_than_are_combined_are_refused_by_name(void **state)
{
    (void)state;
    write_text("many.rules",
               "currency USD $\n"
               "product {\n"
               "    name text\n"
               "    a money = $1 to $2; b money = $1 to $2; c money = $1 to $2\n"
               "    d money = $1 to $2; e money = $1 to $2; f money = $1 to $2\n"
               "    g money = $1 to $2; h money = $1 to $2; i money from \"eye\" = $1 to $2\n"
               "}\n"
               "rate j = $1 to $2\n"
               "rate k = $1 to $2\n"
               "cost all = a + b + c + d + e + f + g + h + i + j + k\n"
               "price { set cost }\n");
    write_text("p.csv", "name,a\nAll,\nFewer,$1\n");
    expect_run("groat price many.rules p.csv --format csv --estimates | cut -d, -f1,5,13-", 0,
               "product,price,price_lowest,price_highest,cost_mean,notes\n"
               "All,16.50,,,,\"no estimates: 11 ranges affect this price, but at most 10 can be "
               "combined\"\n"
               "Fewer,16.00,11.00,21.00,16.00,\n",
               "p.csv:2: All, direct: no estimates: 11 ranges affect this price, but at most 10 "
               "can be combined: a, b, c, d, e, f, g, h, eye, j, k\n"
               "Try: a single value instead of a range for 1 of them\n");
    assert_int_equal(run("groat price many.rules p.csv --estimates"), 1);
    assert_int_equal(run("groat price many.rules p.csv"), 0);
}

static void other_verbs_have_no_estimates(void **state)
{
    (void)state;
    write_text("p.csv", products);
    expect_run("groat explain shop.rules p.csv --product Tray --estimates", 2, "",
               "groat: explain takes no --estimates\n");
    expect_run("groat price shop.rules p.csv --estimates=yes", 2, "",
               "groat: --estimates takes no value\n");
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, test_begin, test_end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_sheet_with_ranges_is_priced_at_the_likely_values),
        TEST(estimates_stand_last_before_the_notes),
        TEST(json_has_them_exactly),
        TEST(a_table_says_them_in_a_makers_words),
        TEST(a_table_of_estimates_does_without_fees_and_more_where_it_is_too_wide),
        TEST(a_rate_from_the_command_line_may_be_a_range),
        TEST(json_cells_and_decimal_commas_have_ranges_too),
        TEST(combinations_without_a_price_are_noted),
        TEST(more_ranges_than_are_combined_are_refused_by_name),
        TEST(other_verbs_have_no_estimates),
    };
    return cmocka_run_group_tests_name("estimates", tests, group_begin, NULL);
}
